package trace

import (
	"fmt"
	"math"

	"listel/profile/geom"
)

// A solved scale brings pixels to millimeters, y up.
type solved struct {
	toTrue Mapping
	turned bool       // the map turns the plate upright already
	turn   geom.Angle // else by how much it is to be turned, counter-clockwise, where known
	known  bool       // whether turn is
	alike  bool       // a pixel is taken to be as high as it is wide, since lengths in one direction alone are known
	err    float64    // relative, one standard deviation
	notes  []string
}

const (
	// mostResidual is how far apart lengths of one scale may be, relative, before they contradict each other: paper moves by half
	// a per cent between damp and dry, and a click is off by a pixel or two. Common practice, no source.
	mostResidual = 0.02
	// mostStretch is the most that a scan may be stretched one way more than the other; above it a length is a slip of the pen.
	mostStretch = 0.2
	// leastBase is the least distance between two points that make a scale, px.
	leastBase = 8
)

// solve returns what s says of the plate. bars are the lengths that its bar was measured to have.
func (s Scale) solve(bars []measured) (solved, error) {
	lengths := s.measured()
	lengths = append(lengths, bars...)
	if len(s.Points) < 2 && len(lengths) == 0 {
		return solved{}, fmt.Errorf("%w: give the true length between two points, a scale bar, or points whose places are known", ErrNoScale)
	}
	if err := s.apart(); err != nil {
		return solved{}, err
	}
	if len(s.Points) >= 3 {
		return s.fixed(lengths)
	}
	out, err := stretched(lengths)
	if err != nil {
		return solved{}, err
	}
	out.turn, out.known = s.turn(out.toTrue)
	return out, nil
}

// A measured length is a Length with what it may be off by.
type measured struct {
	Length
	sigma float64 // px, of the distance between its points
	what  string  // for messages
}

// measured returns the lengths of s, one for two fixed points among them.
func (s Scale) measured() []measured {
	var out []measured
	for _, l := range s.Lengths {
		out = append(out, measured{l, click * math.Sqrt2, "length"})
	}
	if len(s.Points) == 2 {
		p, q := s.Points[0], s.Points[1]
		out = append(out, measured{Length{p.Pixel, q.Pixel, p.True.Dist(q.True)}, click * math.Sqrt2, "points"})
	}
	return out
}

// apart refuses lengths that are none and points that coincide, in the picture or in truth.
func (s Scale) apart() error {
	for i, l := range s.Lengths {
		if !(l.MM > 0) || math.IsInf(l.MM, 0) {
			return fmt.Errorf("%w: length %d is %g mm; it must be more than 0", ErrSize, i+1, l.MM)
		}
		if d := l.From.Dist(l.To); !(d >= leastBase) {
			return fmt.Errorf("%w: the points of length %d are %.3g px apart; take them at least %d px apart, better across the plate", ErrCoincide, i+1, d, leastBase)
		}
	}
	for i, p := range s.Points {
		for j, q := range s.Points[:i] {
			if !(p.Pixel.Dist(q.Pixel) >= leastBase) || !(p.True.Dist(q.True) > 0) {
				return fmt.Errorf("%w: points %d and %d", ErrCoincide, j+1, i+1)
			}
		}
	}
	for i, l := range []*Line{s.Level, s.Plumb} {
		if l != nil && !(l.From.Dist(l.To) >= leastBase) {
			return fmt.Errorf("%w: those of the %s line", ErrCoincide, [2]string{"level", "plumb"}[i])
		}
	}
	return nil
}

// fixed solves a scale of three or more known points. An affine map is taken while it fits them as well as they can be
// clicked, since it leaves less to chance; else the plate was photographed aslant.
func (s Scale) fixed(lengths []measured) (solved, error) {
	m, off, ok := fitAffine(s.Points)
	if !ok {
		return solved{}, fmt.Errorf("%w: the %d points; take one to the side of the others", ErrCollinear, len(s.Points))
	}
	out := solved{toTrue: m, turned: true}
	if len(s.Points) >= 4 && off > 2*click {
		p, aslant, ok := fitPerspective(s.Points)
		if !ok && len(s.Points) == 4 {
			return solved{}, fmt.Errorf("%w: three of the four points; take the corners of a rectangle", ErrCollinear)
		}
		if ok && aslant < off {
			out.toTrue, off = p, aslant
			out.notes = append(out.notes, "the plate was photographed aslant; corrected from its known points")
		}
	}
	if lean, stretch := m.shape(s.Points[0].Pixel); len(s.Points) == 3 && (lean > 1*geom.Degree || stretch > 1.03) {
		out.notes = append(out.notes, fmt.Sprintf("by its three known points the plate leans by %.1f degrees and is stretched by %.1f %%; if it was photographed aslant, a fourth point corrects that", lean.Degrees(), 100*(stretch-1)))
	}
	base := s.reach()
	if off > 2 && off > mostResidual*base {
		return solved{}, fmt.Errorf("%w: the known points do not fit each other by %.1f px, %.1f %% of the distance between them", ErrContradict, off, 100*off/base)
	}
	out.err = math.Max(off, click) / base * math.Sqrt(2/float64(len(s.Points)))
	return out, out.agrees(lengths)
}

// reach returns the greatest distance in the picture between two of the known points, px.
func (s Scale) reach() float64 {
	far := 0.0
	for i, p := range s.Points {
		for _, q := range s.Points[:i] {
			far = math.Max(far, p.Pixel.Dist(q.Pixel))
		}
	}
	return far
}

// agrees checks lengths against a map that is known from points.
func (s solved) agrees(lengths []measured) error {
	for i, l := range lengths {
		got := s.toTrue.Apply(l.From).Dist(s.toTrue.Apply(l.To))
		if off := got/l.MM - 1; math.Abs(off) > mostResidual {
			return fmt.Errorf("%w: %s %d is %.2f mm, but the known points make it %.2f mm, %.1f %% off; a plate that was photographed aslant needs four of them", ErrContradict, l.what, i+1, l.MM, got, 100*off)
		}
	}
	return nil
}

// stretched solves a scale of lengths alone: one factor across and one up where their directions tell them apart, else one for
// both. The squares of the factors are linear in the squares of the lengths.
func stretched(lengths []measured) (solved, error) {
	kx, ky, err := factors(lengths)
	if err != nil {
		return solved{}, err
	}
	out := solved{toTrue: affineMapping(geom.Scaling(kx, -ky)), alike: kx == ky}
	worst, sum, weight := 0.0, 0.0, 0.0
	for _, l := range lengths {
		d := l.To.Sub(l.From)
		off := math.Hypot(kx*d.X, ky*d.Y)/l.MM - 1
		if math.Abs(off) > math.Abs(worst) {
			worst = off
		}
		sum += off * off
		weight += d.Dot(d) / (l.sigma * l.sigma)
	}
	stretch := kx/ky - 1
	if math.Abs(worst) > mostResidual || math.Abs(stretch) > mostStretch {
		return solved{}, contradiction(lengths)
	}
	out.err = 1 / math.Sqrt(weight)
	if free := len(lengths) - 1; free > 0 && stretch == 0 {
		out.err = math.Max(out.err, math.Sqrt(sum/float64(free)/float64(len(lengths))))
	} else if free > 1 {
		out.err = math.Max(out.err, math.Sqrt(sum/float64(free-1)/float64(len(lengths))))
	}
	if stretch != 0 {
		out.err *= math.Sqrt2 // two factors out of the same lengths
	}
	if len(lengths) > 1 && stretch == 0 {
		out.notes = append(out.notes, fmt.Sprintf("the %d lengths of its scale agree within %.2f %%", len(lengths), 100*math.Abs(worst)))
	}
	if math.Abs(stretch) > 0.002 {
		out.notes = append(out.notes, fmt.Sprintf("the scan is stretched by %+.1f %% across against up; corrected", 100*(1/(1+stretch)-1)))
	}
	return out, nil
}

// factors returns the millimeters in a pixel across and up, equal when the lengths lie too much in one direction to tell.
func factors(lengths []measured) (kx, ky float64, err error) {
	var both, one []equation
	var across, up float64
	for _, l := range lengths {
		d := l.To.Sub(l.From)
		r := d.Norm()
		w := r * r / (l.sigma * l.sigma) / (l.MM * l.MM * l.MM * l.MM) // one over the variance of the squared length, to a factor
		both = append(both, equation{[]float64{d.X * d.X, d.Y * d.Y}, l.MM * l.MM, w})
		one = append(one, equation{[]float64{r * r}, l.MM * l.MM, w})
		c := d.X * d.X / (r * r)
		across, up = math.Max(across, c), math.Max(up, 1-c)
	}
	if across > 0.75 && up > 0.75 { // within 30 degrees of level, and of plumb
		if x, _, ok := leastSquares(both, 2); ok && x[0] > 0 && x[1] > 0 {
			return math.Sqrt(x[0]), math.Sqrt(x[1]), nil
		}
		return 0, 0, contradiction(lengths)
	}
	x, _, ok := leastSquares(one, 1)
	if !ok || !(x[0] > 0) {
		return 0, 0, contradiction(lengths)
	}
	k := math.Sqrt(x[0])
	return k, k, nil
}

// contradiction says which two lengths are furthest from each other.
func contradiction(lengths []measured) error {
	lo, hi := 0, 0
	per := func(i int) float64 { return lengths[i].MM / lengths[i].From.Dist(lengths[i].To) }
	for i := range lengths {
		if per(i) < per(lo) {
			lo = i
		}
		if per(i) > per(hi) {
			hi = i
		}
	}
	return fmt.Errorf("%w: by %s %d a pixel is %.5f mm, by %s %d it is %.5f mm, %.1f %% more", ErrContradict,
		lengths[lo].what, lo+1, per(lo), lengths[hi].what, hi+1, per(hi), 100*(per(hi)/per(lo)-1))
}

// turn returns how far the plate is to be turned, counter-clockwise and y up, for its level and plumb lines to be so. It reports
// false when s has neither.
func (s Scale) turn(toTrue Mapping) (geom.Angle, bool) {
	var sum, weight float64
	add := func(from, to geom.Point, truth geom.Angle, half bool) {
		d := toTrue.Apply(to).Sub(toTrue.Apply(from))
		off := float64(truth - d.Angle())
		if half { // a line has no sense: the nearer way
			off = math.Remainder(off, math.Pi)
		} else {
			off = math.Remainder(off, 2*math.Pi)
		}
		sum, weight = sum+off*d.Dot(d), weight+d.Dot(d)
	}
	if s.Level != nil {
		add(s.Level.From, s.Level.To, 0, true)
	}
	if s.Plumb != nil {
		add(s.Plumb.From, s.Plumb.To, 90*geom.Degree, true)
	}
	if len(s.Points) == 2 {
		p, q := s.Points[0], s.Points[1]
		add(p.Pixel, q.Pixel, q.True.Sub(p.True).Angle(), false)
	}
	if weight == 0 {
		return 0, false
	}
	return geom.Angle(sum / weight), true
}
