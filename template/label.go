package template

import (
	"strings"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// Sizes of lettering on the sheets that this package draws, in points.
const (
	figureSize  = 11.0 // numbers that wood is cut to
	nameSize    = 10.5 // names of things
	noteSize    = 9.0  // words in passing
	headingSize = 12.0 // over a drawing
)

// figure returns a length as it stands on a drawing: 1¾″, or 44.5 without its unit, which unitNote gives.
func (st Style) figure(mm float64) string {
	if st.Lengths.Units == measure.Inches {
		return st.Lengths.Drawing(mm)
	}
	return st.Lengths.Bare(mm)
}

// unitNote says which unit the bare numbers of a drawing are in; "" for inches, which carry their mark.
func (st Style) unitNote() string {
	if st.Lengths.Units == measure.Inches {
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

// frame returns the frame of a full-size sheet, or of one at a scale when that is not "".
func (st Style) frame(title, purpose, scale string) sheet.Frame {
	return sheet.Frame{Title: title, Purpose: purpose, Scale: scale, FullSize: scale == "", Source: st.Source, Printer: st.Printer}
}

// leastRoom is the room across and up that words and a table need on a sheet, mm.
const leastRoom = 80.0

// roomy returns the style with A4 in place of paper on which a frame leaves too little room for words.
func (st Style) roomy() Style {
	area := st.frame("W", "W", "").Area(st.Paper)
	if !area.Empty() && area.Width() >= leastRoom && area.Height() >= leastRoom {
		return st
	}
	if a4, err := sheet.PaperNamed("A4"); err == nil {
		st.Paper = a4
	}
	return st
}

// scaled returns the map that draws at k times the size.
func scaled(k float64) geom.Affine { return geom.Scaling(k, k) }

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
