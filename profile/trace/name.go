package trace

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A sized is a reading whose sizes are in one unit, millimeters or parts, ready to be named.
type sized struct {
	*reading
	theta []float64                    // in the unit
	unit  float64                      // mm
	size  func(v float64) profile.Size // of the unit
	sigma []float64                    // mm, standard deviation of each unknown
	units measure.Units                // in which lengths are written
	ahead float64                      // mm, how far the ground stands out before the first member's start: a bead sunk flush with it
}

// A named is an element of the profile with what is known of its sizes.
type named struct {
	entry profile.Entry
	sizes []Uncertain
}

// alike is the difference in mm up to which sizes of one member that should be the same are read as the same: quirks on both sides, reeds.
const alike = 0.15

func (s *sized) mm(k int) float64 { return s.theta[s.parts[k].at] * s.unit }

// set returns the level step before part k, in mm, 0 where there is none.
func (s *sized) set(k int) float64 {
	if k >= len(s.parts) || s.parts[k].step < 0 {
		return 0
	}
	return s.theta[s.parts[k].step] * s.unit
}

func (s *sized) is(k int, f form) bool {
	return k >= 0 && k < len(s.parts) && s.parts[k].shape.form == f
}

// flatAfter reports whether part k is a flat that goes on from the part before without a step.
func (s *sized) flatAfter(k int) bool { return s.is(k, flat) && s.parts[k].step < 0 }

// elements names all parts, from the foot upward.
func (s *sized) elements() []named {
	var out []named
	owed := 0.0 // mm, a step that a member has returned to its start by itself
	for k := 0; k < len(s.parts); {
		n, took, left := s.element(k, owed)
		out, owed = append(out, n), left
		k += took
	}
	return out
}

// element names the member that starts at part k: what it is, how many parts it takes, and the step after it that it makes by itself.
func (s *sized) element(k int, owed float64) (n named, took int, left float64) {
	if n, took, left, ok := s.quirkedBead(k, owed); ok {
		return n, took, left
	}
	if n, took, ok := s.row(k, owed); ok {
		return n, took, 0
	}
	if n, left, ok := s.quirk(k, owed); ok {
		return n, 1, left
	}
	if n, took, ok := s.thumb(k, owed); ok {
		return n, took, 0
	}
	return s.single(k, owed), 1, 0
}

// newNamed starts an element with its set, less what the member before owes.
func (s *sized) newNamed(kind profile.Kind, k int, owed float64) named {
	n := named{entry: profile.Entry{Kind: kind}}
	if s.parts[k].step >= 0 {
		if v := s.set(k) - owed; math.Abs(v) > alike || owed == 0 && math.Abs(v) > 1e-9 {
			n.entry.Set = s.size(v / s.unit)
			n.add("set", v, s.sigma[s.parts[k].step])
		}
	}
	if d := s.parts[k].drip; d >= 0 {
		width, inset := s.theta[d], s.theta[d+2]
		if v := s.set(k) / s.unit; inset+width > v-2*alike/s.unit { // it goes up from the fillet below
			inset = v - width
		}
		n.entry.Drip = &profile.Drip{Width: s.size(width), Depth: s.size(s.theta[d+1]), Inset: s.size(inset)}
		for i, key := range []string{"drip.width", "drip.depth", "drip.inset"} {
			n.add(key, s.theta[d+i]*s.unit, s.sigma[d+i])
		}
	}
	return n
}

func (n *named) add(key string, mm, sigma float64) {
	n.sizes = append(n.sizes, Uncertain{Kind: n.entry.Kind, Key: key, MM: mm, Error: sigma})
}

// height sets the height, in mm; sigma is that of unknown i.
func (s *sized) height(n *named, mm float64, i int) {
	n.entry.Height = s.size(mm / s.unit)
	n.add("height", mm, s.sigma[i])
}

// single names a part that is a member by itself.
func (s *sized) single(k int, owed float64) named {
	p := s.parts[k]
	n := s.newNamed(s.kind(k), k, owed)
	own := s.theta[p.at : p.at+p.shape.own()]
	if n.entry.Kind == profile.KindCurve {
		n.entry.Points = p.shape.curvePoints(own, s.size)
		n.add("height", own[0]*s.unit, s.sigma[p.at])
		n.add("projection", own[1]*s.unit, s.sigma[p.at+1])
		return n
	}
	s.height(&n, own[0]*s.unit, p.at)
	if n.entry.Kind == profile.KindFlutes {
		n.entry.Count = 1
		return n
	}
	factor, tied := p.shape.form.tie()
	if tied && factor == 0 {
		return n
	}
	run := p.shape.run(own)
	// A run that follows from the height is left out, so that the two cannot part.
	scotia := n.entry.Kind == profile.KindScotia
	if !(tied && (p.shape.sign > 0) != scotia) {
		n.entry.Projection = s.size(run)
	}
	if !tied {
		n.add("projection", run*s.unit, s.sigma[p.at+1])
	}
	if p.shape.form.full() || p.shape.form.ofRadius() {
		s.radius(&n, p, own)
		return n
	}
	if c := p.shape.form.curve(); n.entry.Kind != profile.KindConge && len(n.entry.Kind.Constructions()) > 0 && c != n.entry.Kind.Constructions()[0] {
		n.entry.Curve = c
	}
	return n
}

// radius sets the radius of a cyma: no less than its rise and run as they are written allow.
func (s *sized) radius(n *named, p part, own []float64) {
	r := grained(profile.LeastCymaRadius(own[0], own[1]), s.units, func(n float64) float64 { return math.Ceil(n - 1e-9) })
	if p.shape.form.ofRadius() && own[2] > r {
		r = own[2]
		n.add("radius", r*s.unit, s.sigma[p.at+2])
	}
	n.entry.Radius = s.size(r)
}

// The words of the trade for members that draw the same; common practice, no source.
const (
	broad      = 12.0 // mm, from which on a flat is a fascia
	roundTorus = 9.0  // mm, from which on a half round is a torus
	smallCove  = 6.5  // mm, up to which a cove that fairs a fillet into a face is a conge
)

// kind returns the name of a part that is a member by itself.
func (s *sized) kind(k int) profile.Kind {
	p, h := s.parts[k], s.mm(k)
	switch p.shape.form {
	case flat:
		switch {
		case p.drip >= 0, h > broad/2 && s.set(k) > h/2:
			return profile.KindCorona
		case h >= broad:
			return profile.KindFascia
		}
		return profile.KindFillet
	case slope:
		return profile.KindChamfer
	case ovoloQuadrant, ovoloArc, ovoloEllipse:
		return profile.KindOvolo
	case coveQuadrant:
		if h <= smallCove && s.fairs(k) {
			return profile.KindConge
		}
		return profile.KindCove
	case coveArc, coveEllipse:
		return profile.KindCove
	case halfRound:
		switch {
		case h >= roundTorus:
			return profile.KindTorus
		case s.is(k-1, flat) && s.parts[k].step < 0 && s.flatAfter(k+1):
			return profile.KindAstragal
		}
		return profile.KindBead
	case halfHollow:
		return profile.KindFlutes
	case rectaFlat, rectaBold, rectaEllipse, rectaFull, rectaRadius:
		return profile.KindCymaRecta
	case reversaFlat, reversaBold, reversaEllipse, reversaFull, reversaRadius:
		return profile.KindCymaReversa
	case scotiaThirds, scotiaSevenths:
		return profile.KindScotia
	}
	return profile.KindCurve
}

// fairs reports whether a quadrant cove runs from the edge of a fillet no higher than itself into a broader face.
func (s *sized) fairs(k int) bool {
	fillet, face := k-1, k+1
	if s.parts[k].shape.sign > 0 {
		fillet, face = face, fillet
	}
	if !s.is(fillet, flat) || !s.is(face, flat) {
		return false
	}
	return s.parts[max(k, k+1)].step < 0 && s.parts[k].step < 0 && s.mm(fillet) <= 1.5*s.mm(k) && s.mm(face) > 2*s.mm(k)
}

// curvePoints returns a free shape as the points of a curve.
func (s shape) curvePoints(own []float64, size func(float64) profile.Size) []profile.CurvePoint {
	var out []profile.CurvePoint
	for _, seg := range s.draw(geom.Point{}, own) {
		to := seg.End()
		p := profile.CurvePoint{X: size(to.X), Y: size(to.Y)}
		if isArc(seg) {
			mid := seg.At(0.5)
			p.Through = &[2]profile.Size{size(mid.X), size(mid.Y)}
		}
		out = append(out, p)
	}
	return out
}
