package replay

import (
	"math"
	"strings"
)

// bearing returns the width of wood that lies on the table, and on a fence that is no higher than the set-up says it must be.
func (b *bench) bearing(s Setup) (table, fence float64) {
	lo, hi := bounds(b.plan.Blank.Polygon)
	reach := math.Hypot(hi[0]-lo[0], hi[1]-lo[1])
	in := 1.1 * b.o.Cell // the outermost row of cells may have its middles outside the blank
	for d := in; d < reach; d += b.o.Cell {
		if k := b.r.index(s.section(d, in)); k >= 0 && b.standing[k] {
			table += b.o.Cell
		}
		if k := b.r.index(s.section(in, d)); k >= 0 && b.standing[k] && d <= s.FenceHigh {
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
	case after < least && !speaksOf(s, kind):
		b.fault(n, kind, after, "%.1f mm bears on the %s after the cut, and nothing is said of it", after, kind)
	}
}

// warned reports whether a set-up itself says that it cannot be done as it stands.
func warned(s Setup) bool { return strings.Contains(s.Warning, "carrier board") }

// speaksOf reports whether a set-up's warning says anything of what bears on a face.
func speaksOf(s Setup, face string) bool {
	if face == "table" && s.Work == "plane" {
		face = "bench"
	}
	return warned(s) || strings.Contains(s.Warning, "bears on the "+face) || strings.Contains(s.Warning, "bears on table and fence")
}

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
