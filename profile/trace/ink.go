package trace

import (
	"fmt"
	"image"
	"math"
	"slices"
)

// What a pixel of the finder's field is.
const (
	isInk     = 1 << iota // darker than half way from paper to ink
	isOutside             // paper that is joined to the rim
	isSection             // within the boundary of a section
)

// A finder looks for the sections in a crop: what the outermost ink of each goes round.
type finder struct {
	field
	x0, y0 int             // where the field lies in the crop, px of the field
	all    image.Rectangle // the crop, px of the field
	k      int             // px of the picture in one of the field
	gap    float64         // px of the field: half of the gap that is closed
	line   float64         // px of the field: the thickness of the outline, 0 when the sections are filled
	filled bool
	spaces int     // within the outline, parted by lines as thin as hatching
	bare   bool    // thin lines are taken away: what is left of a gap's sides may be those of a groove
	closed []int   // the deepest pixels of the spaces that had a gap
	within []patch // lines as heavy as the outline that run through the section
	notes  []string
}

const (
	// mostFieldPixels holds the memory and the time of the finding; larger crops are reduced for it, and measured unreduced.
	mostFieldPixels = 9e6
	// inkFrom is the share of full darkness from which a pixel is ink. Show-through stays below it, a line a pixel wide and a
	// little blurred above.
	inkFrom = 0.42
	// loopWall is how much thinner the lines round a space outside the section are than its own outline: dimension lines are
	// drawn at half of its weight or less (ISO 128 knows weights of 1 to 2, from memory).
	loopWall = 0.7
	// beside is the share of the greatest section's area from which another patch of the crop is a section too; letters and
	// figures stay below it.
	beside = 0.06
)

// newFinder returns a finder for t, with what is ink marked.
func newFinder(t tone) *finder {
	w, h := t.box.Dx(), t.box.Dy()
	k := max(1, int(math.Ceil(math.Sqrt(float64(w)*float64(h)/mostFieldPixels))))
	f := &finder{field: newField((w+k-1)/k, (h+k-1)/k), k: k, gap: 3}
	level := t.ink * inkFrom
	sums := make([]float32, f.w)
	for y := range f.h {
		clear(sums)
		rows := 0
		for v := y * k; v < min(h, (y+1)*k); v++ {
			base, slope := t.paperRow(v)
			for x := range w {
				sums[x/k] += base[x/8] + slope[x/8]*float32(x%8) - float32(t.shade(x, v))
			}
			rows++
		}
		for x, s := range sums {
			if s/float32(rows*(min(w, (x+1)*k)-x*k)) > level {
				f.pix[y*f.w+x] = isInk
			}
		}
	}
	f.all = image.Rect(0, 0, f.w, f.h)
	f.trim()
	return f
}

// trim takes away specks, frames and what of the field lies far from all other ink.
func (f *finder) trim() {
	const speck = 5 // px: a line of a section has hundreds
	patches, labels := f.patches(has(isInk), true)
	frames := f.frames(patches, labels)
	if len(frames) > 0 {
		f.note("%s round the crop left out", count(len(frames), "frame"))
	}
	kept := func(c patch) bool { return c.area > speck && !frames[c.label] }
	b := patch{x0: f.w, y0: f.h}
	for _, c := range patches {
		if kept(c) {
			b.x0, b.y0, b.x1, b.y1 = min(b.x0, c.x0), min(b.y0, c.y0), max(b.x1, c.x1), max(b.y1, c.y1)
		}
	}
	if b.x0 >= b.x1 {
		return
	}
	margin := int(2*f.gap) + 4
	b.x0, b.y0, b.x1, b.y1 = max(0, b.x0-margin), max(0, b.y0-margin), min(f.w, b.x1+margin), min(f.h, b.y1+margin)
	out := newField(b.x1-b.x0, b.y1-b.y0)
	for y := range out.h {
		for x := range out.w {
			i := (y+b.y0)*f.w + x + b.x0
			if l := labels[i]; l != 0 && kept(patches[l-1]) {
				out.pix[y*out.w+x] = isInk
			}
		}
	}
	f.field, f.x0, f.y0 = out, b.x0, b.y0
}

// has returns a test for any of the bits.
func has(bits uint8) func(uint8) bool { return func(p uint8) bool { return p&bits != 0 } }

// lacks returns a test for none of the bits.
func lacks(bits uint8) func(uint8) bool { return func(p uint8) bool { return p&bits == 0 } }

// flood marks the paper outside. Gaps of a few pixels in the ink are closed where a space lies behind them; a narrow groove is not such
// a space and stays outside.
func (f *finder) flood() {
	f.spill(nil, 0, isOutside) // through every gap
	d := f.distances(has(isInk), false)
	// A narrow gap is a gap even before the small space of a corner or of fine hatching; a wide one only before a space that is wider still. The narrowest are
	// closed first: where one lies within a groove, it is the gap that is closed and not the groove's mouth.
	const plug = 1 << 5
	var spaces []int
	for radius := 2.0; radius <= 2*f.gap; radius += 0.5 {
		held, s := f.leaks(d, radius)
		for _, i := range held {
			f.pix[i] = f.pix[i]&^isOutside | plug
		}
		spaces = append(spaces, s...)
	}
	if f.closed = spaces; len(spaces) > 0 && !f.bare {
		f.flush(d, plug)
	}
}

// flush takes from the outside what lies in the mouths of the closed gaps, whose plugs are marked: the ends of a broken line are round, and a small disc goes in
// between them further than a large one.
func (f *finder) flush(d field, plug uint8) {
	const probed, mouth = 1 << 6, 1.5 // px, how deep a mouth may be
	reach := chamfer(2 * f.gap)
	f.spill(&d, reach, probed)
	free, near := f.distances(has(probed), false), f.distances(has(plug), false)
	for i := range f.pix {
		if f.pix[i] &^= probed | plug; near.pix[i] <= chamfer(mouth) && free.pix[i] > reach+1 {
			f.pix[i] &^= isOutside
		}
	}
}

// inked returns how many pixels are ink.
func (f *finder) inked() int { return f.many(has(isInk)) }

// inside returns how many pixels are not outside.
func (f *finder) inside() int { return f.many(lacks(isOutside)) }

// many returns how many pixels are in.
func (f field) many(in func(p uint8) bool) int {
	n := 0
	for _, p := range f.pix {
		if in(p) {
			n++
		}
	}
	return n
}

// noteClosed says how many gaps were closed of the section that is kept.
func (f *finder) noteClosed() {
	n := 0
	slices.Sort(f.closed)
	for _, at := range slices.Compact(f.closed) {
		if f.pix[at]&isSection != 0 {
			n++
		}
	}
	if n > 0 {
		f.note("%s in the outline closed, each up to %.0f px wide", count(n, "gap"), 4*f.gap*float64(f.k))
	}
}

// leaks returns the pixels outside that a disc of a radius in px does not come to from the rim, in spaces that hold such a disc and more,
// and the deepest pixel of each of these spaces. d holds the distances from ink.
func (f *finder) leaks(d field, radius float64) (held, spaces []int) {
	reach := chamfer(radius)
	const probed = 1 << 6
	f.spill(&d, reach, probed)
	near := f.distances(has(probed), false)
	for i := range f.pix {
		if near.pix[i] <= reach+1 && f.pix[i]&isInk == 0 {
			f.pix[i] |= probed
		}
	}
	patches, labels := f.patches(func(p uint8) bool { return p&(isOutside|probed|isInk) == isOutside }, false)
	deepest, where := make([]uint8, len(patches)+1), make([]int, len(patches)+1)
	for i, l := range labels {
		if d.pix[i] > deepest[l] {
			deepest[l], where[l] = d.pix[i], i
		}
		f.pix[i] &^= probed
	}
	for _, c := range patches {
		if deepest[c.label] > reach+stepBeside {
			spaces = append(spaces, where[c.label])
		}
	}
	for i, l := range labels {
		if l != 0 && deepest[l] > reach+stepBeside {
			held = append(held, i)
		}
	}
	return held, spaces
}

// spill marks with bit the paper that is joined to the rim, by pixels of d further than reach where d is not nil.
func (f *finder) spill(d *field, reach uint8, bit uint8) {
	open := func(i int) bool { return f.pix[i]&(isInk|bit) == 0 && (d == nil || d.pix[i] > reach) }
	var stack []int32
	for x := range f.w {
		stack = append(stack, int32(x), int32((f.h-1)*f.w+x))
	}
	for y := range f.h {
		stack = append(stack, int32(y*f.w), int32(y*f.w+f.w-1))
	}
	for len(stack) > 0 { // row by row: a stretch is marked whole, and one pixel of each stretch beside it is kept for later
		at := int(stack[len(stack)-1])
		stack = stack[:len(stack)-1]
		if !open(at) {
			continue
		}
		row := at / f.w * f.w
		from, to := at, at+1
		for from > row && open(from-1) {
			from--
		}
		for to < row+f.w && open(to) {
			to++
		}
		for i := from; i < to; i++ {
			f.pix[i] |= bit
		}
		for _, beside := range [2]int{-f.w, f.w} {
			if row+beside < 0 || row+beside >= len(f.pix) {
				continue
			}
			before := false
			for i := from + beside; i < to+beside; i++ {
				now := open(i)
				if now && !before {
					stack = append(stack, int32(i))
				}
				before = now
			}
		}
	}
}

// note adds to what was survived.
func (f *finder) note(format string, args ...any) {
	f.notes = append(f.notes, fmt.Sprintf(format, args...))
}

// count returns "1 gap" or "2 gaps".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// sections marks the sections and returns them, the greatest first, those that touch the rim among them. What is thinner than the
// outline and stands out from it - dimension lines, leaders, hatching that overshoots - is cut off.
func (f *finder) sections(kind Ink) []patch {
	f.flood()
	f.weigh(kind)
	reach := f.least()
	inner := f.distances(has(isOutside), false)
	for i := range f.pix {
		if inner.pix[i] > chamfer(reach) {
			f.pix[i] |= isSection
		}
	}
	back := f.distances(has(isSection), false)
	grown := chamfer(1.45*reach + 0.7) // a right corner lies 1.41 of the radius from the disc that comes nearest to it
	for i := range f.pix {
		if back.pix[i] <= grown && f.pix[i]&isOutside == 0 {
			f.pix[i] |= isSection
		}
	}
	patches, labels := f.patches(has(isSection), false)
	slices.SortStableFunc(patches, func(a, b patch) int { return b.area - a.area })
	var out []patch
	for _, c := range patches {
		if float64(c.area) >= beside*float64(patches[0].area) && !c.sliver() {
			out = append(out, c)
		}
	}
	keep := uint32(0)
	if len(out) > 0 {
		keep = out[0].label
	}
	for i, l := range labels {
		if l != keep {
			f.pix[i] &^= isSection
		}
	}
	f.noteClosed()
	f.findHeavy()
	return out
}

// doubtful tells which of the cracks along a section do not show its edge: where other ink was cut off, and where a gap was closed.
func (f *finder) doubtful(cracks []crack) (touched, open []bool) {
	const cut = 1 << 6
	for i, p := range f.pix {
		if p&(isInk|isSection) == isInk {
			f.pix[i] |= cut
		}
	}
	near := f.distances(has(cut), false)
	for i := range f.pix {
		f.pix[i] &^= cut
	}
	reach := chamfer(0.5*f.least() + 2.5)
	touched, open = make([]bool, len(cracks)), make([]bool, len(cracks))
	n := len(cracks)
	const round, between = 4, 9 // cracks: the ends of a broken line are round, and hatching may stand in the gap
	last := -n
	for i := range 2 * n {
		c := cracks[i%n]
		touched[i%n] = touched[i%n] || near.pix[c.within] <= reach
		if f.pix[c.within]&isInk != 0 {
			continue
		}
		from := i - round
		if i-last <= between+2*round {
			from = last
		}
		for j := from; j <= i+round; j++ {
			open[(j+n)%n] = true
		}
		last = i
	}
	f.notches(cracks, open)
	return touched, open
}

// sliver reports whether c is long and thin, as bars and rules are and no section is: twenty-five times as long as broad.
func (c patch) sliver() bool {
	return float64(c.area) < c.long()*c.long()/25
}

// least returns the radius, in px of the field, below which what stands out is no part of a section.
func (f *finder) least() float64 {
	if f.filled {
		return f.stroke()/2*1.2 + 0.8
	}
	return f.line/2*1.15 + 0.8
}

// box returns where c lies in the picture, px.
func (f *finder) box(c patch, in image.Rectangle) image.Rectangle {
	return image.Rect((c.x0+f.x0)*f.k, (c.y0+f.y0)*f.k, (c.x1+f.x0)*f.k, (c.y1+f.y0)*f.k).Add(in.Min).Intersect(in)
}

// sides returns the sides of the crop that c touches.
func (f *finder) sides(c patch) []string {
	var out []string
	for _, s := range []struct {
		name string
		on   bool
	}{{"left", c.x0+f.x0 == 0}, {"top", c.y0+f.y0 == 0}, {"right", c.x1+f.x0 == f.all.Max.X}, {"bottom", c.y1+f.y0 == f.all.Max.Y}} {
		if s.on {
			out = append(out, s.name)
		}
	}
	return out
}
