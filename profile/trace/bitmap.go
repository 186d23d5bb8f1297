package trace

import "math"

// A field is a picture that the finding works on: a crop, reduced where it is large, a byte a pixel.
type field struct {
	w, h int
	pix  []uint8
}

func newField(w, h int) field { return field{w, h, make([]uint8, w*h)} }

// The distances of a field go by chamfer steps: 3 to a neighbor beside, 4 to one across the corner (Borgefors 1986, from memory); 3
// of them are a pixel, within 8 per cent.
const (
	stepBeside = 3
	stepAcross = 4
	farthest   = 255
)

// chamfer returns a distance in px as chamfer steps.
func chamfer(px float64) uint8 { return uint8(min(math.Round(px*stepBeside), farthest-1)) }

// distances returns how far each pixel is from the nearest one for which from is true, in chamfer steps up to farthest. Beyond
// the rim there are none of them unless rim is true.
func (f field) distances(from func(p uint8) bool, rim bool) field {
	d := newField(f.w, f.h)
	for i, p := range f.pix {
		if !from(p) {
			d.pix[i] = farthest
		}
	}
	if rim {
		d.nearRim()
	}
	w := f.w
	for y := range f.h {
		row := d.pix[y*w : (y+1)*w]
		if y > 0 {
			up := d.pix[(y-1)*w : y*w]
			for x, v := range row {
				if v == 0 {
					continue
				}
				m := min(int(v), int(up[x])+stepBeside)
				if x > 0 {
					m = min(m, int(up[x-1])+stepAcross, int(row[x-1])+stepBeside)
				}
				if x < w-1 {
					m = min(m, int(up[x+1])+stepAcross)
				}
				row[x] = uint8(m)
			}
			continue
		}
		for x := 1; x < w; x++ {
			row[x] = uint8(min(int(row[x]), int(row[x-1])+stepBeside))
		}
	}
	for y := f.h - 1; y >= 0; y-- {
		row := d.pix[y*w : (y+1)*w]
		if y < f.h-1 {
			low := d.pix[(y+1)*w : (y+2)*w]
			for x := w - 1; x >= 0; x-- {
				v := row[x]
				if v == 0 {
					continue
				}
				m := min(int(v), int(low[x])+stepBeside)
				if x < w-1 {
					m = min(m, int(low[x+1])+stepAcross, int(row[x+1])+stepBeside)
				}
				if x > 0 {
					m = min(m, int(low[x-1])+stepAcross)
				}
				row[x] = uint8(m)
			}
			continue
		}
		for x := w - 2; x >= 0; x-- {
			row[x] = uint8(min(int(row[x]), int(row[x+1])+stepBeside))
		}
	}
	return d
}

// nearRim holds the pixels along the rim to one step from beyond it.
func (f field) nearRim() {
	for x := range f.w {
		f.pix[x] = min(f.pix[x], stepBeside)
		f.pix[(f.h-1)*f.w+x] = min(f.pix[(f.h-1)*f.w+x], stepBeside)
	}
	for y := range f.h {
		f.pix[y*f.w] = min(f.pix[y*f.w], stepBeside)
		f.pix[y*f.w+f.w-1] = min(f.pix[y*f.w+f.w-1], stepBeside)
	}
}

// A patch is a connected part of a field.
type patch struct {
	label          uint32
	area           int // px
	x0, y0, x1, y1 int // its box, the latter past its end
	seed           int // the index of its first pixel by rows
}

// long returns the length of the diagonal of the patch's box, px.
func (c patch) long() float64 { return math.Hypot(float64(c.x1-c.x0), float64(c.y1-c.y0)) }

// patches returns the connected parts of the pixels for which in is true, in the order of their first pixels by rows, and for each
// pixel the label of its part, 0 for none. Diagonal neighbors count when across is true.
func (f field) patches(in func(p uint8) bool, across bool) ([]patch, []uint32) {
	labels := make([]uint32, len(f.pix))
	var out []patch
	var stack []int32
	for i, p := range f.pix {
		if labels[i] != 0 || !in(p) {
			continue
		}
		c := patch{label: uint32(len(out) + 1), x0: f.w, y0: f.h, seed: i}
		labels[i] = c.label
		stack = append(stack[:0], int32(i))
		for len(stack) > 0 {
			at := int(stack[len(stack)-1])
			stack = stack[:len(stack)-1]
			x, y := at%f.w, at/f.w
			c.area++
			c.x0, c.y0, c.x1, c.y1 = min(c.x0, x), min(c.y0, y), max(c.x1, x+1), max(c.y1, y+1)
			f.neighbors(x, y, across, func(n int) {
				if labels[n] == 0 && in(f.pix[n]) {
					labels[n] = c.label
					stack = append(stack, int32(n))
				}
			})
		}
		out = append(out, c)
	}
	return out, labels
}

// neighbors calls visit with the index of each pixel beside (x, y), and of each across its corners when across is true.
func (f field) neighbors(x, y int, across bool, visit func(n int)) {
	at := y*f.w + x
	left, right, up, down := x > 0, x < f.w-1, y > 0, y < f.h-1
	if left {
		visit(at - 1)
	}
	if right {
		visit(at + 1)
	}
	if up {
		visit(at - f.w)
	}
	if down {
		visit(at + f.w)
	}
	if !across {
		return
	}
	if left && up {
		visit(at - f.w - 1)
	}
	if right && up {
		visit(at - f.w + 1)
	}
	if left && down {
		visit(at + f.w - 1)
	}
	if right && down {
		visit(at + f.w + 1)
	}
}
