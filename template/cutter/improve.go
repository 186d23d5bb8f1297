package cutter

import (
	"math"
	"sort"
)

// cleanWorth is what a millimeter of face left with wood on it weighs against a set-up.
const cleanWorth = 0.4

// A plan is a solution with its order and score.
type plan struct {
	picked     []int // cuts
	weight     int
	order      []placed
	violations int
	score      float64 // set-ups and all that speaks against it
}

// better reports whether p is to be preferred: first one that can be done at all.
func (p plan) better(q plan) bool {
	if p.violations != q.violations {
		return p.violations < q.violations
	}
	return p.score < q.score-1e-9
}

// rate returns the plan of a solution, ordered by a beam of the given width.
func (s *search) rate(picked []int, beam int) plan {
	s.effort -= len(picked) * len(picked) * beam
	p := plan{picked: append([]int{}, picked...)}
	p.score = s.flatScore(picked)
	for _, k := range picked {
		p.weight += s.cuts[k].weight
	}
	order, cost := s.newOrderer(picked).best(beam)
	p.order, p.score, p.violations = order, p.score+cost, violations(order)
	return p
}

// flatScore returns the part of a solution's score that does not hang on the order.
func (s *search) flatScore(picked []int) float64 {
	all, sum := newBitset(s.rows.total()), 0.0
	for _, k := range picked {
		all.or(s.cuts[k].rows)
		sum += float64(s.cuts[k].weight) + s.cuts[k].cost
	}
	return sum + cleanWorth*s.unclean(all)
}

// improve exchanges, adds and drops cuts while that makes a better plan of no more than the given weight.
func (s *search) improve(picked []int, most int) (plan, error) {
	best := s.rate(picked, s.beam())
	for range s.rounds() {
		if err := s.tick(); err != nil {
			return best, err
		}
		next, found := s.exchange(best, most)
		if !found {
			next, found = s.add(best, most)
		}
		if !found {
			return best, nil
		}
		best = next
	}
	return best, nil
}

func (s *search) beam() int {
	return map[Effort]int{Quick: 8, Usual: 12, Long: 30}[s.opts.Effort]
}

func (s *search) rounds() int {
	return map[Effort]int{Quick: 6, Usual: 12, Long: 40}[s.opts.Effort]
}

// exchange tries, for each cut, the others that have the rows which only it has, best first.
func (s *search) exchange(p plan, most int) (plan, bool) {
	for i, k := range p.picked {
		if s.effort < 0 {
			break
		}
		rest := append(append([]int{}, p.picked[:i]...), p.picked[i+1:]...)
		if next, ok := s.bestWith(p, rest, s.missing(rest), most-(p.weight-s.cuts[k].weight), k); ok {
			return next, true
		}
	}
	return p, false
}

// add tries one more cut.
func (s *search) add(p plan, most int) (plan, bool) {
	if p.weight >= most {
		return p, false
	}
	return s.bestWith(p, p.picked, newBitset(s.rows.total()), most-p.weight, -1)
}

// missing returns the needed rows that a solution lacks.
func (s *search) missing(picked []int) bitset {
	m := s.needed.clone()
	for _, k := range picked {
		m.andNot(s.cuts[k].rows)
	}
	return m
}

// bestWith returns the best plan of rest and one cut that has the missing rows, if it is better than p.
func (s *search) bestWith(p plan, rest []int, missing bitset, room, but int) (plan, bool) {
	type option struct {
		cut   int
		score float64
	}
	var options []option
	base, left := newBitset(s.rows.total()), 0.0
	for _, k := range rest {
		base.or(s.cuts[k].rows)
		left += float64(s.cuts[k].weight) + s.cuts[k].cost
	}
	all := newBitset(s.rows.total())
	for k := range s.cuts {
		c := &s.cuts[k]
		if k == but || c.banned || c.weight > room || !missing.within(c.rows) {
			continue
		}
		copy(all, base)
		all.or(c.rows)
		options = append(options, option{k, left + float64(c.weight) + c.cost + cleanWorth*s.unclean(all)})
	}
	sort.SliceStable(options, func(i, j int) bool { return options[i].score < options[j].score })
	tries := map[Effort]int{Quick: 3, Usual: 5, Long: 16}[s.opts.Effort]
	if p.violations > 0 {
		tries *= 4
	}
	best, found := p, false
	lastScore, lastView := math.Inf(-1), (*view)(nil)
	for _, o := range options {
		if tries == 0 || s.effort < 0 || p.violations == 0 && o.score >= p.score {
			break
		}
		// Neighbors that score the same from the same side differ in nothing that an order would feel.
		if o.score-lastScore < 1e-6 && s.cuts[o.cut].view == lastView {
			continue
		}
		lastScore, lastView = o.score, s.cuts[o.cut].view
		tries--
		if next := s.rate(append(append([]int{}, rest...), o.cut), s.beam()); next.better(best) {
			best, found = next, true
		}
	}
	return best, found
}

// mend returns a solution with cuts added for the needed rows that it lacks, and without those that it then no longer needs.
func (s *search) mend(picked []int) []int {
	picked = append([]int{}, picked...)
	for m := s.missing(picked); !m.empty(); m = s.missing(picked) {
		best, score := -1, 0.0
		for k := range s.cuts {
			c := &s.cuts[k]
			if g := float64(c.rows.commonCount(m)) / (float64(c.weight) + c.cost); !c.banned && g > score {
				best, score = k, g
			}
		}
		if best < 0 {
			break // only cuts put aside would do
		}
		picked = append(picked, best)
	}
	for i := 0; i < len(picked); i++ {
		rest := append(append([]int{}, picked[:i]...), picked[i+1:]...)
		if s.missing(rest).within(s.missing(picked)) {
			picked = rest
			i--
		}
	}
	return picked
}

func (s *search) weightOf(picked []int) int {
	n := 0
	for _, k := range picked {
		n += s.cuts[k].weight
	}
	return n
}
