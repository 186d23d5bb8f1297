package trace

import (
	"fmt"
	"math"
	"slices"
)

// A tone is what paper and ink look like over a crop: darkness is 0 on paper and 1 in ink wherever the paper is stained or in shadow.
type tone struct {
	gray
	negative bool // light ink on dark paper
	block    int  // px, the side of the squares that the paper is measured in
	cols     int
	paper    []float32 // shade of the paper at the middle of each square, by rows
	ink      float32   // how much darker ink is, in shades
	noise    float32   // one standard deviation of the paper, in shades
}

const (
	// leastInk is the least contrast that is taken for ink, in shades; laid paper varies by about half of it. Common practice, no source.
	leastInk = 24
	// lightest is the share of a square's pixels that are darker than what counts as its paper: texture is, and hatching.
	lightest = 0.85
)

// toneOf measures the paper and the ink of g. The error is ErrNothing where there is no ink.
func toneOf(g gray) (tone, error) {
	t := tone{gray: g, block: min(max(16, min(g.box.Dx(), g.box.Dy())/48), 96)}
	t.negative = t.edgeIsDark()
	t.cols = (g.box.Dx() + t.block - 1) / t.block
	t.measurePaper()
	if err := t.measureInk(); err != nil {
		return tone{}, err
	}
	return t, nil
}

// shade returns the shade of a pixel of the crop as if it were dark on light.
func (t tone) shade(x, y int) uint8 {
	if s := t.at(x, y); !t.negative {
		return s
	}
	return 255 - t.at(x, y)
}

// edgeIsDark reports whether the crop's rim is darker than half way between the darkest and the lightest of the crop.
func (t tone) edgeIsDark() bool {
	var all, rim [256]int
	w, h := t.box.Dx(), t.box.Dy()
	step := max(1, int(math.Sqrt(float64(w*h)/1e6))) // a million samples tell the two apart
	for y := 0; y < h; y += step {
		for x := 0; x < w; x += step {
			all[t.at(x, y)]++
		}
	}
	for x := range w {
		rim[t.at(x, 0)]++
		rim[t.at(x, h-1)]++
	}
	for y := range h {
		rim[t.at(0, y)]++
		rim[t.at(w-1, y)]++
	}
	lo, hi := quantile(all[:], 0.001), quantile(all[:], 0.999)
	return hi-lo >= leastInk && quantile(rim[:], 0.5) < (lo+hi)/2
}

// quantile returns the value below which the share q of a histogram lies.
func quantile(hist []int, q float64) int {
	total := 0
	for _, n := range hist {
		total += n
	}
	left := int(q * float64(total))
	for v, n := range hist {
		if left -= n; left < 0 {
			return v
		}
	}
	return len(hist) - 1
}

// measurePaper takes the lighter shades of each square for its paper. Squares full of ink take theirs from their neighbors.
func (t *tone) measurePaper() {
	w, h := t.box.Dx(), t.box.Dy()
	rows := (h + t.block - 1) / t.block
	t.paper = make([]float32, t.cols*rows)
	step := max(1, t.block/24)
	for r := range rows {
		for c := range t.cols {
			var hist [256]int
			for y := r * t.block; y < min(h, (r+1)*t.block); y += step {
				for x := c * t.block; x < min(w, (c+1)*t.block); x += step {
					hist[t.shade(x, y)]++
				}
			}
			t.paper[r*t.cols+c] = float32(quantile(hist[:], lightest))
		}
	}
	sorted := slices.Clone(t.paper)
	slices.Sort(sorted)
	light, dark := sorted[len(sorted)*9/10], sorted[0]
	known := make([]bool, len(t.paper))
	for i, p := range t.paper {
		known[i] = p > light-max(40, (light-dark)/2)
	}
	t.fillPaper(known, rows)
	t.smoothPaper(rows)
}

// fillPaper gives the squares that are not known the mean of those around them that are, ring by ring.
func (t *tone) fillPaper(known []bool, rows int) {
	for slices.Contains(known, false) {
		next := slices.Clone(known)
		for r := range rows {
			for c := range t.cols {
				i := r*t.cols + c
				if known[i] {
					continue
				}
				if mean, n := t.around(r, c, rows, known); n > 0 {
					t.paper[i], next[i] = mean, true
				}
			}
		}
		copy(known, next)
	}
}

// around returns the mean paper of the known squares among the nine around (r, c), and their number.
func (t *tone) around(r, c, rows int, known []bool) (float32, int) {
	sum, n := float32(0), 0
	for y := max(0, r-1); y <= min(rows-1, r+1); y++ {
		for x := max(0, c-1); x <= min(t.cols-1, c+1); x++ {
			if i := y*t.cols + x; known[i] {
				sum, n = sum+t.paper[i], n+1
			}
		}
	}
	return sum / float32(max(n, 1)), n
}

// smoothPaper takes the mean of each square and its neighbors.
func (t *tone) smoothPaper(rows int) {
	all := make([]bool, len(t.paper))
	for i := range all {
		all[i] = true
	}
	next := make([]float32, len(t.paper))
	for i := range next {
		next[i], _ = t.around(i/t.cols, i%t.cols, rows, all)
	}
	t.paper = next
}

// paperAt returns the shade of the paper at a point of the crop, px from its corner.
func (t tone) paperAt(x, y float64) float32 {
	rows := len(t.paper) / t.cols
	c, i, j := spread1(x/float64(t.block)-0.5, t.cols)
	r, k, l := spread1(y/float64(t.block)-0.5, rows)
	top := t.paper[k*t.cols+i]*(1-c) + t.paper[k*t.cols+j]*c
	low := t.paper[l*t.cols+i]*(1-c) + t.paper[l*t.cols+j]*c
	return top*(1-r) + low*r
}

// spread1 returns the two of n samples that v lies between, and how far on from the first.
func spread1(v float64, n int) (t float32, i, j int) {
	v = math.Min(math.Max(v, 0), float64(n-1))
	i = int(v)
	return float32(v - float64(i)), i, min(i+1, n-1)
}

// measureInk finds how much darker ink is than paper: what stands far out of the paper's own texture.
func (t *tone) measureInk() error {
	var hist [256]int
	w, h := t.box.Dx(), t.box.Dy()
	for y := range h {
		base, slope := t.paperRow(y)
		for x := range w {
			d := base[x/8] + slope[x/8]*float32(x%8) - float32(t.shade(x, y))
			hist[min(max(int(d+0.5), 0), 255)]++
		}
	}
	above := make([]int, 256) // the lighter half of the paper is cut off at 0, so its noise is read from the darker half
	copy(above[1:], hist[1:])
	small := 0
	for v := 1; v < leastInk; v++ {
		small += hist[v]
	}
	t.noise = 1
	if small > 0 {
		t.noise = float32(max(1, quantile(hist[1:leastInk], 0.68)+1))
	}
	least := max(leastInk, int(6*t.noise))
	count := 0
	for v := range min(least, 256) {
		above[v] = 0
	}
	for _, n := range above {
		count += n
	}
	if count < 40 { // px: less than the outline of anything that could be measured
		return fmt.Errorf("%w: there is no ink in the crop", ErrNothing)
	}
	t.ink = float32(quantile(above, 0.9))
	return nil
}

// paperRow returns the paper along row y of the crop in steps of eight pixels, and its slope a pixel.
func (t tone) paperRow(y int) (base, slope []float32) {
	n := (t.box.Dx()+7)/8 + 1
	base, slope = make([]float32, n), make([]float32, n)
	for i := range base {
		base[i] = t.paperAt(float64(8*i)+0.5, float64(y)+0.5)
	}
	for i := range n - 1 {
		slope[i] = (base[i+1] - base[i]) / 8
	}
	return base, slope
}

// dark returns the darkness at a point of the crop, px from its corner, between the middles of the pixels by straight lines.
func (t tone) dark(x, y float64) float64 {
	fx, fy := math.Floor(x-0.5), math.Floor(y-0.5)
	i, j, u, v := int(fx), int(fy), x-0.5-fx, y-0.5-fy
	top := float64(t.shade(i, j))*(1-u) + float64(t.shade(i+1, j))*u
	low := float64(t.shade(i, j+1))*(1-u) + float64(t.shade(i+1, j+1))*u
	return (float64(t.paperAt(x, y)) - top*(1-v) - low*v) / float64(t.ink)
}
