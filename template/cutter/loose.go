package cutter

import "listel/profile/geom"

// A lattice is the blank as cells a millimeter and a half wide, to tell what hangs together after some of a plan's steps.
type lattice struct {
	cells  []probe
	w, h   int
	cell   float64 // mm2
	solid  bitset  // cells of the section
	rim    []int32 // cells beside them
	pieces map[uint64]bitset
}

const latticePitch = 1.5 // mm

// newLattice returns the lattice with the steps that take each cell.
func (s *search) newLattice(steps []step) *lattice {
	l := *s.bareLattice()
	l.pieces = map[uint64]bitset{}
	l.cells = append([]probe{}, l.cells...)
	s.mark(spot{what: "lattice"}, l.cells, steps)
	return &l
}

// bareLattice returns the lattice of the blank without any steps, made once.
func (s *search) bareLattice() *lattice {
	if s.bare != nil {
		return s.bare
	}
	b := s.t.blank.bounds
	l := &lattice{w: int(b.Width()/latticePitch) + 1, h: int(b.Height()/latticePitch) + 1}
	l.cell = b.Width() * b.Height() / float64(l.w*l.h)
	for j := range l.h {
		for i := range l.w {
			p := b.Min.Add(geom.Pt((float64(i)+0.5)*b.Width()/float64(l.w), (float64(j)+0.5)*b.Height()/float64(l.h)))
			l.cells = append(l.cells, s.probeAt(p))
		}
	}
	l.solid = newBitset(len(l.cells))
	for k, q := range l.cells {
		if q.solid {
			l.solid.set(k)
			continue
		}
		if k%l.w > 0 && l.cells[k-1].solid || k%l.w < l.w-1 && l.cells[k+1].solid || k >= l.w && l.cells[k-l.w].solid || k+l.w < len(l.cells) && l.cells[k+l.w].solid {
			l.rim = append(l.rim, int32(k))
		}
	}
	s.bare = l
	return l
}

// held returns the cells that hang together with the section after the steps in done.
func (l *lattice) held(done uint64) bitset {
	if b, ok := l.pieces[done]; ok {
		return b
	}
	b := l.solid.clone()
	stack := make([]int, 0, 256)
	visit := func(k int) {
		if !b.has(k) && l.cells[k].stands(done) {
			b.set(k)
			stack = append(stack, k)
		}
	}
	for _, k := range l.rim {
		visit(int(k))
	}
	for len(stack) > 0 {
		k := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if k%l.w > 0 {
			visit(k - 1)
		}
		if k%l.w < l.w-1 {
			visit(k + 1)
		}
		if k >= l.w {
			visit(k - l.w)
		}
		if k+l.w < len(l.cells) {
			visit(k + l.w)
		}
	}
	l.pieces[done] = b
	return b
}

// taken returns the area in mm2 that step k takes away after the steps in done, and the area and middle of what falls off with it.
func (l *lattice) taken(k int, done uint64) (cut, loose float64, mid geom.Point) {
	after := done | 1<<k
	gone := l.held(done).clone()
	gone.andNot(l.held(after))
	gone.each(func(i int) {
		if l.cells[i].stands(after) {
			loose += l.cell
			mid = mid.Add(l.cells[i].p.Mul(l.cell))
			return
		}
		cut += l.cell
	})
	if loose > 0 {
		mid = mid.Mul(1 / loose)
	}
	return cut, loose, mid
}

// at returns the cell that holds p.
func (l *lattice) at(p geom.Point, b geom.Rect) int {
	i := int((p.X - b.Min.X) / b.Width() * float64(l.w))
	j := int((p.Y - b.Min.Y) / b.Height() * float64(l.h))
	return max(0, min(l.h-1, j))*l.w + max(0, min(l.w-1, i))
}
