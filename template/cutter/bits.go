package cutter

import "math/bits"

// A bitset is a set of small numbers.
type bitset []uint64

func newBitset(n int) bitset { return make(bitset, (n+63)/64) }

func (b bitset) set(i int)      { b[i>>6] |= 1 << (i & 63) }
func (b bitset) clear(i int)    { b[i>>6] &^= 1 << (i & 63) }
func (b bitset) has(i int) bool { return b[i>>6]&(1<<(i&63)) != 0 }

func (b bitset) count() int {
	n := 0
	for _, w := range b {
		n += bits.OnesCount64(w)
	}
	return n
}

func (b bitset) empty() bool {
	for _, w := range b {
		if w != 0 {
			return false
		}
	}
	return true
}

// within reports whether every member of b is in c.
func (b bitset) within(c bitset) bool {
	for i, w := range b {
		if w&^c[i] != 0 {
			return false
		}
	}
	return true
}

func (b bitset) meets(c bitset) bool {
	for i, w := range b {
		if w&c[i] != 0 {
			return true
		}
	}
	return false
}

func (b bitset) or(c bitset) {
	for i, w := range c {
		b[i] |= w
	}
}

func (b bitset) and(c bitset) {
	for i, w := range c {
		b[i] &= w
	}
}

func (b bitset) andNot(c bitset) {
	for i, w := range c {
		b[i] &^= w
	}
}

func (b bitset) clone() bitset { return append(bitset{}, b...) }

// commonCount returns how many members b and c share.
func (b bitset) commonCount(c bitset) int {
	n := 0
	for i, w := range b {
		n += bits.OnesCount64(w & c[i])
	}
	return n
}

// each calls f for the members in rising order.
func (b bitset) each(f func(i int)) {
	for i, w := range b {
		for w != 0 {
			f(i<<6 + bits.TrailingZeros64(w))
			w &= w - 1
		}
	}
}

// hash returns a number that equal sets share (FNV-1a over words).
func (b bitset) hash() uint64 {
	h := uint64(14695981039346656037)
	for _, w := range b {
		h = (h ^ w) * 1099511628211
		h ^= h >> 29
	}
	return h
}

func (b bitset) equal(c bitset) bool {
	for i, w := range b {
		if w != c[i] {
			return false
		}
	}
	return true
}

// countIn returns how many bits from a to before z are set.
func (b bitset) countIn(a, z int) int {
	n := 0
	for i := a >> 6; i<<6 < z; i++ {
		w := b[i]
		if i == a>>6 {
			w &= ^uint64(0) << (a & 63)
		}
		if z-i<<6 < 64 {
			w &= 1<<(z&63) - 1
		}
		n += bits.OnesCount64(w)
	}
	return n
}

// single reports whether no more than one bit is set.
func (b bitset) single() bool {
	n := 0
	for _, w := range b {
		if n += bits.OnesCount64(w); n > 1 {
			return false
		}
	}
	return true
}
