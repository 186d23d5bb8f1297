package trace

import (
	"math"
	"slices"
)

// A cell is a space that ink closes in: the inside of an outline, a strip between hatching lines, the ground between dimension lines.
type cell struct {
	patch
	wall   float64 // px, the thickness of the ink between it and the outside; 0 when it lies nowhere near
	facing int     // px of its rim that look at the outside
}

// weigh finds whether the sections are filled and how thick their outline is, and gives the outside the spaces between dimension lines:
// the paper comes to them when the thin lines are taken away.
func (f *finder) weigh(kind Ink) {
	heavy := f.heavy()
	cells, labels := f.cells(heavy)
	f.filled = kind == Filled || kind == AnyInk && f.solid() > 0.5*largest(cells)
	radius := 0.0
	if f.filled {
		radius = f.stroke()/2*1.2 + 0.5
	} else {
		if f.line = outlineOfCells(cells); f.line == 0 {
			f.line = heavy
		}
		radius = f.line * loopWall / 2
	}
	f.openThin(f.thick(radius), cells, labels)
	if !f.filled {
		cells, labels = f.cells(heavy) // what is left of them: one that a gap had joined to a space outside is by itself now
		f.spaces = len(cells)
		f.blanks(cells, labels)
	}
}

// openThin gives the outside the cells that the paper comes to in thick, the field without its thin lines.
func (f *finder) openThin(thick *finder, cells []cell, labels []uint32) {
	left := float64(thick.inside())
	if !(left > leastLeft*float64(f.inside())) { // the outline itself is not closed without them
		return
	}
	for _, at := range thick.closed {
		if f.pix[at]&isOutside != 0 {
			f.closed = append(f.closed, at)
		}
	}
	reached := make([]int, len(cells)+1)
	for i, l := range labels {
		switch outside := thick.pix[i]&isOutside != 0; {
		case l != 0 && outside:
			f.pix[i] |= isOutside
			reached[l]++
		case !outside: // a gap before a space so small, between hatching and a corner, that it looked like a groove
			f.pix[i] &^= isOutside
		}
	}
	n := 0
	for _, r := range reached {
		if float64(r) > 0.01*left {
			n++
		}
	}
	if n > 0 {
		f.note("%s between thin lines beside the section left out", count(n, "space"))
	}
}

// leastLeft is the share of the area within all lines that must be left within the thick ones.
const leastLeft = 0.2

// leastBare is the share of the ink that is left when no thin lines but some ends and corners were taken away.
const leastBare = 0.97

// thick returns the finder's field with the ink that a disc of a radius in px fits into, and the outside that comes of it.
func (f *finder) thick(radius float64) *finder {
	out := &finder{field: f.bold(radius), k: f.k, gap: f.gap + 0.5}
	out.bare = float64(out.inked()) < leastBare*float64(f.inked())
	out.flood()
	return out
}

// bold returns the finder's ink that a disc of a radius in px fits into: what is left without its thin lines.
func (f *finder) bold(radius float64) field {
	out := newField(f.w, f.h)
	d := f.distances(lacks(isInk), true)
	for i, v := range d.pix {
		if v > chamfer(radius) {
			out.pix[i] = isInk
		}
	}
	near := out.distances(has(isInk), false)
	for i, v := range near.pix {
		if v <= chamfer(radius) && f.pix[i]&isInk != 0 {
			out.pix[i] = isInk
		}
	}
	return out
}

// cells returns the closed spaces, the greatest first, and the label of each pixel.
func (f *finder) cells(heavy float64) ([]cell, []uint32) {
	patches, labels := f.patches(lacks(isInk|isOutside), false)
	walls := f.walls(labels, len(patches), heavy)
	cells := make([]cell, len(patches))
	for i, p := range patches {
		cells[i].patch = p
		cells[i].measure(walls[i])
	}
	slices.SortStableFunc(cells, func(a, b cell) int { return b.area - a.area })
	return cells, labels
}

// walls returns for each of n labels how far those of its pixels that lie beside ink are from the outside, in chamfer steps, where no line of heavy px is thicker. They
// lie in one row of bytes, since a page full of hatching has a million spaces.
func (f *finder) walls(labels []uint32, n int, heavy float64) [][]uint8 {
	d := f.distances(has(isOutside), true)
	limit := chamfer(1.5*heavy + 1)
	each := func(visit func(label uint32, v uint8)) {
		for i, l := range labels {
			if l == 0 {
				continue
			}
			f.neighbors(i%f.w, i/f.w, false, func(k int) {
				if f.pix[k]&isInk != 0 && d.pix[i] < limit {
					visit(l, d.pix[i])
				}
			})
		}
	}
	counts, total := make([]int, n), 0
	each(func(l uint32, _ uint8) { counts[l-1]++; total++ })
	all, out := make([]uint8, total), make([][]uint8, n)
	for i, c := range counts {
		out[i], all = all[:0:c], all[c:]
	}
	each(func(l uint32, v uint8) { out[l-1] = append(out[l-1], v) })
	return out
}

// measure sets the cell's wall from what its rim says: the median of what lies no further from the outside than a line is thick, since a gap that was
// closed leaves it thin in places.
func (c *cell) measure(near []uint8) {
	if c.facing = len(near); c.facing >= 6 { // px: less is a tip
		slices.Sort(near)
		c.wall = math.Max(1, float64(near[len(near)/2])/stepBeside-1)
	}
}

// largest returns the area of the greatest cell, px.
func largest(cells []cell) float64 {
	if len(cells) == 0 {
		return 0
	}
	return float64(cells[0].area)
}

// outlineOfCells returns the thickness of the thicker walls, px: four fifths of them by length are no thicker; 0 where there are none.
func outlineOfCells(cells []cell) float64 {
	var hist [256]int
	for _, c := range cells {
		hist[min(int(c.wall*4+0.5), 255)] += c.facing
	}
	if hist[0] = 0; hist == ([256]int{}) {
		return 0
	}
	return float64(quantile(hist[:], 0.8)) / 4
}

// heavy returns the thickness of the heaviest lines beside the outside, px: nine tenths of the ridges of their ink are no thicker. Hatching, which
// has the most ink, lies behind them.
func (f *finder) heavy() float64 {
	d, out := f.distances(lacks(isInk), true), f.distances(has(isOutside), true)
	var hist [256]int
	for i, v := range d.pix {
		if v == 0 || out.pix[i] > v+stepAcross {
			continue
		}
		ridge := true
		f.neighbors(i%f.w, i/f.w, true, func(n int) { ridge = ridge && d.pix[n] <= v })
		if ridge {
			hist[v]++
		}
	}
	return math.Max(1, 2*float64(quantile(hist[:], 0.9))/stepBeside-1)
}

// solid returns the area of the ink that is broader than any line, px.
func (f *finder) solid() float64 {
	x0, y0, x1, y1 := f.w, f.h, 0, 0
	for i, p := range f.pix {
		if p&isInk != 0 {
			x, y := i%f.w, i/f.w
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x+1), max(y1, y+1)
		}
	}
	thin := f.broad(min(x1-x0, y1-y0))
	d := f.distances(lacks(isInk), true)
	area := 0
	for _, v := range d.pix {
		if v > thin {
			area++
		}
	}
	return float64(area)
}

// stroke returns the thickness of the thin lines beside a filled section, px of the field: dimension lines, if any; 1 when there are none. It is read along their
// ridges, as heavy is, where they are as long as lines: a ledge of the section may be as thin.
func (f *finder) stroke() float64 {
	d := f.distances(lacks(isInk), true)
	const broad, line = 1 << 7, 1 << 6
	thin := f.broad(min(f.w, f.h))
	for i, v := range d.pix {
		if v > thin {
			f.pix[i] |= broad
		}
	}
	near := f.distances(has(broad), false)
	for i, p := range f.pix {
		if f.pix[i] &^= broad; p&isInk != 0 && near.pix[i] > thin+2*stepBeside {
			f.pix[i] |= line
		}
	}
	lines, labels := f.patches(has(line), true)
	most := make([]uint8, len(lines)+1)
	for i, l := range labels {
		f.pix[i] &^= line
		most[l] = max(most[l], d.pix[i])
	}
	var hist [256]int
	total := 0
	for i, l := range labels {
		if l == 0 || lines[l-1].long() < leastLong*(2*float64(most[l])/stepBeside-1) {
			continue
		}
		top := true
		f.neighbors(i%f.w, i/f.w, true, func(n int) { top = top && d.pix[n] <= d.pix[i] })
		if top {
			hist[d.pix[i]]++
			total++
		}
	}
	if total < 8 {
		return 1
	}
	return 2*float64(quantile(hist[:], 0.9))/stepBeside - 1
}

// leastLong is how long a line is at least, in its thicknesses.
const leastLong = 3

// broad returns half the thickness from which ink is no line any more, in chamfer steps, for drawings of a size in px. No line is
// thicker than 20 px, 0.85 mm at 600 dots an inch, nor than a twelfth of a small drawing.
func (f *finder) broad(size int) uint8 {
	return chamfer(min(max(3, float64(size)/25), 10))
}
