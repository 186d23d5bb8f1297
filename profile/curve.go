package profile

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// A Curve is a chain of lines and circular arcs through points given relative to its start; its height and run are those of the
// last point.
type Curve struct {
	Points []SizedPoint // at least one; the last lies above the start
}

// A SizedPoint is one point of a Curve.
type SizedPoint struct {
	At      geom.Point  // mm, relative to the start of the curve
	Through *geom.Point // a point that the arc to At passes; nil for a straight line
}

// Height returns the y of the last point, in mm; 0 without points.
func (e Curve) Height() float64 { return e.end().Y }

// Projection returns the x of the last point, in mm; 0 without points.
func (e Curve) Projection() float64 { return e.end().X }

func (e Curve) end() geom.Point {
	if len(e.Points) == 0 {
		return geom.Point{}
	}
	return e.Points[len(e.Points)-1].At
}

// Validate returns a *SizeError when there is no point, a point is where the one before it is, an arc cannot pass its
// points, or the last point does not lie above the start.
func (e Curve) Validate() error {
	if len(e.Points) == 0 {
		return sizeFault("points", "points are missing; one at least is needed")
	}
	if len(e.Points) > MaxElements {
		return sizeFault("points", fmt.Sprintf("there are %d points; the limit is %d", len(e.Points), MaxElements))
	}
	prev := geom.Point{}
	for i, p := range e.Points {
		if err := validPoint(i+1, prev, p); err != nil {
			return err
		}
		prev = p.At
	}
	if !(prev.Y > 0) {
		return sizeFault("points", "the last point lies at y %s; it must lie above the start, y more than 0", prev.Y)
	}
	return nil
}

// validPoint checks the n-th point of a curve, which follows prev.
func validPoint(n int, prev geom.Point, p SizedPoint) error {
	key := fmt.Sprintf("points.%d", n)
	within := func(q geom.Point) bool { return math.Abs(q.X) <= measure.Limit && math.Abs(q.Y) <= measure.Limit }
	switch {
	case !within(p.At) || p.Through != nil && !within(*p.Through):
		return sizeFault(key, fmt.Sprintf("point %d is out of range; the limit is 20 m", n))
	case p.At.Near(prev, equalSizes):
		return sizeFault(key, fmt.Sprintf("point %d is where the one before it is", n))
	case p.Through == nil:
		return nil
	}
	if _, err := geom.ArcThrough(prev, *p.Through, p.At); err != nil {
		return sizeFault(key, fmt.Sprintf("no arc to point %d passes through the point given; the three must differ, and that one must lie between the ends", n))
	}
	return nil
}

// Outline returns the lines and arcs.
func (e Curve) Outline(from geom.Point) geom.Path {
	var out geom.Path
	prev := from
	for _, p := range e.Points {
		at := from.Add(p.At)
		if p.Through == nil {
			out = append(out, geom.Line{A: prev, B: at})
		} else if arc, err := geom.ArcThrough(prev, from.Add(*p.Through), at); err == nil {
			out = append(out, arc)
		} else { // what Validate let pass can only be in line to within rounding
			out = append(out, geom.Line{A: prev, B: at})
		}
		prev = at
	}
	return out
}
