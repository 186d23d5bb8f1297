package stock

// A patterns enumerates the maximal patterns of one bin that hold a given first unit: nothing that is still to be cut
// would fit beside them.
type patterns struct {
	p     *problem
	rem   []int
	d     *duals
	eff   *effort
	need  int64 // least worth of a pattern
	floor int64 // a pattern no longer than this fits a stick that costs no more, and is left out
	yield func(pat pattern, worth, size int64) bool

	to       int
	capacity int64
	ease     int64
	pick     pattern
	least    []int64 // least size of a unit to cut in [i, to), by i - from
	sum      []int64 // size of all units to cut in [i, to)
	rate     []rate  // the best worth per size in [i, to)
	from     int
}

// A rate is a worth per size.
type rate struct{ worth, size int64 }

// prepare fills the tables for units [from, to).
func (e *patterns) prepare(from, to int) {
	n := to - from
	e.from, e.to = from, to
	e.least = append(e.least[:0], make([]int64, n+1)...)
	e.sum = append(e.sum[:0], make([]int64, n+1)...)
	e.rate = append(e.rate[:0], make([]rate, n+1)...)
	e.least[n] = 1 << 62
	e.rate[n] = rate{0, 1}
	for i := n - 1; i >= 0; i-- {
		u := e.p.units[from+i]
		e.least[i], e.sum[i], e.rate[i] = e.least[i+1], e.sum[i+1], e.rate[i+1]
		r := int64(e.rem[from+i])
		if r == 0 {
			continue
		}
		e.least[i] = min(e.least[i], u.size)
		e.sum[i] += r * u.size
		if v := e.d.pi[from+i]; v*e.rate[i].size > e.rate[i].worth*u.size {
			e.rate[i] = rate{v, u.size}
		}
	}
}

// run enumerates; it returns false when the effort is used up or yield asked to stop.
func (e *patterns) run(b bin) bool {
	capacity := b.capacity
	u := e.p.units[e.from]
	e.capacity, e.ease = capacity, b.ease
	e.pick = e.pick[:0]
	most := min(int64(e.rem[e.from]), capacity/u.size)
	skip := int64(1 << 62)
	for n := most; n > 0; n-- {
		if n < int64(e.rem[e.from]) {
			skip = u.size
		}
		e.pick = append(e.pick[:0], part{int32(e.from), int32(n)})
		if !e.extend(1, capacity-n*u.size, n*e.d.pi[e.from], u.tail, skip) {
			return false
		}
	}
	return true
}

// extend completes the picks, which leave left and are worth worth, by units from index i on; tail is their least tail,
// and skip the least size of a unit passed over: a pattern that leaves as much is not maximal.
func (e *patterns) extend(i int, left, worth, tail, skip int64) bool {
	if !e.eff.spend(1) {
		return false
	}
	// the picks can hold no more than what is left at the best rate, and cannot fill the room of a unit passed over
	// once all the rest is too short
	for {
		if worth+e.rate[i].worth*left/e.rate[i].size < e.need {
			return true
		}
		if !e.p.longTail && left-e.sum[i] >= skip {
			return true
		}
		if left < e.least[i] {
			return e.emit(left, worth, tail, skip)
		}
		if e.rem[e.from+i] > 0 && e.p.units[e.from+i].size <= left {
			break
		}
		i++
	}
	at := e.from + i
	u := e.p.units[at]
	rem := int64(e.rem[at])
	for n := min(rem, left/u.size); n > 0; n-- {
		s := skip
		if n < rem {
			s = min(s, u.size)
		}
		e.pick = append(e.pick, part{int32(at), int32(n)})
		ok := e.extend(i+1, left-n*u.size, worth+n*e.d.pi[at], min(tail, u.tail), s)
		e.pick = e.pick[:len(e.pick)-1]
		if !ok {
			return false
		}
	}
	return e.extend(i+1, left, worth, tail, min(skip, u.size))
}

// emit yields the picks if they fit and are maximal.
func (e *patterns) emit(left, worth, tail, skip int64) bool {
	if tail > left+e.ease || worth < e.need || e.capacity-left+tail <= e.floor {
		return true
	}
	if e.p.longTail {
		if !e.maximal(left, tail) {
			return true
		}
	} else if left >= skip {
		return true
	}
	return e.yield(e.pick, worth, e.capacity-left)
}

// maximal tells whether no unit still to be cut fits beside the picks, tails considered.
func (e *patterns) maximal(left, tail int64) bool {
	j := 0
	for at := e.from; at < e.to; at++ {
		rem := e.rem[at]
		if j < len(e.pick) && int(e.pick[j].unit) == at {
			rem -= int(e.pick[j].n)
			j++
		}
		u := e.p.units[at]
		if rem > 0 && u.size <= left && u.size+min(tail, u.tail) <= left+e.ease {
			return false
		}
	}
	return true
}
