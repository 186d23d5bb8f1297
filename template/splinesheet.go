package template

import (
	"fmt"
	"math"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// SplineSheets returns the sheets with the plan of the grooves and splines in the miters of a case: where each groove lies, how long and deep it is, and the
// size and number of the splines. A case without splines gives no pages.
func SplineSheets(r miter.Result, st Style) []sheet.Page {
	st = st.roomy()
	t := sheet.Table{Stretch: true, Size: figureSize, Columns: []sheet.Column{
		{Head: "molding", Weight: sheet.Bold, Wrap: true}, {Head: "the groove", Wrap: true}, {Head: "wide", Align: sheet.AlignRight}, {Head: "deep", Align: sheet.AlignRight},
		{Head: "long", Align: sheet.AlignRight}, {Head: "splines to cut", Wrap: true}, {Head: "how many", Align: sheet.AlignRight},
	}}
	for _, m := range r.Moldings {
		t.Rows = append(t.Rows, st.splineRows(m)...)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	f := st.sheetFrame("Splines in the miters", sentence("Grooves to cut in the sawn faces and the splines for them; the faces are on the sheets before", st.unitNote()))
	area := f.Area(st.Paper)
	t.Width = area.Width()
	var strips []strip
	for _, part := range t.Split(area.Height() - 12) {
		strips = append(strips, newStrip(part.Set(geom.Point{}).Drawing))
	}
	strips = append(strips, newStrip(advice("Grooves and splines", splineWords, area.Width())))
	return stack(strips, f, st.Paper)
}

// Common practice, no source.
var splineWords = []string{
	"The grain of a spline runs across the joint, over its width: with the grain along the joint it snaps. Cut it a hair less wide than given, for glue, and thick so that it slides in by hand.",
	"Lay the spline's place out from the foot on the miter face's sheet, and groove every piece from the same face, so that what is off is off alike. Try two scraps first.",
	"To groove, hold the miter face against a jig that carries the piece at its slope and clamps it: never freehand, never against the fence alone. Stop a stopped groove with stops at both ends; " +
		"lower the piece onto the cutter only in a jig that cannot slip, and lift it when the cutter stands still.",
	"Guards on, hands out of the line and away from the cutter, shallow passes; short pieces only in the jig. The manuals of the machines, local rules and a qualified person's guidance come first.",
}

// splineSame is the difference of two grooves in length, mm, that is none to a maker: 1/64 in.
const splineSame = 25.4 / 64

// splineTold is the difference of two such grooves from which on it is told, mm.
const splineTold = 0.05

// splineRows returns the rows of a molding, one for each length that its groove has on the miter faces.
func (st Style) splineRows(m miter.MoldingResult) [][]string {
	s := m.Spline
	if s == nil {
		return nil
	}
	var rows [][]string
	var lengths, longer []float64 // of the grooves that are one to a maker the shortest, and by how much the longest of them is longer
	var ends []int
	for _, p := range m.Pieces {
		if p.Section == nil {
			continue
		}
		for i, e := range p.Ends {
			if i > 1 || !e.Spline {
				continue
			}
			to := faceMap(e.Cut)
			long := to.Apply(geom.Pt(s.From[0], s.From[1])).Dist(to.Apply(geom.Pt(s.To[0], s.To[1])))
			at := -1
			for k, l := range lengths {
				if math.Abs(l-long) < splineSame {
					at = k
				}
			}
			if at < 0 {
				at = len(lengths)
				lengths, longer, ends = append(lengths, long), append(longer, 0), append(ends, 0)
			}
			longest := max(lengths[at]+longer[at], long)
			lengths[at] = min(lengths[at], long) // a spline that is a hair short goes into every groove
			longer[at] = longest - lengths[at]
			ends[at] += max(1, p.Count)
		}
	}
	for k, long := range lengths {
		along := st.figure(long) + " along the groove"
		if longer[k] > splineTold {
			along += fmt.Sprintf(" (the shortest; another corner's is %s longer)", st.fine(longer[k]))
		}
		rows = append(rows, []string{m.Name, st.grooveWords(*s), st.figure(s.Thickness), st.figure(s.Depth), st.figure(long),
			fmt.Sprintf("%s thick, %s, %s across the joint, with the grain", st.figure(s.Thickness), along, st.figure(2*s.Depth)), fmt.Sprint((ends[k] + 1) / 2)})
	}
	return rows
}

// grooveWords says where a groove lies in the section.
func (st Style) grooveWords(s miter.Spline) string {
	var words []string
	if s.From[0] == s.To[0] {
		words = append(words, fmt.Sprintf("upright, its middle %s out from the back in the section, from %s to %s over the foot", st.figure(s.From[0]), st.figure(s.From[1]), st.figure(s.To[1])))
	} else {
		words = append(words, fmt.Sprintf("level, its middle %s over the foot, from %s to %s out from the back in the section; longer on the sloping face", st.figure(s.From[1]), st.figure(s.From[0]), st.figure(s.To[0])))
	}
	return strings.Join(words, "; ")
}
