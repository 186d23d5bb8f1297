package trace

import (
	"fmt"
	"image"
)

const (
	// leastHatched is the least number of spaces between lines that make hatching.
	leastHatched = 8
	// leastParted is the least number of them that an outline alone, whose ink runs together in its necks, does not have.
	leastParted = 4
	// blankDepth is how much deeper a space is than those of the hatching to be none of them.
	blankDepth = 3
)

// blanks gives the outside the blank spaces that lines as heavy as the outline shut off beside a hatched section, as dimension lines do. What is blank in
// a section that is not hatched cannot be told from it.
func (f *finder) blanks(cells []cell, labels []uint32) {
	if len(cells) < leastHatched {
		return
	}
	d := f.distances(has(isInk), false)
	depth := make([]int, len(cells)+1)
	for i, l := range labels {
		depth[l] = max(depth[l], int(d.pix[i]))
	}
	all, area := 0, 0
	var hist [256]int
	for _, c := range cells {
		hist[depth[c.label]] += c.area
		all += c.area
	}
	limit := blankDepth * quantile(hist[:], 0.5)
	drop := make([]bool, len(cells)+1)
	n := 0
	for _, c := range cells {
		if depth[c.label] > limit && c.wall > 0 {
			drop[c.label] = true
			n++
		} else {
			area += c.area
		}
	}
	if n == 0 || len(cells)-n < leastHatched || float64(area) < 0.5*float64(all) {
		return
	}
	for i, l := range labels {
		if drop[l] {
			f.pix[i] |= isOutside
		}
	}
	f.note("left out beside the section, not hatched: %s", count(n, "space"))
}

// findHeavy sets within: the lines as heavy as the outline that run through the section: one may be a dimension line that shuts off paper beside it.
func (f *finder) findHeavy() {
	if f.filled || f.line == 0 {
		return
	}
	const heavy = 1 << 6
	thick, out := f.distances(lacks(isInk), true), f.distances(lacks(isSection), true)
	for i, p := range f.pix {
		if p&isInk != 0 && thick.pix[i] > chamfer(0.4*f.line) && out.pix[i] > chamfer(1.5*f.line+2) {
			f.pix[i] |= heavy
		}
	}
	lines, _ := f.patches(has(heavy), true)
	for i := range f.pix {
		f.pix[i] &^= heavy
	}
	for _, c := range lines {
		if c.long() < 8*f.line {
			continue
		}
		f.within = append(f.within, c)
	}
	const most = 3 // more are hatching
	if len(f.within) > most {
		f.within = nil
	}
}

// heavyNotes says where lines as heavy as the outline run through the section; corner is that of the crop.
func (f *finder) heavyNotes(corner image.Point) []string {
	var out []string
	for _, c := range f.within {
		a, b := f.point(c.y0*f.w+c.x0).Add(corner), f.point((c.y1-1)*f.w+c.x1-1).Add(corner)
		out = append(out, fmt.Sprintf("a line as heavy as the outline runs through the section between (%d, %d) and (%d, %d); if it is a dimension line or the section's edge, what lies beyond it is taken for part of the section: wipe it from the picture, or click the corners",
			a.X, a.Y, b.X, b.Y))
	}
	return out
}
