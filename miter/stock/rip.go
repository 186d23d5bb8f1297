package stock

import "slices"

// ripCap bounds the ways to rip boards of one item to strips of several classes.
const ripCap = 2000

// rips returns the greatest ways to rip a board: numbers of strips for each class, of which none could be raised. width is
// the board's, each[i] what a strip of class i takes of it, one kerf included in both, rest[i] what must be left beside all of them, and most[i] > 0 how
// many strips of it can be of use. whole is false when there are more than limit.
func rips(width int64, each, rest []int64, most []int, limit int) (out [][]int, whole bool) {
	now := make([]int, len(each))
	whole = true
	var fill func(i int, left int64)
	fill = func(i int, left int64) {
		if len(out) >= limit {
			whole = false
			return
		}
		if i == len(each) {
			for k, e := range each {
				if now[k] == 0 {
					e += rest[k]
				}
				if now[k] < most[k] && e <= left {
					return
				}
			}
			out = append(out, slices.Clone(now))
			return
		}
		for n := min((left-rest[i])/each[i], int64(most[i])); n > 0; n-- {
			now[i] = int(n)
			fill(i+1, left-rest[i]-n*each[i])
		}
		now[i] = 0
		fill(i+1, left)
	}
	fill(0, width)
	return out, whole
}
