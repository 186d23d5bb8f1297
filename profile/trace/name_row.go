package trace

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

func isArc(s geom.Segment) bool { _, ok := s.(geom.Arc); return ok }

// row names equal half rounds or half hollows over one another as reeds or flutes, with equal flats between them or, for reeds, none.
func (s *sized) row(k int, owed float64) (n named, took int, ok bool) {
	f := s.parts[k].shape.form
	if f != halfRound && f != halfHollow {
		return n, 0, false
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= alike }
	count, last, gap := 1, k, 0.0
	for {
		next, between := last+1, 0.0
		if s.flatAfter(next) && s.is(next+1, f) {
			next, between = next+1, s.mm(next)
		}
		if !s.is(next, f) || s.parts[next].step >= 0 || !near(s.mm(next), s.mm(k)) || count > 1 && !near(between, gap) || f == halfHollow && between == 0 {
			break
		}
		if between > 1.5*s.mm(k) {
			break
		}
		gap = (gap*float64(count-1) + between) / float64(count)
		count, last = count+1, next
	}
	if count == 1 {
		return n, 0, false
	}
	kind := profile.KindReeds
	if f == halfHollow {
		kind = profile.KindFlutes
	}
	n = s.newNamed(kind, k, owed)
	total := 0.0
	for i := k; i <= last; i++ {
		total += s.mm(i)
	}
	s.height(&n, total, s.parts[k].at)
	n.entry.Count = count
	if gap > 0 {
		n.entry.Gap = s.size(gap / s.unit)
		n.add("gap", gap, s.sigma[s.parts[k+1].at])
	}
	return n, last - k + 1, true
}

// narrow is the height in mm up to which a groove is a quirk.
const narrow = 6.5

// quirk names a narrow groove that goes in and comes out again to where it began.
func (s *sized) quirk(k int, owed float64) (n named, left float64, ok bool) {
	if k == 0 || !s.is(k, flat) || s.parts[k].drip >= 0 {
		return n, 0, false
	}
	h, in, out := s.mm(k), owed-s.set(k), s.set(k+1)
	if !(in > h/2 && h <= narrow && math.Abs(in-out) <= alike) {
		return n, 0, false
	}
	n = named{entry: profile.Entry{Kind: profile.KindQuirk}}
	s.height(&n, h, s.parts[k].at)
	n.entry.Depth = s.size(in / s.unit)
	n.add("depth", in, s.sigma[s.parts[k].step])
	return n, in, true
}

// quirkedBead names a half round with a groove below, above or on both sides of it.
func (s *sized) quirkedBead(k int, owed float64) (n named, took int, left float64, ok bool) {
	round := k
	below := s.is(k, flat) && s.is(k+1, halfRound) && s.parts[k].drip < 0 && owed-s.set(k) > alike
	if below {
		round = k + 1
	}
	if !s.is(round, halfRound) || s.mm(round) < 2*alike {
		return n, 0, 0, false
	}
	h := s.mm(round)
	// All x from the face beside the bead: of the groove below, of the half round, of the groove above, of what follows.
	var groove, width float64
	at := 0.0
	if below {
		groove, width = owed-s.set(k), s.mm(k)
		at = -groove
	}
	lower := at
	at += s.set(round)
	if !below {
		at -= owed
	}
	foot := at
	above := s.is(round+1, flat) && s.parts[round+1].drip < 0 && s.parts[round+1].step >= 0 || s.is(round+1, flat) && s.set(round+2) > alike
	upper := foot + s.set(round+1)
	back := upper + s.set(round+2)
	w := s.mm(min(round+1, len(s.parts)-1))
	sunk := -h / 2
	if !below && above { // the face that it is flush with is the one above
		upper, back = upper-foot+sunk, back-foot+sunk
		groove, width = -upper, w
		if !(math.Abs(back) <= alike && groove >= h/2-alike && w <= 0.7*h) {
			return n, 0, 0, false
		}
		n = named{entry: profile.Entry{Kind: profile.KindBead}}
		switch set := s.set(k) - owed - sunk; {
		case k == 0:
			s.ahead = -sunk
		case math.Abs(set) > alike:
			n.entry.Set = s.size(set / s.unit)
			if i := s.parts[k].step; i >= 0 {
				n.add("set", set, s.sigma[i])
			}
		}
		return s.bead(n, k, round, true, groove, width, profile.AboveOnly), 2, groove, true
	}
	if !below || width > 0.7*h {
		return n, 0, 0, false
	}
	flush := math.Abs(foot-sunk) <= alike
	if !flush && math.Abs(foot) > alike || flush && groove < h/2-alike {
		return n, 0, 0, false
	}
	if above && math.Abs(upper-lower) <= alike && math.Abs(w-width) <= alike && math.Abs(back) <= alike {
		n = named{entry: profile.Entry{Kind: profile.KindBead}}
		return s.bead(n, k, round, flush, (groove-upper)/2, (width+w)/2, profile.BothSides), 3, groove, true
	}
	if end := foot + s.set(round+1); math.Abs(end) <= alike {
		n = named{entry: profile.Entry{Kind: profile.KindBead}}
		return s.bead(n, k, round, flush, groove, width, profile.BelowOnly), 2, -foot, true
	}
	return n, 0, 0, false
}

// bead fills in the sizes of a bead with its quirk.
func (s *sized) bead(n named, k, round int, flush bool, depth, width float64, sides profile.Sides) named {
	s.height(&n, s.mm(round), s.parts[round].at)
	n.entry.Flush = flush
	if flush {
		depth = math.Max(depth, s.mm(round)/2)
	}
	n.entry.Quirk = &profile.BeadQuirk{Width: s.size(width / s.unit), Depth: s.size(depth / s.unit), Sides: sides}
	groove := k
	if sides == profile.AboveOnly {
		groove = round + 1
	}
	n.add("quirk.width", width, s.sigma[s.parts[groove].at])
	if i := s.parts[groove].step; i >= 0 {
		n.add("quirk.depth", depth, s.sigma[i])
	}
	return n
}

// thumb names a quarter ellipse that leans back from a plumb fillet, the last of all: the edge of a top.
func (s *sized) thumb(k int, owed float64) (n named, took int, ok bool) {
	curve, fillet := k, 0.0
	if s.is(k, flat) && k > 0 {
		curve, fillet = k+1, s.mm(k)
	}
	if curve != len(s.parts)-1 || !s.is(curve, ovoloEllipse) || s.parts[curve].shape.sign > 0 || curve > k && s.parts[curve].step >= 0 || s.parts[k].drip >= 0 {
		return n, 0, false
	}
	n = s.newNamed(profile.KindThumb, k, owed)
	p := s.parts[curve]
	s.height(&n, s.mm(curve)+fillet, p.at)
	n.entry.Projection = s.size(s.theta[p.at+1])
	n.add("projection", s.theta[p.at+1]*s.unit, s.sigma[p.at+1])
	if fillet > 0 {
		n.entry.Fillet = s.size(fillet / s.unit)
		n.add("fillet", fillet, s.sigma[s.parts[k].at])
	}
	return n, curve - k + 1, true
}
