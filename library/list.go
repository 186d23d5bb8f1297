package library

import (
	"fmt"
	"slices"
	"strings"

	"listel/profile"
	"listel/profile/measure"
)

// A Kind names a sort of library entry.
type Kind string

// The kinds of entries.
const (
	KindProfile Kind = "profile"
	KindTool    Kind = "tool"
	KindWood    Kind = "wood"
	KindPaper   Kind = "paper"
	KindLumber  Kind = "lumber"
	KindExample Kind = "example"
	KindCase    Kind = "case"
	KindPieces  Kind = "pieces"
	KindTrace   Kind = "trace"
)

// Kinds returns the kinds of entries that a library has, in the order in which they are listed.
func Kinds() []Kind {
	return []Kind{KindProfile, KindExample, KindTool, KindWood, KindLumber, KindPaper}
}

// A Listing is one line of the library's list.
type Listing struct {
	Kind       Kind    `json:"kind"`
	Name       string  `json:"name"`
	Title      string  `json:"title"`
	Source     string  `json:"source"`
	Height     float64 `json:"height_mm"`     // of a profile or a paper, else 0
	Projection float64 `json:"projection_mm"` // of a profile, else 0
	Family     string  `json:"family,omitempty"`
	// Members are the kinds of a profile's elements, from the foot upward, those of stacks among them.
	Members []string `json:"members,omitempty"`
	Shape   []string `json:"shape,omitempty"` // what else a profile's shape is known by: sprung, rabbet, drip, undercut
	Origin  Origin   `json:"origin"`
	Fault   string   `json:"fault,omitempty"` // what keeps the entry from being used
}

// List returns the entries of a kind, the project's before the user's before the embedded, each by name. An entry that
// cannot be used says why; a name that an earlier place uses is left out.
func (l *Library) List(kind Kind) []Listing {
	switch kind {
	case KindProfile:
		return l.listProfiles()
	case KindWood:
		return listAll(l, "woods", LoadWoods, func(w Wood) Listing {
			return Listing{Kind: kind, Name: w.Name, Title: w.title(), Source: w.source()}
		})
	case KindPaper:
		return listAll(l, "papers", LoadPapers, func(p Paper) Listing {
			return Listing{Kind: kind, Name: p.Name, Title: p.title(), Source: p.Source, Height: p.Height}
		})
	case KindLumber:
		return l.listLumber()
	case KindTool:
		return l.listTools()
	case KindExample:
		return listExamples()
	}
	return nil
}

// NoEntry returns what to say of a name that no entry of any kind has, with the entry that may have been meant.
func (l *Library) NoEntry(name string) *NotFoundError {
	names := append(l.namesOf("profile"), l.namesOf("case")...)
	for _, k := range []Kind{KindTool, KindWood, KindLumber, KindPaper} {
		for _, e := range l.List(k) {
			names = append(names, e.Name)
		}
	}
	if woods, err := collect(l, "woods", LoadWoods); err == nil {
		for _, w := range woods {
			names = append(names, w.entry.Also...)
		}
	}
	return &NotFoundError{Kind: "entry", Name: name, Near: Near(name, names)}
}

// listProfiles lists the profiles of every place.
func (l *Library) listProfiles() []Listing {
	var out []Listing
	l = l.indexed()
	for _, name := range l.namesOf("profile") {
		p, src, o, err := l.ProfileSource(name)
		e := Listing{Kind: KindProfile, Name: name, Title: p.Title, Source: p.Source, Origin: o}
		var s profile.Section
		if err == nil {
			s, err = p.Section(l.Lookup)
			err = src.Mistakes(err)
		}
		if err != nil {
			e.Fault = err.Error()
		} else {
			e.Height, e.Projection = s.Height, s.Projection
			e.Family, e.Members, e.Shape = string(p.FamilyOf(s)), memberKinds(s.Members), shapeWords(s)
		}
		out = append(out, e)
	}
	return out
}

// listAll lists the entries of the files of a kind.
func listAll[T any](l *Library, kind string, load func(string, []byte) ([]T, *Source, error), line func(T) Listing) []Listing {
	all, err := collect(l, kind, load)
	if err != nil {
		return []Listing{{Name: kind, Fault: err.Error()}}
	}
	var out []Listing
	for _, f := range all {
		e := line(f.entry)
		e.Origin = f.origin
		if !slices.ContainsFunc(out, func(o Listing) bool { return o.Name == e.Name }) {
			out = append(out, e)
		}
	}
	return out
}

// listLumber lists the thicknesses, and the lengths in one line, of the file that is used.
func (l *Library) listLumber() []Listing {
	all, err := collect(l, "lumber", LoadLumber)
	if err != nil {
		return []Listing{{Kind: KindLumber, Name: "lumber", Fault: err.Error()}}
	}
	lumber, origin := all[0].entry, all[0].origin
	inches := measure.Format{Units: measure.Inches}
	var out []Listing
	for _, t := range lumber.Thicknesses {
		title := "rough " + inches.Length(t.Rough)
		if t.S2S > 0 {
			title += ", surfaced on two sides " + inches.Length(t.S2S)
		}
		if t.S1S > 0 {
			title += ", on one side " + inches.Length(t.S1S)
		}
		out = append(out, Listing{Kind: KindLumber, Name: t.Name, Title: title, Source: t.Source, Origin: origin})
	}
	if len(lumber.Lengths) > 0 {
		var lengths []string
		for _, mm := range lumber.Lengths {
			lengths = append(lengths, measure.Format{Units: measure.Inches}.Length(mm))
		}
		out = append(out, Listing{Kind: KindLumber, Name: "lengths", Title: strings.Join(lengths, ", "), Source: lumber.Source, Origin: origin})
	}
	return out
}

func listExamples() []Listing {
	var out []Listing
	embeddedOnly := Open("", "")
	for _, name := range embeddedOnly.namesOf("case") {
		c, o, err := embeddedOnly.Case(name)
		e := Listing{Kind: KindExample, Name: name, Title: c.Title, Source: "invented", Origin: o}
		if err != nil {
			e.Fault = err.Error()
		}
		out = append(out, e)
	}
	return out
}

// title returns what a wood's line of the list says of it.
func (w Wood) title() string {
	if w.Change != nil {
		return fmt.Sprintf("changes by %.5f across a flat-sawn board, %.5f across a quarter-sawn one, for each per cent of moisture", w.Change.Tangential, w.Change.Radial)
	}
	if w.Shrinkage == nil {
		return ""
	}
	return fmt.Sprintf("shrinks by %g %% tangentially, %g %% radially, from green to ovendry", w.Shrinkage.Tangential, w.Shrinkage.Radial)
}

// title returns a paper's size.
func (p Paper) title() string {
	mm, in := measure.Format{}, measure.Format{Units: measure.Inches}
	return fmt.Sprintf("%s x %s (%s x %s)", mm.Length(p.Width), mm.Length(p.Height), in.Length(p.Width), in.Length(p.Height))
}
