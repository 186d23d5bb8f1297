package cutter

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// A strip of wood under thinStrip mm thick, at least leastStrip mm wide and slender, is apt to break where it bears. Common practice, no source.
const (
	thinStrip  = 25.4 / 8
	leastStrip = 2.5
	slender    = 2 // times its thickness
)

// strip returns how thick, in mm, the widest strip of wood is that bears on a side of the blank: wood that is thin square to the face. It is 0 where none is
// slender enough to break. Where the strip tapers, three quarters of it are no thicker.
func (s *search) strip(wood *block, i int) float64 {
	f := s.t.sides[i]
	n := int(math.Ceil(f.a.Dist(f.b) / faceStep))
	var run, widest []float64
	for k := range n {
		t := s.thickness(wood, f.a.Lerp(f.b, (float64(k)+0.5)/float64(n)), f.n)
		if t == 0 || t >= thinStrip {
			run = nil
			continue
		}
		if run = append(run, t); len(run) > len(widest) {
			widest = run
		}
	}
	if len(widest) == 0 {
		return 0
	}
	widest = slices.Clone(widest)
	slices.Sort(widest)
	t, w := widest[len(widest)*3/4], float64(len(widest))*faceStep
	if w < leastStrip || w < slender*t {
		return 0
	}
	return t
}

// thickness returns how far, in mm, the wood goes in from p on a face with the normal n: 0 where none is, thinStrip where it is at least that.
func (s *search) thickness(wood *block, p, n geom.Point) float64 {
	const step = 0.05
	for d := step; d < thinStrip; d += step {
		if !wood.stands(p.Sub(n.Mul(d))) {
			return d - step
		}
	}
	return thinStrip
}
