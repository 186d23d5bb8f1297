package stock

import (
	"cmp"
	"slices"
)

// A child is a step that may be taken and what it wastes.
type child struct {
	step
	waste int64
	liked float64 // how often the linear program would take it
}

// A tranche hands out the steps that cut a given unit, in portions of growing waste, so that a search which finds its way
// with little waste never lists the many steps that waste much.
type tranche struct {
	s     *search
	slack int64
	from  int64 // steps that waste less were handed out
	to    int64 // the most waste of the portion at hand; slack at the last
	bins  []supplied
	likes []liked
	enum  patterns
	kids  []child
	cut   bool // the effort ran out within a portion
	done  bool
}

// A supplied is a bin and the ways to come by a strip of it.
type supplied struct {
	bin   int
	ways  []way
	floor int64
}

// portion is how many steps a portion may hold before it is narrowed.
const portion = 256

func (s *search) newTranche(u int, likes []liked) *tranche {
	d := s.d[len(s.d)-1]
	t := &tranche{s: s, slack: d.slack(s.p, s.s), to: -1}
	for _, l := range likes {
		if l.x > 1e-6 && slices.ContainsFunc(l.pat, func(q part) bool { return int(q.unit) == u }) {
			t.likes = append(t.likes, l)
		}
	}
	class := s.p.units[u].class
	for _, b := range s.p.binsOf[class] {
		if w := s.ways(b, t.slack); len(w) > 0 {
			t.bins = append(t.bins, supplied{b, w, s.floor(b, w)})
		}
	}
	t.enum = patterns{p: s.p, rem: s.s.rem, d: d, eff: s.eff}
	t.enum.prepare(u, s.p.unitsOf[class][1])
	return t
}

// next fills kids with the next portion, false when there is none.
func (t *tranche) next() bool {
	if t.done || t.cut || t.to >= t.slack {
		return false
	}
	t.from = t.to + 1
	t.to = t.slack
	if t.from == 0 {
		t.to = t.slack / 16
	} else if wide := 4 * (t.from + 1); wide < t.slack/2 {
		t.to = wide
	}
	for !t.list(portion) && !t.cut && t.to > t.from {
		t.to = t.from + (t.to-t.from)/4
	}
	if t.to == t.from && !t.cut {
		t.list(1 << 30)
	}
	slices.SortStableFunc(t.kids, func(a, b child) int {
		if a.liked != b.liked {
			return cmp.Compare(b.liked, a.liked)
		}
		return cmp.Compare(a.waste, b.waste)
	})
	return true
}

// list fills kids with the steps that waste from..to; it returns false when there are more than most.
func (t *tranche) list(most int) bool {
	t.kids = t.kids[:0]
	d := t.enum.d
	for _, b := range t.bins {
		t.enum.floor = b.floor
		t.enum.need = 1 << 62
		for _, w := range b.ways {
			t.enum.need = min(t.enum.need, d.sig[b.bin]+t.slack-w.slack-t.to)
		}
		full := false
		t.enum.yield = func(pat pattern, worth, _ int64) bool {
			t.keep(b, pat, d.sig[b.bin]-worth)
			full = len(t.kids) > most
			return !full
		}
		if !t.enum.run(t.s.p.bins[b.bin]) {
			t.cut = !full
			return false
		}
	}
	return true
}

// keep adds the steps that cut pat, which wastes so much of its strip, and fall in the portion.
func (t *tranche) keep(b supplied, pat pattern, waste int64) {
	var own pattern
	var x float64
	for _, w := range b.ways {
		all := waste + t.slack - w.slack
		if all < t.from || all > t.to {
			continue
		}
		if own == nil {
			own = slices.Clone(pat)
			for _, l := range t.likes {
				if l.bin == b.bin && slices.Equal(l.pat, own) {
					x = l.x
				}
			}
		}
		t.kids = append(t.kids, child{step{w.source, filled{b.bin, own}}, all, x})
	}
}
