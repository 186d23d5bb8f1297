package cutter

import (
	"math/bits"
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
	ids     []int    // in the problem
	by      []bitset // columns of each row
	list    [][]int  // the same as lists
	rowIDs  []int    // in the problem
}

// reduce drops equal and dominated columns, then equal and implied rows, until nothing more goes. A column is dominated by one of no more
// weight that has all its rows; a row is implied by one whose columns all have it.
func (p problem) reduce() core {
	c := p.unique()
	c.mergeRows()
	for {
		n, m := len(c.ids), len(c.rowIDs)
		c.transpose()
		c.dropRows()
		c.transpose()
		c.dropColumns()
		if len(c.ids) == n && len(c.rowIDs) == m {
			break
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

// mergeRows keeps one row of those that the same columns have, and none of those that no column has.
func (c *core) mergeRows() {
	c.columnsOfRows()
	gone := make([]bool, len(c.by))
	byHash := map[uint64][]int{}
	for r, b := range c.by {
		h := b.hash()
		gone[r] = b.empty()
		for _, q := range byHash[h] {
			gone[r] = gone[r] || c.by[q].equal(b)
		}
		if !gone[r] {
			byHash[h] = append(byHash[h], r)
		}
	}
	c.keepRows(gone)
}

// columnsOfRows finds the columns of each row as sets.
func (c *core) columnsOfRows() {
	c.by = make([]bitset, len(c.rowIDs))
	words := len(newBitset(len(c.cols)))
	all := make(bitset, words*len(c.by))
	for r := range c.by {
		c.by[r] = all[r*words : (r+1)*words]
	}
	for k, col := range c.cols {
		for i, w := range col {
			for ; w != 0; w &= w - 1 {
				c.by[i<<6+bits.TrailingZeros64(w)].set(k)
			}
		}
	}
}

// transpose finds the columns of each row, as sets and lists.
func (c *core) transpose() {
	c.columnsOfRows()
	c.list = make([][]int, len(c.by))
	for r, b := range c.by {
		c.list[r] = make([]int, 0, b.count())
		b.each(func(k int) { c.list[r] = append(c.list[r], k) })
	}
}

// dropRows removes rows whose columns include all those of another row: whatever clears that one clears them.
func (c *core) dropRows() {
	order := make([]int, len(c.by))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return len(c.list[order[i]]) < len(c.list[order[j]]) })
	gone, common := make([]bool, len(c.by)), newBitset(len(c.by))
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
		col.each(func(r int) {
			if at[r] >= 0 {
				b.set(at[r])
			}
		})
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
		col.each(func(r int) {
			if rare < 0 || len(c.list[r]) < len(c.list[rare]) {
				rare = r
			}
		})
		for _, j := range c.list[rare] {
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
