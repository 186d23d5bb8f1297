package stock

// A reach knows which costs a plan can have at all: sums of item prices, within the counts at hand.
type reach struct {
	step int64  // every price is a multiple
	set  []bool // multiples of step up to the limit; nil when there would be too many
}

// reachCap bounds the table of reachable costs, in entries.
const reachCap = 1 << 20

// newReach computes the costs reachable up to limit.
func newReach(items []supply, limit int64) reach {
	var step int64
	for _, it := range items {
		step = gcd(step, it.cost)
	}
	if step == 0 {
		return reach{step: 1, set: []bool{true}}
	}
	r := reach{step: step}
	if limit/step >= reachCap {
		return r
	}
	r.set = make([]bool, limit/step+1)
	r.set[0] = true
	for _, it := range items {
		if it.cost > 0 {
			r.addItem(int(it.cost/step), it.have)
		}
	}
	return r
}

// addItem extends the set by up to have of an item that costs c steps.
func (r *reach) addItem(c, have int) {
	if have == unlimited {
		for i := c; i < len(r.set); i++ {
			r.set[i] = r.set[i] || r.set[i-c]
		}
		return
	}
	// used counts how many of the item the cheapest way to a newly reached cost takes
	used := make([]int, len(r.set))
	for i := c; i < len(r.set); i++ {
		if !r.set[i] && r.set[i-c] && used[i-c] < have {
			r.set[i] = true
			used[i] = used[i-c] + 1
		}
	}
}

// up returns the least reachable cost >= cost; past the table, the next multiple of the step.
func (r reach) up(cost int64) int64 {
	i := max(0, ceilDiv(cost, r.step))
	for r.set != nil && i < int64(len(r.set)) && !r.set[i] {
		i++
	}
	return i * r.step
}
