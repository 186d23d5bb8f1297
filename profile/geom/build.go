package geom

import (
	"errors"
	"fmt"
	"math"
)

// ErrNoArc reports that no circular arc meets what was asked.
var ErrNoArc = errors.New("no such arc")

// flat is the height of an arc over its chord, as a part of the chord, below which it is straight: 10 nm on 100 mm.
// Beyond it the radius is so long that the ends of the arc would lose digits.
const flat = 1e-7

// ArcThrough returns the circular arc from a through a point to b, or the Line from a to b when that
// point lies on it. The error is ErrNoArc: two of the points coincide, or the three are in line with
// the middle one not between the others.
func ArcThrough(a, through, b Point) (Segment, error) {
	u, v := through.Sub(a), b.Sub(a)
	if !(u.Norm() > 0 && v.Norm() > 0 && b.Dist(through) > 0) {
		return nil, fmt.Errorf("%w: two of the three points coincide", ErrNoArc)
	}
	cross := u.Cross(v)
	if math.Abs(cross) <= flat*v.Dot(v) {
		if t := u.Dot(v) / v.Dot(v); t > 0 && t < 1 {
			return Line{a, b}, nil
		}
		return nil, fmt.Errorf("%w: the three points are in line and the middle one is not between the others", ErrNoArc)
	}
	c := u.Left().Mul(v.Dot(v)).Sub(v.Left().Mul(u.Dot(u))).Mul(1 / (2 * cross))
	return ArcBetween(a, b, a.Add(c), cross > 0), nil
}

// ArcBetween returns the arc about center from a to b, counter-clockwise or clockwise, the short way or the long
// one as that says. The radius is the distance of a; b should have the same, and only its direction counts. It is a
// full turn when a is b.
func ArcBetween(a, b, center Point, ccw bool) Arc {
	from := a.Sub(center).Angle()
	sweep := b.Sub(center).Angle() - from
	switch {
	case ccw && sweep <= 0:
		sweep += 2 * math.Pi
	case !ccw && sweep >= 0:
		sweep -= 2 * math.Pi
	}
	return Arc{Center: center, Radius: a.Dist(center), From: from, Sweep: sweep}
}

// ArcRadius returns the arc of radius r (mm) from a to b that turns by half a turn at most, counter-clockwise or clockwise.
// The error is ErrNoArc when a is b or r is less than half their distance.
func ArcRadius(a, b Point, r float64, ccw bool) (Arc, error) {
	half := a.Dist(b) / 2
	if !(half > 0) {
		return Arc{}, fmt.Errorf("%w: its ends coincide", ErrNoArc)
	}
	// A half circle whose radius was rounded is still one.
	if !(r >= half*(1-1e-12)) || math.IsInf(r, 0) {
		return Arc{}, fmt.Errorf("%w: radius %.6g mm, and its ends are %.6g mm apart", ErrNoArc, r, 2*half)
	}
	rise := math.Sqrt(math.Max(0, (r-half)*(r+half)))
	if !ccw {
		rise = -rise
	}
	center := a.Lerp(b, 0.5).Add(b.Sub(a).Unit().Left().Mul(rise))
	sweep := 2 * Angle(math.Atan2(half, math.Abs(rise)))
	if !ccw {
		sweep = -sweep
	}
	return Arc{Center: center, Radius: a.Dist(center), From: a.Sub(center).Angle(), Sweep: sweep}, nil
}

// Polyline returns the lines from each point to the next; nil for fewer than two points.
func Polyline(pts ...Point) Path {
	var p Path
	for i := 1; i < len(pts); i++ {
		p = append(p, Line{pts[i-1], pts[i]})
	}
	return p
}

// Polygon returns the closed path through the points; nil for fewer than two points.
func Polygon(pts ...Point) Path {
	if len(pts) < 2 {
		return nil
	}
	return append(Polyline(pts...), Line{pts[len(pts)-1], pts[0]})
}

// Circle returns the closed counter-clockwise path of radius r (mm, > 0) round c, from its rightmost point.
func Circle(c Point, r float64) Path {
	return Path{Arc{Center: c, Radius: r, Sweep: 2 * math.Pi}}
}

// PolygonArea returns the area of the polygon through the points, in mm2, positive when counter-clockwise.
func PolygonArea(pts []Point) float64 {
	sum := 0.0
	for i := 2; i < len(pts); i++ {
		sum += pts[i-1].Sub(pts[0]).Cross(pts[i].Sub(pts[0]))
	}
	return sum / 2
}

// PolygonContains reports whether q lies within the polygon of these corners, by the even-odd rule: in a part that its sides go round twice it does not. On a side
// it may say either; Path.Contains decides that. It is false for fewer than three corners.
func PolygonContains(pts []Point, q Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
