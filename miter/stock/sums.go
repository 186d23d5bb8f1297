package stock

// A sums tells what a strip can hold at all: the sums of sizes of units, as many of each as there are. nil means anything.
type sums []bool

// sumsCap bounds the work of finding them, the capacity by the units.
const sumsCap = 1 << 21

// sums returns what strips of a bin can hold.
func (p *problem) sums(b int) sums {
	room := p.bins[b].capacity
	r := p.unitsOf[p.bins[b].class]
	var units int64
	for _, u := range p.units[r[0]:r[1]] {
		units += int64(u.demand)
	}
	if units*room > sumsCap {
		return nil
	}
	out := make(sums, room+1)
	out[0] = true
	for _, u := range p.units[r[0]:r[1]] {
		for range u.demand {
			for n := room; n >= u.size; n-- {
				out[n] = out[n] || out[n-u.size]
			}
		}
	}
	return out
}

// up returns the least sum >= n, past the greatest where there is none.
func (s sums) up(n int64) int64 {
	for s != nil && n < int64(len(s)) && !s[n] {
		n++
	}
	return n
}

// down returns the greatest sum <= n, below 0 where n is.
func (s sums) down(n int64) int64 {
	if s != nil {
		n = min(n, int64(len(s))-1)
	}
	for s != nil && n >= 0 && !s[n] {
		n--
	}
	return n
}
