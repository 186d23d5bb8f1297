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
	room    []int32   // of the lists, used again as the core shrinks
}

// reduce drops equal and dominated columns, then equal and implied rows, until hardly anything more goes. A column is dominated by one of no more
// weight that has all its rows; a row is implied by one whose columns all have it.
func (p problem) reduce() core {
	c := p.unique()
	c.mergeRows()
	for {
		n, m := len(c.ids), len(c.rowIDs)
		c.columnsOfRows()
		c.dropColumns()
		if c.full == nil {
			c.full = append([]int{}, c.ids...)
		}
		c.columnsOfRows()
		c.dropRows()
		if 40*len(c.ids) >= 39*n && 40*len(c.rowIDs) >= 39*m {
			break // what more would go is not worth the time
		}
	}
	c.room = nil
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

// columnsOfRows lists the columns of each row, rising.
func (c *core) columnsOfRows() {
	counts, total := make([]int, len(c.rowIDs)), 0
	for _, col := range c.cols {
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				counts[i<<6+bits.TrailingZeros64(w)]++
				total++
			}
		}
	}
	if total > cap(c.room) {
		c.room = make([]int32, 0, total)
	}
	all := c.room[:0]
	c.list = make([][]int32, len(counts))
	for r, n := range counts {
		c.list[r] = all[len(all) : len(all) : len(all)+n]
		all = all[:len(all)+n]
	}
	for k, col := range c.cols {
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				r := i<<6 + bits.TrailingZeros64(w)
				c.list[r] = append(c.list[r], int32(k))
			}
		}
	}
}

// transpose finds the columns of each row, as sets and lists.
func (c *core) transpose() {
	c.columnsOfRows()
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
	order := make([]int, len(c.list))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return len(c.list[order[i]]) < len(c.list[order[j]]) })
	gone, common := make([]bool, len(c.list)), newBitset(len(c.list))
	for _, q := range order {
		if gone[q] {
			continue
		}
		if len(c.list[q]) == 0 {
			gone[q] = true // nothing clears it: not asked for
			continue
		}
		// The rows that all of its columns have: itself, and those that it implies.
		copy(common, c.cols[c.list[q][0]])
		for _, k := range c.list[q][1:] {
			if common.and(c.cols[k]); common.single() {
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
	gone := make([]bool, len(c.cols))
	for k, col := range c.cols {
		if col.empty() {
			gone[k] = true
			continue
		}
		rare := -1
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				if r := i<<6 + bits.TrailingZeros64(w); rare < 0 || len(c.list[r]) < len(c.list[rare]) {
					rare = r
				}
			}
		}
		for _, at := range c.list[rare] {
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
