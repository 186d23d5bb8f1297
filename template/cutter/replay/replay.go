package replay

import (
	"fmt"
	"math"
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
	Stays  float64 // most that stays in those, straight in from the side that each is open to
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
