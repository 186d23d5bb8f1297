package cutter

import (
	"math/bits"
	"math/rand/v2"
	"sort"
)

// A problem is a weighted set cover: columns with small whole weights, rows that each need a column.
type problem struct {
	cols    []bitset // rows of each column
	weights []int
	cost    []float64 // decides between equal columns
	rows    int
}

// A core is a problem after reduction: what is left to decide.
type core struct {
	cols    []bitset // over the rows kept
	weights []int
	ids     []int     // in the problem
	by      []bitset  // columns of each row
	list    [][]int32 // the same as lists
	rowIDs  []int     // in the problem
	full    []int     // columns of the problem that no other dominates when every row is asked for
}

// reduce drops equal and dominated columns, then equal and implied rows, until hardly anything more goes. A column is dominated by one of no more
// weight that has all its rows; a row is implied by one whose columns all have it.
func (p problem) reduce() core {
	c := p.unique()
	c.mergeRows()
	for {
		n, m := len(c.ids), len(c.rowIDs)
		c.dropColumns()
		if c.full == nil {
			c.full = append([]int{}, c.ids...)
		}
		c.dropRows()
		if 40*len(c.ids) >= 39*n && 40*len(c.rowIDs) >= 39*m {
			break // what more would go is not worth the time
		}
	}
	c.transpose()
	return c
}

// unique keeps one column of each set of rows: the lightest, then the cheapest, then the first.
func (p problem) unique() core {
	byHash := map[uint64][]int{}
	c := core{}
	for i, col := range p.cols {
		if col.empty() {
			continue
		}
		h, found := col.hash(), false
		for _, k := range byHash[h] {
			j := c.ids[k]
			if !p.cols[j].equal(col) {
				continue
			}
			found = true
			if p.weights[i] < p.weights[j] || p.weights[i] == p.weights[j] && p.cost[i] < p.cost[j] {
				c.ids[k], c.weights[k] = i, p.weights[i]
			}
			break
		}
		if !found {
			byHash[h] = append(byHash[h], len(c.ids))
			c.ids = append(c.ids, i)
			c.cols = append(c.cols, col)
			c.weights = append(c.weights, p.weights[i])
		}
	}
	for r := range p.rows {
		c.rowIDs = append(c.rowIDs, r)
	}
	return c
}

// mergeRows keeps one row of those that the same columns have, and none of those that no column has. Rows are told apart by two sums, of a
// number drawn for each column: 128 bits do not agree by chance.
func (c *core) mergeRows() {
	sums := make([][2]uint64, len(c.rowIDs))
	rng := rand.New(rand.NewPCG(17, 4))
	for _, col := range c.cols {
		a, b := rng.Uint64(), rng.Uint64()
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				s := &sums[i<<6+bits.TrailingZeros64(w)]
				s[0], s[1] = s[0]+a, s[1]+b
			}
		}
	}
	gone, seen := make([]bool, len(sums)), map[[2]uint64]bool{{}: true}
	for r, s := range sums {
		gone[r] = seen[s]
		seen[s] = true
	}
	c.keepRows(gone)
}

// counts returns the number of columns of each row.
func (c *core) counts() []int {
	out := make([]int, len(c.rowIDs))
	for _, col := range c.cols {
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				out[i<<6+bits.TrailingZeros64(w)]++
			}
		}
	}
	return out
}

// columnsOf lists the columns, rising, of the rows that are wanted; counts are those of all rows.
func (c *core) columnsOf(wanted bitset, counts []int) [][]int32 {
	total := 0
	wanted.each(func(r int) { total += counts[r] })
	all, out := make([]int32, 0, total), make([][]int32, len(counts))
	wanted.each(func(r int) {
		out[r] = all[len(all) : len(all) : len(all)+counts[r]]
		all = all[:len(all)+counts[r]]
	})
	for k, col := range c.cols {
		for i, w := range col {
			for w &= wanted[i]; w != 0; w &= w - 1 {
				r := i<<6 + bits.TrailingZeros64(w)
				out[r] = append(out[r], int32(k))
			}
		}
	}
	return out
}

// transpose finds the columns of each row, as sets and lists.
func (c *core) transpose() {
	every := newBitset(len(c.rowIDs))
	for r := range c.rowIDs {
		every.set(r)
	}
	c.list = c.columnsOf(every, c.counts())
	c.by = make([]bitset, len(c.list))
	for r, list := range c.list {
		c.by[r] = newBitset(len(c.cols))
		for _, k := range list {
			c.by[r].set(int(k))
		}
	}
}

// dropRows removes rows whose columns include all those of another row: whatever clears that one clears them.
func (c *core) dropRows() {
	counts := c.counts()
	order := make([]int, len(counts))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return counts[order[i]] < counts[order[j]] })
	gone, common := make([]bool, len(counts)), newBitset(len(counts))
	for _, q := range order {
		if gone[q] {
			continue
		}
		if counts[q] == 0 {
			gone[q] = true // nothing clears it: not asked for
			continue
		}
		// The rows that all of its columns have: itself, and those that it implies.
		first := true
		for _, col := range c.cols {
			if !col.has(q) {
				continue
			}
			if first {
				copy(common, col)
				first = false
				continue
			}
			if common.and(col); common.single() {
				break // itself alone
			}
		}
		common.each(func(r int) { gone[r] = gone[r] || r != q })
	}
	c.keepRows(gone)
}

func (c *core) keepRows(gone []bool) {
	at := make([]int, len(gone))
	var ids []int
	for r, g := range gone {
		at[r] = -1
		if !g {
			at[r] = len(ids)
			ids = append(ids, c.rowIDs[r])
		}
	}
	for k, col := range c.cols {
		b := newBitset(len(ids))
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				if r := at[i<<6+bits.TrailingZeros64(w)]; r >= 0 {
					b.set(r)
				}
			}
		}
		c.cols[k] = b
	}
	c.rowIDs = ids
}

// dropColumns removes columns whose rows another column of no more weight has too.
func (c *core) dropColumns() {
	counts := c.counts()
	gone, rarest, wanted := make([]bool, len(c.cols)), make([]int, len(c.cols)), newBitset(len(counts))
	for k, col := range c.cols {
		rare := -1
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				if r := i<<6 + bits.TrailingZeros64(w); rare < 0 || counts[r] < counts[rare] {
					rare = r
				}
			}
		}
		if rarest[k] = rare; rare < 0 {
			gone[k] = true // it is empty
		} else {
			wanted.set(rare)
		}
	}
	list := c.columnsOf(wanted, counts)
	for k, col := range c.cols {
		if gone[k] {
			continue
		}
		for _, at := range list[rarest[k]] {
			j := int(at)
			if j == k || gone[j] || c.weights[j] > c.weights[k] || !col.within(c.cols[j]) {
				continue
			}
			if c.weights[j] < c.weights[k] || !c.cols[j].within(col) || j < k {
				gone[k] = true
				break
			}
		}
	}
	var cols []bitset
	var ids, weights []int
	for k, g := range gone {
		if !g {
			cols, ids, weights = append(cols, c.cols[k]), append(ids, c.ids[k]), append(weights, c.weights[k])
		}
	}
	c.cols, c.ids, c.weights = cols, ids, weights
}
