package stock

// ripCap bounds the ways to rip boards of one item to strips of several classes.
const ripCap = 2000

// rips returns the greatest ways to rip a board: numbers of strips for each class, of which none could be raised. width is
// the board's, each[i] what a strip of class i takes of it, one kerf included in both. whole is false when there are more than
// ripCap.
func rips(width int64, each []int64) (out [][]int, whole bool) {
	least := each[0]
	for _, e := range each {
		least = min(least, e)
	}
	now := make([]int, len(each))
	whole = true
	var fill func(i int, left int64)
	fill = func(i int, left int64) {
		if len(out) >= ripCap {
			whole = false
			return
		}
		if i == len(each)-1 {
			now[i] = int(left / each[i])
			if left-int64(now[i])*each[i] < least {
				out = append(out, append([]int(nil), now...))
			}
			return
		}
		for n := left / each[i]; n >= 0; n-- {
			now[i] = int(n)
			fill(i+1, left-n*each[i])
		}
	}
	fill(0, width)
	return out, whole
}
