package scraper

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// Sizes of the steel beyond its edge, mm: common practice, no source.
const (
	holdHeight   = 32.0 // of steel over the highest point of the edge, to hold it by
	leastSteel   = 32.0 // wide, where the greatest width allows it
	earWidth     = 5.0  // of steel at each side of the edge
	leastEar     = 2.0
	earClearance = 3.0  // over the wood under an ear
	earReach     = 25.0 // over the end of the edge: an ear higher than that is left off
)

// relief is how much the side of a blade leans away from a wall beside it.
const relief = 3 * geom.Degree

// steelOf returns the closed outline of a blade round an edge as filed, from left to right, and its steel. Walls says at which ends, left and
// right, wood rises beside the blade.
func (w *view) steelOf(edge geom.Path, depth, maxWidth float64, walls [2]bool) (geom.Path, Steel) {
	b := edge.Bounds()
	ear := (math.Min(maxWidth, math.Max(b.Width()+2*earWidth, leastSteel)) - b.Width()) / 2
	ends := [2]geom.Point{edge.Start(), edge.End()}
	var shoulders [2]float64 // v of the ears' lower edges, NaN without
	top, shoulder := b.Max.Y, math.Inf(1)
	for i, p := range ends {
		shoulders[i] = math.NaN()
		if ear < leastEar {
			continue
		}
		u0, u1 := p.X, p.X+ear+1
		if i == 0 {
			u0, u1 = p.X-ear-1, p.X
		}
		level := math.Max(w.highest(u0, u1)*depth, p.Y) + earClearance
		if level-p.Y > earReach {
			continue
		}
		shoulders[i] = level
		top, shoulder = math.Max(top, level), math.Min(shoulder, level)
	}
	top += holdHeight
	out := append(geom.Path{}, edge...)
	right := w.side(ends[1], 1, ear, top, shoulders[1], depth, walls[1])
	left := w.side(ends[0], -1, ear, top, shoulders[0], depth, walls[0])
	slices.Reverse(left)
	pts := slices.Concat(ends[1:], right, left, ends[:1])
	out = append(out, geom.Polyline(pts...)...)
	if walls != [2]bool{} && len(out.SelfCrossings(1e-6)) > 0 {
		return w.steelOf(edge, depth, maxWidth, [2]bool{})
	}
	o := out.Bounds()
	st := Steel{Width: o.Width(), Height: o.Height(), Center: o.Center().X}
	if !math.IsInf(shoulder, 1) {
		st.Shoulder, st.Ears = shoulder, true
	}
	return out, st
}

// side returns the corners of one side of a blade from the end p of its edge, not included, up to the top; dir is 1 at the right.
func (w *view) side(p geom.Point, dir, ear, top, shoulder, depth float64, wall bool) []geom.Point {
	var out []geom.Point
	x := p.X
	if wall {
		rise := top
		if !math.IsNaN(shoulder) {
			rise = shoulder
		}
		h := math.Min(w.highest(math.Min(p.X, p.X+dir), math.Max(p.X, p.X+dir))*depth+1, rise) - p.Y
		if h > 0 {
			x -= dir * h * relief.Tan()
			out = append(out, geom.Pt(x, p.Y+h))
		}
	}
	if math.IsNaN(shoulder) {
		return append(out, geom.Pt(x, top))
	}
	if len(out) == 0 || out[0].Y < shoulder-smallestFeature {
		out = append(out, geom.Pt(x, shoulder))
	}
	return append(out, geom.Pt(p.X+dir*ear, shoulder), geom.Pt(p.X+dir*ear, top))
}
