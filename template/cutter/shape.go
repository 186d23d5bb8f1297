package cutter

import (
	"math"

	"listel/profile/geom"
)

// A shape is a tool as geometry: curves over u, the distance from its axis, with the lowest point of all at v = 0.
type shape struct {
	cut   curve   // lower edge of what cuts
	body  curve   // lower edge of what does not cut: pilot, shank, body
	all   curve   // of both, the body widened by its clearance: what must stay clear of the section
	pilot float64 // radius of the pilot, 0 without
	ph    float64 // height of the pilot
	side  bool    // the axis lies across the direction of approach
	plain bool    // a square end: no form
	width float64 // of what cuts
	bulk  float64 // waste higher over the tip than this is for other tools to take
}

// bodyClearance is how far, in mm, shank and body stay from the section sideways: more than the allowance that may
// be left on it. Common practice, no source.
const bodyClearance = 0.6

// formBulk is how far over its shape, in mm, a form cutter may take waste: it finishes what straight tools and saw have
// roughed out. Common practice, no source.
const formBulk = 2

// longShank is longer than any shank that stands out of a table, mm.
const longShank = 300

// neck returns the diameter of what stands behind a dovetail's cutting edge: its neck or its shank, the thicker.
func (t Tool) neck() float64 { return math.Max(t.Shank, t.Diameter-2*t.Length*t.Angle.Tan()) }

// shapeOf returns the shape of a valid tool.
func shapeOf(t Tool) shape {
	sh := shape{plain: !t.IsForm()}
	switch t.Kind {
	case Straight:
		sh.cut = flat(t.Diameter/2, 0)
	case SawBlade, RabbetPlane:
		sh.cut = flat(t.Width/2, 0)
	case SlotCutter:
		sh.cut, sh.side = flat(t.Width/2, 0), true
	case Dovetail:
		// It is wider at its tip than at its neck and cannot come down into wood: it comes from the side, its axis upright, u running from the
		// tip down to the table, the shank behind it.
		sh.cut, sh.side = curve{linePiece(geom.Pt(0, 0), geom.Pt(t.Length, t.Length*t.Angle.Tan()))}, true
		sh.body = curve{linePiece(geom.Pt(t.Length, (t.Diameter-t.neck())/2), geom.Pt(t.Length+longShank, (t.Diameter-t.neck())/2))}
	case RoundNose:
		sh.cut = curve{arcPiece(geom.Pt(0, t.Radius), t.Radius, lowerHalf, -t.Radius, t.Radius)}
	case RoundPlane:
		sh.cut = curve{arcPiece(geom.Pt(0, t.Radius), t.Radius, lowerHalf, -t.Radius/2, t.Radius/2)}
	case HollowPlane:
		// The sole is a sixth of a circle, so that its chord is its radius.
		c := geom.Pt(0, -t.Radius*math.Cos(math.Pi/6))
		sh.cut = curve{arcPiece(c, t.Radius, upperHalf, -t.Radius/2, t.Radius/2)}
	case Vee:
		r, m := t.Diameter/2, 1/(t.Angle/2).Tan()
		sh.cut = curve{linePiece(geom.Pt(-r, r*m), geom.Pt(0, 0)), linePiece(geom.Pt(0, 0), geom.Pt(r, r*m))}
	case RoundOver, CoveBit, Ogee:
		sh = edgeShape(t)
	case SideBead:
		r := t.Diameter / 2
		sh.cut = curve{arcPiece(geom.Pt(0, 0), r, upperHalf, -r, r)}
		if t.Quirk > 0 {
			sh.cut = append(sh.cut, linePiece(geom.Pt(r, 0), geom.Pt(r+t.Quirk, 0)))
		}
	case FormTool:
		sh.cut = upper(monotone(t.Profile, newFrame(geom.Pt(0, 1))))
	}
	a, b := sh.cut.span()
	sh.width, sh.bulk = b-a, math.Inf(1)
	if !sh.plain && t.Kind != RoundNose {
		sh.bulk = sh.cut.top() + formBulk
	}
	sh.body = append(sh.body, shankOf(t, sh)...)
	sh.all = lowerEnvelope(append(append([]piece{}, sh.cut...), widened(sh.body, sh.pilot)...))
	return sh
}

// flat returns a level line at height v, r to each side of the axis.
func flat(r, v float64) curve { return curve{linePiece(geom.Pt(-r, v), geom.Pt(r, v))} }

// edgeShape returns the shape of a bit that molds an edge. With a pilot, the pilot lies at the tip and does not cut; without, its place is a
// flat that cuts.
func edgeShape(t Tool) shape {
	r, tip := t.Radius, t.Tip/2
	sh := shape{}
	if t.Pilot > 0 {
		tip = t.Pilot / 2
		sh.pilot, sh.ph = tip, t.PilotHeight
		if sh.ph == 0 {
			sh.ph = 5
		}
		sh.body = flat(tip, 0)
	}
	v := sh.ph
	var right curve
	switch {
	case t.Kind == RoundOver:
		right = curve{arcPiece(geom.Pt(tip+r, v), r, upperHalf, tip, tip+r)}
	case t.Kind == CoveBit:
		right = curve{arcPiece(geom.Pt(tip, v+r), r, lowerHalf, tip, tip+r)}
	case t.Flip:
		right = curve{arcPiece(geom.Pt(tip, v+r), r, lowerHalf, tip, tip+r),
			arcPiece(geom.Pt(tip+2*r, v+r), r, upperHalf, tip+r, tip+2*r)}
	default:
		right = curve{arcPiece(geom.Pt(tip+r, v), r, upperHalf, tip, tip+r),
			arcPiece(geom.Pt(tip+r, v+2*r), r, lowerHalf, tip+r, tip+2*r)}
	}
	for i := len(right) - 1; i >= 0; i-- {
		sh.cut = append(sh.cut, right[i].mirrored())
	}
	if t.Pilot == 0 {
		sh.cut = append(sh.cut, flat(tip, 0)...)
	}
	sh.cut = append(sh.cut, right...)
	return sh
}

// shankOf returns the lower edge of the shank or body above what cuts, nil where it can never touch wood before the
// table or the depth stop does.
func shankOf(t Tool, sh shape) curve {
	length := t.Length
	if length == 0 || length >= t.Reach || sh.side {
		return nil
	}
	d := t.Shank
	if d == 0 {
		d = sh.width
	}
	return flat(d/2, length)
}

// widened returns the body with its clearance added on both sides. A pilot is not widened: it runs on the wood.
func widened(body curve, pilot float64) []piece {
	var out []piece
	for i, p := range body {
		if pilot > 0 && i == 0 {
			out = append(out, p)
			continue
		}
		out = append(out, linePiece(geom.Pt(p.a-bodyClearance, p.at(p.a)), geom.Pt(p.b+bodyClearance, p.at(p.b))))
	}
	return out
}

// lowerEnvelope returns the lower envelope of pieces.
func lowerEnvelope(ps []piece) curve {
	neg := make([]piece, len(ps))
	for i, p := range ps {
		neg[i] = p.negated()
	}
	out := upper(neg)
	for i, p := range out {
		out[i] = p.negated()
	}
	return out
}

// negated returns the piece with y turned to -y.
func (p piece) negated() piece {
	p.y, p.m, p.half = -p.y, -p.m, -p.half
	p.c.Y = -p.c.Y
	return p
}

// mirrored returns the shape turned about its axis.
func (sh shape) mirrored() shape {
	sh.cut, sh.body, sh.all = sh.cut.mirrored(), sh.body.mirrored(), sh.all.mirrored()
	return sh
}

// symmetric reports whether a shape is its own mirror.
func (sh shape) symmetric() bool {
	m := sh.cut.mirrored()
	for i, p := range sh.cut {
		if math.Abs(p.a-m[i].a) > 1e-9 || math.Abs(p.at(p.a)-m[i].at(p.a)) > 1e-9 || p.half != m[i].half {
			return false
		}
	}
	return true
}

func (c curve) mirrored() curve {
	out := make(curve, 0, len(c))
	for i := len(c) - 1; i >= 0; i-- {
		out = append(out, c[i].mirrored())
	}
	return out
}
