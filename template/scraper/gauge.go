package scraper

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A Gauge is a plate to try the work with, in the section's coordinates, seen from the left end of the molding.
type Gauge struct {
	Hand     Hand      // LeftHand; RightHand when mirrored
	Negative bool      // the hollow of the face, held against it; else the section itself, laid on its end
	Outline  geom.Path // closed, counter-clockwise
	Edge     geom.Path // the part of it that is tried: the face
}

// Sizes of negative gauges, mm: common practice, no source.
const (
	gaugeBack = 15.0 // of plate beyond the farthest point of the face
	gaugeLip  = 10.0 // long and thick, of the hook under the foot
)

// PositiveGauge returns the section itself as a gauge.
func PositiveGauge(s profile.Section) Gauge {
	return Gauge{Hand: LeftHand, Outline: s.Outline, Edge: s.Face}
}

// NegativeGauge returns the gauge that fits over the face, with a hook under the foot that sets its height. Where the face is undercut it goes on
// from the end of the molding. It serves a section of any run, raking ones and the face of a miter among them.
func NegativeGauge(s profile.Section) Gauge {
	foot, top := s.Face.Start(), s.Face.End()
	under, over := s.Back[len(s.Back)-1], s.Back[0]
	in, out := under.Tangent(1), over.Tangent(0).Mul(-1) // toward the face along the foot, and outward along the top
	down := geom.Pt(in.Y, -in.X)
	lip := math.Min(gaugeLip, 0.8*under.Length())
	var b, c float64
	for _, p := range s.Face.Flatten(flattening) {
		b, c = math.Max(b, p.Sub(foot).Dot(in)), math.Max(c, p.Sub(top).Dot(out))
	}
	hook := foot.Sub(in.Mul(lip))
	edge := s.Face.Reverse()
	outline := append(append(geom.Path{}, edge...), geom.Polyline(foot, hook, hook.Add(down.Mul(gaugeLip)),
		foot.Add(in.Mul(b+gaugeBack)).Add(down.Mul(gaugeLip)), top.Add(out.Mul(c+gaugeBack)), top)...)
	return Gauge{Hand: LeftHand, Negative: true, Outline: outline, Edge: s.Face}
}

// Mirrored returns the gauge for the other end of the molding: the same turned over.
func (g Gauge) Mirrored() Gauge {
	out := g
	out.Hand = LeftHand
	if g.Hand == LeftHand {
		out.Hand = RightHand
	}
	n := 0
	if g.Negative {
		n = len(g.Edge)
	}
	out.Outline, out.Edge = mirrored(g.Outline, n), g.Edge.MirrorX()
	return out
}
