package cutter

import (
	"cmp"
	"math"
	"slices"

	"listel/profile/geom"
)

// addWedges adds the saw cuts that free an offcut, alone or two by two.
func (s *search) addWedges() error {
	kerfs := s.kerfs()
	for i := range kerfs {
		for side := range dirs {
			s.freeAlone(&kerfs[i], side)
		}
	}
	byView := make([][]*kerf, len(s.views))
	for i := range kerfs {
		v := s.cuts[kerfs[i].cut].view.index
		byView[v] = append(byView[v], &kerfs[i])
	}
	for _, list := range byView {
		slices.SortStableFunc(list, func(a, b *kerf) int { return cmp.Compare(s.cuts[a.cut].x, s.cuts[b.cut].x) })
	}
	known := map[[4]int]bool{}
	for i := range kerfs {
		if i%16 == 0 {
			if err := s.tick(); err != nil {
				return err
			}
		}
		for _, p := range s.pairsOf(&kerfs[i], byView) {
			if !known[p.key()] {
				known[p.key()] = true
				s.addPair(p)
			}
		}
	}
	return nil
}

// A pair is two kerfs that free an offcut between them, and the sides of them on which it lies.
type pair struct {
	a, b   *kerf
	sa, sb int
	w      *wedge
}

// key is the same for the pair the other way round.
func (p pair) key() [4]int {
	if p.a.cut > p.b.cut {
		return [4]int{p.b.cut, p.a.cut, p.sb, p.sa}
	}
	return [4]int{p.a.cut, p.b.cut, p.sa, p.sb}
}

// pairsOf returns the best pair of a kerf with one from each other view for each pair of walls: that which frees most. byView holds the kerfs of each
// view by their place.
func (s *search) pairsOf(a *kerf, byView [][]*kerf) []pair {
	var out []pair
	va := s.cuts[a.cut].view
	for v, others := range byView {
		vb := s.views[v]
		if math.Abs(va.up.Cross(vb.up)) < 0.3 || s.opts.Effort == Quick && (va.square < 0 || vb.square < 0) {
			continue
		}
		for d := range 4 {
			sa, sb := d&1, d>>1
			// Each kerf must run along the wedge, not away from it.
			if vb.right().Dot(va.up)*dirs[sb] <= 0.05 || va.right().Dot(vb.up)*dirs[sa] <= 0.05 {
				continue
			}
			if p, ok := s.pairOf(a, sa, others, sb); ok {
				out = append(out, p)
			}
		}
	}
	return out
}

// leastOffcut is the area in mm2 under which an offcut is not worth two kerfs.
const leastOffcut = 20

// pairOf returns the pair that frees most with the wall of a kerf and a wall, on the side sb, of one of others, which are of one view and sorted by their
// place. The nearer a wall of those lies to the section, the more it frees: the first that does is the best.
func (s *search) pairOf(a *kerf, sa int, others []*kerf, sb int) (pair, bool) {
	wa := &a.walls[sa]
	var near *float64 // how near the walls may come, once it is asked for
	for k := range others {
		b := others[k]
		if sb == 0 {
			b = others[len(others)-1-k]
		}
		if s.cuts[b.cut].tool != s.cuts[a.cut].tool {
			continue
		}
		wb := &b.walls[sb]
		if !s.meet(&s.cuts[a.cut], &s.cuts[b.cut], wa, wb) {
			continue
		}
		if near == nil {
			d := wa.reach(wb.on) - touching
			near = &d
		}
		if wb.d < *near {
			continue
		}
		w := &wedge{walls: [2]*wall{wa, wb}, n: 2}
		if w.area(s.t.piece.Blank[:]) <= leastOffcut {
			break
		}
		if s.falls(w) {
			return pair{a: a, b: b, sa: sa, sb: sb, w: w}, true
		}
	}
	return pair{}, false
}

// meet reports whether two kerfs part an offcut from the rest: one reaches the corner of the two walls, which lies in the blank, and the other at least
// well into the first.
func (s *search) meet(a, b *cut, wa, wb *wall) bool {
	const overlap = 0.3
	det := wa.n.Cross(wb.n)
	m := geom.Pt(wa.d*wb.n.Y-wb.d*wa.n.Y, wa.n.X*wb.d-wb.n.X*wa.d).Mul(1 / det)
	da, db, most := a.h-a.view.in(m).Y, b.h-b.view.in(m).Y, a.variant.width-overlap
	if !(da <= 1e-6 && db <= most) && !(db <= 1e-6 && da <= most) {
		return false
	}
	return s.t.blank.contains(m)
}

// addPair adds two saw cuts and their offcut as one candidate, unless the kerfs alone clear as much.
func (s *search) addPair(p pair) {
	a, b := &s.cuts[p.a.cut], &s.cuts[p.b.cut]
	off := p.a.walls[p.sa].hard.clone()
	off.and(p.b.walls[p.sb].hard)
	rows := a.rows.clone()
	rows.or(b.rows)
	if off.within(rows) {
		return
	}
	rows.or(off)
	s.cuts = append(s.cuts, cut{
		tool: a.tool, variant: a.variant, view: a.view, x: a.x, h: a.h, rows: rows, weight: 2, parts: [2]int{p.a.cut, p.b.cut}, freed: p.w, cost: a.cost + b.cost,
	})
}
