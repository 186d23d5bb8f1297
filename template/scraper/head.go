package scraper

import (
	"fmt"
	"math"

	"listel/profile/geom"
)

// A Knife is what a rotating knife needs beyond its outline.
type Knife struct {
	Head
	Depth float64 // mm, of the molding that it cuts
	Filed float64 // mm, the same on the knife
	Body  float64 // mm, the greatest radius of the head's body that leaves BodyClearance under the edge
	Seat  float64 // mm, of blank over that clearance, to be held in the head
}

// Sizes of knife blanks, mm: common practice, no source; the head's maker says what it needs.
const (
	knifeSeat = 25.0
	knifeTol  = 0.001 // of the edge, which is drawn in short lines
)

// KnifeDepth returns the depth on a knife, in mm, of a point that lies depth mm of the molding's above the deepest: with the cutting circle's
// radius R and e = R sin(hook), it is sqrt(R^2 - e^2) - sqrt((R - depth)^2 - e^2). Both roots are places on the line of the knife's face, which
// passes the axis at the distance e; derived from the drawing-board construction of J. Rose, Mechanical Drawing Self-Taught, figs 290-292. It is NaN
// when the circle of R - depth does not meet that line; for small depths it tends to depth / cos(hook).
func (h Head) KnifeDepth(depth float64) float64 {
	e := h.Radius * h.Hook.Sin()
	r := h.Radius - depth
	if r < e {
		return math.NaN()
	}
	return h.Radius*h.Hook.Cos() - math.Sqrt(r*r-e*e)
}

// fits returns an *OptionError when the head is too small for what the knife b cuts.
func (h Head) fits(b Blade) error {
	depth := b.Work.Transform(b.ToBlade()).Bounds().Height()
	if least := h.leastRadius(depth); !(h.Radius >= least) {
		return &OptionError{Option: "head", Reason: fmt.Sprintf("a cutting circle of %.4g mm radius is too small: knife %s cuts %.4g mm deep, and with a hook of %.4g degrees that needs a radius of at least %.4g mm and the head's body besides",
			h.Radius, b.Mark, depth, h.Hook.Degrees(), least)}
	}
	return nil
}

// leastRadius returns the least radius at which the whole edge lies on the knife's face, clear of a body, in mm.
func (h Head) leastRadius(depth float64) float64 {
	return (depth + BodyClearance) / (1 - h.Hook.Sin())
}

// knife returns an upright blade as a knife of the head: its depth by KnifeDepth, from the deepest point, and a blank without ears.
func (h Head) knife(b Blade) Blade {
	box := b.Edge.Bounds()
	at := func(p geom.Point) geom.Point { return geom.Pt(p.X, box.Min.Y+h.KnifeDepth(math.Max(0, p.Y-box.Min.Y))) }
	var pts []geom.Point
	for _, p := range b.Edge.Flatten(knifeTol) {
		pts = append(pts, at(p))
	}
	k := &Knife{Head: h, Depth: box.Height(), Filed: h.KnifeDepth(box.Height()), Body: h.Radius - box.Height() - BodyClearance, Seat: knifeSeat}
	// The filed depth at which the edge may come to the body's radius lies a little farther up the face than the clearance.
	top := box.Min.Y + h.KnifeDepth(box.Height()+BodyClearance) + knifeSeat
	b.Edge = geom.Polyline(pts...)
	first, last := pts[0], pts[len(pts)-1]
	b.Outline = append(append(geom.Path{}, b.Edge...), geom.Polyline(last, geom.Pt(last.X, top), geom.Pt(first.X, top), first)...)
	o := b.Outline.Bounds()
	b.Steel = Steel{Width: o.Width(), Height: o.Height(), Center: o.Center().X}
	// Nowhere is depth stretched more than at the top of the edge: a file that fits the hollows stretched so fits them as they are.
	e := h.Radius * h.Hook.Sin()
	r := h.Radius - box.Height()
	upright := b.Work.Transform(toBlade(b.Plunge)).Reverse()
	b.Files = filesFor(upright.Transform(geom.Scaling(1, r/math.Sqrt(r*r-e*e))))
	for i := range b.Files {
		b.Files[i].At = at(geom.Pt(b.Files[i].At.X, b.Files[i].At.Y*math.Sqrt(r*r-e*e)/r))
	}
	b.Knife = k
	return b
}
