package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// pitch is the distance, in mm, between the columns that areas and offcuts are found on.
const pitch = 0.1

// A block is wood as upright columns: for each x the runs of y where it stands, as sorted pairs.
type block struct {
	x0, dx float64
	runs   [][]float64
}

// newBlock returns the blank whole.
func newBlock(p polygon) *block {
	w := p.bounds.Width()
	n := max(1, int(math.Ceil(w/pitch)))
	b := &block{x0: p.bounds.Min.X, dx: w / float64(n), runs: make([][]float64, n)}
	for i := range b.runs {
		b.runs[i] = p.crossY(b.x(i), nil)
	}
	return b
}

func (b *block) x(i int) float64 { return b.x0 + (float64(i)+0.5)*b.dx }

// clone returns a copy.
func (b *block) clone() *block {
	c := *b
	c.runs = append([][]float64{}, b.runs...)
	return &c
}

// area returns the area of the wood in mm2.
func (b *block) area() float64 {
	sum := 0.0
	for _, r := range b.runs {
		for i := 0; i+1 < len(r); i += 2 {
			sum += r[i+1] - r[i]
		}
	}
	return sum * b.dx
}

// cut takes a polygon away.
func (b *block) cut(p polygon) {
	var ys []float64
	for i, r := range b.runs {
		if ys = p.crossY(b.x(i), ys); len(ys) > 0 && len(r) > 0 {
			b.runs[i] = subtract(r, ys)
		}
	}
}

// subtract returns the runs of r outside those of q.
func subtract(r, q []float64) []float64 {
	var out []float64
	for i := 0; i+1 < len(r); i += 2 {
		lo, hi := r[i], r[i+1]
		for k := 0; k+1 < len(q) && lo < hi; k += 2 {
			if q[k+1] <= lo || q[k] >= hi {
				continue
			}
			if q[k] > lo+1e-9 {
				out = append(out, lo, q[k])
			}
			lo = math.Max(lo, q[k+1])
		}
		if lo < hi-1e-9 {
			out = append(out, lo, hi)
		}
	}
	return out
}

// hold is the overlap of neighboring columns, in mm, under which wood is as good as through.
const hold = 0.06

// An offcut is wood that hangs on nothing.
type offcut struct {
	area float64
	at   geom.Point // its middle
}

// drop takes away all wood that does not hang together with the point keep, and returns it in pieces.
func (b *block) drop(keep geom.Point) []offcut {
	first := make([]int, len(b.runs)+1)
	for i, r := range b.runs {
		first[i+1] = first[i] + len(r)/2
	}
	up := make([]int, first[len(b.runs)])
	for i := range up {
		up[i] = i
	}
	root := func(i int) int {
		for up[i] != i {
			up[i] = up[up[i]]
			i = up[i]
		}
		return i
	}
	for i := 1; i < len(b.runs); i++ {
		p, q := b.runs[i-1], b.runs[i]
		for j := 0; j+1 < len(p); j += 2 {
			for k := 0; k+1 < len(q); k += 2 {
				if math.Min(p[j+1], q[k+1])-math.Max(p[j], q[k]) > hold {
					up[root(first[i-1]+j/2)] = root(first[i] + k/2)
				}
			}
		}
	}
	main := b.runAt(keep, first)
	if main < 0 {
		return nil
	}
	main = root(main)
	pieces := map[int]*offcut{}
	for i, r := range b.runs {
		var kept []float64
		for j := 0; j+1 < len(r); j += 2 {
			k := root(first[i] + j/2)
			if k == main {
				kept = append(kept, r[j], r[j+1])
				continue
			}
			o := pieces[k]
			if o == nil {
				o = &offcut{}
				pieces[k] = o
			}
			a := (r[j+1] - r[j]) * b.dx
			o.at = o.at.Add(geom.Pt(b.x(i), (r[j]+r[j+1])/2).Mul(a))
			o.area += a
		}
		b.runs[i] = kept
	}
	keys := make([]int, 0, len(pieces))
	for k := range pieces {
		keys = append(keys, k)
	}
	sort.Ints(keys)
	out := make([]offcut, 0, len(keys))
	for _, k := range keys {
		o := *pieces[k]
		o.at = o.at.Mul(1 / o.area)
		out = append(out, o)
	}
	return out
}

// runAt returns the number of the run that holds p, -1 without one.
func (b *block) runAt(p geom.Point, first []int) int {
	i := int((p.X - b.x0) / b.dx)
	if i < 0 || i >= len(b.runs) {
		return -1
	}
	for j := 0; j+1 < len(b.runs[i]); j += 2 {
		if b.runs[i][j] <= p.Y && p.Y <= b.runs[i][j+1] {
			return first[i] + j/2
		}
	}
	return -1
}

// stands reports whether there is wood at p.
func (b *block) stands(p geom.Point) bool {
	i := int((p.X - b.x0) / b.dx)
	return i >= 0 && i < len(b.runs) && insideRuns(b.runs[i], p.Y)
}

// over calls f for places 0.1 mm apart in the wood that stands outside the section.
func (b *block) over(section polygon, f func(p geom.Point, area float64)) {
	var ys []float64
	for i, r := range b.runs {
		x := b.x(i)
		ys = section.crossY(x, ys)
		rest := subtract(r, ys)
		for j := 0; j+1 < len(rest); j += 2 {
			n := max(1, int((rest[j+1]-rest[j])/pitch))
			h := (rest[j+1] - rest[j]) / float64(n)
			for k := range n {
				f(geom.Pt(x, rest[j]+(float64(k)+0.5)*h), h*b.dx)
			}
		}
	}
}

// deepInside returns a point of the section far from its outline: what hangs together with it is the work.
func deepInside(p polygon) geom.Point {
	best, far := p.bounds.Center(), -1.0
	const n = 24
	for i := range n {
		for j := range n {
			q := p.bounds.Min.Add(geom.Pt(p.bounds.Width()*(float64(i)+0.5)/n, p.bounds.Height()*(float64(j)+0.5)/n))
			if p.contains(q) {
				if d := p.dist(q); d > far {
					best, far = q, d
				}
			}
		}
	}
	return best
}
