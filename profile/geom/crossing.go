package geom

import (
	"cmp"
	"math"
	"slices"
)

// A Crossing is a point that two segments share: TA and TB are its parameters on them.
type Crossing struct {
	TA, TB float64
	At     Point
}

// Crossings returns the points that a and b share, in the order of a. Touching counts, up to 1e-9 mm apart; points
// nearer than 1e-6 mm to each other are one. Segments that run together give the ends of what they share. Lines and
// arcs are solved in closed form, two elliptic arcs by iteration to rounding.
func Crossings(a, b Segment) []Crossing {
	if !a.Bounds().Expand(touch).Overlaps(b.Bounds()) {
		return nil
	}
	return crossings(a, b)
}

// crossings is Crossings for segments whose bounds are known to overlap.
func crossings(a, b Segment) []Crossing {
	f := finder{a: a, b: b}
	f.tryEnds()
	switch la, lb := asLine(a), asLine(b); {
	case la != nil && lb != nil:
		f.lines(*la, *lb)
	case la != nil:
		f.lineAndConic(*la, asEllipse(b))
	case lb != nil:
		f.conicAndLine(asEllipse(a), *lb)
	default:
		f.conics()
	}
	slices.SortFunc(f.found, func(x, y Crossing) int { return cmp.Compare(x.TA, y.TA) })
	return f.found
}

func asLine(s Segment) *Line {
	if l, ok := s.(Line); ok {
		return &l
	}
	return nil
}

// asEllipse returns an arc of either kind as an elliptic one with the same parameter.
func asEllipse(s Segment) EllipticArc {
	if c, ok := s.(Arc); ok {
		return c.ellipse()
	}
	return s.(EllipticArc)
}

// A finder collects the crossings of a and b.
type finder struct {
	a, b  Segment
	found []Crossing
}

// try adds the place with these parameters when the segments meet there and it is not known yet.
func (f *finder) try(ta, tb float64) {
	ta, tb = clampTo(ta, 0, 1), clampTo(tb, 0, 1)
	at := f.a.At(ta)
	if !at.Near(f.b.At(tb), touch) {
		return
	}
	for _, c := range f.found {
		if c.At.Near(at, joined) {
			return
		}
	}
	f.found = append(f.found, Crossing{ta, tb, at})
}

// tryEnds tries the ends of each segment on the other. They are all there is to find where the two run together.
func (f *finder) tryEnds() {
	for _, t := range [2]float64{0, 1} {
		if q := f.a.At(t); f.b.clear(q) <= touch {
			f.try(t, f.b.Nearest(q))
		}
		if q := f.b.At(t); f.a.clear(q) <= touch {
			f.try(f.a.Nearest(q), t)
		}
	}
}

func (f *finder) lines(a, b Line) {
	u, v, w := a.B.Sub(a.A), b.B.Sub(b.A), b.A.Sub(a.A)
	det := u.Cross(v)
	f.try(w.Cross(v)/det, w.Cross(u)/det)
}

func (f *finder) lineAndConic(a Line, b EllipticArc) {
	for _, t := range meetLine(b, a) {
		f.try(a.Nearest(b.At(t)), t)
	}
}

func (f *finder) conicAndLine(a EllipticArc, b Line) {
	for _, t := range meetLine(a, b) {
		f.try(t, b.Nearest(a.At(t)))
	}
}

// meetLine returns the parameters at which e meets the line through l, a single one when it touches it.
func meetLine(e EllipticArc, l Line) []float64 {
	n := l.Tangent(0).Left()
	c := n.Dot(l.A)
	mid, amp, phase := e.wave(n)
	if math.Abs(amp-math.Abs(c-mid)) > touch {
		return e.levels(n, c)
	}
	if c < mid {
		phase += math.Pi
	}
	if t := turnParameter(e.From, e.Sweep, phase); t <= 1 {
		return []float64{t}
	}
	return nil
}

func (f *finder) conics() {
	ca, okA := f.a.(Arc)
	cb, okB := f.b.(Arc)
	if okA && okB {
		for _, q := range meetCircles(ca, cb) {
			f.try(ca.Nearest(q), cb.Nearest(q))
		}
		return
	}
	f.ellipses(asEllipse(f.a), asEllipse(f.b))
}

// meetCircles returns the points that the circles of a and b share: none when they are the same or apart, a single
// one when they touch.
func meetCircles(a, b Arc) []Point {
	v := b.Center.Sub(a.Center)
	d := v.Norm()
	if d <= touch || d > a.Radius+b.Radius+touch || d < math.Abs(a.Radius-b.Radius)-touch {
		return nil
	}
	along := v.Mul(1 / d)
	x := (d + (a.Radius-b.Radius)*(a.Radius+b.Radius)/d) / 2
	outside := d >= a.Radius+b.Radius-touch
	inside := d <= math.Abs(a.Radius-b.Radius)+touch
	if outside || inside {
		return []Point{a.Center.Add(along.Mul(math.Copysign(a.Radius, x)))}
	}
	y := along.Left().Mul(math.Sqrt(math.Max(0, (a.Radius-x)*(a.Radius+x))))
	foot := a.Center.Add(along.Mul(x))
	return []Point{foot.Add(y), foot.Sub(y)}
}
