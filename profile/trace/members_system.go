package trace

import (
	"math"

	"listel/profile/geom"
)

// A term is a multiple of one unknown.
type term struct {
	unknown int
	factor  float64
}

// A row is a number that hangs on the unknowns: a sum of terms.
type row []term

func (r row) value(theta []float64) float64 {
	v := 0.0
	for _, t := range r {
		v += t.factor * theta[t.unknown]
	}
	return v
}

// plus returns the sum of r and k times s.
func (r row) plus(s row, k float64) row {
	out := append(row(nil), r...)
next:
	for _, t := range s {
		for i := range out {
			if out[i].unknown == t.unknown {
				out[i].factor += k * t.factor
				continue next
			}
		}
		out = append(out, term{t.unknown, k * t.factor})
	}
	return out
}

// A strand is a part of the section's outline that is drawn from a few numbers of its own.
type strand struct {
	rows []row
	draw func(v []float64) geom.Path // nil when the numbers allow no path
}

// A sight is a point of the outline with the strands it may lie on, from lo up to but not including hi, and its weight.
type sight struct {
	at     geom.Point
	lo, hi int
	w      float64
}

// A hold ties a number that hangs on the unknowns to a value known to within sigma.
type hold struct {
	row   row
	value float64
	sigma float64
}

// A system is a section whose sizes are unknown, with the outline's points that they are to fit.
type system struct {
	strands []strand
	sights  []sight
	holds   []hold
	sigma   float64    // mm, of a point across the outline
	least   float64    // mm, the size below which a member or a step is taken for a fault of the drawing
	beyond  [2]float64 // mm, how far strands go on straight beyond their start and their end
}

// A drawing is what the unknowns make of a system.
type drawing struct {
	local [][]float64
	paths []geom.Path
}

func (s *system) drawn(theta []float64) (drawing, bool) {
	d := drawing{make([][]float64, len(s.strands)), make([]geom.Path, len(s.strands))}
	for i, st := range s.strands {
		d.local[i] = make([]float64, len(st.rows))
		for k, r := range st.rows {
			d.local[i][k] = r.value(theta)
		}
		if d.paths[i] = st.draw(d.local[i]); d.paths[i] == nil {
			return d, false
		}
	}
	return d, true
}

// huber is the distance in sigmas from which a point counts less: corners that ink has rounded, specks that touch the outline.
const huber = 2.5

// loss returns the cost of a distance in sigmas, and its weight.
func loss(r float64) (cost, weight float64) {
	if a := math.Abs(r); a > huber {
		return huber * (2*a - huber), huber / a
	}
	return r * r, 1
}

// nearest returns the strand that a sight lies on, the place there and its distance.
func (d drawing) nearest(s sight) (strand int, at float64, foot geom.Point, dist float64) {
	dist = math.Inf(1)
	for k := s.lo; k < s.hi; k++ {
		if t, q, away := nearestOn(d.paths[k], s.at); away < dist {
			strand, at, foot, dist = k, t, q, away
		}
	}
	return strand, at, foot, dist
}

// cost returns the weighed squared distances of all sights and holds, in sigmas; infinite when the unknowns draw nothing.
func (s *system) cost(theta []float64) float64 {
	d, ok := s.drawn(theta)
	if !ok {
		return math.Inf(1)
	}
	sum := 0.0
	for _, sg := range s.sights {
		k, at, foot, dist := d.nearest(sg)
		dist = s.past(d, k, at, sg.at.Sub(foot), dist)
		c, _ := loss(dist / s.sigma)
		sum += sg.w * c
	}
	return sum + s.held(theta)
}

// normalAt returns the normal of strand k at a place, to the left of its travel.
func (d drawing) normalAt(k int, at float64) geom.Point {
	path := d.paths[k]
	if at == float64(len(path)) {
		return path[len(path)-1].Tangent(1).Left()
	}
	return path.Tangent(at).Left()
}

// past returns the distance of a sight that lies off from its foot: where that is an end, it is measured from the end's tangent, as far
// as that goes on.
func (s *system) past(d drawing, k int, at float64, off geom.Point, dist float64) float64 {
	on := 0.0
	switch at {
	case 0:
		on = s.beyond[0]
	case float64(len(d.paths[k])):
		on = s.beyond[1]
	}
	if on == 0 {
		return dist
	}
	n := d.normalAt(k, at)
	return math.Hypot(n.Dot(off), math.Max(0, math.Abs(n.Cross(off))-on))
}

func (s *system) held(theta []float64) float64 {
	sum := 0.0
	for _, h := range s.holds {
		r := (h.row.value(theta) - h.value) / h.sigma
		sum += r * r
	}
	return sum
}

// nudge is the change in mm of a size by which derivatives are taken; its square is far below any error that matters.
const nudge = 1e-4

// normal returns the matrix and right side of the normal equations at theta, and the cost there.
func (s *system) normal(theta []float64) (square, []float64, float64, bool) {
	d, ok := s.drawn(theta)
	if !ok {
		return nil, nil, math.Inf(1), false
	}
	moved := make([][]geom.Path, len(s.strands))
	locals := make([]square, len(s.strands))
	rights := make([][]float64, len(s.strands))
	cost := 0.0
	for _, sg := range s.sights {
		k, t, foot, dist := d.nearest(sg)
		if math.IsInf(dist, 1) {
			continue
		}
		if moved[k] == nil {
			moved[k] = s.moved(k, d.local[k])
			locals[k], rights[k] = newSquare(len(s.strands[k].rows)), make([]float64, len(s.strands[k].rows))
		}
		n := d.normalAt(k, t)
		off := sg.at.Sub(foot)
		r := n.Dot(off)
		dist = s.past(d, k, t, off, dist)
		c, weight := loss(dist / s.sigma)
		cost += sg.w * c
		weight *= sg.w / (s.sigma * s.sigma)
		var grad [32]float64
		g := grad[:len(moved[k])]
		for i, p := range moved[k] {
			if p != nil {
				g[i] = n.Dot(p.At(t).Sub(foot)) / nudge
			}
		}
		for i := range g {
			rights[k][i] += weight * g[i] * r
			for j := range i + 1 {
				locals[k][i][j] += weight * g[i] * g[j]
			}
		}
	}
	m, right := newSquare(len(theta)), make([]float64, len(theta))
	for k := range s.strands {
		if locals[k] != nil {
			s.strands[k].spread(locals[k], rights[k], m, right)
		}
	}
	for _, h := range s.holds {
		r := (h.row.value(theta) - h.value) / h.sigma
		cost += r * r
		for _, a := range h.row {
			right[a.unknown] -= a.factor * r / h.sigma
			for _, b := range h.row {
				m[a.unknown][b.unknown] += a.factor * b.factor / (h.sigma * h.sigma)
			}
		}
	}
	return m, right, cost, true
}

// moved returns the paths of a strand with each of its numbers nudged.
func (s *system) moved(k int, local []float64) []geom.Path {
	out := make([]geom.Path, len(local))
	for i := range local {
		v := append([]float64(nil), local...)
		v[i] += nudge
		out[i] = s.strands[k].draw(v)
	}
	return out
}

// spread adds a strand's own equations, of which only the lower triangle is filled in, to those of the unknowns.
func (st strand) spread(local square, right []float64, m square, all []float64) {
	for i, ri := range st.rows {
		for _, a := range ri {
			all[a.unknown] += a.factor * right[i]
		}
		for j, rj := range st.rows {
			v := local[max(i, j)][min(i, j)]
			if v == 0 {
				continue
			}
			for _, a := range ri {
				for _, b := range rj {
					m[a.unknown][b.unknown] += a.factor * b.factor * v
				}
			}
		}
	}
}

// solve improves theta by Levenberg-Marquardt, at most so many rounds, and returns the cost. Unknowns that are fixed stay.
func (s *system) solve(theta []float64, fixed []bool, rounds int) ([]float64, float64) {
	damp := 1e-3
	m, right, cost, ok := s.normal(theta)
	for round := 0; ok && round < rounds; round++ {
		step, solved := damped(m, right, fixed, damp)
		next := append([]float64(nil), theta...)
		for i := range step {
			next[i] += step[i]
		}
		tried := math.Inf(1)
		if solved {
			tried = s.cost(next)
		}
		if !(tried < cost) {
			if damp *= 10; damp > 1e6 {
				break
			}
			continue
		}
		done := cost-tried < 1e-3
		theta, damp = next, damp/10
		if done {
			return theta, tried
		}
		m, right, cost, ok = s.normal(theta)
	}
	return theta, cost
}

// damped returns the step that the damped equations give, 0 for what is fixed.
func damped(m square, right []float64, fixed []bool, damp float64) ([]float64, bool) {
	a, b := newSquare(len(right)), append([]float64(nil), right...)
	for i := range a {
		copy(a[i], m[i])
		a[i][i] = a[i][i]*(1+damp) + 1e-9
	}
	for i := range a {
		if fixed == nil || !fixed[i] {
			continue
		}
		for j := range a {
			a[i][j], a[j][i] = 0, 0
		}
		a[i][i], b[i] = 1, 0
	}
	return a.solve(b)
}
