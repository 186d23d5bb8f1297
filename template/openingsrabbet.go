package template

import (
	"fmt"

	"listel/profile/geom"
	"listel/template/sheet"
)

// rabbet returns how the beads lie round the openings: the frame cut through square to a bead, at full size; nothing without beads.
func (o openingSheet) rabbet() []strip {
	if len(o.r.Beads) == 0 || o.r.Beads[0].Section == nil {
		return nil
	}
	s := *o.r.Beads[0].Section
	wide, in := s.Height, o.l.Inset
	const more = 20.0 // mm of the frame beyond the bead
	frame := []geom.Point{{X: -in}, {X: -in, Y: wide}, {Y: wide}, {Y: wide + more}, {X: -seatDeep, Y: wide + more}, {X: -seatDeep}}
	d := sheet.Drawing{sheet.EndGrain(geom.Polygon(frame...)), sheet.Polyline(sheet.PenOutline, append(append([]geom.Point{}, frame[5]), frame[:4]...)...),
		zigzag(frame[3], frame[4]), zigzag(frame[4], frame[5])}
	bead := s.Outline.Translate(geom.Pt(-in, 0))
	d = d.Add(sheet.FillPolygon(1, bead.Flatten(0.02)...), sheet.EndGrain(bead), sheet.Stroke{Path: bead, Pen: sheet.PenOutline})
	out := bead.Bounds().Max.X
	d = d.Add(sheet.Dim{A: geom.Pt(0, 0), B: geom.Pt(0, wide), Along: sheet.Up, At: out + 10, Text: o.st.figure(wide), Size: figureSize}.Drawing()...)
	if in > 0 {
		d = d.Add(sheet.Dim{A: geom.Pt(-in, 0), B: geom.Pt(0, 0), At: -8, Text: o.st.figure(in), Size: figureSize}.Drawing()...)
	}
	d = d.Add(sheet.Text{At: geom.Pt(out+2, wide+2), S: "face", Size: noteSize, Anchor: sheet.Left},
		sheet.Text{At: geom.Pt(-seatDeep-5, (wide+more)/2), S: "frame", Size: noteSize, Anchor: sheet.Right},
		sheet.Text{At: geom.Pt(-seatDeep/2, -3), S: "opening", Size: noteSize, Anchor: sheet.Middle})
	line := fmt.Sprintf("The beads lie on the face of the frame, the foot of each at the edge of the opening, mitered at the corners; %s stands proud.", o.st.figure(o.l.Proud))
	if in > 0 {
		line = fmt.Sprintf("The beads are let in: a rabbet %s wide and %s deep in the face of the frame, all along the edges of the %s, mitered at the corners; %s stands proud. The foot of each bead is flush with the edge, "+
			"so that the opening stays as wide and as high as it is told.", o.st.figure(wide), o.st.figure(in), o.what(), o.st.figure(o.l.Proud))
	}
	words, _ := sheet.Paragraph{Text: line, Width: o.width, Size: nameSize}.Set(geom.Pt(0, d.Bounds().Min.Y-4))
	t := middled(d, o.width)
	return []strip{newStrip(t.Drawing.Add(words...).Add(sheet.Text{At: geom.Pt(0, t.top+4), S: "A bead on the frame, full size: cut through, the opening below", Size: headingSize, Weight: sheet.Bold})).drawnAt(1)}
}

// what names what the beads go round.
func (o openingSheet) what() string {
	if len(o.r.Drawers) == 1 {
		return "opening"
	}
	return "openings as one"
}
