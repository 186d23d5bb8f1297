package profile

import (
	"math"

	"listel/profile/geom"
)

// A Thumb is a quarter ellipse, the edge of a table top, with a plumb fillet where it is plumb: leaning back (a negative
// Projection) it starts with the fillet, leaning out it ends with it.
type Thumb struct {
	Height     float64 // mm, > 0, with the fillet
	Projection float64 // mm, not 0
	Fillet     float64 // mm, 0 or more and less than Height
}

// Validate returns a *SizeError for a size out of range.
func (e Thumb) Validate() error {
	if err := firstOf(positive("height", e.Height), run(e.Projection)); err != nil {
		return err
	}
	switch {
	case !(e.Fillet >= 0):
		return sizeFault("fillet", "fillet is %s; it must be 0 or more", e.Fillet)
	case !(e.Fillet <= e.Height-least):
		return sizeFault("fillet", "fillet is %s; it must be less than the height, %s, which includes it", e.Fillet, e.Height)
	}
	return nil
}

// Outline returns the fillet and the curve.
func (e Thumb) Outline(from geom.Point) geom.Path {
	p, rise := math.Abs(e.Projection), e.Height-e.Fillet
	drawn := geom.Path{quarter(geom.Pt(0, rise), p, rise, -90*geom.Degree, 90*geom.Degree)}
	drawn = append(drawn, plumb(geom.Pt(p, rise), e.Fillet)...)
	return upward(from, e.Projection, e.Height, drawn)
}
