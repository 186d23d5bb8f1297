package replay

import "math"

// left measures what stands outside the section at the end.
func (b *bench) left() {
	worst, at := 0.0, Point{}
	areas, deep, total := make([]float64, len(b.plan.Unreached)), make([]float64, len(b.plan.Unreached)), 0.0
	for k, st := range b.standing {
		if st && !b.section[k] {
			total += b.o.Cell * b.o.Cell
		}
		if !st || b.section[k] {
			continue
		}
		p := b.r.at(k)
		d := boundaryDistance(b.plan.Outline, p)
		if i := b.declared(p, d); d > b.plan.Allowance && i >= 0 {
			areas[i] += b.o.Cell * b.o.Cell
			if in := b.plan.Unreached[i].In; !b.goesOn(p, in) {
				deep[i] = math.Max(deep[i], b.through(p, in))
			}
			continue
		}
		b.report.Left = math.Max(b.report.Left, d)
		if d > worst {
			worst, at = d, p
		}
	}
	if !b.o.OnlyShape && total > b.plan.Left.Total*1.02+0.2 {
		b.fault(0, "left", total, "%.2f mm2 stays on the section, the plan says %.2f", total, b.plan.Left.Total)
	}
	for i, u := range b.plan.Unreached {
		if areas[i] > u.Area*1.05+0.1 && !b.o.OnlyShape {
			b.fault(0, "left", areas[i], "%.2f mm2 stays at heights %.1f to %.1f, the plan says %.2f", areas[i], u.Y0, u.Y1, u.Area)
		}
		if b.report.Stays = math.Max(b.report.Stays, deep[i]); deep[i] > u.Deep*1.02+0.25 && !b.o.OnlyShape {
			b.fault(0, "left", deep[i], "%.2f mm of wood stays at heights %.1f to %.1f, the plan says %.2f", deep[i], u.Y0, u.Y1, u.Deep)
		}
	}
	if worst > b.plan.Allowance {
		b.fault(0, "left", worst, "%.2f mm stays at (%.2f, %.2f)", worst, at[0], at[1])
	}
}

// goesOn reports whether waste over the allowance stands in the next cell on the way in from p.
func (b *bench) goesOn(p, in Point) bool {
	q := Point{p[0] + in[0]*b.o.Cell, p[1] + in[1]*b.o.Cell}
	k := b.r.index(q)
	return k >= 0 && b.standing[k] && !b.section[k] && boundaryDistance(b.plan.Outline, q) > b.plan.Allowance
}

// through returns how far waste goes in line with p, from the section's face outward against the way in. Air between is counted with it: what lies
// before it is no shallower for that.
func (b *bench) through(p, in Point) float64 {
	reach := func(way float64) float64 {
		far := 0.0
		for d := 0.0; ; d += b.o.Cell / 2 {
			k := b.r.index(Point{p[0] + way*in[0]*d, p[1] + way*in[1]*d})
			if k < 0 || b.section[k] {
				return far
			}
			if b.standing[k] {
				far = d
			}
		}
	}
	return reach(1) + reach(-1)
}

// declared returns which of the plan's unreached places p belongs to, so far from the section; -1 for none.
func (b *bench) declared(p Point, d float64) int {
	for i, u := range b.plan.Unreached {
		if p[1] >= u.Y0-0.3 && p[1] <= u.Y1+0.3 && d <= u.Depth+0.15 {
			return i
		}
	}
	return -1
}

// clean compares what comes clean with what the plan claims: a place is clean when a little off it some cut passed, or the blank ends.
func (b *bench) clean() {
	for _, f := range b.plan.Faces {
		tol := 0.06
		if f.Kind != "line" {
			tol = 0.1
		}
		n, ok, length := 0, 0, 0.0
		for i := 1; i < len(f.Points); i++ {
			p, q := f.Points[i-1], f.Points[i]
			l := math.Hypot(q[0]-p[0], q[1]-p[1])
			m := max(1, int(math.Ceil(l/0.05)))
			length += l
			for k := range m {
				t := (float64(k) + 0.5) / float64(m)
				c := Point{p[0] + (q[0]-p[0])*t + (q[1]-p[1])/l*(tol+0.005), p[1] + (q[1]-p[1])*t - (q[0]-p[0])/l*(tol+0.005)}
				n++
				if b.passed(c) {
					ok++
				}
			}
		}
		if got := float64(ok) / float64(max(1, n)); got < f.Clean-0.03-0.1/length {
			b.fault(0, "clean", got, "member %d: %.0f%% of its %s comes clean, the plan says %.0f%%", f.Element, got*100, f.Kind, f.Clean*100)
		}
	}
}

func (b *bench) passed(p Point) bool {
	if !inside(b.plan.Blank.Polygon, p) {
		return true
	}
	for i := range b.plan.Setups {
		if inside(b.plan.Setups[i].Silhouette, p) {
			return true
		}
	}
	return false
}
