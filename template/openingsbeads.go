package template

import (
	"fmt"
	"slices"
	"strings"

	"listel/miter"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes of the drawing of a bead, mm on paper. Its width is not to scale, so that the notches show.
const (
	beadWide  = 7.0
	beadLeft  = 26.0 // for its mark and count
	beadRight = 9.0
	beadStep  = 7.0 // between dimension lines
)

// beads returns a strip for each different bead that is notched, all at one scale along.
func (o openingSheet) beads() []strip {
	longest := 0.0
	var notched []miter.Piece
	for _, p := range o.r.Beads {
		if len(p.Notches) > 0 {
			notched, longest = append(notched, p), max(longest, p.Back)
		}
	}
	k := (o.width - beadLeft - beadRight - 2*beadWide) / max(longest, 1)
	var strips []strip
	for _, p := range notched {
		strips = append(strips, newStrip(o.bead(p, k)))
	}
	return strips
}

// topEdge says which edge of a bead a notch is in that is not in its foot.
const topEdge = "in the top edge"

// bead draws one bead seen from its face, its foot down and its left end at the left.
func (o openingSheet) bead(p miter.Piece, k float64) sheet.Drawing {
	x0, x1 := beadLeft+beadWide, beadLeft+beadWide+p.Back*k
	wood := o.beadOutline(p, k, x0, x1)
	d := sheet.Drawing{sheet.FillPolygon(0.93, wood...), sheet.Stroke{Path: geom.Polygon(wood...), Pen: sheet.PenOutline}}
	d = d.Add(sheet.Balloon(geom.Pt(4.5, beadWide/2), p.Mark, markSize*0.8)...)
	d = d.Add(sheet.Text{At: geom.Pt(12, beadWide/2), S: fmt.Sprintf("cut %d", p.Count), Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Left})
	at, above := -5.5, beadWide+5.5
	for _, n := range sortedBy(p.Notches, func(n miter.Notch) float64 { return n.At }) {
		x := x0 + n.At*k
		if n.Side == miter.TopFace {
			d = d.Add(o.ordinate(x0, x, beadWide, above, n.At)...)
			d = d.Add(sheet.Text{At: geom.Pt(x+2.5, above), S: topEdge, Size: noteSize, Anchor: sheet.Left})
			above += beadStep
			continue
		}
		d = d.Add(o.ordinate(x0, x, 0, at, n.At)...)
		at -= beadStep
	}
	d = d.Add(sheet.Line(geom.Pt(x0, -1), geom.Pt(x0, at-1.5), sheet.PenHair), sheet.Line(geom.Pt(x1, -1), geom.Pt(x1, at-1.5), sheet.PenHair))
	d = d.Add(sheet.Line(geom.Pt(x0, at), geom.Pt(x1, at), sheet.PenThin), sheet.ArrowHead(geom.Pt(x0, at), geom.Pt(-1, 0)), sheet.ArrowHead(geom.Pt(x1, at), geom.Pt(1, 0)))
	d = d.Add(sheet.Text{At: geom.Pt(x0-2.5, at), S: o.st.figure(p.Back), Size: figureSize, Weight: sheet.Bold, Anchor: sheet.Right})
	what := "the notches"
	if len(p.Notches) == 1 {
		what = "the notch"
	}
	words := fmt.Sprintf("%s; %s %s deep", strings.Join(p.Runs, ", "), what, o.st.figure(p.Notches[0].Depth))
	if len(p.Ends) == 2 && p.Ends[0].Kind == miter.CutVee {
		words += "; the length is notch to notch"
	}
	words += "; drawn wider than it is"
	return d.Add(sheet.Text{At: geom.Pt(x0, at-3.5), S: fitted(words, noteSize, o.width-x0), Size: noteSize, Anchor: sheet.TopLeft})
}

// ordinate returns the dimension from the left end of the foot to a notch: its figure at the left of the line.
func (o openingSheet) ordinate(x0, x, from, at, mm float64) sheet.Drawing {
	over := 1.5
	if at < from {
		over = -1.5
	}
	d := sheet.Drawing{sheet.Line(geom.Pt(x0, at), geom.Pt(x, at), sheet.PenThin), sheet.ArrowHead(geom.Pt(x, at), geom.Pt(1, 0)),
		sheet.Line(geom.Pt(x, from+over), geom.Pt(x, at+over), sheet.PenHair),
		sheet.Text{At: geom.Pt(x0-2.5, at), S: o.st.figure(mm), Size: figureSize, Anchor: sheet.Right}}
	if over > 0 {
		d = d.Add(sheet.Line(geom.Pt(x0, from+over), geom.Pt(x0, at+over), sheet.PenHair))
	}
	return d
}

// beadOutline returns the outline of a bead with its notches, its width that of the drawing.
func (o openingSheet) beadOutline(p miter.Piece, k, x0, x1 float64) []geom.Point {
	const half = beadWide / 2
	var foot, top []geom.Point
	for _, n := range sortedBy(p.Notches, func(n miter.Notch) float64 { return n.At }) {
		x := x0 + n.At*k
		if n.Side == miter.TopFace {
			top = append(top, geom.Pt(x-half, beadWide), geom.Pt(x, half), geom.Pt(x+half, beadWide))
		} else {
			foot = append(foot, geom.Pt(x-half, 0), geom.Pt(x, half), geom.Pt(x+half, 0))
		}
	}
	slices.Reverse(top)
	out := append([]geom.Point{{X: x0}}, foot...)
	out = append(out, geom.Pt(x1, 0))
	vee := len(p.Ends) == 2 && p.Ends[0].Kind == miter.CutVee
	if vee {
		out = append(out, geom.Pt(x1+half, half), geom.Pt(x1, beadWide))
	} else {
		out = append(out, geom.Pt(x1+beadWide, beadWide))
	}
	out = append(out, top...)
	if vee {
		return append(out, geom.Pt(x0, beadWide), geom.Pt(x0-half, half))
	}
	return append(out, geom.Pt(x0-beadWide, beadWide))
}

// beadMeets says what the ends of a bead meet, by their marks; "" for any other piece.
func beadMeets(l miter.Layout, p miter.Piece) string {
	mark := map[string]string{}
	for _, b := range l.Beads {
		mark[b.Run] = b.Mark
	}
	if len(p.Ends) != 2 || len(p.Runs) == 0 || mark[p.Runs[0]] != p.Mark {
		return ""
	}
	return fmt.Sprintf("left end to %s, right end to %s", mark[p.Ends[0].Meets], mark[p.Ends[1].Meets])
}

// vee returns the joint of a pointed bead and the notch it goes into, enlarged; nothing without one.
func (o openingSheet) vee() []strip {
	for _, p := range o.r.Beads {
		if len(p.Ends) != 2 || p.Ends[0].Kind != miter.CutVee {
			continue
		}
		wide := p.Long - p.Back // a point of 90 degrees is half as long as wide, and there are two
		k := 1.0
		for _, k = range []float64{5, 4, 3, 2, 1} {
			if wide*k <= 26 {
				break
			}
		}
		return []strip{newStrip(o.veeAt(wide, k)).drawnAt(k)}
	}
	return nil
}

// veeAt draws an upright with its notch at the left, and the point that goes into it at the right.
func (o openingSheet) veeAt(wide, k float64) sheet.Drawing {
	w := wide * k
	const long, apart = 26.0, 16.0
	upright := []geom.Point{{X: 0, Y: -w}, {X: w, Y: -w}, {X: w, Y: -w / 2}, {X: w / 2}, {X: w, Y: w / 2}, {X: w, Y: w}, {X: 0, Y: w}}
	x := w + apart
	point := []geom.Point{{X: x + long, Y: -w / 2}, {X: x, Y: -w / 2}, {X: x - w/2}, {X: x, Y: w / 2}, {X: x + long, Y: w / 2}}
	d := sheet.Drawing{sheet.FillPolygon(0.93, upright...), sheet.Stroke{Path: geom.Polygon(upright...), Pen: sheet.PenOutline},
		sheet.FillPolygon(0.93, point...), sheet.Polyline(sheet.PenOutline, point...), zigzag(point[0], point[4])}
	d = d.Add(sheet.Dim{A: upright[3], B: geom.Pt(w, -w/2), At: -w - 6, Text: o.st.figure(wide / 2), Size: figureSize}.Drawing()...)
	d = d.Add(sheet.Dim{A: point[0], B: point[4], Along: sheet.Up, At: x + long + 7, Text: "", Size: figureSize}.Drawing()...)
	d = d.Add(sheet.Text{At: geom.Pt(x+long+10, 0), S: o.st.figure(wide) + " wide, pointed to 90°", Size: figureSize, Anchor: sheet.Left})
	box := d.Bounds()
	return d.Add(sheet.Text{At: geom.Pt(box.Min.X, box.Max.Y+4), S: fmt.Sprintf("The vee joint, %s: half as deep as the bead is wide; cut point and notch on a 45° guide and pare to fit", jointScale(k)), Size: nameSize, Weight: sheet.Bold}).At(geom.Pt(-box.Min.X, 0))
}
