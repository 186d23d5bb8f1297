package miter

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"listel/profile/measure"
)

// leastDrawer is the least height or width that an opening may have, in mm: below it no drawer can be made.
const leastDrawer = 10.0

// leastColumn is the least width in mm of drawers side by side: in a narrower one no hand fits. It is common practice, no source.
const leastColumn = 2 * 25.4

// grain returns the step that row heights are whole numbers of: 1/64 in, or 0.1 mm in a case in millimeters.
func grain(u measure.Units) float64 {
	if u == measure.Inches {
		return 25.4 / 64
	}
	return 0.1
}

// graduated returns the heights of rows from the bottom, the tallest, which add up to total, in mm. They are whole numbers of
// step but for the bottom one, which takes what that leaves, as little as can be; by how much that makes it higher than its share is returned too, negative
// where it is less high. Faults are added under path.
func (g Graduation) graduated(total, step float64, path string, f *fitter) (heights []float64, left float64) {
	raw := g.raw(total, path, f)
	if raw == nil {
		return nil, 0
	}
	if len(g.Heights) > 0 {
		return raw, 0
	}
	for more := math.Round((total - raw[0]) / step); ; more-- {
		heights = wholeRows(raw, step, int(more))
		heights[0] = total
		for _, h := range heights[1:] {
			heights[0] -= h
		}
		if len(raw) == 1 || heights[1] <= heights[0]+lengthTol {
			break
		}
	}
	if left = heights[0] - raw[0]; math.Abs(left) < lengthTol {
		left = 0
	}
	return heights, left
}

// wholeRows returns the rows over the bottom one in whole steps that add up to sum steps: each no more than a step off its height, those rounded up that lose
// most by being rounded down, of equal ones the lower. With too small a sum all are rounded down.
func wholeRows(raw []float64, step float64, sum int) []float64 {
	out := make([]float64, len(raw))
	order := make([]int, 0, len(raw))
	lost := make([]float64, len(raw))
	for i := 1; i < len(raw); i++ {
		whole := math.Floor(raw[i]/step + 1e-9)
		out[i], lost[i] = whole*step, raw[i]/step-whole
		sum -= int(whole)
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if near(lost[a], lost[b], 1e-9) {
			return 0
		}
		return cmp.Compare(lost[b], lost[a])
	})
	for _, i := range order[:max(0, min(sum, len(order)))] {
		out[i] += step
	}
	return out
}

// raw returns the heights before they are rounded; nil and a fault when they do not come out.
func (g Graduation) raw(total float64, path string, f *fitter) []float64 {
	n := g.Rows
	if len(g.Heights) > 0 {
		return g.listed(total, path, f)
	}
	if !(n >= 1 && n <= 100) {
		f.add(path+".rows", "give 1 to 100 rows, not %d", n)
		return nil
	}
	h := make([]float64, n)
	switch {
	case g.Ratio != 0:
		if !(g.Ratio > 0 && g.Ratio <= 1) {
			f.add(path+".ratio", "the ratio of a row to the one below is more than 0 and at most 1, not %.4g", g.Ratio)
			return nil
		}
		h = inRatio(total, n, g.Ratio)
	case g.Bottom != 0 || g.Top != 0:
		if h = g.bent(total, n, path, f); h == nil {
			return nil
		}
	default:
		if !(g.Step >= 0 && g.Step <= maxLength) {
			f.add(path+".step", "each row is less high than the one below: the step is not less than 0")
			return nil
		}
		for i := range h {
			h[i] = total/float64(n) + g.Step*(float64(n-1)/2-float64(i))
		}
	}
	if least := h[n-1]; !(least >= leastDrawer) {
		f.add(path, "the drawers do not fit: in %s the top row of %d would be %s high; %s would do", f.mm(total), n, f.mm(least), g.would(total, n, f))
		return nil
	}
	return h
}

// inRatio returns the heights of n rows, each ratio times as high as the one below it.
func inRatio(total float64, n int, ratio float64) []float64 {
	h := make([]float64, n)
	sum, r := 0.0, 1.0
	for i := range h {
		h[i] = r
		sum += r
		r *= ratio
	}
	for i := range h {
		h[i] *= total / sum
	}
	return h
}

// would says which graduation of n rows gives a top row that a drawer can be made for: a lesser step, a greater ratio, or fewer rows.
func (g Graduation) would(total float64, n int, f *fitter) string {
	each := total / float64(n)
	switch {
	case each < leastDrawer:
		return fmt.Sprintf("%d rows at most", int(total/leastDrawer))
	case g.Top != 0:
		return "a top row of " + f.mm(leastDrawer) + " or more"
	case g.Ratio != 0:
		lo, hi := g.Ratio, 1.0 // the top row grows with the ratio
		for hi-lo > 1e-4 {
			if r := (lo + hi) / 2; inRatio(total, n, r)[n-1] < leastDrawer {
				lo = r
			} else {
				hi = r
			}
		}
		return fmt.Sprintf("a ratio from %.2f to 1", math.Ceil(hi*100-1e-6)/100)
	default:
		step := f.usual.rule
		return fmt.Sprintf("a step of %s at most, or fewer rows", f.mm(math.Floor(2*(each-leastDrawer)/float64(max(1, n-1))/step+1e-9)*step))
	}
}

// listed checks heights that the file gives one by one.
func (g Graduation) listed(total float64, path string, f *fitter) []float64 {
	sum := 0.0
	var h []float64
	for _, r := range g.Heights {
		h = append(h, r.Height)
		sum += r.Height
		if !(r.Height >= leastDrawer) {
			f.add(path+".rows", "a row is %s high; it must be at least %s", f.mm(r.Height), f.mm(leastDrawer))
			return nil
		}
	}
	if !near(sum, total, 0.02) {
		f.add(path+".rows", "the rows are %s high together, and the opening less its dividers is %s: the difference is %s", f.mm(sum), f.mm(total), f.mm(math.Abs(sum-total)))
		return nil
	}
	return h
}

// bent returns n heights from Bottom to Top: evenly stepped, or on a curve between them when their sum needs it.
func (g Graduation) bent(total float64, n int, path string, f *fitter) []float64 {
	b, t := g.Bottom, g.Top
	if !(b > 0 && t > 0 && t <= b) {
		f.add(path, "bottom and top are heights, and the bottom row is the tallest")
		return nil
	}
	h := make([]float64, n)
	u := func(i int) float64 { return float64(i) / math.Max(1, float64(n-1)) }
	sum, bend := 0.0, 0.0
	for i := range h {
		h[i] = b + (t-b)*u(i)
		sum += h[i]
		bend += u(i) * (1 - u(i))
	}
	c := 0.0
	if bend > 0 {
		c = (total - sum) / bend
	}
	// Beyond b - t the curve would rise above the bottom row or fall below the top one.
	if math.Abs(c) > b-t+1e-9 || bend == 0 && !near(sum, total, 0.02) {
		f.add(path, "the drawers do not fit: %d rows from %s to %s are about %s high together, and the opening less its dividers is %s: the difference is %s",
			n, f.mm(b), f.mm(t), f.mm(sum), f.mm(total), f.mm(math.Abs(sum-total)))
		return nil
	}
	for i := range h {
		h[i] += c * u(i) * (1 - u(i))
	}
	return h
}
