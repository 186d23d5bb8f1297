package miter

import (
	"math"

	"listel/profile/geom"
)

// A run is one piece of molding along one edge, before it has a mark.
type run struct {
	name        string
	rail        bool // a back rail, no molding
	ret         bool // a return
	edge        Edge
	inset       float64 // mm, from the edge in to the back of the section
	section     *used
	left, right runEnd
	place       Placement
	notes       []string
}

// A runEnd is one end of a run.
type runEnd struct {
	kind   CutKind
	corner geom.Angle // inside angle of the case, 180 degrees where the run meets no other
	cut    Plane
	meets  string // the run or return that it meets, "" for none
	tenon  float64
	slope  float64 // ds/dx away from the run's middle: how far the cut runs out for each mm of projection
	along  string  // what a free end is cut along when that is not the wall, "" else
}

// straight is the corner of an end that meets nothing.
const straight = 180 * geom.Degree

// slopes returns how far two runs reach past their corner for each mm of their own projection, when they turn by t
// between them and project a and b: the miter goes from the corner of the plan to where the outermost lines meet.
func slopes(t geom.Angle, a, b float64) (ofA, ofB float64) {
	if a == b {
		k := (t / 2).Tan()
		return k, k
	}
	return (b/a - t.Cos()) / t.Sin(), (a/b - t.Cos()) / t.Sin()
}

// corner sets the ends of two runs that meet.
func corner(a, b *run) {
	t := turn(a.edge, b.edge)
	ka, kb := slopes(t, a.section.Projection, b.section.Projection)
	e0 := -a.inset * (t / 2).Tan() // the backs meet on the line that halves the corner
	a.right = runEnd{kind: CutMiter, corner: straight - t, meets: b.name, slope: ka, cut: Plane{S: a.edge.Length() + e0, X: ka}}
	b.left = runEnd{kind: CutMiter, corner: straight - t, meets: a.name, slope: kb, cut: Plane{S: -e0, X: -kb}}
}

// cope makes the miter of two runs in an inside corner a cope: the one more to the front runs into the corner and the
// other is cut to its face.
func cope(a, b *run) {
	if turn(a.edge, b.edge) > 0 {
		return
	}
	through, coped, end := a, &b.left, RightHand
	if more(b.edge, a.edge) {
		through, coped, end = b, &a.right, LeftHand
	}
	coped.kind = CutCope
	other := b.edge
	if through == b {
		other = a.edge
	}
	e := through.end(end)
	c, _ := along(through.edge, end, other.Dir(), 0)
	// The through run goes to the back of the other, whose back line passes through the corner of the backs.
	c.S = e.cut.S
	*e = runEnd{kind: CutSquare, corner: e.corner, meets: e.meets, cut: c, slope: e.slope}
}

// more reports whether edge a faces the front more than b does; of two that face it alike the one further to the front does.
func more(a, b Edge) bool {
	if d := b.Out().Y - a.Out().Y; math.Abs(d) > 1e-9 {
		return d > 0
	}
	return a.A.Lerp(a.B, 0.5).Y < b.A.Lerp(b.B, 0.5).Y
}

func (r *run) end(h Hand) *runEnd {
	if h == LeftHand {
		return &r.left
	}
	return &r.right
}

// along returns the cut at one end of an edge that lies in the direction w through its end on the face of the case. It is
// false when w is nearly that of the edge.
func along(e Edge, end Hand, w geom.Point, inset float64) (Plane, bool) {
	out := w.Dot(e.Out())
	if math.Abs(out) < cornerTol.Sin() {
		return Plane{}, false
	}
	k := w.Dot(e.Dir()) / out
	if math.Abs(k) < 1e-12 {
		k = 0
	}
	c := Plane{S: -inset * k, X: k}
	if end == RightHand {
		c.S += e.Length()
	}
	return c, true
}

// free sets an end that meets no other run: beyond is the edge it would meet, wall its direction.
func (r *run) free(end Hand, kind EndKind, wall geom.Point) bool {
	e := runEnd{kind: CutSquare, corner: straight}
	ok := true
	switch kind {
	case EndReturn:
		e.kind, e.corner, e.slope = CutMiter, 90*geom.Degree, 1
		e.meets = returnName(end)
		if end == LeftHand {
			e.cut = Plane{S: r.inset, X: -1}
		} else {
			e.cut = Plane{S: r.edge.Length() - r.inset, X: 1}
		}
	case EndOpen:
		if end == RightHand {
			e.cut.S = r.edge.Length()
		}
	default:
		e.cut, ok = along(r.edge, end, wall, r.inset)
	}
	*r.end(end) = e
	return ok
}

// The names of returns.
const (
	leftReturn, rightReturn = "left-return", "right-return"
)

// returnName returns the name of the return at an end.
func returnName(end Hand) string {
	if end == LeftHand {
		return leftReturn
	}
	return rightReturn
}

// put places the run at its edge with its foot at height z.
func (r *run) put(z float64) {
	n := r.edge.Out()
	r.place = Placement{Origin: level(r.edge.A.Sub(n.Mul(r.inset)), z), Along: level(r.edge.Dir(), 0), Out: level(n, 0), Up: Vec3{Z: 1}}
}

// returned returns the small piece that turns the molding back to the case at one end of r.
func (r *run) returned(end Hand) *run {
	p := r.place
	q := &run{name: returnName(end), ret: true, section: r.section, inset: r.inset}
	miter := runEnd{kind: CutMiter, corner: 90 * geom.Degree, meets: r.name, slope: 1}
	square := runEnd{kind: CutSquare, corner: straight}
	if end == LeftHand {
		q.place = Placement{Origin: p.Origin.Add(p.Along.Mul(r.inset)), Along: p.Out, Out: p.Along.Mul(-1), Up: p.Up}
		miter.cut = Plane{X: 1}
		q.left, q.right = square, miter
	} else {
		q.place = Placement{Origin: p.Origin.Add(p.Along.Mul(r.edge.Length() - r.inset)), Along: p.Out.Mul(-1), Out: p.Along, Up: p.Up}
		miter.cut = Plane{X: -1}
		q.left, q.right = miter, square
	}
	return q
}
