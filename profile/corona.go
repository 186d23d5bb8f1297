package profile

import (
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// A Corona is a plumb flat with an overhanging soffit below it, into which a drip may be cut.
type Corona struct {
	Height float64    // mm, > 0
	Set    float64    // mm, depth of the soffit; 0 makes the corona a fascia, negative a ledge
	Drip   *SizedDrip // nil without one; needs a Set that holds it
}

// A SizedDrip is a square groove cut up into a soffit. All its sizes are more than 0.
type SizedDrip struct {
	Width, Depth float64 // mm, along the soffit and up
	Inset        float64 // mm, from the corona's face to the near edge
}

// Validate returns a *SizeError for a height of 0 or less or a drip that the corona cannot hold.
func (e Corona) Validate() error {
	if err := firstOf(positive("height", e.Height), setSize(e.Set)); err != nil || e.Drip == nil {
		return err
	}
	d := *e.Drip
	if err := firstOf(positive("drip.width", d.Width), positive("drip.depth", d.Depth), positive("drip.inset", d.Inset)); err != nil {
		return err
	}
	over := d.Inset + d.Width - e.Set
	switch {
	case !(e.Set > 0):
		return sizeFault("drip", "a drip needs a soffit to be cut into; set must be %s at least", d.Inset+d.Width)
	case over > equalSizes && d.Width < e.Set:
		return sizeFault("drip", "drip is %s too wide for a set of %s; an inset of %s or less would do", over, e.Set, e.Set-d.Width)
	case over > equalSizes:
		return sizeFault("drip", "drip is %s too wide for a set of %s; with this inset a set of %s would do", over, e.Set, d.Inset+d.Width)
	case !(d.Depth < e.Height):
		return sizeFault("drip.depth", "drip.depth is %s; it must be less than the corona's height, %s", d.Depth, e.Height)
	}
	return nil
}

// Outline returns the soffit, with its drip, and the flat.
func (e Corona) Outline(from geom.Point) geom.Path {
	return append(e.Soffit(from), plumb(from.Add(geom.Pt(e.Set, 0)), e.Height)...)
}

// Soffit returns the level step below the flat with the drip in it; nothing when Set is 0.
func (e Corona) Soffit(from geom.Point) geom.Path {
	if e.Drip == nil {
		return level(from, e.Set)
	}
	face := from.Add(geom.Pt(e.Set, 0))
	near := face.Sub(geom.Pt(e.Drip.Inset, 0))
	far := near.Sub(geom.Pt(e.Drip.Width, 0))
	up := geom.Pt(0, e.Drip.Depth)
	groove := geom.Polyline(far, far.Add(up), near.Add(up), near, face)
	if same(far.X, from.X) {
		return groove
	}
	return append(geom.Path{geom.Line{A: from, B: far}}, groove...)
}

// setSize returns nil when mm can be a level step: a length of any sign, or 0.
func setSize(mm float64) error {
	switch {
	case math.IsNaN(mm):
		return sizeFault("set", "set is not a number; it must be a length")
	case math.Abs(mm) > measure.Limit:
		return sizeFault("set", "set is %s; the limit is 20 m", mm)
	}
	return nil
}
