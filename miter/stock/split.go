package stock

import "slices"

// A cutting is a way to divide a wrap into runs, each cut from one strip: how many pieces are in each run.
type cutting []int

// fewest returns the least number of runs a wrap must be divided into so that each fits a strip; every piece fits one.
func (w wrap) fewest(longest, kerf int64) int {
	runs, left := 0, int64(-1)
	for _, p := range w.cuts {
		if need := p.units + kerf; need <= left {
			left -= need
		} else {
			runs++
			left = longest - p.units
		}
	}
	return runs
}

// cuttings returns all ways to divide a wrap into so many runs that fit a strip.
func (w wrap) cuttings(runs int, longest, kerf int64) []cutting {
	var out []cutting
	var extend func(from int, c cutting)
	extend = func(from int, c cutting) {
		if from == len(w.cuts) {
			if len(c) == runs {
				out = append(out, slices.Clone(c))
			}
			return
		}
		if len(c) == runs {
			return
		}
		used := -kerf
		for n := 1; from+n <= len(w.cuts); n++ {
			if used += w.cuts[from+n-1].units + kerf; used > longest {
				return
			}
			extend(from+n, append(c, n))
		}
	}
	extend(0, nil)
	return out
}

// runs returns the pieces of each run.
func (w wrap) runs(c cutting) [][]cut {
	var out [][]cut
	at := 0
	for _, n := range c {
		out = append(out, w.cuts[at:at+n])
		at += n
	}
	return out
}

// A choice is a cutting for each copy of each wrap of a component: choice[class][wrap][copy].
type choice [][][]cutting

// choices returns the ways to divide all wraps of some classes with extra runs beyond the fewest, at most limit of them; whole
// is false when there are more. Copies of one wrap are not told apart.
func choices(classes []*class, extra int, kerf int64, limit int) (out []choice, whole bool) {
	type slot struct{ class, wrap, copy int }
	var slots []slot
	now := make(choice, len(classes))
	for i, c := range classes {
		now[i] = make([][]cutting, len(c.wraps))
		for k, w := range c.wraps {
			now[i][k] = make([]cutting, w.count)
			for n := range w.count {
				slots = append(slots, slot{i, k, n})
			}
		}
	}
	whole = true
	var fill func(at, extra int)
	fill = func(at, extra int) {
		if len(out) >= limit {
			whole = false
			return
		}
		if at == len(slots) {
			if extra == 0 {
				out = append(out, now.clone())
			}
			return
		}
		s := slots[at]
		c := classes[s.class]
		w := c.wraps[s.wrap]
		longest := c.longest().usable
		least := w.fewest(longest, kerf)
		for more := 0; more <= extra && least+more <= len(w.cuts); more++ {
			for _, k := range w.cuttings(least+more, longest, kerf) {
				if s.copy > 0 && slices.Compare(k, now[s.class][s.wrap][s.copy-1]) < 0 {
					continue
				}
				now[s.class][s.wrap][s.copy] = k
				fill(at+1, extra-more)
			}
		}
	}
	fill(0, extra)
	return out, whole
}

func (c choice) clone() choice {
	out := make(choice, len(c))
	for i := range c {
		out[i] = make([][]cutting, len(c[i]))
		for k := range c[i] {
			out[i][k] = slices.Clone(c[i][k])
		}
	}
	return out
}

// mostExtra returns how many runs beyond the fewest there can be at all.
func mostExtra(classes []*class, kerf int64) int {
	n := 0
	for _, c := range classes {
		for _, w := range c.wraps {
			n += w.count * (len(w.cuts) - w.fewest(c.longest().usable, kerf))
		}
	}
	return n
}
