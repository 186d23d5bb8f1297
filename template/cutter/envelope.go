package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// A curve is a function given by pieces in rising order of x that do not overlap; between them it is not
// defined (minus infinity for an envelope).
type curve []piece

// envelope returns the upper envelope of a path seen in the frame f: for each u the greatest v of its points.
func envelope(p geom.Path, f frame) curve {
	return upper(monotone(p, f))
}

// monotone returns the path's segments, in the coordinates of f, as pieces; plumb ones are left out.
func monotone(p geom.Path, f frame) []piece {
	var out []piece
	for _, s := range p {
		switch s := s.(type) {
		case geom.Line:
			out = appendLine(out, f.in(s.A), f.in(s.B))
		case geom.Arc:
			out = appendArc(out, f.arc(s))
		case geom.EllipticArc:
			for _, a := range arcsOf(s) {
				if arc, ok := a.(geom.Arc); ok {
					out = appendArc(out, f.arc(arc))
				} else {
					out = appendLine(out, f.in(a.Start()), f.in(a.End()))
				}
			}
		default:
			pts := s.Flatten(1e-4)
			for i := 1; i < len(pts); i++ {
				out = appendLine(out, f.in(pts[i-1]), f.in(pts[i]))
			}
		}
	}
	return out
}

func appendLine(out []piece, p, q geom.Point) []piece {
	if p.X > q.X {
		p, q = q, p
	}
	if q.X-p.X < vertical {
		return out
	}
	return append(out, linePiece(p, q))
}

// appendArc cuts an arc where it is plumb and appends its parts.
func appendArc(out []piece, a geom.Arc) []piece {
	from, to := a.From.Radians(), (a.From + a.Sweep).Radians()
	if from > to {
		from, to = to, from
	}
	for k := math.Floor(from / math.Pi); k*math.Pi < to; k++ {
		lo, hi := math.Max(from, k*math.Pi), math.Min(to, (k+1)*math.Pi)
		h := upperHalf
		if math.Mod(math.Abs(k), 2) == 1 {
			h = lowerHalf
		}
		x0, x1 := a.Center.X+a.Radius*math.Cos(lo), a.Center.X+a.Radius*math.Cos(hi)
		if x0 > x1 {
			x0, x1 = x1, x0
		}
		if x1-x0 >= vertical {
			out = append(out, arcPiece(a.Center, a.Radius, h, x0, x1))
		}
	}
	return out
}

// arcsOf replaces an elliptic arc by circular ones through its points. Steps of 3 degrees or less of eccentric
// angle keep them within 0.001 mm for half axes up to 100 mm and a ratio of 3.
func arcsOf(e geom.EllipticArc) []geom.Segment {
	n := int(math.Ceil(e.Sweep.Abs().Degrees() / 3))
	var out []geom.Segment
	for i := range n {
		t0, t1 := float64(i)/float64(n), float64(i+1)/float64(n)
		a, m, b := e.At(t0), e.At((t0+t1)/2), e.At(t1)
		arc, err := geom.ArcThrough(a, m, b)
		if err != nil {
			arc = geom.Line{A: a, B: b}
		}
		out = append(out, arc)
	}
	return out
}

// upper returns the upper envelope of pieces by divide and conquer.
func upper(ps []piece) curve {
	switch len(ps) {
	case 0:
		return nil
	case 1:
		return curve{ps[0]}
	}
	return merge(upper(ps[:len(ps)/2]), upper(ps[len(ps)/2:]))
}

// merge returns the upper envelope of two curves.
func merge(f, g curve) curve {
	xs := make([]float64, 0, 2*(len(f)+len(g)))
	for _, p := range f {
		xs = append(xs, p.a, p.b)
	}
	for _, p := range g {
		xs = append(xs, p.a, p.b)
	}
	sort.Float64s(xs)
	var out curve
	i, j := 0, 0
	for k := 1; k < len(xs); k++ {
		lo, hi := xs[k-1], xs[k]
		if hi-lo <= 0 {
			continue
		}
		mid := (lo + hi) / 2
		for i < len(f) && f[i].b < mid {
			i++
		}
		for j < len(g) && g[j].b < mid {
			j++
		}
		inF := i < len(f) && f[i].a <= mid
		inG := j < len(g) && g[j].a <= mid
		switch {
		case inF && inG:
			out = mergePair(out, f[i], g[j], lo, hi)
		case inF:
			out = join(out, f[i], lo, hi)
		case inG:
			out = join(out, g[j], lo, hi)
		}
	}
	return out
}

// mergePair appends the greater of two pieces over [lo, hi].
func mergePair(out curve, p, q piece, lo, hi float64) curve {
	xs := []float64{lo}
	for _, x := range p.crossings(q) {
		if x > lo && x < hi {
			xs = append(xs, x)
		}
	}
	sort.Float64s(xs)
	xs = append(xs, hi)
	for k := 1; k < len(xs); k++ {
		if xs[k]-xs[k-1] <= 0 {
			continue
		}
		mid := (xs[k-1] + xs[k]) / 2
		if p.at(mid) >= q.at(mid) {
			out = join(out, p, xs[k-1], xs[k])
		} else {
			out = join(out, q, xs[k-1], xs[k])
		}
	}
	return out
}

// join appends p over [lo, hi], lengthening the last piece when it is the same function.
func join(out curve, p piece, lo, hi float64) curve {
	if n := len(out); n > 0 && out[n-1].b == lo && sameFunction(out[n-1], p) {
		out[n-1].b = hi
		return out
	}
	return append(out, p.part(lo, hi))
}

func sameFunction(p, q piece) bool {
	if p.half != q.half {
		return false
	}
	if p.half == straightLine {
		return p.m == q.m && math.Abs(p.at(q.a)-q.y) < 1e-12
	}
	return p.c == q.c && p.r == q.r
}

// at returns the greatest height of the curve at x, counting both sides of a step, and whether it is defined there.
func (c curve) at(x float64) (float64, bool) {
	best, ok := math.Inf(-1), false
	for i := c.first(x); i < len(c) && c[i].a <= x; i++ {
		best, ok = math.Max(best, c[i].at(x)), true
	}
	return best, ok
}

// first returns the index of the first piece that ends at or after x.
func (c curve) first(x float64) int {
	return sort.Search(len(c), func(i int) bool { return c[i].b >= x })
}

// span returns the least and greatest x of the curve.
func (c curve) span() (a, b float64) {
	if len(c) == 0 {
		return 0, 0
	}
	return c[0].a, c[len(c)-1].b
}

// within returns the part of the curve over [a, b].
func (c curve) within(a, b float64) curve {
	var out curve
	for _, p := range c {
		if lo, hi := math.Max(a, p.a), math.Min(b, p.b); lo < hi {
			out = append(out, p.part(lo, hi))
		}
	}
	return out
}

// top returns the curve's greatest height.
func (c curve) top() float64 {
	best := math.Inf(-1)
	for _, p := range c {
		best = math.Max(best, math.Max(p.at(p.a), p.at(p.b)))
		if p.half == upperHalf && p.c.X > p.a && p.c.X < p.b {
			best = math.Max(best, p.c.Y+p.r)
		}
	}
	return best
}
