package replay

import (
	"fmt"
	"math"
	"strings"
)

// Options are what a replay measures with and holds a plan to. The zero value is what the figures ask: a raster of 0.05 mm, no gouge over
// 0.02 mm, what is left within the plan's allowance.
type Options struct {
	Cell      float64 // mm, 0 means 0.05
	Gouge     float64 // mm, 0 means 0.02
	OnlyShape bool    // look at gouges and at what is left alone, not at what bears, clears and is claimed
	First     bool    // stop at the first fault, gouges before all else
}

// A Fault is one thing that a replay holds against a plan.
type Fault struct {
	Step  int    // of the set-ups, from 1; 0 when it is about the whole
	Kind  string // "gouge", "left", "body", "table", "fence", "trapped", "apart", "clean", "takes", "sweep", "rip", "proud"
	Value float64
	Text  string
}

// A Report is what a replay found. Lengths are mm.
type Report struct {
	Gouge  float64 // deepest cut into the section
	Left   float64 // most that stays on the section, places declared unreached not counted
	Faults []Fault
}

// OK reports whether nothing speaks against the plan.
func (r Report) OK() bool { return len(r.Faults) == 0 }

// Verify decodes a plan and replays it.
func Verify(data []byte, o Options) (Report, error) {
	p, err := Decode(data)
	if err != nil {
		return Report{}, err
	}
	return Replay(p, o), nil
}

// A bench is a replay under way.
type bench struct {
	plan     Plan
	o        Options
	r        raster
	section  []bool
	standing []bool
	keep     int     // a cell deep in the section
	taken    float64 // mm2 so far
	said     float64 // mm2 that the plan says so far
	report   Report
}

// Replay plays a plan through, cut by cut, and reports what it found.
func Replay(p Plan, o Options) Report {
	if o.Cell == 0 {
		o.Cell = 0.05
	}
	if o.Gouge == 0 {
		o.Gouge = 0.02
	}
	b := &bench{plan: p, o: o, r: newRaster(p.Blank.Polygon, o.Cell)}
	b.standing, b.section = make([]bool, b.r.w*b.r.h), make([]bool, b.r.w*b.r.h)
	mark := func(cells []bool) func(int, int) {
		return func(a, z int) {
			for k := a; k < z; k++ {
				cells[k] = true
			}
		}
	}
	b.r.fill(p.Blank.Polygon, mark(b.standing))
	b.r.fill(p.Outline, mark(b.section))
	b.keep = b.deepest()
	for i, s := range p.Setups {
		if b.gouge(i+1, s); b.done() {
			return b.report
		}
	}
	for i := range p.Setups {
		if b.step(i); b.done() {
			return b.report
		}
	}
	b.left()
	if !o.OnlyShape {
		b.clean()
	}
	return b.report
}

// done reports whether enough has been seen.
func (b *bench) done() bool { return b.o.First && len(b.report.Faults) > 0 }

func (b *bench) fault(step int, kind string, value float64, format string, args ...any) {
	b.report.Faults = append(b.report.Faults, Fault{step, kind, value, fmt.Sprintf(format, args...)})
}

// deepest returns the cell of the section that is furthest from its edge, of those a millimeter apart.
func (b *bench) deepest() int {
	best, far := 0, -1.0
	n := max(1, int(1/b.o.Cell))
	for j := 0; j < b.r.h; j += n {
		for i := 0; i < b.r.w; i += n {
			k := j*b.r.w + i
			if !b.section[k] {
				continue
			}
			if d := boundaryDistance(b.plan.Outline, b.r.at(k)); d > far {
				best, far = k, d
			}
		}
	}
	return best
}

// step makes one cut.
func (b *bench) step(i int) {
	s := b.plan.Setups[i]
	table0, fence0 := b.bearing(s)
	taken, sp, deep := 0, span{near: math.Inf(1), far: math.Inf(-1)}, math.Inf(-1)
	b.r.fill(s.Silhouette, func(a, z int) {
		for k := a; k < z; k++ {
			if b.standing[k] {
				b.standing[k] = false
				taken++
				deep = math.Max(deep, s.depth(b.r.at(k)))
				q := s.machine(b.r.at(k))
				sp.near, sp.far, sp.high = math.Min(sp.near, q[0]), math.Max(sp.far, q[0]), math.Max(sp.high, q[1])
			}
		}
	})
	b.sweep(i+1, s)
	table1, fence1 := b.bearing(s) // of a board, before the molding is off it
	if s.Rips {
		b.rip(i+1, s)
	} else if taken > 0 {
		taken += b.fall(i+1, s)
		table1, fence1 = b.bearing(s)
	}
	if b.o.OnlyShape {
		return
	}
	area := float64(taken) * b.o.Cell * b.o.Cell
	b.taken, b.said = b.taken+area, b.said+s.Removed
	if area < leastTaken {
		b.fault(i+1, "takes", area, "takes nothing")
	}
	// Wood that hangs by less than a cell may fall a step later than the plan says, never earlier.
	if area > s.Removed*1.03+1.5 && b.taken > b.said*1.01+1.5 {
		b.fault(i+1, "takes", area, "takes %.1f mm2, the plan says %.1f", area, s.Removed)
	}
	b.body(i+1, s)
	b.proud(i+1, s, deep)
	b.judge(i+1, s, "table", table0, table1)
	if s.Work != "plane" {
		b.judge(i+1, s, "fence", fence0, fence1)
	}
	if s.Work == "router" && area > leastGrip {
		sp.high = math.Max(sp.high, s.Height)
		b.trapped(i+1, s, sp)
	}
}

// sweep checks that a silhouette takes in the way of the tool from outside the blank: from each place on its edge in the blank it goes on,
// against the way the tool enters, until it leaves the blank. A tool that is wider at its tip than behind it does not come that way.
func (b *bench) sweep(n int, s Setup) {
	const step = 1.0 // mm: no tool narrows and widens again in less
	back := s.entry()
	worst := 0.0
	along(s.Silhouette, 0.5, func(p Point) {
		for d := step; ; d += step {
			q := Point{p[0] - back[0]*d, p[1] - back[1]*d}
			if !inside(b.plan.Blank.Polygon, q) {
				return
			}
			if !inside(s.Silhouette, q) {
				worst = math.Max(worst, boundaryDistance(s.Silhouette, q))
			}
		}
	})
	if worst > 0.02 {
		b.fault(n, "sweep", worst, "the tool does not come that way: %.2f mm beside what it takes stands in its way", worst)
	}
}

// gouge measures how deep a silhouette enters the section: places of its edge inside the section from the section's edge, and places of the
// section's edge inside it from its own edge.
func (b *bench) gouge(n int, s Setup) {
	deep := 0.0
	along(s.Silhouette, b.o.Cell, func(p Point) {
		if inside(b.plan.Outline, p) {
			deep = math.Max(deep, boundaryDistance(b.plan.Outline, p))
		}
	})
	along(b.plan.Outline, b.o.Cell, func(p Point) {
		if inside(s.Silhouette, p) {
			deep = math.Max(deep, boundaryDistance(s.Silhouette, p))
		}
	})
	b.report.Gouge = math.Max(b.report.Gouge, deep)
	if deep > b.o.Gouge {
		b.fault(n, "gouge", deep, "cuts %.3f mm into the section", deep)
	}
}

// fall takes away what no longer hangs together with the section, and returns the number of its cells.
func (b *bench) fall(n int, s Setup) int {
	count, sum, lost := 0, Point{}, 0
	b.r.loose(b.standing, b.keep, func(l run) {
		for k := l.a; k < l.b; k++ {
			b.standing[k] = false
			count++
			p := b.r.at(k)
			sum[0], sum[1] = sum[0]+p[0], sum[1]+p[1]
			if b.section[k] {
				lost++
			}
		}
	})
	if area := float64(lost) * b.o.Cell * b.o.Cell; area > 0.1 {
		b.fault(n, "apart", area, "cuts %.2f mm2 of the section off", area)
	}
	if float64(count)*b.o.Cell*b.o.Cell > 4 && s.Work == "saw" && !b.o.OnlyShape {
		mid := Point{sum[0] / float64(count), sum[1] / float64(count)}
		at := s.machine(mid)
		if u, ok := b.kerfAt(s, at[1]); ok && at[0] < u && !warned(s) {
			b.fault(n, "trapped", at[0], "an offcut stays between blade and fence")
		}
	}
	return count
}

// kerfAt returns the distance from the fence of the middle of a kerf at a height over the table, and whether it reaches that height.
func (b *bench) kerfAt(s Setup, height float64) (float64, bool) {
	sum, n := 0.0, 0
	b.r.fill(s.Silhouette, func(a, z int) {
		for k := a; k < z; k++ {
			if q := s.machine(b.r.at(k)); math.Abs(q[1]-height) < 0.5 {
				sum, n = sum+q[0], n+1
			}
		}
	})
	return sum / float64(max(1, n)), n > 0
}

// body looks for wood that shank, pilot or body would run into.
func (b *bench) body(n int, s Setup) {
	worst := 0.0
	b.r.fill(s.Body, func(a, z int) {
		for k := a; k < z; k++ {
			if b.standing[k] {
				worst = math.Max(worst, boundaryDistance(s.Body, b.r.at(k)))
			}
		}
	})
	if worst > 0.12 && !warned(s) {
		b.fault(n, "body", worst, "shank, pilot or body %.2f mm in the wood", worst)
	}
}

// bearing returns the width of wood that lies on the table and on the fence.
func (b *bench) bearing(s Setup) (table, fence float64) {
	lo, hi := bounds(b.plan.Blank.Polygon)
	reach := math.Hypot(hi[0]-lo[0], hi[1]-lo[1])
	in := 1.1 * b.o.Cell // the outermost row of cells may have its middles outside the blank
	for d := in; d < reach; d += b.o.Cell {
		if k := b.r.index(s.section(d, in)); k >= 0 && b.standing[k] {
			table += b.o.Cell
		}
		if k := b.r.index(s.section(in, d)); k >= 0 && b.standing[k] {
			fence += b.o.Cell
		}
	}
	return table, fence
}

// judge holds the width that bears on a face before and after a cut against what is needed.
func (b *bench) judge(n int, s Setup, kind string, before, after float64) {
	const least = 1.5
	switch {
	case before < least && !warned(s):
		b.fault(n, kind, before, "%.1f mm bears on the %s before the cut", before, kind)
	case after < least && s.Warning == "":
		b.fault(n, kind, after, "%.1f mm bears on the %s after the cut, and nothing is said of it", after, kind)
	}
}

// warned reports whether a set-up itself says that it cannot be done as it stands.
func warned(s Setup) bool { return strings.Contains(s.Warning, "carrier board") }

// leastTaken is the area in mm2 under which a set-up is not worth its name.
const leastTaken = 0.05

// leastGrip is the area in mm2 of a cut that can catch the work: a lighter shaving does not. Common practice, no source.
const leastGrip = 3

// trapped reports wood that a router bit leaves on its fence side alone, at the heights that it reaches: none beyond the farthest place that
// it took, some nearer than the nearest.
func (b *bench) trapped(n int, s Setup, t span) {
	nearSide, farSide := false, false
	lo, hi := bounds(b.plan.Blank.Polygon)
	reach := math.Hypot(hi[0]-lo[0], hi[1]-lo[1])
	for v := b.o.Cell; v < t.high; v += 4 * b.o.Cell {
		for u := b.o.Cell; u < reach; u += 4 * b.o.Cell {
			if k := b.r.index(s.section(u, v)); k >= 0 && b.standing[k] {
				nearSide = nearSide || u < t.near-0.5
				farSide = farSide || u > t.far+0.2
			}
		}
	}
	if nearSide && !farSide && !warned(s) {
		b.fault(n, "trapped", t.far, "the work lies between cutter and fence")
	}
}

// A span is where a cut took wood: distances from the fence, greatest height over the table.
type span struct{ near, far, high float64 }

// left measures what stands outside the section at the end.
func (b *bench) left() {
	worst, at := 0.0, Point{}
	areas, total := make([]float64, len(b.plan.Unreached)), 0.0
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
	}
	if worst > b.plan.Allowance {
		b.fault(0, "left", worst, "%.2f mm stays at (%.2f, %.2f)", worst, at[0], at[1])
	}
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
			b.fault(0, "clean", got, "element %d: %.0f%% of its %s comes clean, the plan says %.0f%%", f.Element, got*100, f.Kind, f.Clean*100)
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
