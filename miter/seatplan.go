package miter

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/profile/measure"
)

// A planSize is a size of a stage's plan that may be set anew.
type planSize struct {
	name string
	of   func(*Stage) *float64
}

// planSizes returns the sizes that a stage's plan is given by.
func planSizes(s Stage) []planSize {
	var out []planSize
	add := func(name string, of func(*Stage) *float64) {
		if *of(&s) > 0 {
			out = append(out, planSize{name, of})
		}
	}
	add("width", func(s *Stage) *float64 { return &s.Plan.Width })
	add("depth", func(s *Stage) *float64 { return &s.Plan.Depth })
	add("setback", func(s *Stage) *float64 { return &s.Plan.Canted })
	if s.Plan.Breakfront != nil {
		add("breakfront width", func(s *Stage) *float64 { return &s.Plan.Breakfront.Width })
		add("step", func(s *Stage) *float64 { return &s.Plan.Breakfront.Step })
	}
	add("octagon across", func(s *Stage) *float64 { return &s.Plan.Octagon })
	add("half-octagon width", func(s *Stage) *float64 { return &s.Plan.HalfOctagon })
	return out
}

// The offset of a stage as sizes to be set.
var offsetSizes = []planSize{
	{"x", func(s *Stage) *float64 { return &s.Offset.X }},
	{"y", func(s *Stage) *float64 { return &s.Offset.Y }},
}

// seatedPlan says which sizes of stage i would let its faces stand in the rabbet, those that may stay left out; where they alone will not do, with an offset.
// It is "" when none would.
func (m *fitting) seatedPlan(i int) string {
	sizes := planSizes(m.Case.Stages[i])
	own := m.Case.Stages[i].Offset != nil
	if own {
		sizes = append(sizes, offsetSizes...)
	}
	if words := m.solved(i, sizes); words != "" || own {
		return words
	}
	at := m.plans[i].origin.Sub(m.plans[i-1].origin)
	given := m.Case
	m.Case = given.withStage(i)
	defer func() { m.Case = given }()
	m.Case.Stages[i].Offset = &at
	return m.solved(i, append(sizes, offsetSizes...))
}

// withStage returns the case with a stage of its own that may be changed.
func (c Case) withStage(i int) Case {
	c.Stages = slices.Clone(c.Stages)
	s := &c.Stages[i]
	if s.Plan.Breakfront != nil {
		b := *s.Plan.Breakfront
		s.Plan.Breakfront = &b
	}
	if s.Offset != nil {
		o := *s.Offset
		s.Offset = &o
	}
	return c
}

// solved sets the sizes of stage i so that its faces stand in the rabbet as well as they can, in whole steps of a rule where those do, and says them; "" when
// some face would still be off by too much. With the corners as they are a face moves in proportion to each size.
func (m *fitting) solved(i int, sizes []planSize) string {
	was := make([]float64, len(sizes))
	for k, s := range sizes {
		was[k] = *s.of(&m.Case.Stages[i])
	}
	offs := func(v []float64) []float64 {
		c := m.Case.withStage(i)
		for k, s := range sizes {
			*s.of(&c.Stages[i]) = v[k]
		}
		var f faults
		plans, _ := stages(c, &f)
		if len(f.list) > 0 {
			return nil
		}
		faces, _ := m.seatFaces(plans[i])
		var out []float64
		for _, s := range faces {
			out = append(out, s.a, s.b)
		}
		return out
	}
	// A stage that may be moved keeps its back where it is: that settles its depth.
	placed := func(v []float64) []float64 {
		out := offs(v)
		if k := slices.IndexFunc(sizes, func(s planSize) bool { return s.name == "depth" }); out != nil && k >= 0 && sizes[len(sizes)-1].name == "y" {
			out = append(out, v[k]+v[len(v)-1]-was[k]-was[len(v)-1])
		}
		return out
	}
	fits := func(v []float64) bool {
		got := offs(v)
		return got != nil && !slices.ContainsFunc(got, func(off float64) bool { return math.Abs(off) > m.seatTolerance(m.plans[i]) })
	}
	exact := nearest(placed, was)
	if exact == nil {
		return ""
	}
	step := grain(m.Units)
	whole := make([]float64, len(exact))
	for k, v := range exact {
		if whole[k] = math.Round(v/step) * step; near(v, was[k], seatTol/2) {
			whole[k] = was[k]
		}
	}
	switch {
	case fits(whole):
		return sizeWords(sizes, was, whole, m.plans[i].placed, m.mm)
	case fits(exact):
		return sizeWords(sizes, was, exact, m.plans[i].placed, func(mm float64) string {
			if m.Units == measure.Inches {
				return fmt.Sprintf("%.4f in", mm/25.4)
			}
			return fmt.Sprintf("%.2f mm", mm)
		})
	}
	return ""
}

// sizeWords says the sizes that have changed; of an offset both, and even as it was where the stage has none of its own.
func sizeWords(sizes []planSize, was, now []float64, placed bool, mm func(float64) string) string {
	var out []string
	changed := func(k int) bool { return !near(was[k], now[k], lengthTol) }
	for k, s := range sizes {
		switch {
		case s.name == "x":
		case s.name == "y" && (!placed || changed(k-1) || changed(k)):
			out = append(out, fmt.Sprintf("offset [%s, %s]", mm(now[k-1]), mm(now[k])))
		case s.name != "y" && changed(k):
			out = append(out, s.name+" "+mm(now[k]))
		}
	}
	return strings.Join(out, ", ")
}

// nearest returns the sizes for which the sum of the squares of what of returns, which moves in proportion to each of them, is least; sizes that nothing
// depends on keep theirs. It is nil where of returns nil.
func nearest(of func([]float64) []float64, at []float64) []float64 {
	r := of(at)
	if r == nil {
		return nil
	}
	n := len(at)
	slopes := make([][]float64, n)
	for k := range at {
		v := slices.Clone(at)
		v[k]++
		moved := of(v)
		if len(moved) != len(r) {
			return nil
		}
		for j := range moved {
			moved[j] -= r[j]
		}
		slopes[k] = moved
	}
	a := make([][]float64, n) // the normal equations; a trace on the diagonal keeps sizes that nothing depends on
	for i := range a {
		a[i] = make([]float64, n+1)
		for j := range n {
			a[i][j] = dot(slopes[i], slopes[j])
		}
		a[i][i] += 1e-9
		a[i][n] = -dot(slopes[i], r)
	}
	step := solve(a)
	for k := range step {
		step[k] += at[k]
	}
	return step
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// solve returns x of a x = b, b being the last column of a, which is changed: a positive definite matrix needs no pivots.
func solve(a [][]float64) []float64 {
	n := len(a)
	for i := range n {
		for k := i + 1; k < n; k++ {
			by := a[k][i] / a[i][i]
			for j := i; j <= n; j++ {
				a[k][j] -= by * a[i][j]
			}
		}
	}
	x := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = a[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= a[i][j] * x[j]
		}
		x[i] /= a[i][i]
	}
	return x
}
