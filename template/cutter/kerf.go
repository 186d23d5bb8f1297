package cutter

import (
	"math"

	"listel/profile/geom"
)

// A wedge is the offcut that saw cuts free: the part of the blank on the far side of one or two kerf walls.
type wedge struct {
	walls [2]wall
	n     int // walls in use
	at    geom.Point
}

// A wall is the side of a kerf toward the section: the wedge lies where n·p >= d.
type wall struct {
	n  geom.Point
	d  float64
	on []float64 // n·p for the points of the flattened section
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

// crosses reports whether the segment from the i-th to the j-th point of the flattened section enters the wedge further than the margin.
func (w *wedge) crosses(i, j int, margin float64) bool {
	lo, hi := 0.0, 1.0
	for k := range w.n {
		l := &w.walls[k]
		a, b := l.on[i]-l.d-margin, l.on[j]-l.d-margin
		switch {
		case a <= 0 && b <= 0:
			return false
		case a < 0:
			lo = math.Max(lo, a/(a-b))
		case b < 0:
			hi = math.Min(hi, a/(a-b))
		}
	}
	return lo < hi
}

// kerfWall returns the wall of a saw cut that leaves the wedge to the right (dir 1) or left (dir -1) of it in its frame.
func (s *search) kerfWall(c *cut, dir float64) wall {
	n, key := c.view.right().Mul(dir), 2*c.view.index
	if dir > 0 {
		key++
	}
	if s.onWalls == nil {
		s.onWalls = make([][]float64, 2*len(s.views))
	}
	if s.onWalls[key] == nil {
		for _, p := range s.t.poly.pts {
			s.onWalls[key] = append(s.onWalls[key], n.Dot(p))
		}
	}
	return wall{n: n, d: dir*c.x - c.variant.width/2, on: s.onWalls[key]}
}

// addWedges adds the saw cuts that free an offcut, alone or two by two.
func (s *search) addWedges() error {
	var saws []int
	for i := range s.cuts {
		if s.tools[s.cuts[i].tool].Kind == SawBlade {
			saws = append(saws, i)
		}
	}
	for _, i := range saws {
		for _, dir := range []float64{-1, 1} {
			s.freeAlone(i, dir)
		}
	}
	byView := make([][]int, len(s.views))
	for _, i := range saws {
		v := s.cuts[i].view.index
		byView[v] = append(byView[v], i)
	}
	known := map[[4]int]bool{}
	for k, i := range saws {
		if k%16 == 0 {
			if err := s.tick(); err != nil {
				return err
			}
		}
		for _, p := range s.partners(i, byView) {
			if !known[p.key()] {
				known[p.key()] = true
				s.addPair(p)
			}
		}
	}
	return nil
}

// partners returns the best partner of the saw cut i from each other view for each pair of walls: that with which it frees most.
func (s *search) partners(i int, byView [][]int) []partner {
	var out []partner
	a := &s.cuts[i]
	for v, others := range byView {
		b := s.views[v]
		if math.Abs(a.view.up.Cross(b.up)) < 0.3 || s.opts.Effort == Quick && (a.view.square < 0 || b.square < 0) {
			continue
		}
		for d := range 4 {
			di, dj := float64(d&1*2-1), float64(d&2-1)
			// Each kerf must run along the wedge, not away from it.
			if b.right().Dot(a.view.up)*dj <= 0.05 || a.view.right().Dot(b.up)*di <= 0.05 {
				continue
			}
			best, wa := partner{}, s.kerfWall(a, di)
			for _, j := range others {
				if j != i && s.cuts[j].tool == a.tool {
					s.freePair(i, j, wa, s.kerfWall(&s.cuts[j], dj), &best)
				}
			}
			if best.w != nil {
				best.di, best.dj = int(di), int(dj)
				out = append(out, best)
			}
		}
	}
	return out
}

// freeAlone lets a cut take its offcut along when it goes right through the blank.
func (s *search) freeAlone(i int, dir float64) {
	c := &s.cuts[i]
	w := &wedge{walls: [2]wall{s.kerfWall(c, dir)}, n: 1}
	if c.h > s.exit(c, w.walls[0])-0.2 || !s.loose(w) {
		return
	}
	d := s.cuts[i]
	d.rows, d.freed = d.rows.clone(), w
	s.coverWedge(&d)
	s.cuts = append(s.cuts, d)
}

// exit returns the least v, in the cut's frame, of the blank along a wall.
func (s *search) exit(c *cut, w wall) float64 {
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

// freePair makes cuts i and j, with their walls toward the section, the best pair when together they free more beyond both than it does.
func (s *search) freePair(i, j int, wa, wb wall, best *partner) {
	a, b := &s.cuts[i], &s.cuts[j]
	det := wa.n.Cross(wb.n)
	m := geom.Pt(wa.d*wb.n.Y-wb.d*wa.n.Y, wa.n.X*wb.d-wb.n.X*wa.d).Mul(1 / det)
	// One kerf reaches the corner of the two walls, the other at least well into the first.
	const overlap = 0.3
	width := a.variant.width
	da, db := a.h-a.view.in(m).Y, b.h-b.view.in(m).Y
	if !(da <= 1e-6 && db <= width-overlap) && !(db <= 1e-6 && da <= width-overlap) {
		return
	}
	if !s.t.blank.contains(m) {
		return
	}
	w := wedge{walls: [2]wall{wa, wb}, n: 2}
	if area := w.area(s.t.piece.Blank[:]); area > best.area+1e-9 && area > leastOffcut && s.loose(&w) {
		kept := w
		*best = partner{i: i, j: j, area: area, w: &kept}
	}
}

// leastOffcut is the area in mm2 under which an offcut is not worth two kerfs.
const leastOffcut = 20

// A partner is the second cut of a pair and what the two free.
type partner struct {
	i, j   int
	di, dj int // sides of the kerfs on which the wedge lies
	area   float64
	w      *wedge
}

// key is the same for the pair the other way round.
func (p partner) key() [4]int {
	if p.i > p.j {
		return [4]int{p.j, p.i, p.dj, p.di}
	}
	return [4]int{p.i, p.j, p.di, p.dj}
}

// addPair adds two saw cuts and their offcut as one candidate.
func (s *search) addPair(p partner) {
	a, b := &s.cuts[p.i], &s.cuts[p.j]
	c := cut{tool: a.tool, variant: a.variant, view: a.view, x: a.x, h: a.h, weight: 2, parts: [2]int{p.i, p.j}, freed: p.w, cost: a.cost + b.cost}
	c.rows = a.rows.clone()
	c.rows.or(b.rows)
	if s.coverWedge(&c) > 0 {
		s.cuts = append(s.cuts, c)
	}
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

// loose reports whether the wedge holds nothing of the section.
func (s *search) loose(w *wedge) bool {
	n := len(s.t.poly.pts)
	for k := range n {
		i := s.crossed + k // what stood in the way of one stands in that of the next most often
		if i >= n {
			i -= n
		}
		if w.crosses((i+n-1)%n, i, 1e-4) {
			s.crossed = i
			return false
		}
	}
	r := []geom.Point{}
	for _, p := range s.t.piece.Blank {
		if w.holds(p, 0) {
			r = append(r, p)
		}
	}
	if len(r) == 0 {
		return false
	}
	sum := geom.Point{}
	for _, p := range r {
		if s.t.poly.contains(p) && s.t.poly.dist(p) > 1e-3 {
			return false
		}
		sum = sum.Add(p)
	}
	w.at = sum.Mul(1 / float64(len(r)))
	return true
}

// coverWedge adds the rows of the wedge and returns how many of them the kerfs alone do not clear.
func (s *search) coverWedge(c *cut) int {
	n := 0
	for i, p := range s.t.hard {
		if r := s.rows.point(i); !c.rows.has(r) && c.freed.holds(p, marginLevels[0]) {
			c.rows.set(r)
			n++
		}
	}
	return n
}
