package stock

import (
	"cmp"
	"slices"
)

// knapNodes is how many nodes the depth-first knapsack may take before the knapsack by lists is asked instead.
const knapNodes = 4000

// A knapsack finds the most valuable pattern of one class: values of the units in whole numbers, at most rem of each.
type knapsack struct {
	p     *problem
	rem   []int
	value []int64
	order []int32 // units worth something, by falling value per length
	eff   *effort
	nodes int
	tune  tuning

	least    []int64 // least size in order[i:]
	size     []int64 // order[i]: its size, its value, and those of all there are of it
	worth    []int64
	allSize  []int64
	allWorth []int64
	pick     []int32
	best     int64
	bestPick []int32
	ease     int64
	enough   int64 // a pattern worth no more than this is not looked for
}

// newKnapsack prepares the class's units; value and rem are by unit index.
func newKnapsack(p *problem, class int, value []int64, rem []int, eff *effort, tune tuning) *knapsack {
	k := &knapsack{p: p, rem: rem, value: value, eff: eff, tune: tune}
	for i := p.unitsOf[class][0]; i < p.unitsOf[class][1]; i++ {
		if rem[i] > 0 && value[i] > 0 {
			k.order = append(k.order, int32(i))
		}
	}
	slices.SortStableFunc(k.order, func(a, b int32) int {
		// value a / size a against value b / size b, crosswise: values < 2^32, sizes < 2^26
		l, r := value[a]*p.units[b].size, value[b]*p.units[a].size
		switch {
		case l > r:
			return -1
		case l < r:
			return 1
		}
		return 0
	})
	n := len(k.order)
	room := make([]int64, 5*n+1)
	k.least, k.size, k.worth, k.allSize, k.allWorth = room[:n+1], room[n+1:2*n+1], room[2*n+1:3*n+1], room[3*n+1:4*n+1], room[4*n+1:]
	k.least[n] = 1 << 62
	for i := n - 1; i >= 0; i-- {
		u := k.order[i]
		s, v := p.units[u].size, value[u]
		k.least[i] = min(k.least[i+1], s)
		k.size[i], k.worth[i], k.allSize[i], k.allWorth[i] = s, v, s*int64(rem[u]), v*int64(rem[u])
	}
	k.pick = make([]int32, len(k.order))
	k.bestPick = make([]int32, len(k.order))
	return k
}

// solve returns the greatest value of a pattern that fits capacity, with such a pattern; ease is as in bin. exact is false when the search
// was cut short; value is then still an upper bound, and the pattern is the best one seen. Where no pattern is worth more than
// enough, that is the value, and the pattern is empty.
func (k *knapsack) solve(capacity, ease int64) (value int64, pat pattern, exact bool) {
	k.best, k.nodes, k.ease = k.enough, 0, ease
	clear(k.bestPick)
	limit := k.tune.knapNodes(knapNodes)
	if k.run(0, capacity, 0, -1, limit) {
		return k.best, k.taken(), true
	}
	if v, pat, ok := k.byLists(capacity); ok {
		return v, pat, true
	}
	return max(k.best, k.ceiling(capacity)), k.taken(), false
}

// ceiling is the fractional knapsack without counts: capacity filled with what is worth most per length.
func (k *knapsack) ceiling(capacity int64) int64 {
	if len(k.order) == 0 {
		return 0
	}
	u := k.order[0]
	return k.value[u] * capacity / k.p.units[u].size
}

// taken returns the best picks as a pattern.
func (k *knapsack) taken() pattern {
	var pat pattern
	for i, n := range k.bestPick {
		if n > 0 {
			pat = append(pat, part{k.order[i], n})
		}
	}
	slices.SortFunc(pat, func(a, b part) int { return int(a.unit - b.unit) })
	return pat
}

// run extends the picks before i, which leave left and are worth value, by order[i:]; tail is the least tail picked, -1
// for none. It returns false when the nodes are used up.
func (k *knapsack) run(i int, left, value, tail int64, limit int) bool {
	k.nodes++
	if k.nodes > limit || !k.eff.spend(1) {
		return false
	}
	if value > k.best && tail <= left+k.ease {
		k.best = value
		copy(k.bestPick, k.pick)
	}
	for ; i < len(k.order) && left >= k.least[i]; i++ {
		if value+k.most(i, left) <= k.best {
			return true
		}
		size, v := k.size[i], k.worth[i]
		if size > left {
			continue
		}
		t := k.p.units[k.order[i]].tail
		if tail >= 0 {
			t = min(t, tail)
		}
		n := int64(k.rem[k.order[i]])
		if k.allSize[i] > left {
			n = left / size
		}
		for ; n > 0; n-- {
			k.pick[i] = int32(n)
			ok := k.run(i+1, left-n*size, value+n*v, t, limit)
			k.pick[i] = 0
			if !ok {
				return false
			}
		}
	}
	return true
}

// most returns the fractional knapsack of order[i:]: the first units whole, all there are of them, and a part of the next.
func (k *knapsack) most(i int, left int64) int64 {
	var sum int64
	for ; i < len(k.order); i++ {
		if k.allSize[i] > left {
			return sum + k.worth[i]*left/k.size[i]
		}
		sum += k.allWorth[i]
		left -= k.allSize[i]
	}
	return sum
}

// A listed is a state of the knapsack by lists: what is picked, as its last pick.
type listed struct {
	size, value int64
	last        int32 // index of the pick, -1 for none
}

// A listPick is so many of a unit, and what was picked before.
type listPick struct{ before, unit, n int32 }

// listCap bounds the length of a list, and 8 times as much all picks: 3 lists of 24 bytes and the picks of 12 are 20 MB.
const listCap = 1 << 17

// byLists returns the greatest value of a pattern that fits, with the pattern, from lists of states none of which is both
// longer and worth no more than another; false when there are too many. Units with the longest tails come first, so that a
// state's tail is that of the last unit in it.
func (k *knapsack) byLists(capacity int64) (int64, pattern, bool) {
	order := slices.Clone(k.order)
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(k.p.units[b].tail, k.p.units[a].tail) })
	limit := k.tune.listCap(listCap)
	rates := k.rates(order)
	states := []listed{{0, 0, -1}}
	best := listed{value: k.best, last: -2} // what the depth-first knapsack found
	var picks []listPick
	for i, o := range order {
		u := k.p.units[o]
		var with []listed // states that hold the unit at hand
		left := min(int64(k.rem[o]), capacity/u.size)
		for chunk := int64(1); left > 0; chunk *= 2 { // chunks of 1, 2, 4, ... and the rest make up every number
			n := min(chunk, left)
			left -= n
			var add []listed
			for _, s := range mergeLists(states, with) {
				if s.size+n*u.size > capacity {
					break
				}
				picks = append(picks, listPick{s.last, o, int32(n)})
				add = append(add, listed{s.size + n*u.size, s.value + n*k.value[o], int32(len(picks) - 1)})
			}
			with = mergeLists(with, add)
			if len(with) > limit || len(picks) > 8*limit || !k.eff.spend(int64(len(add)/4+1)) {
				return 0, nil, false
			}
		}
		for _, s := range with {
			if s.size+u.tail <= capacity+k.ease && s.value > best.value {
				best = s
			}
		}
		next := rates[i+1]
		states = slices.DeleteFunc(mergeLists(states, with), func(s listed) bool {
			return s.value+next.worth*(capacity-s.size)/next.size <= best.value // no better by all that may follow
		})
		if len(states) > limit {
			return 0, nil, false
		}
	}
	if best.last == -2 {
		return k.best, k.taken(), true
	}
	var pat pattern
	for i := best.last; i >= 0; i = picks[i].before {
		if last := len(pat) - 1; last >= 0 && pat[last].unit == picks[i].unit {
			pat[last].n += picks[i].n
			continue
		}
		pat = append(pat, part{picks[i].unit, picks[i].n})
	}
	slices.SortFunc(pat, func(a, b part) int { return int(a.unit - b.unit) })
	return best.value, pat, true
}

// rates returns, for each place in order, the best value per size of the units from there on.
func (k *knapsack) rates(order []int32) []rate {
	out := make([]rate, len(order)+1)
	out[len(order)] = rate{0, 1}
	for i := len(order) - 1; i >= 0; i-- {
		out[i] = out[i+1]
		v, size := k.value[order[i]], k.p.units[order[i]].size
		if v*out[i].size > out[i].worth*size {
			out[i] = rate{v, size}
		}
	}
	return out
}

// mergeLists merges two lists by rising size, dropping states that are worth no more than a shorter one.
func mergeLists(a, b []listed) []listed {
	out := make([]listed, 0, len(a)+len(b))
	top := int64(-1)
	for len(a) > 0 || len(b) > 0 {
		var s listed
		if len(b) == 0 || len(a) > 0 && (a[0].size < b[0].size || a[0].size == b[0].size && a[0].value >= b[0].value) {
			s, a = a[0], a[1:]
		} else {
			s, b = b[0], b[1:]
		}
		if s.value > top {
			top = s.value
			out = append(out, s)
		}
	}
	return out
}
