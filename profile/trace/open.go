package trace

import (
	"fmt"
	"image"
)

// widestGap is the widest gap in an outline that is looked for, px of the field.
const widestGap = 128

// leastClosed is the share of the box round the greatest ink that a section must have, so that an outline which is not closed is not passed over
// for a letter or a space between dimension lines.
const leastClosed = 0.1

// open returns why the greatest outline in the field is not closed, where what was found is nothing beside it: it runs over the edge of the crop, or a
// gap in it is too wide. It is nil where no such outline is seen.
func (f *finder) open(found []patch, in image.Rectangle) error {
	big, labels := f.greatestInk()
	if big.label == 0 || len(found) > 0 && float64(found[0].area) > leastClosed*float64(big.size()) {
		return nil
	}
	if sides := f.crossed(big, labels); len(sides) > 0 {
		return &EdgeError{f.box(big, in), sides}
	}
	g := f.padded(widestGap)
	if at, ok := g.wideGap(big); ok {
		p := g.point(at.middle).Add(in.Min)
		return fmt.Errorf("%w: the outline is open by about %d px near (%d, %d), more than is closed; click the section's corners, or close the gap in the picture", ErrNothing, at.width*f.k, p.X, p.Y)
	}
	return nil
}

// greatestInk returns the connected ink with the greatest box, and the label of each pixel.
func (f *finder) greatestInk() (patch, []uint32) {
	inks, labels := f.patches(has(isInk), true)
	var big patch
	for _, c := range inks {
		if c.size() > big.size() {
			big = c
		}
	}
	return big, labels
}

// size returns the area of the box of c, px.
func (c patch) size() int { return max(0, c.x1-c.x0) * max(0, c.y1-c.y0) }

// point returns where a pixel of the field lies in the crop, px from its corner.
func (f *finder) point(i int) image.Point {
	return image.Pt((i%f.w+f.x0)*f.k+f.k/2, (i/f.w+f.y0)*f.k+f.k/2)
}

// crossed returns the sides of the crop that the heavy lines of c run over, where they do so twice at least, as an outline that is cut does.
func (f *finder) crossed(c patch, labels []uint32) []string {
	least := int(0.7*f.heavy() + 0.5)
	runs := func(n int, at func(i int) int) int {
		count, length := 0, 0
		for i := range n + 1 {
			if i < n && labels[at(i)] == c.label {
				length++
				continue
			}
			if length >= least {
				count++
			}
			length = 0
		}
		return count
	}
	var sides []string
	all := 0
	for _, side := range f.sides(c) {
		n := 0
		switch side {
		case "left":
			n = runs(f.h, func(i int) int { return i * f.w })
		case "right":
			n = runs(f.h, func(i int) int { return i*f.w + f.w - 1 })
		case "top":
			n = runs(f.w, func(i int) int { return i })
		case "bottom":
			n = runs(f.w, func(i int) int { return (f.h-1)*f.w + i })
		}
		if all += n; n > 0 {
			sides = append(sides, side)
		}
	}
	if all < 2 {
		return nil
	}
	return sides
}

// padded returns the field's ink with so many pixels of paper round it.
func (f *finder) padded(px int) *finder {
	out := &finder{field: newField(f.w+2*px, f.h+2*px), x0: f.x0 - px, y0: f.y0 - px, k: f.k, gap: f.gap}
	for y := range f.h {
		for x := range f.w {
			out.pix[(y+px)*out.w+x+px] = f.pix[y*f.w+x] & isInk
		}
	}
	out.spill(nil, 0, isOutside)
	return out
}

// A wideGap is a gap in an outline.
type wideGap struct {
	middle int // index of a pixel
	width  int // px of the field
}

// wideGap returns a gap of the ink of c before a space of a tenth of its box, at the least width at which one is seen.
func (f *finder) wideGap(c patch) (wideGap, bool) {
	d := f.distances(has(isInk), false)
	for _, radius := range []float64{8, 12, 16, 24, 32, 48, widestGap / 2} {
		held, _ := f.leaks(d, radius)
		if float64(len(held)) < leastClosed*float64(c.size()) {
			continue
		}
		const behind = 1 << 5
		for _, i := range held {
			f.pix[i] |= behind
		}
		const throat = 1 << 4
		for _, i := range held {
			f.neighbors(i%f.w, i/f.w, false, func(n int) {
				if f.pix[n]&(behind|isInk) == 0 {
					f.pix[n] |= throat
				}
			})
		}
		var out wideGap
		for i, p := range f.pix {
			if wide := 2 * int(d.pix[i]) / stepBeside; p&throat != 0 && wide > out.width {
				out = wideGap{i, wide}
			}
		}
		for i := range f.pix {
			f.pix[i] &^= behind | throat
		}
		return out, out.width > 0
	}
	return wideGap{}, false
}

// joined reports whether the ink of the greatest of some patches is that of another.
func (f *finder) joined(all []patch) bool {
	big, labels := f.greatestInk()
	n := 0
	for _, c := range all {
		for i := c.seed; i < c.seed+c.x1-c.x0 && i < len(labels); i++ { // the first row of a patch is its outline
			if labels[i] == big.label && big.label != 0 {
				n++
				break
			}
		}
	}
	return n > 1
}
