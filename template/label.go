package template

import (
	"cmp"
	"strings"

	"listel/profile"
	"listel/template/sheet"
)

// Sizes of lettering on the sheets that this package draws, in points.
const (
	figureSize  = 11.0 // numbers that wood is cut to
	nameSize    = 10.5 // names of things
	noteSize    = 9.0  // words in passing
	headingSize = 12.0 // over a drawing
)

// rough returns a rough length in mm as a figure that is never less than it is.
func (st Style) rough(mm float64) string { return st.figure(st.Lengths.NoLess(mm)) }

// figure returns a length as it stands on a drawing: 1¾″, or 44.5 without its unit, which unitNote gives.
func (st Style) figure(mm float64) string {
	if st.inches() {
		return st.Lengths.Drawing(mm)
	}
	return st.Lengths.Bare(mm)
}

// unitNote says which unit the bare numbers of a drawing are in; "" for inches, which carry their mark.
func (st Style) unitNote() string {
	if st.inches() {
		return ""
	}
	return "lengths in mm"
}

// sentence joins what is not empty with semicolons.
func sentence(parts ...string) string {
	var kept []string
	for _, s := range parts {
		if s != "" {
			kept = append(kept, s)
		}
	}
	return strings.Join(kept, "; ")
}

// fitted returns s, its end left off with an ellipsis where it is wider than room mm.
func fitted(s string, size, room float64) string {
	if sheet.TextWidth(s, size, sheet.Regular) <= room {
		return s
	}
	runes := []rune(s)
	for len(runes) > 1 && sheet.TextWidth(string(runes)+"…", size, sheet.Regular) > room {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ,") + "…"
}

// sectionTitle returns what a section is called on a sheet: its title, or its name when it has none.
func sectionTitle(s profile.Section) string { return cmp.Or(s.Title, s.Name) }
