package serve

import (
	"fmt"
	"net/http"
	"strings"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
)

// A kindView is a kind of member to choose from.
type kindView struct {
	Kind   string     `json:"kind"`
	Title  string     `json:"title"`
	Draws  string     `json:"draws"` // what it is, in words
	Keys   []string   `json:"keys"`
	Curves []string   `json:"curves"`
	Quick  string     `json:"quick"` // a new one, as a file says it
	Thumb  string     `json:"thumb"` // outline of a piece of molding with this member alone, mm, y up
	Box    [4]float64 `json:"box"`   // of the thumb: x, y, width, height
}

// getKinds answers with the kinds of member, starting sizes in the units asked for.
func (s *Server) getKinds(w http.ResponseWriter, r *http.Request) error {
	units := measure.Inches
	if asked := r.URL.Query().Get("units"); asked != "" {
		var err error
		if units, err = measure.ParseUnits(asked); err != nil {
			return refused(http.StatusBadRequest, "%s", err)
		}
	}
	lib := library.Open("", "")
	var out []kindView
	for _, k := range profile.Kinds() {
		v := kindView{Kind: string(k), Title: strings.ReplaceAll(string(k), "-", " "), Draws: template.KindWords(k), Keys: k.Keys(), Curves: words(k.Constructions()),
			Quick: "- " + string(k) + ": " + library.StartingSizes(k, units)}
		var err error
		if v.Thumb, v.Box, err = kindThumb(lib, k); err != nil {
			return refused(http.StatusInternalServerError, "%s: %s", k, err)
		}
		out = append(out, v)
	}
	return answer(w, out)
}

// kindThumb returns a small picture of a member between two plumb flats.
func kindThumb(lib *library.Library, k profile.Kind) (d string, box [4]float64, err error) {
	const flat = 3 // mm
	sizes := library.StartingSizes(k, measure.Millimeters)
	if k == profile.KindBead {
		sizes = "{height: 10, quirk: {width: 2, depth: 4}}" // its grooves are what tells it from an astragal
	}
	text := fmt.Sprintf("kind: profile\nname: thumb\nunits: mm\nground: 14\nelements:\n  - fillet: {height: %d}\n  - %s: %s\n  - fillet: {height: %d}\n",
		flat, k, sizes, flat)
	p, _, err := library.LoadProfile("thumb.yaml", []byte(text))
	if err != nil {
		return "", box, err
	}
	s, err := p.Section(lib.Lookup)
	if err != nil {
		return "", box, err
	}
	d, box = pathD(s.Outline, true), boxOf(s.Outline.Bounds())
	if k == profile.KindDentils {
		d, box = withBlocks(d, box, p.Elements[1], flat)
	}
	return d, box, nil
}

// withBlocks adds the front of two blocks of a course under its fillet to a picture of its section, where the blocks do not show.
func withBlocks(d string, box [4]float64, e profile.Entry, flat float64) (string, [4]float64) {
	block, gap, height := e.Block.In(1), e.Gap.In(1), e.Height.In(1)
	x := box[0] + box[2] + gap
	rect := func(x, y, w, h float64) { d += fmt.Sprintf("M%g %gh%gv%gh%gZ", x, y, w, h, -w) }
	rect(x, flat, block, height)
	rect(x+block+gap, flat, block, height)
	rect(x, flat+height, 2*block+gap, flat)
	box[2] += gap + 2*block + gap
	return d, box
}

func boxOf(b geom.Rect) [4]float64 {
	return [4]float64{tidy(b.Min.X), tidy(b.Min.Y), tidy(b.Width()), tidy(b.Height())}
}

// An entryView is an entry of the library to choose from.
type entryView struct {
	Kind       library.Kind `json:"kind"`
	Name       string       `json:"name"`
	Title      string       `json:"title"`
	Source     string       `json:"source"`
	Family     string       `json:"family"`
	Height     float64      `json:"height_mm"`
	Projection float64      `json:"projection_mm"`
	From       string       `json:"from"`  // project, user or embedded
	Where      string       `json:"where"` // the same in words
	Thumb      string       `json:"thumb"` // outline of a profile, mm, y up
	Box        *[4]float64  `json:"box"`
	Fault      string       `json:"fault"` // what keeps it from being used
}

// getLibrary lists the entries of a kind: profile, example, tool, wood, lumber or paper.
func (s *Server) getLibrary(w http.ResponseWriter, r *http.Request) error {
	kind := library.Kind(r.URL.Query().Get("kind"))
	lib := s.library(nil)
	out := []entryView{}
	for _, e := range lib.List(kind) {
		v := entryView{Kind: e.Kind, Name: e.Name, Title: e.Title, Source: e.Source, Family: e.Family, Height: tidy(e.Height), Projection: tidy(e.Projection),
			From: string(e.Origin.Where), Where: e.Origin.String(), Fault: e.Fault}
		if kind == library.KindProfile && e.Fault == "" {
			if section, err := lib.SectionOf(e.Name); err == nil { // it is listed as good; a file may have changed since
				box := boxOf(section.Outline.Bounds())
				v.Thumb, v.Box = pathD(section.Outline, true), &box
			}
		}
		out = append(out, v)
	}
	return answer(w, map[string]any{"entries": out})
}

// getLibraryText answers with the file of a profile, a case or an example as it is written.
func (s *Server) getLibraryText(w http.ResponseWriter, r *http.Request) error {
	q := r.URL.Query()
	kind := library.Kind(q.Get("kind"))
	switch kind {
	case library.KindProfile:
	case library.KindExample, library.KindCase:
		kind = library.KindCase
	default:
		return refused(http.StatusBadRequest, "kind is profile, case or example")
	}
	text, origin, err := s.library(nil).Text(kind, q.Get("name"))
	if err != nil {
		return err
	}
	return answer(w, map[string]string{"text": string(text), "from": string(origin.Where), "file": origin.File})
}
