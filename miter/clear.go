package miter

import (
	"cmp"
	"math"
	"slices"
)

// A gap is a part of the face of an edge that no molding covers, in heights over the floor, mm. Over and under name what ends it.
type gap struct {
	lo, hi      float64
	under, over string // "the base covers the face up to", "stage trunk goes up to"
}

// clear refuses openings of a face that end outside their stage, or where a molding covers it, whichever stage that is on: a base whose top stands over
// their bottom, a waist that seats their stage, a throat whose foot hangs below their top. A bead round the openings, bead mm wide, lies clear too. For each
// end that is wrong it says what would do.
func (f *fitter) clear(l *Layout, s *StagePlan, bead float64) {
	bottom, top := l.Area.Min.Y, l.Area.Max.Y
	if !(top-bottom >= leastDrawer) {
		f.add("openings.area.top", "the openings end at %s and start at %s: the top is not above the bottom", f.mm(top), f.mm(bottom))
		return
	}
	gaps := slices.DeleteFunc(f.gaps(l, s), func(g gap) bool { return g.hi-g.lo < leastDrawer+2*bead-1e-6 })
	if len(gaps) == 0 {
		f.add("openings.area", "the moldings cover the %s of stage %s from %s to %s: no opening has room there", l.Edge, s.Name, f.mm(s.Floor), f.mm(s.Top))
		return
	}
	shared := func(g gap) float64 { return math.Min(g.hi, top) - math.Max(g.lo, bottom) }
	g := slices.MaxFunc(gaps, func(a, b gap) int { return cmp.Compare(shared(a), shared(b)) })
	with := func(end string, y float64) string {
		if bead > 0 {
			return ", the bead " + end + " them at " + f.mm(y)
		}
		return ""
	}
	step := grain(f.Units) // what would do is told so that it does when it is written as it stands
	if bottom-bead < g.lo-1e-6 {
		f.add("openings.area.bottom", "the openings start at %s%s, and %s %s; %s or more would do", f.mm(bottom), with("under", bottom-bead), g.under, f.mm(g.lo), f.mm(math.Ceil((g.lo+bead)/step-1e-6)*step))
	}
	if top+bead > g.hi+1e-6 {
		f.add("openings.area.top", "the openings reach %s%s, and %s %s; %s or less would do", f.mm(top), with("over", top+bead), g.over, f.mm(g.hi), f.mm(math.Floor((g.hi-bead)/step+1e-6)*step))
	}
}

// gaps returns what the moldings leave of a face, from its foot up.
func (f *fitter) gaps(l *Layout, s *StagePlan) []gap {
	free := []gap{{lo: s.Floor, hi: s.Top, under: "stage " + s.Name + " begins at", over: "stage " + s.Name + " ends at"}}
	for _, m := range f.Moldings {
		u := f.quietly(m.Profile)
		runs := len(m.Runs) == 0 && l.Edge != "back" || slices.Contains(m.Runs, l.Edge)
		if u == nil || !runs || m.Rake != nil {
			continue
		}
		foot, top := m.At, m.At+u.Height
		var left []gap
		for _, g := range free {
			if top <= g.lo || foot >= g.hi {
				left = append(left, g)
				continue
			}
			if foot > g.lo {
				left = append(left, gap{lo: g.lo, hi: foot, under: g.under, over: m.Name + " covers the face from"})
			}
			if top < g.hi {
				left = append(left, gap{lo: top, hi: g.hi, under: m.Name + " covers the face up to", over: g.over})
			}
		}
		free = left
	}
	return free
}

// beside refuses openings that leave no width, or no room for their bead, bead mm wide, beside them.
func (f *fitter) beside(o Openings, edge Edge, bead float64) {
	long := edge.Length()
	if !(o.Left >= 0) || !(o.Right >= 0) || !(long-o.Left-o.Right >= leastDrawer) {
		f.add("openings.area", "left and right leave no opening: edge %s is %s long; together %s at most would do", edge.Name, f.mm(long), f.mm(math.Max(0, long-leastDrawer)))
		return
	}
	for _, side := range []struct {
		name string
		mm   float64
	}{{"left", o.Left}, {"right", o.Right}} {
		if bead > side.mm+1e-6 {
			f.add("openings.area."+side.name, "the bead is %s wide, and only %s lies between the opening and the %s end of edge %s; %s or more would do",
				f.mm(bead), f.mm(side.mm), side.name, edge.Name, f.mm(bead))
		}
	}
}
