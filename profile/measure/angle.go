package measure

import (
	"math"
	"math/big"
	"slices"

	"listel/profile/geom"
)

const wantAngle = "it like 38deg, 38°, 38, 38° 30' or, as a slope, 1 in 12"

// maxDegrees bounds angles either side of 0: a full turn.
const maxDegrees = 360

// ParseAngle reads an angle within a full turn either side of 0: degrees with or without their sign (38deg,
// 38 1/2°, 38.5), degrees with minutes and seconds (38° 30' 15", 38deg 30min), or a slope as rise in run (1 in 12,
// 1:12), which is the angle whose tangent is their ratio. What is no angle gives a *ValueError.
func ParseAngle(text string) (geom.Angle, error) {
	s, why := newScanner(text)
	if why == "" {
		var a geom.Angle
		if a, why = s.angle(); why == "" {
			return a, nil
		}
	}
	return 0, &ValueError{What: "angle", Text: text, Reason: why, Want: wantAngle}
}

// angle reads a whole text as an angle.
func (s *scanner) angle() (geom.Angle, string) {
	negative := s.sign()
	n, why := s.number()
	if why != "" {
		return 0, why
	}
	w := s.word()
	if w == "in" || w == "" && s.take(':') {
		return s.slope(n, negative)
	}
	deg := n
	switch w {
	case "", "°", "deg", "degree", "degrees":
	default:
		return 0, "the unit " + quote(w) + " is not known"
	}
	if w != "" && !s.done() {
		if deg, why = s.sixtieths(deg); why != "" {
			return 0, why
		}
	}
	if !s.done() {
		return 0, quote(s.rest()) + " is left over"
	}
	if deg.Cmp(big.NewRat(maxDegrees, 1)) > 0 {
		return 0, "it is over the limit of 360 degrees"
	}
	return signed(radians(deg), negative), ""
}

// piOver180 is a degree in radians to more digits than a float64 holds.
const piOver180 = "0.01745329251994329576923690768488612713"

// radians returns the Angle nearest to deg degrees: multiplied before it is rounded, so that 90 degrees read are
// 90*geom.Degree to the last bit.
func radians(deg *big.Rat) geom.Angle {
	r, _ := new(big.Rat).SetString(piOver180)
	f, _ := r.Mul(r, deg).Float64()
	return geom.Angle(f)
}

// sixty are the parts of a degree.
var sixty = [...]struct {
	name  string
	words []string
	in    int64 // in a degree
}{
	{"minutes", []string{"'", "min", "minute", "minutes"}, 60},
	{"seconds", []string{`"`, "sec", "second", "seconds"}, 3600},
}

// sixtieths reads the minutes and seconds that follow whole degrees and adds them.
func (s *scanner) sixtieths(deg *big.Rat) (*big.Rat, string) {
	sum := new(big.Rat).Set(deg)
	last := deg
	for i, part := range sixty {
		if i > 0 && s.done() {
			break
		}
		if !last.IsInt() {
			return nil, "only the last of degrees, minutes and seconds may have a fraction"
		}
		n, why := s.number()
		if why != "" {
			return nil, why
		}
		if w := s.word(); !slices.Contains(part.words, w) {
			return nil, "the sign for " + part.name + " is missing"
		}
		if n.Cmp(big.NewRat(60, 1)) >= 0 {
			return nil, "it has 60 or more " + part.name
		}
		sum.Add(sum, new(big.Rat).Mul(n, big.NewRat(1, part.in)))
		last = n
	}
	return sum, ""
}

// slope reads the run behind a rise.
func (s *scanner) slope(rise *big.Rat, negative bool) (geom.Angle, string) {
	run, why := s.number()
	switch {
	case why != "":
		return 0, why
	case !s.done():
		return 0, quote(s.rest()) + " is left over"
	case run.Sign() == 0:
		return 0, "the run of the slope is 0"
	}
	up, _ := rise.Float64()
	along, _ := run.Float64()
	return signed(geom.Angle(math.Atan2(up, along)), negative), ""
}

// signed returns a, negated when negative; never -0.
func signed(a geom.Angle, negative bool) geom.Angle {
	if negative && a != 0 {
		return -a
	}
	return a
}
