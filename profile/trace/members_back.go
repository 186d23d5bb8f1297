package trace

import (
	"math"

	"listel/profile/geom"
)

// backKind is how the back of a section goes.
type backKind int

const (
	plainBack backKind = iota
	rabbetTop
	rabbetFoot
	springBack
)

// backLean is the tangent of the angle from plumb up to which a back is no spring: nobody springs a molding by less than some 15 degrees.
const backLean = 0.1

// raggedBit is the length in mm up to which a bit may be what another line or a gap has left of a corner.
const raggedBit = 0.7

// upright reports whether the bit is near enough to plumb, or to level, to be meant so where nothing that leans could stand.
func (b bit) upright(plumb bool, sigma float64) bool {
	d := b.to.Sub(b.from)
	across, along := math.Abs(d.X), math.Abs(d.Y)
	if !plumb {
		across, along = along, across
	}
	return b.straight(2*sigma) && across <= math.Max(backLean*along, 0.1+2*sigma)
}

// back returns how the back goes, with its two sizes: width and depth of a rabbet, wall and top of a spring. Known is false when
// it is none of them and was taken for plain.
func (c *chain) back() (kind backKind, a, b float64, known bool) {
	var f []bit
	all := append(append([]bit{}, c.bits[min(c.top+1, len(c.bits)):]...), c.bits[:max(0, c.face-1)]...)
	for _, p := range all {
		n := len(f)
		switch {
		case p.length() <= raggedBit+4*c.sigma:
		case n == 0 && p.level(c.sigma): // the top goes on
		case n > 0 && c.inLine(f[n-1], p):
			f[n-1].to, f[n-1].last = p.to, p.last
		default:
			f = append(f, p)
		}
	}
	is := func(i int, level bool) bool { return f[i].upright(!level, c.sigma) }
	end := c.bits[min(c.top, len(c.bits)-1)]
	switch {
	case len(f) == 1 && is(0, false):
		return plainBack, 0, 0, true
	case len(f) == 3 && is(0, false) && is(1, true) && is(2, false):
		w := f[1].to.X - f[1].from.X
		if w < 0 {
			return rabbetTop, -w, end.from.Y - f[1].from.Y, true
		}
		return rabbetFoot, w, f[1].from.Y - f[2].to.Y, true
	case len(f) == 2 && !is(0, false) && !is(0, true) && is(1, false):
		return springBack, f[1].length(), end.length(), true
	case len(f) == 1 && !is(0, true):
		return springBack, 0, end.length(), true
	}
	return plainBack, 0, 0, false
}

// inLine reports whether two straight bits, one after the other, go on without a corner: noise has split them.
func (c *chain) inLine(a, b bit) bool {
	u, v := a.to.Sub(a.from), b.to.Sub(b.from)
	turn := math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
	return a.straight(2*c.sigma) && b.straight(2*c.sigma) && turn < math.Max(backLean, a.tilt(c.sigma)+b.tilt(c.sigma))
}

// backStrands adds the strands from the end of the face round to its foot: top, back and, as the first strand of all, the foot. x, y are
// the end of the face.
func (r *reading) backStrands(x, y row) (foot strand, rest []strand) {
	xb, y0, x0 := row{{unknownBack, 1}}, row{{unknownFoot, 1}}, groundRow()
	var a, b row
	if r.back != plainBack {
		a, b = row{{r.backAt, 1}}, row{{r.backAt + 1, 1}}
	}
	left, footLeft := xb, xb
	switch r.back {
	case rabbetTop:
		left = xb.plus(a, 1)
		at := y.plus(b, -1)
		rest = []strand{plumbStrand(left, y, at), levelStrand(left, xb, at), plumbStrand(xb, at, y0)}
	case rabbetFoot:
		footLeft = xb.plus(a, 1)
		at := y0.plus(b, 1)
		rest = []strand{plumbStrand(xb, y, at), levelStrand(xb, footLeft, at), plumbStrand(footLeft, at, y0)}
	case springBack:
		left = x.plus(b, -1)
		wall := y0.plus(a, 1)
		rest = []strand{
			{[]row{left, y, xb, wall}, func(v []float64) geom.Path {
				return geom.Path{geom.Line{A: geom.Pt(v[0], v[1]), B: geom.Pt(v[2], v[3])}}
			}},
			plumbStrand(xb, wall, y0),
		}
	default:
		rest = []strand{plumbStrand(xb, y, y0)}
	}
	return levelStrand(footLeft, x0, y0), append([]strand{levelStrand(x, left, y)}, rest...)
}

// groundRow is x of the face at the foot.
func groundRow() row { return row{{unknownBack, 1}, {unknownGround, 1}} }

func levelStrand(from, to, y row) strand {
	return strand{[]row{from, to, y}, func(v []float64) geom.Path {
		return geom.Path{geom.Line{A: geom.Pt(v[0], v[2]), B: geom.Pt(v[1], v[2])}}
	}}
}

func plumbStrand(x, from, to row) strand {
	return strand{[]row{x, from, to}, func(v []float64) geom.Path {
		return geom.Path{geom.Line{A: geom.Pt(v[0], v[1]), B: geom.Pt(v[0], v[2])}}
	}}
}

// springAngle returns the angle of a leaning back from the wall.
func springAngle(end geom.Point, wall, top float64) geom.Angle {
	return geom.Angle(math.Atan2(end.X-top, end.Y-wall))
}
