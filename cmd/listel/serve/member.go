package serve

import (
	"fmt"
	"slices"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

// A memberView is one member. Its sizes and choices are there whenever the text can be read, its place only when the section can be built.
type memberView struct {
	Index      int          `json:"index"` // from 0
	Kind       string       `json:"kind"`
	Title      string       `json:"title"` // "1 cove"
	Path       string       `json:"path"`
	Foot       [2]float64   `json:"foot"`
	Top        [2]float64   `json:"top"`
	Start      float64      `json:"start_x"`
	Height     float64      `json:"height_mm"`
	Projection float64      `json:"projection_mm"`
	Set        float64      `json:"set_mm"`
	Radii      []float64    `json:"radii_mm"`
	Sizes      []sizeView   `json:"sizes"`
	Choices    []choiceView `json:"choices"`
	Drag       bool         `json:"drag"`
	Points     []pointView  `json:"points"`          // of a curve
	Joins      bool         `json:"joins,omitempty"` // with the one above it, to one cyma
}

// A sizeView is one size: as the file has it, and as it comes out.
type sizeView struct {
	Key   string   `json:"key"`
	Path  string   `json:"path"`
	Text  string   `json:"text"`           // "" when it is left out
	Shown string   `json:"shown"`          // "" when it is not known
	Fine  string   `json:"fine,omitempty"` // the same on paper, to 1/64 in, where it is another
	MM    *float64 `json:"mm"`             // null when it is not known
	Can   string   `json:"can"`            // what it takes, in words
	Label string   `json:"title"`          // the trade's word for it
	Fixed bool     `json:"fixed,omitempty"`
}

// A choiceView is one key that takes one of a few words.
type choiceView struct {
	Key     string   `json:"key"`
	Path    string   `json:"path"`
	Value   string   `json:"value"` // in force, also when it is left out
	Options []string `json:"options"`
	Label   string   `json:"title"`
	Can     string   `json:"can"` // what it means, in words
}

// A backView is what is done to the back.
type backView struct {
	Kind    string       `json:"kind"` // none, rabbet or spring
	Sizes   []sizeView   `json:"sizes"`
	Choices []choiceView `json:"choices"`
}

// place fills in where a member stands.
func (v *memberView) place(m profile.Member, f measure.Format) {
	foot, top := ends(m)
	v.Path, v.Foot, v.Top = pathD(m.Path, false), xy(foot), xy(top)
	v.Start, v.Height, v.Projection, v.Set = m.Start, m.Height, m.Projection, m.Set
	v.Radii = append(v.Radii, m.Radii...)
	for i := range v.Sizes {
		s := &v.Sizes[i]
		switch s.Key {
		case "height":
			s.show(m.Height, f)
		case "projection":
			s.show(m.Projection, f)
		case "set":
			s.show(m.Set, f)
		}
	}
}

func (s *sizeView) show(mm float64, f measure.Format) {
	s.MM, s.Shown, s.Fine = &mm, f.Length(mm), fine(measure.Format.Length, mm, f)
}

// A keyReader turns the keys of a text into what the page shows of them.
type keyReader struct {
	keys  library.Keyed
	f     measure.Format
	file  measure.Units
	parts bool
	part  float64 // mm, 0 when it is not known
}

// readKeys fills in members, sizes and back as the text has them.
func (v *sectionView) readKeys(keys library.Keyed, p job.Profile, f measure.Format) {
	k := keyReader{keys: keys, f: f, file: p.Profile.Units, parts: keys.Has("parts")}
	if v.FileUnits == measure.Inches.String() {
		k.file = measure.Inches
	}
	if p.Profile.Parts > 0 {
		k.part = p.Profile.Height / p.Profile.Parts
	}
	for i := range min(keys.Len("elements"), library.MaxElements) {
		v.Members = append(v.Members, k.member(i))
	}
	v.Head = k.head()
	v.Back = k.back()
}

// head returns the keys of the profile as a whole.
func (k keyReader) head() []sizeView {
	return []sizeView{
		k.text("", "name", "the name that cases call it by"), k.text("", "title", "what sheets call it"), k.text("", "source", "where it is from, or invented"),
		k.text("", "family", "what sort of molding it is: one of "+strings.Join(words(profile.Families()), ", ")), k.text("", "units", "in or mm"),
		k.size("", "height", "Height", "a length; left empty, what the members come to"), k.size("", "projection", "Projection", "a length; left empty, as far as the members reach"),
		k.text("", "parts", "a number, such as 14: into how many parts the height is divided; a size may then be given in them, such as 2p"), k.size("", "ground", "Ground", k.length("")+": how far the face stands from the back at the foot"),
	}
}

// labels are the trade's words for keys that are not plain words.
var labels = map[string]string{
	"projection": "Run", "drip.width": "Drip width", "drip.depth": "Drip depth", "drip.inset": "Drip inset",
	"quirk.width": "Quirk width", "quirk.depth": "Quirk depth", "quirk.sides": "Quirk",
}

// choiceWords say what a choice is about.
var choiceWords = map[string]string{
	"curve": "how the curve is drawn: with the compass, as an ellipse, or otherwise", "flush": "whether it lies within the face instead of standing out from it",
	"quirk.sides": "on which side of it the groove is cut", "at": "at which end of the back the rabbet is cut",
}

// sizeWords say what a size is, where its name does not.
var sizeWords = map[string]string{
	"projection": "how far out it comes from its foot to its top, less than 0 when it goes back", "set": "a step out, or back when less than 0, before the member begins",
	"drip.width": "of the groove under it that lets water drop off", "drip.depth": "of the groove under it", "drip.inset": "how far the groove lies behind the face",
	"quirk.width": "of the groove beside it", "quirk.depth": "of the groove beside it",
}

func (k keyReader) sizeWords(key, more string) string {
	if w := sizeWords[key]; w != "" {
		return w + "; " + k.length(more)
	}
	return k.length(more)
}

func label(key string) string {
	if l, ok := labels[key]; ok {
		return l
	}
	return strings.ToUpper(key[:1]) + key[1:]
}

// member returns the member of an index as the text has it.
func (k keyReader) member(i int) memberView {
	kind := k.keys.ElementKind(i)
	v := memberView{Index: i, Kind: kind, Title: fmt.Sprintf("%d %s", i+1, profile.Kind(kind).Words()), Radii: []float64{}, Sizes: []sizeView{}, Choices: []choiceView{}, Points: []pointView{},
		Drag: kind != string(profile.KindCurve)}
	at := fmt.Sprintf("elements[%d]", i)
	for _, key := range orderedKeys(profile.Kind(kind)) {
		switch key {
		case "curve":
			options := words(profile.Kind(kind).Constructions())
			v.Choices = append(v.Choices, k.choice(at, key, options...))
		case "flush":
			v.Choices = append(v.Choices, k.choice(at, key, "false", "true"))
		case "drip", "quirk":
			v.nested(k, at, key, profile.Kind(kind))
		case "points":
			v.Points = append(v.Points, k.points(i)...)
		case "profile":
			v.Sizes = append(v.Sizes, k.text(at, key, "the name of another molding"))
		case "count":
			v.Sizes = append(v.Sizes, k.text(at, key, "a whole number"))
		case "height", "projection":
			v.Sizes = append(v.Sizes, k.size(at, key, label(key), k.sizeWords(key, " or rest: what the other members leave")))
		default:
			v.Sizes = append(v.Sizes, k.size(at, key, label(key), k.sizeWords(key, "")))
		}
	}
	return v
}

// orderedKeys returns the keys of a kind with rise and run first.
func orderedKeys(k profile.Kind) []string {
	keys := k.Keys()
	slices.SortStableFunc(keys, func(a, b string) int {
		rank := map[string]int{"height": -3, "projection": -2, "set": -1}
		return rank[a] - rank[b]
	})
	return keys
}

// nested adds the sizes of a drip or of a bead's quirk.
func (v *memberView) nested(k keyReader, at, key string, kind profile.Kind) {
	inner := []string{"width", "depth"}
	if key == "drip" {
		inner = append(inner, "inset")
	}
	for _, name := range inner {
		v.Sizes = append(v.Sizes, k.size(at, key+"."+name, label(key+"."+name), k.sizeWords(key+"."+name, "")))
	}
	if key == "quirk" && kind == profile.KindBead && k.keys.Has(at+".quirk") {
		v.Choices = append(v.Choices, k.choice(at, "quirk.sides", "both", "above", "below"))
	}
}

// length says what a size takes.
func (k keyReader) length(more string) string {
	say := "a length, such as 3/4"
	if k.file == measure.Millimeters {
		say = "a length, such as 19"
	}
	if k.parts {
		say += ", or parts, such as 2p"
	}
	if more != "" && k.parts {
		return say + "," + more
	}
	return say + more
}

// size returns a size as the text has it.
func (k keyReader) size(at, key, label, can string) sizeView {
	s := k.text(at, key, can)
	s.Label = label
	q, err := measure.ParseSize(s.Text, k.file)
	switch {
	case s.Text == "" || err != nil:
	case !q.IsParts():
		s.show(q.MM(), k.f)
	case k.part > 0:
		n, _ := q.Rat().Float64()
		s.show(n*k.part, k.f)
	}
	return s
}

// text returns a key as the text has it.
func (k keyReader) text(at, key, can string) sizeView {
	full := key
	if at != "" {
		full = at + "." + key
	}
	s := sizeView{Key: key, Path: full, Can: can, Label: label(key)}
	text, ok := k.keys.Text(full)
	if s.Text = text; !ok && k.keys.Has(full) {
		s.Fixed = true
	}
	return s
}

// choice returns a key that takes one of a few words, the first of which is the default.
func (k keyReader) choice(at, key string, options ...string) choiceView {
	s := k.text(at, key, "")
	c := choiceView{Key: key, Path: s.Path, Value: s.Text, Options: options, Label: label(key), Can: choiceWords[key]}
	if c.Value == "" && len(options) > 0 {
		c.Value = options[0]
	}
	return c
}

// back returns what the text says of the back.
func (k keyReader) back() backView {
	v := backView{Kind: "none", Sizes: []sizeView{}, Choices: []choiceView{}}
	switch {
	case k.keys.Has("back.rabbet"):
		v.Kind = "rabbet"
		v.Sizes = append(v.Sizes, k.size("back.rabbet", "width", "Rabbet width", k.length("")), k.size("back.rabbet", "depth", "Rabbet depth", k.length("")))
		v.Choices = append(v.Choices, k.choice("back.rabbet", "at", "top", "foot"))
	case k.keys.Has("back.spring"):
		v.Kind = "spring"
		angle := k.text("back.spring", "angle", "an angle, such as 38")
		v.Sizes = append(v.Sizes, angle)
		for _, key := range []string{"wall", "top"} {
			if k.keys.Has("back.spring." + key) {
				v.Sizes = append(v.Sizes, k.size("back.spring", key, map[string]string{"wall": "Flat at the wall", "top": "Flat at the top"}[key], k.length("")))
			}
		}
	}
	return v
}

func words[T ~string](all []T) []string {
	out := make([]string, len(all))
	for i, w := range all {
		out[i] = string(w)
	}
	return out
}
