package miter

import (
	"math"

	"listel/profile/geom"
)

// A joint is one side of a miter, as the search for a groove's place sees it: all in the coordinates of that run's own section,
// which is the profile's with x multiplied by k.
//
// A groove or a hole goes into the wood square to the miter face. Seen along the run it therefore moves sideways as it goes deeper: toward the
// molded face at an outside corner, toward the back at an inside one. The distance of a point from the surface of a molding is its
// distance from the outline of the section, since the surface runs on along the piece.
type joint struct {
	k       float64
	slope   float64      // ds/dx of the cut, positive at outside corners
	outline []geom.Point // of this run's section
}

// stretch returns by how much the miter face is longer across than the section.
func (j joint) stretch() float64 { return math.Hypot(1, j.slope) }

// shift returns how far something depth deep has moved in x at its bottom.
func (j joint) shift(depth float64) float64 { return depth * j.slope / j.stretch() }

// The places of grooves and holes are sought on a coarse outline, and the wood around them is measured on a fine one.
const (
	searchTol = 0.05  // mm
	coverTol  = 0.002 // mm
)

func clamp(t float64) float64 { return max(0, min(1, t)) }

// joints returns the different sides of the miters between runs; outline points lie within tol of the section.
func (m *fitting) joints(tol float64) []joint {
	base := m.profile.Outline.Flatten(tol)
	var out []joint
	for _, r := range m.runs {
		for _, e := range []runEnd{r.left, r.right} {
			if e.kind != CutMiter || r.ret || e.meets == returnName(LeftHand) || e.meets == returnName(RightHand) {
				continue
			}
			j := joint{k: r.section.Projection / m.profile.Projection, slope: e.slope}
			known := false
			for _, o := range out {
				known = known || near(o.k, j.k, 1e-9) && near(o.slope, j.slope, 1e-9)
			}
			if known {
				continue
			}
			j.outline = make([]geom.Point, len(base))
			for i, p := range base {
				j.outline[i] = geom.Pt(p.X*j.k, p.Y)
			}
			out = append(out, j)
		}
	}
	return out
}

// block is an upright rectangle in the coordinates of a section.
type block = geom.Rect

// rectDistance returns the distance between a rectangle and the line from a to b, 0 when they share a point.
func rectDistance(r block, a, b geom.Point) float64 {
	if r.Contains(a) || r.Contains(b) {
		return 0
	}
	corners := [4]geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
	least := math.Inf(1)
	for i, c := range corners {
		if cross(a, b, c, corners[(i+1)%4]) {
			return 0
		}
		least = min(least, pointLine(c, a, b))
	}
	for _, p := range []geom.Point{a, b} {
		dx := max(0, max(r.Min.X-p.X, p.X-r.Max.X))
		dy := max(0, max(r.Min.Y-p.Y, p.Y-r.Max.Y))
		least = min(least, math.Hypot(dx, dy))
	}
	return least
}

// pointLine returns the distance from p to the line from a to b.
func pointLine(p, a, b geom.Point) float64 { return math.Sqrt(pointLine2(p, a, b)) }

// pointLine2 returns its square.
func pointLine2(p, a, b geom.Point) float64 {
	u, v := b.Sub(a), p.Sub(a)
	if l := u.Dot(u); l > 0 {
		v = v.Sub(u.Mul(clamp(v.Dot(u) / l)))
	}
	return v.Dot(v)
}

// within reports whether p lies in the polygon.
func within(pts []geom.Point, p geom.Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
