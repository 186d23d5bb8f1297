package geom

import "math"

// joined is the gap, in mm, up to which two ends count as one point: the rounding of sines at the 20 m a length may
// have stays far below it, and no saw or printer sees it.
const joined = 1e-6

// touch is the distance, in mm, up to which curves and points touch: some ten times the rounding of arcs of furniture size.
const touch = 1e-9

// Start returns the first point of p, or the origin when p is empty.
func (p Path) Start() Point {
	if len(p) == 0 {
		return Point{}
	}
	return p[0].Start()
}

// End returns the last point of p, or the origin when p is empty.
func (p Path) End() Point {
	if len(p) == 0 {
		return Point{}
	}
	return p[len(p)-1].End()
}

// Closed reports whether p has a segment and ends within tol mm of its start.
func (p Path) Closed(tol float64) bool { return len(p) > 0 && p.Start().Near(p.End(), tol) }

// Length returns the length of p along its segments, in mm.
func (p Path) Length() float64 {
	sum := 0.0
	for _, s := range p {
		sum += s.Length()
	}
	return sum
}

// sweptFrom returns the area and moments of p, closed by a straight line when open, with o for the origin.
func (p Path) sweptFrom(o Point) (float64, Point) {
	area, moment := Line{p.End(), p.Start()}.sweptFrom(o)
	for _, s := range p {
		a, m := s.sweptFrom(o)
		area, moment = area+a, moment.Add(m)
	}
	return area, moment
}

// Area returns the area that p goes round, in mm2, positive when counter-clockwise. An open path counts as closed by a
// straight line; where a path goes round a region twice the region counts twice.
func (p Path) Area() float64 {
	if len(p) == 0 {
		return 0
	}
	area, _ := p.sweptFrom(p.Start())
	return area
}

// Moment returns the integrals of x and y over the area that Area counts, in mm3.
func (p Path) Moment() Point {
	if len(p) == 0 {
		return Point{}
	}
	area, m := p.sweptFrom(p.Start())
	return m.Add(p.Start().Mul(area))
}

// Centroid returns the center of gravity of the area that Area counts, or the center of the bounds when that area is 0.
func (p Path) Centroid() Point {
	if len(p) == 0 {
		return Point{}
	}
	area, m := p.sweptFrom(p.Start())
	if area == 0 {
		return p.Bounds().Center()
	}
	return p.Start().Add(m.Mul(1 / area))
}

// Bounds returns the smallest upright rectangle that holds p, empty when p is.
func (p Path) Bounds() Rect {
	r := EmptyRect()
	for _, s := range p {
		r = r.Union(s.Bounds())
	}
	return r
}

// locate splits a path parameter into segment and segment parameter; it is held within the path.
func (p Path) locate(s float64) (int, float64) {
	if !(s > 0) {
		return 0, 0
	}
	i := int(math.Min(s, float64(len(p))))
	if i == len(p) {
		return len(p) - 1, 1
	}
	return i, s - float64(i)
}

// At returns the point at s, in [0, len(p)]: the index of a segment plus the parameter on it. Outside it returns an
// end, and the origin when p is empty.
func (p Path) At(s float64) Point {
	if len(p) == 0 {
		return Point{}
	}
	i, t := p.locate(s)
	return p[i].At(t)
}

// Tangent returns the unit direction of travel at s, as At counts it. At a joint it is that of the segment that
// starts there. It is the zero vector for an empty path and on a segment without length.
func (p Path) Tangent(s float64) Point {
	if len(p) == 0 {
		return Point{}
	}
	i, t := p.locate(s)
	return p[i].Tangent(t)
}

// Nearest returns the place on p nearest to q: s as At counts it, the point there, and its distance in mm. An empty
// path is infinitely far.
func (p Path) Nearest(q Point) (s float64, at Point, dist float64) {
	dist = math.Inf(1)
	for i, seg := range p {
		if seg.clear(q) >= dist {
			continue
		}
		t := seg.Nearest(q)
		if d := seg.At(t).Dist(q); d < dist {
			s, at, dist = float64(i)+t, seg.At(t), d
		}
	}
	return s, at, dist
}

// Reverse returns p travelled the other way.
func (p Path) Reverse() Path {
	out := make(Path, 0, len(p))
	for i := len(p) - 1; i >= 0; i-- {
		out = append(out, p[i].Reverse())
	}
	return out
}

// Transform returns the image of p, travelled in the same order: a map that mirrors turns counter-clockwise into
// clockwise.
func (p Path) Transform(m Affine) Path {
	out := make(Path, 0, len(p))
	for _, s := range p {
		out = append(out, s.Transform(m))
	}
	return out
}

// Translate returns p moved by d (mm).
func (p Path) Translate(d Point) Path { return p.Transform(Translation(d)) }

// Rotate returns p turned by a about the origin.
func (p Path) Rotate(a Angle) Path { return p.Transform(Rotation(a)) }

// MirrorX returns the image of p with x and -x changed over, travelled the other way, so that counter-clockwise stays so.
func (p Path) MirrorX() Path { return p.Transform(Scaling(-1, 1)).Reverse() }

// MirrorY returns the image of p with y and -y changed over, travelled the other way, so that counter-clockwise stays so.
func (p Path) MirrorY() Path { return p.Transform(Scaling(1, -1)).Reverse() }

// Flatten returns points along p whose chords stay within tol mm of it, every joint once. The last point of a closed
// path is its first and is not repeated.
func (p Path) Flatten(tol float64) []Point {
	var pts []Point
	for _, s := range p {
		for j, q := range s.Flatten(tol) {
			if len(pts) > 0 && (j == 0 || pts[len(pts)-1] == q) && pts[len(pts)-1].Near(q, joined) {
				continue
			}
			pts = append(pts, q)
		}
	}
	if n := len(pts); n > 1 && pts[n-1].Near(pts[0], joined) {
		pts = pts[:n-1]
	}
	return pts
}

// Trim returns the part of p from s0 to s1, as At counts them. On a closed path s1 <= s0 goes on through the
// start; on an open one it gives an empty path.
func (p Path) Trim(s0, s1 float64) Path {
	n := float64(len(p))
	if len(p) == 0 || math.IsNaN(s0) || math.IsNaN(s1) {
		return nil
	}
	s0, s1 = math.Max(0, math.Min(s0, n)), math.Max(0, math.Min(s1, n))
	if s1 > s0 {
		return p.between(s0, s1)
	}
	if !p.Closed(joined) {
		return nil
	}
	return append(p.between(s0, n), p.between(0, s1)...)
}

// between returns the part of p from s0 to s1, s0 <= s1.
func (p Path) between(s0, s1 float64) Path {
	var out Path
	for i, s := range p {
		t0, t1 := math.Max(0, s0-float64(i)), math.Min(1, s1-float64(i))
		switch {
		case t0 >= t1:
		case t0 == 0 && t1 == 1:
			out = append(out, s)
		default:
			out = append(out, s.Trim(t0, t1))
		}
	}
	return out
}
