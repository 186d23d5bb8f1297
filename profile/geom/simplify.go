package geom

import "math"

// Simplify returns p without segments up to tol mm long and with neighbors joined that continue one line, circle or
// ellipse within tol mm. The start of p stays where it is. A short segment between two arcs stays when it is longer than
// 1e-6 mm, since nothing could bridge the gap.
func (p Path) Simplify(tol float64) Path {
	var out Path
	var joints []Point // of the run of lines that the last of out stands for
	for _, s := range p.withoutShort(tol) {
		n := len(out)
		if n > 0 {
			if one := joinSegments(out[n-1], s, joints, tol); one != nil {
				joints = append(joints, out[n-1].End())
				out[n-1] = one
				continue
			}
		}
		out, joints = append(out, s), joints[:0]
	}
	return out
}

// withoutShort returns p without short segments; a line beside one is stretched over the gap, by tol mm at most.
func (p Path) withoutShort(tol float64) Path {
	var out, short Path
	end := Point{} // of the last segment of out before it was stretched
	for _, s := range p {
		long := s.Length() > tol && s.Length() > 0
		n := len(out)
		if !long && n > 0 && len(short) == 0 && s.End().Near(end, tol) {
			if l, ok := out[n-1].(Line); ok {
				out[n-1] = Line{l.A, s.End()}
				continue
			}
		}
		if !long {
			short = append(short, s)
			continue
		}
		out = append(out, bridge(short, s, tol)...)
		end, short = s.End(), nil
	}
	return append(out, short.longerThan(joined)...)
}

// bridge returns s with what is needed of the short segments before it: nothing when s is a line that can start where they do.
func bridge(short Path, s Segment, tol float64) Path {
	if l, ok := s.(Line); ok && len(short) > 0 && short.Start().Near(l.A, tol) {
		return Path{Line{short.Start(), l.B}}
	}
	return append(short.longerThan(joined), s)
}

func (p Path) longerThan(length float64) Path {
	var out Path
	for _, s := range p {
		if s.Length() > length {
			out = append(out, s)
		}
	}
	return out
}

// joinSegments returns the one segment that a and then b make, or nil. The joints within a stay on it.
func joinSegments(a, b Segment, joints []Point, tol float64) Segment {
	switch a := a.(type) {
	case Line:
		if b, ok := b.(Line); ok {
			return joinLines(a, b, joints, tol)
		}
	case Arc:
		if b, ok := b.(Arc); ok && a.Center.Near(b.Center, tol) && math.Abs(a.Radius-b.Radius) <= tol &&
			continues(a.From, a.Sweep, b.From, b.Sweep, tol/a.Radius) {
			a.Sweep += b.Sweep
			return a
		}
	case EllipticArc:
		if b, ok := b.(EllipticArc); ok && a.Center.Near(b.Center, tol) && math.Abs(a.RX-b.RX) <= tol &&
			math.Abs(a.RY-b.RY) <= tol && a.Turn.Near(b.Turn, Angle(tol/math.Max(a.RX, a.RY))) &&
			continues(a.From, a.Sweep, b.From, b.Sweep, tol/math.Max(a.RX, a.RY)) {
			a.Sweep += b.Sweep
			return a
		}
	}
	return nil
}

func joinLines(a, b Line, joints []Point, tol float64) Segment {
	one := Line{a.A, b.B}
	for _, q := range append([]Point{a.B}, joints...) {
		if one.At(one.Nearest(q)).Dist(q) > tol {
			return nil
		}
	}
	return one
}

// continues reports whether the second turn goes on where the first ends, the same way, and both are one turn at most.
func continues(from0, sweep0, from1, sweep1 Angle, tol float64) bool {
	gap := math.Remainder(float64(from0+sweep0-from1), 2*math.Pi)
	return math.Abs(gap) <= tol && sweep0 > 0 == (sweep1 > 0) && (sweep0+sweep1).Abs() <= 2*math.Pi
}
