package miter

import (
	"fmt"
	"math"
	"slices"

	"listel/profile/geom"
)

// A joint is one side of a miter, as the search for the place of a groove or a hole sees it. Places are sought in the coordinates of
// the profile; the joint's own section is the profile under a map, which narrows it or makes it rake.
//
// A groove or a hole goes into the wood square to the miter face. Seen along the run it therefore moves sideways as it goes deeper: toward the
// molded face at an outside corner, toward the back at an inside one, and up or down too where the run rakes. The distance of a point from
// the surface of a molding is its distance from the outline of the section, since the surface runs on along the piece.
type joint struct {
	from  geom.Affine // from the profile to the joint's section
	slope float64     // of the miter over the level plan, positive at outside corners
	in    geom.Point  // how far something sunk 1 mm into the face has moved in the joint's section
	ret   bool        // the piece is a return, cut square at its back: as long as its section is deep at that place
}

// A jointPlace names the miters of a molding that take a spline or a pin all alike, or none of them.
type jointPlace string

// The places of joints, in the order in which they are served.
const (
	atRuns       jointPlace = "the corners between runs"
	atPeak       jointPlace = "the peak"
	atReturns    jointPlace = "the returned corners"
	atTopReturns jointPlace = "the top returns"
)

// placeOf returns the place of one end of a run, false where no joint can be.
func placeOf(r *run, h Hand) (jointPlace, bool) {
	e := r.end(h)
	peak := e.kind == CutPlumb && (e.meets == leftRake || e.meets == rightRake)
	switch {
	case peak:
		return atPeak, true
	case e.kind != CutMiter:
		return "", false
	case r.name == leftTopReturn || r.name == rightTopReturn || e.meets == leftTopReturn || e.meets == rightTopReturn:
		return atTopReturns, true
	case r.ret || e.meets == leftReturn || e.meets == rightReturn:
		return atReturns, true
	}
	return atRuns, true
}

// jointPlaces returns the places that the molding has.
func (m *fitting) jointPlaces() []jointPlace {
	has := map[jointPlace]bool{}
	for _, r := range m.runs {
		for _, h := range []Hand{LeftHand, RightHand} {
			if p, ok := placeOf(r, h); ok {
				has[p] = true
			}
		}
	}
	var out []jointPlace
	for _, p := range []jointPlace{atRuns, atPeak, atReturns, atTopReturns} {
		if has[p] {
			out = append(out, p)
		}
	}
	return out
}

// serve tries the places of the molding one after the other, each with those that could be served before it, and returns those that can be: all
// or some. try reports whether what is sunk into the miters there has a place in all of them.
func (m *fitting) serve(try func([]jointPlace) bool) (served, left []jointPlace) {
	for _, p := range m.jointPlaces() {
		if all := append(slices.Clone(served), p); try(all) {
			served = all
		} else if p == atRuns {
			return nil, nil // the file asks for these above all
		} else {
			left = append(left, p)
		}
	}
	return served, left
}

// leftOut notes the places that what is sunk into the miters is not sunk into.
func (m *fitting) leftOut(what string, left []jointPlace) {
	for _, p := range left {
		m.out.Notes = append(m.out.Notes, fmt.Sprintf("no %s at %s: the wood there has no room for it beside the others; glue them", what, p))
	}
}

// across returns what 1 mm on the miter face, square to a line there, is in the joint's section; along is the line's direction in the section.
func (j joint) across(along geom.Point) geom.Point {
	// A step d of the section is d and g.d along the piece on a face that slopes by g, so that the face measures with I + g g'.
	g := j.in.Mul(1 / math.Sqrt(1-j.in.Dot(j.in)))
	n := along.Add(g.Mul(g.Dot(along))).Left()
	return n.Mul(1 / math.Hypot(n.Norm(), g.Dot(n)))
}

// behind returns how much of a return is left behind something depth deep at x out from its back, in mm.
func (j joint) behind(x, depth float64) float64 { return x - depth/j.stretch() }

// stretch returns by how much the miter face is longer across than the section.
func (j joint) stretch() float64 { return math.Hypot(1, j.slope) }

// shift returns in the profile's coordinates how far something depth deep has moved at its bottom.
func (j joint) shift(depth float64) geom.Point {
	return j.from.Inverse().ApplyVector(j.in.Mul(depth))
}

// least and most return by how much the joint's section is at least and at most larger than the profile, in any direction.
func (j joint) least() float64 { return math.Abs(j.from.Det()) / j.most() }
func (j joint) most() float64 {
	a, b, c, d := j.from.A, j.from.B, j.from.C, j.from.D
	sum, det := a*a+b*b+c*c+d*d, j.from.Det()
	return math.Sqrt((sum + math.Sqrt(max(0, sum*sum-4*det*det))) / 2) // the greater singular value
}

// The places of grooves and holes are sought on a coarse outline, and the wood around them is measured on a fine one.
const (
	searchTol = 0.05  // mm
	coverTol  = 0.002 // mm
)

func clamp(t float64) float64 { return max(0, min(1, t)) }

// joints returns the different sides of the miters at these places.
func (m *fitting) joints(places []jointPlace) []joint {
	var out []joint
	for _, r := range m.runs {
		for _, h := range []Hand{LeftHand, RightHand} {
			if p, ok := placeOf(r, h); !ok || !slices.Contains(places, p) {
				continue
			}
			e := r.end(h)
			j := joint{from: r.section.from, slope: e.slope, ret: r.ret, in: geom.Pt(e.cut.X, e.cut.Y).Mul(1 / math.Hypot(1, math.Hypot(e.cut.X, e.cut.Y)))}
			if h == LeftHand {
				j.in = j.in.Mul(-1)
			}
			if !knownJoint(out, j) {
				out = append(out, j)
			}
		}
	}
	return out
}

func knownJoint(list []joint, j joint) bool {
	for _, o := range list {
		if alikeMaps(o.from, j.from) && near(o.slope, j.slope, 1e-9) && o.ret == j.ret && o.in.Near(j.in, 1e-9) {
			return true
		}
	}
	return false
}

// alikeMaps reports whether two maps from the profile make the same section.
func alikeMaps(a, b geom.Affine) bool { return near(a.A, b.A, 1e-9) && near(a.B, b.B, 1e-9) }

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
		least = min(least, pointLine2(c, a, b))
	}
	for _, p := range [2]geom.Point{a, b} {
		dx := max(0, r.Min.X-p.X, p.X-r.Max.X)
		dy := max(0, r.Min.Y-p.Y, p.Y-r.Max.Y)
		least = min(least, dx*dx+dy*dy)
	}
	return math.Sqrt(least)
}

// apartBy returns a distance that a rectangle and the line from a to b are apart at least, found cheaply.
func apartBy(r block, a, b geom.Point) float64 {
	return max(0, r.Min.X-max(a.X, b.X), min(a.X, b.X)-r.Max.X, r.Min.Y-max(a.Y, b.Y), min(a.Y, b.Y)-r.Max.Y)
}

// pointLine2 returns the square of the distance from p to the line from a to b.
func pointLine2(p, a, b geom.Point) float64 {
	u, v := b.Sub(a), p.Sub(a)
	if l := u.Dot(u); l > 0 {
		v = v.Sub(u.Mul(clamp(v.Dot(u) / l)))
	}
	return v.Dot(v)
}
