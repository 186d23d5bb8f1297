package serve

import (
	"errors"
	"net/http"
	"path"
	"strconv"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A sectionRequest is a profile as the page holds it, and how it wants to see it.
type sectionRequest struct {
	Name     string            `json:"name"` // of its file, with or without .yaml
	Text     string            `json:"text"`
	Profiles map[string]string `json:"profiles"` // texts that are not saved yet, by name
	Units    string            `json:"units"`    // "" for the file's own
	Fraction int               `json:"fraction"` // 0 for 16
}

// A sectionView is all that the page shows of a profile, in mm, y up. What needs a section that can be built is empty when it cannot.
type sectionView struct {
	OK         bool           `json:"ok"`
	Name       string         `json:"name"`
	Title      string         `json:"title"`
	Units      string         `json:"units"` // that lengths are shown in
	FileUnits  string         `json:"file_units"`
	Fraction   int            `json:"fraction"`
	Height     float64        `json:"height_mm"`
	Projection float64        `json:"projection_mm"`
	Ground     float64        `json:"ground_mm"`
	Area       float64        `json:"area_mm2"`
	Outline    string         `json:"outline"`
	Gap        string         `json:"gap"`
	Face       string         `json:"face"`
	BackLine   string         `json:"back_line"`
	Members    []memberView   `json:"members"`
	Head       []sizeView     `json:"head"` // the keys of the profile as a whole
	Back       backView       `json:"back"` // what is done to the back
	Dims       []dimView      `json:"dims"`
	Blank      *blankView     `json:"blank"`
	Centers    []centerView   `json:"centers"`
	Undercuts  []undercutView `json:"undercuts"`
	Warnings   []warningView  `json:"warnings"`
	Mistakes   []mistakeView  `json:"mistakes"`
}

type blankView struct {
	Polygon   [4][2]float64 `json:"polygon"`
	Width     float64       `json:"width_mm"`
	Thickness float64       `json:"thickness_mm"`
	Words     string        `json:"words"`
}

type centerView struct {
	At    [2]float64 `json:"at"`
	R     float64    `json:"r"`
	Text  string     `json:"text"`
	Index int        `json:"index"`
	Fine  string     `json:"fine,omitempty"` // the text on paper, to 1/64 in
}

type undercutView struct {
	From  profile.View `json:"from"`
	Y0    float64      `json:"y0_mm"`
	Y1    float64      `json:"y1_mm"`
	Depth float64      `json:"depth_mm"`
	Words string       `json:"words"`
}

// A warningView is a note of check; Index is the member's, from 0, -1 for the whole.
type warningView struct {
	Index int    `json:"index"`
	Text  string `json:"text"`
}

// A mistakeView is a mistake in the words of check; Index is the member's, from 0, -1 for the whole.
type mistakeView struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Key    string `json:"key"`
	Index  int    `json:"index"`
	Text   string `json:"text"`
}

// library returns the library seen from the folder, with texts in front that are not saved yet.
func (s *Server) library(unsaved map[string]string) *library.Library {
	return library.OpenOver(s.folder.root.FS(), "", s.user, unsaved)
}

// libraryOf is library seen from the folder that the file at path lies in, as the commands see it. The error says that there is no such folder.
func (s *Server) libraryOf(file string, unsaved map[string]string) (*library.Library, error) {
	dir := path.Dir(file)
	if dir == "." {
		return s.library(unsaved), nil
	}
	if err := checkPath(file, yamlEnds); err != nil {
		return nil, err
	}
	return library.OpenOver(subFS{s.folder.root.FS(), dir}, dir, s.user, unsaved), nil
}

// fileName returns the name of a file for a name that may lack its end.
func fileName(name string) string {
	if hasEnd(name, yamlEnds) || name == "" {
		return name
	}
	return name + ".yaml"
}

// postSection answers with a profile as the page draws it.
func (s *Server) postSection(w http.ResponseWriter, r *http.Request) error {
	var q sectionRequest
	if err := read(w, r, &q); err != nil {
		return err
	}
	if err := q.check(); err != nil {
		return err
	}
	view, err := s.section(q)
	if err != nil {
		return err
	}
	return answer(w, view)
}

// maxText bounds the text of a profile that is drawn at every touch: many times what the greatest number of members takes.
const maxText = 128 << 10

// check returns why a request is too much.
func (q sectionRequest) check() error {
	if len(q.Text) > maxText {
		return refused(http.StatusRequestEntityTooLarge, "the page takes a molding of %d KiB at most", maxText>>10)
	}
	return nil
}

// load returns the profile of a request, built; err is library.Mistakes when it cannot be.
func (s *Server) load(q sectionRequest) (job.Profile, error) {
	file := fileName(q.Name)
	lib, err := s.libraryOf(file, q.Profiles)
	if err != nil {
		return job.Profile{}, err
	}
	p, err := job.LoadProfile(lib, file, q.Text)
	if err != nil {
		return p, err
	}
	return p.Built()
}

// section returns what the page shows of a profile. Only units or a fraction that cannot be are an error.
func (s *Server) section(q sectionRequest) (sectionView, error) {
	p, err := s.load(q)
	return viewOf(q, p, err)
}

// viewOf returns what the page shows of a loaded profile, fault being what loading it said.
func viewOf(q sectionRequest, p job.Profile, fault error) (sectionView, error) {
	file := p.Profile.Units
	if p.Profile.Elements == nil { // it does not load: its units may be read all the same
		file = unitsOf(q.Text)
	}
	fraction := q.Fraction
	if fraction == 0 {
		fraction = 16
	}
	f, err := job.Lengths(q.Units, fraction, file)
	if err != nil {
		return sectionView{}, err
	}
	v := sectionView{
		OK: fault == nil, Units: f.Units.String(), FileUnits: file.String(), Fraction: fraction,
		Members: []memberView{}, Head: []sizeView{}, Back: backView{"none", []sizeView{}, []choiceView{}}, Dims: []dimView{}, Centers: []centerView{}, Undercuts: []undercutView{}, Warnings: []warningView{},
		Mistakes: mistakeViews(fault),
	}
	if keys, err := library.ReadKeyed([]byte(q.Text)); err == nil {
		v.Name, _ = keys.Text("name")
		v.Title, _ = keys.Text("title")
		v.readKeys(keys, p, f)
	}
	if fault == nil {
		v.Name, v.Title = p.Profile.Name, p.Title()
		v.draw(p, f)
	}
	return v, nil
}

// unitsOf returns the units that a text says it is in, inches when it says none that are known.
func unitsOf(text string) measure.Units {
	if keys, err := library.ReadKeyed([]byte(text)); err == nil {
		if said, ok := keys.Text("units"); ok {
			if u, err := measure.ParseUnits(said); err == nil {
				return u
			}
		}
	}
	return measure.Inches
}

// mistakeViews returns an error as mistakes; none for nil.
func mistakeViews(err error) []mistakeView {
	out := []mistakeView{}
	var all library.Mistakes
	switch {
	case err == nil:
	case errors.As(err, &all):
		for _, m := range all {
			text := m.Found
			if m.Want != "" {
				text += "; " + m.Want
			}
			out = append(out, mistakeView{m.File, m.Line, m.Column, m.Key, indexOf(m.Key), inPageWords(text)})
		}
	default:
		out = append(out, mistakeView{Index: -1, Text: err.Error()})
	}
	return out
}

// inPageWords returns the words of check with the page's word for what the file calls elements.
var inPageWords = strings.NewReplacer("the elements come", "the members come", "other elements", "other members", "element ", "member ", "too many elements", "too many members",
	"Element ", "Member ", "x of through of ", "bend across of ", "y of through of ", "bend up of ").Replace

// indexOf returns the index of the element that a key path leads to, -1 when it leads to none.
func indexOf(key string) int {
	number, ok := strings.CutPrefix(key, "elements[")
	if !ok {
		return -1
	}
	number, _, _ = strings.Cut(number, "]")
	i, err := strconv.Atoi(number)
	if err != nil {
		return -1
	}
	return i
}

// draw fills in what a section that could be built shows.
func (v *sectionView) draw(p job.Profile, f measure.Format) {
	s := p.Section
	v.Height, v.Projection, v.Ground, v.Area = s.Height, s.Projection, s.Ground, s.Area()
	v.Outline, v.Gap, v.Face, v.BackLine = pathD(s.Outline, true), pathD(s.Gap, true), pathD(s.Face, false), pathD(s.Back, false)
	part := 0.0
	if p.Profile.Parts > 0 {
		part = p.Profile.Height / p.Profile.Parts
	}
	for n, m := range s.Members {
		if i := m.Index - 1; i < len(v.Members) {
			v.Members[i].Joins = joins(s.Members, n)
			v.Members[i].place(m, f)
			v.Members[i].placePoints(m, p.Profile.Elements[i], part)
			v.Centers = append(v.Centers, centers(m, f)...)
		}
	}
	v.Dims = dims(s, f)
	b := s.Blank()
	v.Blank = &blankView{Width: b.Width, Thickness: b.Thickness, Words: f.Length(b.Width) + " x " + f.Length(b.Thickness)}
	for i, q := range b.Polygon {
		v.Blank.Polygon[i] = xy(q)
	}
	for _, u := range s.Undercuts() {
		words := "hidden from " + string(u.From) + ", " + f.Length(u.Depth) + " deep"
		v.Undercuts = append(v.Undercuts, undercutView{u.From, u.Y0, u.Y1, u.Depth, words})
	}
	for _, w := range p.Profile.Warnings(s) {
		v.Warnings = append(v.Warnings, warningView{w.Index - 1, inPageWords(w.Error())})
	}
}

// centers returns the centers of a member's arcs with their radii.
func centers(m profile.Member, f measure.Format) []centerView {
	var out []centerView
	for _, seg := range m.Path {
		if a, ok := seg.(geom.Arc); ok {
			radius := func(f measure.Format, mm float64) string { return "R " + f.Drawing(mm) }
			out = append(out, centerView{xy(a.Center), a.Radius, radius(f, a.Radius), m.Index - 1, fine(radius, a.Radius, f)})
		}
	}
	return out
}

func xy(p geom.Point) [2]float64 { return [2]float64{tidy(p.X), tidy(p.Y)} }
