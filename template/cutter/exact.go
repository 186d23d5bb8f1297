package cutter

import "sort"

// A solver looks for the lightest cover of a core by iterative deepening: is there one of weight 1, 2, 3, ...; each try
// branches on the row with the fewest columns and is cut short where rows without a common column still need more than is left.
type solver struct {
	c      core
	nodes  int // left of the budget
	picked []int
	found  []int
	tick   func() error
	err    error
	count  int
	rows   []int          // by rising number of columns
	least  []int          // weight of the lightest column of each row
	seen   map[uint64]int // sets of open rows that this much weight did not cover
}

func newSolver(c core, nodes int, tick func() error) *solver {
	s := &solver{c: c, nodes: nodes, tick: tick, rows: make([]int, len(c.rowIDs)), least: make([]int, len(c.rowIDs))}
	for r := range s.rows {
		s.rows[r], s.least[r] = r, 1<<30
		for _, k := range c.list[r] {
			s.least[r] = min(s.least[r], c.weights[k])
		}
	}
	sort.SliceStable(s.rows, func(i, j int) bool { return len(c.list[s.rows[i]]) < len(c.list[s.rows[j]]) })
	return s
}

// solve returns a lightest cover, of no less than the given weight, as columns of the core, and the greatest weight known to be needed. The cover is nil when the budget ended
// before one was found; bound is then what was proven.
func (s *solver) solve(low int) (cover []int, bound int, err error) {
	open := newBitset(len(s.c.rowIDs))
	for r := range s.c.rowIDs {
		open.set(r)
	}
	if open.empty() {
		return []int{}, 0, nil
	}
	for w := max(low, s.bound(open)); ; w++ {
		s.seen = map[uint64]int{}
		ok, done := s.deepen(open, w)
		switch {
		case s.err != nil:
			return nil, w, s.err
		case ok:
			return s.found, w, nil
		case !done:
			return nil, w, nil
		}
	}
}

// deepen looks for a cover of the open rows with no more than the given weight; done is false when the budget ended.
func (s *solver) deepen(open bitset, left int) (ok, done bool) {
	if open.empty() {
		s.found = append([]int{}, s.picked...)
		return true, true
	}
	if left <= 0 {
		return false, true
	}
	// A node of a big core takes longer: it counts for more.
	if s.nodes -= s.c.bulk(); s.nodes <= 0 {
		return false, false
	}
	if s.count++; s.count%256 == 0 && s.tick != nil {
		if s.err = s.tick(); s.err != nil {
			return false, false
		}
	}
	h := open.hash()
	if s.seen[h] >= left+1 {
		return false, true
	}
	row, least := s.branchRow(open)
	if least > left {
		return false, true
	}
	for _, k := range s.order(row, open) {
		if s.c.weights[k] > left {
			continue
		}
		rest := open.clone()
		rest.andNot(s.c.cols[k])
		s.picked = append(s.picked, k)
		ok, done = s.deepen(rest, left-s.c.weights[k])
		s.picked = s.picked[:len(s.picked)-1]
		if ok || !done {
			return ok, done
		}
	}
	if len(s.seen) < 1<<18 {
		s.seen[h] = left + 1
	}
	return false, true
}

// order returns a row's columns, those that clear most of the open rows for their weight first.
func (s *solver) order(row int, open bitset) []int {
	cols := make([]int, len(s.c.list[row]))
	gain := make(map[int]int, len(cols))
	for i, at := range s.c.list[row] {
		k := int(at)
		cols[i] = k
		gain[k] = s.c.cols[k].commonCount(open)
	}
	sort.SliceStable(cols, func(i, j int) bool {
		return gain[cols[i]]*s.c.weights[cols[j]] > gain[cols[j]]*s.c.weights[cols[i]]
	})
	return cols
}

// branchRow returns the open row with the fewest columns and a lower bound on the weight that the open rows need.
func (s *solver) branchRow(open bitset) (row, bound int) {
	for _, r := range s.rows {
		if open.has(r) {
			return r, s.bound(open)
		}
	}
	return -1, 0
}

// bound returns the weight of open rows picked so that no column clears two of them: each needs its own.
func (s *solver) bound(open bitset) int {
	used := newBitset(len(s.c.cols))
	sum := 0
	for _, r := range s.rows {
		if open.has(r) && !s.c.by[r].meets(used) {
			used.or(s.c.by[r])
			sum += s.least[r]
		}
	}
	return sum
}

// bulk is what a look at the whole of a core counts for: one up to half a million of columns times rows.
func (c core) bulk() int { return 1 + len(c.cols)*len(c.rowIDs)/500_000 }
