package cutter

import (
	"math"
	"slices"
	"sort"

	"listel/profile/geom"
)

// A kerf is a saw cut with its walls.
type kerf struct {
	cut   int     // its number
	walls [2]wall // with an offcut to the left and to the right of it in its frame
}

// dirs are the directions across a view in which the wedges beyond the two walls of its kerfs lie.
var dirs = [2]float64{-1, 1}

// A wall is the side of a kerf toward the section: the wedge lies where n·p >= d.
type wall struct {
	n    geom.Point
	d    float64
	on   []float64 // n·p for the points of the flattened section
	hard bitset    // rows of the waste that lies beyond it by the first margin
}

// kerfs returns the saw cuts with their walls.
func (s *search) kerfs() []kerf {
	var out []kerf
	on := make([][]float64, 2*len(s.views))
	for i := range s.cuts {
		c := &s.cuts[i]
		if s.tools[c.tool].Kind != SawBlade {
			continue
		}
		k := kerf{cut: i}
		for side, dir := range dirs {
			n, at := c.view.right().Mul(dir), 2*c.view.index+side
			if on[at] == nil {
				for _, p := range s.t.poly.pts {
					on[at] = append(on[at], n.Dot(p))
				}
			}
			d := dir*c.x - c.variant.width/2
			k.walls[side] = wall{n: n, d: d, on: on[at], hard: s.hardBeyond(c.view, dir, d)}
		}
		out = append(out, k)
	}
	return out
}

// hardBeyond returns the rows of the hard points that lie beyond a wall by the first margin.
func (s *search) hardBeyond(v *view, dir, d float64) bitset {
	out := newBitset(s.rows.total())
	beyond := v.hardIdx
	if dir > 0 {
		beyond = beyond[sort.Search(len(v.hardU), func(i int) bool { return v.hardU[i]-d >= marginLevels[0] }):]
	} else {
		beyond = beyond[:sort.Search(len(v.hardU), func(i int) bool { return -v.hardU[i]-d < marginLevels[0] })]
	}
	for _, i := range beyond {
		out.set(s.rows.point(i))
	}
	return out
}

// touching is how far, in mm, a wall may seem to lie in the section where it runs along it.
const touching = 1e-4

// reach returns the greatest value of on, given for the points of the flattened section, over the part of its edges beyond the wall; minus infinity
// where no edge comes there.
func (w *wall) reach(on []float64) float64 {
	best, lim, j := math.Inf(-1), w.d+touching, len(on)-1
	for i := range on {
		a, b := w.on[j]-lim, w.on[i]-lim
		if b > 0 {
			best = math.Max(best, on[i])
		}
		if (a > 0) != (b > 0) {
			best = math.Max(best, on[j]+(on[i]-on[j])*a/(a-b))
		}
		j = i
	}
	return best
}

// A wedge is the offcut that saw cuts free: the part of the blank on the far side of one or two kerf walls.
type wedge struct {
	walls [2]*wall
	n     int        // walls in use
	at    geom.Point // the middle of the blank's corners in it
}

// holds reports whether q lies in the wedge with a margin from its walls.
func (w *wedge) holds(q geom.Point, margin float64) bool {
	for _, l := range w.walls[:w.n] {
		if l.n.Dot(q)-l.d < margin {
			return false
		}
	}
	return true
}

// area returns the wedge's area in mm2 inside a convex polygon.
func (w *wedge) area(poly []geom.Point) float64 {
	var room [2][8]geom.Point // a rectangle gains a corner at each wall at most
	for k, l := range w.walls[:w.n] {
		out := room[k][:0]
		for i, p := range poly {
			q := poly[(i+1)%len(poly)]
			dp, dq := l.n.Dot(p)-l.d, l.n.Dot(q)-l.d
			if dp >= 0 {
				out = append(out, p)
			}
			if (dp < 0) != (dq < 0) {
				out = append(out, p.Lerp(q, dp/(dp-dq)))
			}
		}
		poly = out
	}
	return geom.PolygonArea(poly)
}

// falls reports whether a wedge that no edge of the section comes into is waste, and notes where it is: it holds a corner of the blank, and none that
// is the section's.
func (s *search) falls(w *wedge) bool {
	n, sum := 0, geom.Point{}
	for _, p := range s.t.piece.Blank {
		if !w.holds(p, 0) {
			continue
		}
		if s.t.poly.contains(p) && s.t.poly.dist(p) > 1e-3 {
			return false
		}
		n, sum = n+1, sum.Add(p)
	}
	if n == 0 {
		return false
	}
	w.at = sum.Mul(1 / float64(n))
	return true
}

// exit returns the least v, in the cut's frame, of the blank along a wall.
func (s *search) exit(c *cut, w *wall) float64 {
	lo := math.Inf(1)
	for k := range 4 {
		a, b := s.t.piece.Blank[k], s.t.piece.Blank[(k+1)%4]
		da, db := w.n.Dot(a)-w.d, w.n.Dot(b)-w.d
		if (da < 0) != (db < 0) {
			lo = math.Min(lo, c.view.in(a.Lerp(b, da/(da-db))).Y)
		}
	}
	return lo
}

// freeAlone lets a cut take its offcut along when it goes right through the blank.
func (s *search) freeAlone(k *kerf, side int) {
	l := &k.walls[side]
	w := &wedge{walls: [2]*wall{l}, n: 1}
	if s.cuts[k.cut].h > s.exit(&s.cuts[k.cut], l)-0.2 || slices.Max(l.on) > l.d+touching || !s.falls(w) {
		return
	}
	d := s.cuts[k.cut]
	d.rows, d.freed = d.rows.clone(), w
	d.rows.or(l.hard)
	s.cuts = append(s.cuts, d)
}
