package template

import (
	"fmt"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes of the drawings of a bead on its divider, mm. All of them are drawn at full size; the clearance of a drawer is whatever its maker gives it.
const (
	seatDeep   = 34.0 // of the divider behind its front edge
	seatFront  = 20.0 // of a drawer's front
	seatAbove  = 13.0 // of a drawer over and under the divider
	seatGap    = 0.8  // between a drawer and what it lies beside
	seatLong   = 42.0 // of the divider from the frame's edge
	seatBetter = 14.0 // between the two drawings
)

// seat returns how a bead lies on its divider, at full size: cut through, and from the front where its point goes into the upright; nothing where no
// bead lies on a divider.
func (o openingSheet) seat() []strip {
	for _, b := range o.r.Beads {
		if len(b.Ends) != 2 || b.Ends[0].Kind != miter.CutVee || b.Section == nil {
			continue
		}
		for _, placed := range o.l.Beads {
			if placed.Mark != b.Mark {
				continue
			}
			if thick, post, ok := o.under(placed); ok {
				s := beadSeat{openingSheet: o, section: *b.Section, mark: b.Mark, thick: thick, post: post}
				return []strip{s.strip()}
			}
		}
	}
	return nil
}

// under returns how thick the divider or the post is that a bead lies on, and whether it is a post.
func (o openingSheet) under(b miter.PlacedBead) (thick float64, post, ok bool) {
	c := b.At.Center()
	for _, d := range o.l.Dividers {
		if !b.Upright && d.Min.Y <= c.Y && c.Y <= d.Max.Y {
			return d.Height(), false, true
		}
	}
	for _, p := range o.l.Posts {
		if b.Upright && p.Contains(c) {
			return p.Width(), true, true
		}
	}
	return 0, false, false
}

// A beadSeat draws one bead on what it lies on.
type beadSeat struct {
	openingSheet
	section profile.Section
	mark    string
	thick   float64 // mm, of the divider
	post    bool    // it lies on a post: the drawings are turned, up is across
}

func (s beadSeat) strip() strip {
	name := "divider"
	if s.post {
		name = "post"
	}
	left := s.through(name)
	d := beside(seatBetter, left, s.fromFront(name))
	wide := s.section.Height
	line := "The " + name + " is " + s.st.figure(s.thick) + " thick, the bead " + s.st.figure(wide) + " wide: lay it " + s.st.figure((s.thick-wide)/2) + " in from both edges. "
	if s.l.Inset > 0 {
		line += fmt.Sprintf("It is let in: a groove %s wide and %s deep along the %s, a rabbet of that size along the edges of the frame; %s stands proud. ",
			s.st.figure(wide), s.st.figure(s.l.Inset), name, s.st.figure(s.l.Proud))
	} else {
		line += fmt.Sprintf("It lies on the front, and %s stands proud. ", s.st.figure(s.l.Proud))
	}
	line += "The drawers come forward to the face of the frame; what they are clear by is the maker's."
	words, _ := sheet.Paragraph{Text: line, Width: s.width, Size: nameSize}.Set(geom.Pt(0, d.Bounds().Min.Y-4))
	heading := "A bead on its " + name + ", full size: cut through, and from the front at the end of bead " + s.mark
	if s.post {
		heading += ", on its side"
	}
	t := middled(d, s.width)
	return newStrip(t.Drawing.Add(words...).Add(sheet.Text{At: geom.Pt(0, t.top+4), S: heading, Size: headingSize, Weight: sheet.Bold})).drawnAt(1)
}

// through draws the divider cut through, its front edge at x = 0, with the bead on it and the fronts of two drawers.
func (s beadSeat) through(name string) sheet.Drawing {
	half := s.thick / 2
	wood := geom.Rect{Min: geom.Pt(-seatDeep, -half), Max: geom.Pt(0, half)}
	d := sheet.Drawing{sheet.EndGrain(geom.Polygon(box(wood.Min.X, wood.Min.Y, wood.Max.X, wood.Max.Y)...)),
		sheet.Polyline(sheet.PenOutline, wood.Min, geom.Pt(0, -half), wood.Max, geom.Pt(-seatDeep, half)), zigzag(geom.Pt(-seatDeep, -half), geom.Pt(-seatDeep, half))}
	for _, side := range []float64{1, -1} {
		near, far := side*(half+seatGap), side*(half+seatGap+seatAbove)
		d = d.Add(sheet.Polyline(sheet.PenOutline, geom.Pt(-seatFront, far), geom.Pt(-seatFront, near), geom.Pt(0, near), geom.Pt(0, far)), zigzag(geom.Pt(-seatFront, far), geom.Pt(0, far)))
		d = d.Add(sheet.Text{At: geom.Pt(-seatFront/2, (near+far)/2), S: "drawer", Size: noteSize, Anchor: sheet.Middle})
	}
	bead := s.section.Outline.Translate(geom.Pt(-s.l.Inset, -s.section.Height/2))
	d = d.Add(sheet.FillPolygon(1, bead.Flatten(0.02)...)) // the groove that it is let into
	d = d.Add(sheet.FillPolygon(1, bead.Flatten(0.02)...), sheet.EndGrain(bead), sheet.Stroke{Path: bead, Pen: sheet.PenOutline})
	out := bead.Bounds().Max.X
	d = d.Add(sheet.Text{At: geom.Pt(out+2, 0), S: "bead", Size: noteSize, Anchor: sheet.Left}, sheet.Text{At: geom.Pt(-seatDeep-5, 0), S: name, Size: noteSize, Anchor: sheet.Right})
	return d
}

// fromFront draws the end of the bead from the front: the upright it is pointed into, its edge to the opening at x = 0, and the divider under it.
func (s beadSeat) fromFront(name string) sheet.Drawing {
	half, w := s.thick/2, s.section.Height
	high := half + seatGap + seatAbove
	stile := geom.Rect{Min: geom.Pt(-max(seatFront, 2*w), -high), Max: geom.Pt(0, high)}
	upright := []geom.Point{{X: -w, Y: -high}, {X: 0, Y: -high}, {X: 0, Y: -w / 2}, {X: -w / 2}, {X: 0, Y: w / 2}, {X: 0, Y: high}, {X: -w, Y: high}}
	bead := []geom.Point{{X: seatLong, Y: -w / 2}, {X: 0, Y: -w / 2}, {X: -w / 2}, {X: 0, Y: w / 2}, {X: seatLong, Y: w / 2}}
	d := sheet.Drawing{sheet.FillBox(stile, 0.96), sheet.FillBox(geom.Rect{Min: geom.Pt(0, -half), Max: geom.Pt(seatLong, half)}, 0.96),
		sheet.FillPolygon(0.85, upright...), sheet.FillPolygon(0.85, bead...),
		sheet.Line(geom.Pt(0, -half), geom.Pt(seatLong, -half), sheet.PenThin), sheet.Line(geom.Pt(0, half), geom.Pt(seatLong, half), sheet.PenThin),
		sheet.Line(upright[0], upright[6], sheet.PenOutline), sheet.Line(upright[1], upright[2], sheet.PenOutline), sheet.Line(upright[4], upright[5], sheet.PenOutline),
		sheet.Polyline(sheet.PenOutline, bead...)}
	for _, side := range []float64{1, -1} {
		near, far := side*(half+seatGap), side*high
		d = d.Add(sheet.Polyline(sheet.PenThin, geom.Pt(seatGap, far), geom.Pt(seatGap, near), geom.Pt(seatLong, near)))
		d = d.Add(sheet.Text{At: geom.Pt(seatLong/2, (near+far)/2), S: "drawer", Size: noteSize, Anchor: sheet.Middle})
	}
	d = d.Add(zigzag(geom.Pt(seatLong, -high), geom.Pt(seatLong, high)))
	return d.Add(sheet.Text{At: geom.Pt(seatLong+5, 0), S: s.mark + " on the " + name, Size: noteSize, Anchor: sheet.Left},
		sheet.Text{At: geom.Pt(stile.Min.X-2, 0), S: "frame", Size: noteSize, Angle: 90 * geom.Degree, Anchor: sheet.Bottom})
}
