package trace

// freeEdge returns the bits as lines and arcs that nothing names.
func (c *chain) freeEdge(a, b int) (way, bool) {
	face := c.bits[c.face:c.top][a:b]
	e := way{from: a, to: b, at: face[0].from}
	if b-a > 1 && (face[0].level(c.sigma) || face[len(face)-1].level(c.sigma)) {
		return e, false // a level step beside it
	}
	for _, p := range face {
		e.cost += p.squares
	}
	e.shape, e.own = c.freeShape(face)
	if len(e.shape.arcs) > 6 || len(e.own) > 30 {
		return e, false
	}
	e.cost += memberPrice + e.shape.price() + sizePrice*float64(e.shape.own())
	return e, true
}

// freeShape returns the bits as a free shape with its sizes.
func (c *chain) freeShape(face []bit) (shape, []float64) {
	s := shape{form: free}
	own, parent := []float64{face[len(face)-1].to.Y - face[0].from.Y, face[len(face)-1].to.X - face[0].from.X}, -1
	for i, p := range face {
		if p.parent == parent {
			continue
		}
		parent = p.parent
		last := i
		for last+1 < len(face) && face[last+1].parent == parent {
			last++
		}
		s.arcs = append(s.arcs, p.arc)
		if p.arc {
			mid := c.pts[(p.first+face[last].last)/2]
			chord := face[last].to.Sub(p.from)
			own = append(own, chord.Left().Unit().Dot(mid.Sub(p.from)))
		}
		if last+1 < len(face) {
			own = append(own, face[last].to.X-face[0].from.X, face[last].to.Y-face[0].from.Y)
		}
	}
	return s, own
}
