package trace

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A form is a way to draw a member between its foot and its top. Forms are what an outline can tell apart; kinds that draw the same
// (fillet, fascia, corona without its soffit; torus, astragal, bead) are one form.
type form int

const (
	flat form = iota
	slope
	ovoloQuadrant
	ovoloArc
	ovoloEllipse
	ovoloShort // an arc of less than a quadrant, its center level with its plumb end (Hatfield, The American House-Carpenter, para. 317)
	coveQuadrant
	coveArc
	coveEllipse
	coveShort // the same, hollow
	halfRound
	halfHollow
	rectaFlat
	rectaBold
	rectaEllipse
	rectaFull // two arcs, one end of each level or plumb: bold where rise and run differ
	rectaRadius
	reversaFlat
	reversaBold
	reversaEllipse
	reversaFull
	reversaRadius
	scotiaThirds
	scotiaSevenths
	free // lines and arcs that nothing names
	formCount
)

// tie returns the run of a form as a part of its rise, and whether the form fixes it.
func (f form) tie() (float64, bool) {
	switch f {
	case flat, halfRound, halfHollow:
		return 0, true
	case ovoloQuadrant, coveQuadrant, rectaBold, reversaBold:
		return 1, true
	case scotiaThirds:
		return 1.0 / 3, true
	}
	return 0, false
}

// round and hollow report whether the form is a quarter that stands out, or one that is hollow.
func (f form) round() bool  { return f >= ovoloQuadrant && f <= ovoloShort }
func (f form) hollow() bool { return f >= coveQuadrant && f <= coveShort }

// struck reports whether the form is a quarter struck with its height for radius.
func (f form) struck() bool { return f == ovoloArc || f == coveArc }

// short reports whether the form is an arc of less than a quadrant.
func (f form) short() bool { return f == ovoloShort || f == coveShort }

// ofRadius reports whether the form is a cyma of two arcs whose radius is a size of its own.
func (f form) ofRadius() bool { return f == rectaRadius || f == reversaRadius }

// full reports whether the form is a cyma of two arcs of the least radius that its rise and run allow.
func (f form) full() bool { return f == rectaFull || f == reversaFull }

// A shape is a member as an outline shows it. Its run is p, or, where the form ties it, the tie times sign times the rise.
type shape struct {
	form form
	sign float64 // of the run, +1 or -1
	arcs []bool  // free: which of its segments are arcs
}

// own returns how many sizes the shape has of its own: rise, run where it is not tied, the radius of a cyma that has one, and those of a free shape.
func (s shape) own() int {
	if s.form == free {
		return 2 + s.more()
	}
	if s.form.ofRadius() {
		return 3
	}
	if _, tied := s.form.tie(); tied {
		return 1
	}
	return 2
}

// more returns how many sizes a free shape has beside rise and run: the corners between its segments and the sagittas of its arcs.
func (s shape) more() int {
	n := 2 * (len(s.arcs) - 1)
	for _, a := range s.arcs {
		if a {
			n++
		}
	}
	return n
}

// start returns sizes of a named shape of about this rise and run to start a fit from.
func (s shape) start(h, run float64) []float64 {
	return []float64{h, run, math.Hypot(h, run) / 2}[:s.own()]
}

// run returns the run of a shape with these sizes of its own.
func (s shape) run(own []float64) float64 {
	if k, tied := s.form.tie(); tied {
		return k * s.sign * own[0]
	}
	return own[1]
}

// levels reports whether the shape starts, and whether it ends, level or nearly so: a level step there goes on from it, or meets it in a
// cusp that ink fills, and the outline hardly shows it.
func (s shape) levels() (lead, tail bool) {
	switch s.form {
	case halfRound, rectaFlat, rectaBold, rectaEllipse, rectaFull, rectaRadius:
		return true, true
	case ovoloQuadrant, ovoloEllipse:
		return s.sign > 0, s.sign < 0
	case coveQuadrant, coveEllipse:
		return s.sign < 0, s.sign > 0
	}
	return false, false
}

// undercut reports whether a step before the shape, or after it, of that many mm, leaves its round end behind the edge of its neighbor: few are
// drawn so, half rounds apart.
func (s shape) undercut(before, after float64) bool {
	switch s.form {
	case ovoloQuadrant, ovoloEllipse, ovoloShort, rectaFlat, rectaBold, rectaEllipse, rectaFull, rectaRadius:
		return s.sign > 0 && before < 0 || s.sign < 0 && after > 0
	}
	return false
}

// odd reports whether a quarter is no quadrant, or a full cyma not of quadrants, though its rise is nearly its run.
func (s shape) odd(own []float64) bool {
	switch s.form {
	case ovoloArc, ovoloEllipse, coveArc, coveEllipse, rectaFull, reversaFull:
		return math.Abs(math.Abs(own[1])-own[0]) < 0.12*own[0]
	}
	return false
}

// round reports whether rise and run are both such that the shape is told from a line.
func (s shape) round(own []float64) bool {
	h, p := own[0], math.Abs(s.run(own))
	return math.Min(h, p) > math.Max(0.4, 0.06*math.Max(h, p))
}

// leastSize is the size in mm that a shape must exceed while it is being fitted.
const leastSize = 0.05

// draw returns the shape from a point with sizes of its own: the path that the profile's own elements draw. It is nil when the
// sizes allow none.
func (s shape) draw(from geom.Point, own []float64) geom.Path {
	h, p := own[0], s.run(own)
	if !(h > leastSize) {
		return nil
	}
	if s.form == free {
		return s.drawFree(from, own)
	}
	if s.form != flat && s.form != halfRound && s.form != halfHollow && !(p*s.sign > leastSize) {
		return nil
	}
	switch {
	case s.form.short():
		return s.drawShort(from, h, p)
	case s.form.full():
		return s.drawRadius(from, h, p, 0)
	case s.form.ofRadius():
		return s.drawRadius(from, h, p, own[2])
	}
	e := s.element(h, p)
	if s.form == slope || s.form == flat {
		return e.Outline(from)
	}
	if s.form != rectaFlat && s.form != reversaFlat && e.Validate() != nil {
		return nil
	}
	return e.Outline(from)
}

// drawShort draws a short quarter; nil where it would be no less than a quadrant.
func (s shape) drawShort(from geom.Point, h, p float64) geom.Path {
	if !(math.Abs(p) < h) {
		return nil
	}
	to := from.Add(geom.Pt(p, h))
	plumb, other := from, to // the end that is plumb: a round that stands out going up ends so, a hollow one starts so
	if (s.form == ovoloShort) == (s.sign > 0) {
		plumb, other = to, from
	}
	r := (p*p + h*h) / (2 * math.Abs(p))
	center := plumb.Add(geom.Pt(math.Copysign(r, other.X-plumb.X), 0))
	mid := center.Add(plumb.Sub(center).Unit().Add(other.Sub(center).Unit()).Unit().Mul(r))
	seg, err := geom.ArcThrough(from, mid, to)
	if err != nil {
		return nil
	}
	return geom.Path{seg}
}

// drawRadius draws a cyma of a radius, or of the least that it may have; nil where that is next to a straight line.
func (s shape) drawRadius(from geom.Point, h, p, r float64) geom.Path {
	r = math.Max(r, profile.LeastCymaRadius(h, p))
	var e profile.Element = profile.CymaRecta{Height: h, Projection: p, Radius: r}
	if s.form == reversaRadius || s.form == reversaFull {
		e = profile.CymaReversa{Height: h, Projection: p, Radius: r}
	}
	if e.Validate() != nil {
		return nil
	}
	return e.Outline(from)
}

// element returns the profile's element of this rise and run; nil for one that the profile draws as a curve.
func (s shape) element(h, p float64) profile.Element {
	switch s.form {
	case flat:
		return profile.Fillet{Height: h}
	case slope:
		return profile.Chamfer{Height: h, Projection: p}
	case ovoloQuadrant, ovoloArc, ovoloEllipse:
		return profile.Ovolo{Height: h, Projection: p, Curve: s.form.curve()}
	case coveQuadrant, coveArc, coveEllipse:
		return profile.Cove{Height: h, Projection: p, Curve: s.form.curve()}
	case halfRound:
		return profile.Torus{Height: h}
	case halfHollow:
		return profile.Flutes{Height: h, Count: 1}
	case rectaFlat, rectaBold, rectaEllipse:
		return profile.CymaRecta{Height: h, Projection: p, Curve: s.form.curve()}
	case reversaFlat, reversaBold, reversaEllipse:
		return profile.CymaReversa{Height: h, Projection: p, Curve: s.form.curve()}
	case scotiaThirds, scotiaSevenths:
		return profile.Scotia{Height: h, Projection: p, Curve: s.form.curve()}
	}
	return nil
}

// curve returns the construction that the form is drawn by.
func (f form) curve() profile.Construction {
	switch f {
	case ovoloQuadrant, coveQuadrant:
		return profile.CurveQuadrant
	case ovoloArc, coveArc:
		return profile.CurveArc
	case ovoloEllipse, coveEllipse, rectaEllipse, reversaEllipse:
		return profile.CurveEllipse
	case rectaFlat, reversaFlat:
		return profile.CurveFlat
	case rectaBold, reversaBold:
		return profile.CurveBold
	case scotiaThirds:
		return profile.CurveThirds
	case scotiaSevenths:
		return profile.CurveSevenths
	}
	return ""
}

// price is what a shape costs beside its sizes: what nothing names, and what is rare, costs more.
func (s shape) price() float64 {
	switch {
	case s.form == free:
		sum := freePrice
		for _, arc := range s.arcs {
			if !arc {
				sum += linePrice
			}
		}
		return sum
	case s.form.short():
		return freePrice
	case s.form.ofRadius():
		return radiusPrice
	case s.form.struck(), s.form.full():
		return arcPrice
	}
	return 0
}

// drawFree draws the segments of a free shape: own is rise, run, then for each segment its sagitta where it is an arc (positive to the left of
// the chord) and, but for the last, the corner it ends at, relative to the start.
func (s shape) drawFree(from geom.Point, own []float64) geom.Path {
	var out geom.Path
	at, k := from, 2
	for i, arc := range s.arcs {
		sag := 0.0
		if arc {
			sag = own[k]
			k++
		}
		to := from.Add(geom.Pt(own[1], own[0]))
		if i+1 < len(s.arcs) {
			to = from.Add(geom.Pt(own[k], own[k+1]))
			k += 2
		}
		out = append(out, bulge(at, to, sag))
		at = to
	}
	return out
}

// bulge returns the arc from a to b whose middle stands sag mm to the left of the chord; a line when that is nothing.
func bulge(a, b geom.Point, sag float64) geom.Segment {
	mid := a.Lerp(b, 0.5).Add(b.Sub(a).Left().Unit().Mul(sag))
	if math.Abs(sag) > 1e-4 {
		if seg, err := geom.ArcThrough(a, mid, b); err == nil {
			return seg
		}
	}
	return geom.Line{A: a, B: b}
}
