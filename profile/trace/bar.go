package trace

import (
	"fmt"
	"image"
	"math"
	"slices"

	"listel/profile/geom"
)

// check returns what is wrong with b before it is looked for.
func (b Bar) check(bounds image.Rectangle) error {
	switch {
	case !(b.MM > 0):
		return fmt.Errorf("%w: the bar is %g mm; it must be more than 0", ErrSize, b.MM)
	case !(b.From.Dist(b.To) >= leastBase):
		return fmt.Errorf("%w: the ends of the bar are %.3g px apart", ErrCoincide, b.From.Dist(b.To))
	case b.Divisions < 0:
		return fmt.Errorf("%w: the bar has %d divisions", ErrSize, b.Divisions)
	case bounds.Empty():
		return fmt.Errorf("%w: there is no image", ErrBar)
	}
	for _, p := range []geom.Point{b.From, b.To} {
		if !image.Pt(int(p.X), int(p.Y)).In(bounds) {
			return fmt.Errorf("%w: an end at (%.0f, %.0f) lies outside the image of %d x %d px", ErrBar, p.X, p.Y, bounds.Dx(), bounds.Dy())
		}
	}
	return nil
}

// measure finds the bar's ends in the ink of img, and its divisions where it has them, and returns its length. The end of a bar with
// ticks is the middle of its last tick, of a filled one the edge of the ink.
func (b Bar) measure(img image.Image) ([]measured, error) {
	if img == nil {
		return nil, fmt.Errorf("%w: there is no image", ErrBar)
	}
	if err := b.check(img.Bounds()); err != nil {
		return nil, err
	}
	strip, err := b.strip(img)
	if err != nil {
		return nil, err
	}
	length := b.To.Sub(b.From).Norm()
	first, ok1 := strip.end(strip.at(0), 1, length)
	last, ok2 := strip.end(strip.at(length), -1, length)
	if !ok1 || !ok2 {
		return nil, fmt.Errorf("%w: no end of a bar near one of the clicked ends; click nearer", ErrBar)
	}
	marks := append([]mark{{0, first}, {float64(max(1, b.Divisions)), last}}, strip.even(first, last, b.Divisions)...)
	if missing := b.Divisions + 1 - len(marks); b.Divisions > 1 && 5*missing > 2*(b.Divisions-1) {
		return nil, fmt.Errorf("%w: between the clicked ends the ink shows %s, not %d; click both ends of the whole bar, and give the length and the divisions between them",
			ErrDivisions, strip.shown(first, last), b.Divisions)
	}
	from, to, sigma := line(marks, float64(max(1, b.Divisions)))
	way := b.To.Sub(b.From).Unit()
	out := measured{Length{strip.place(b.From, way, from), strip.place(b.From, way, to), b.MM}, sigma, "bar"}
	if off := (to-from)*barStep/length - 1; math.Abs(off) > 0.1 {
		return nil, fmt.Errorf("%w: the bar in the ink is %.0f %% longer than between the clicked ends; click nearer", ErrBar, 100*off)
	}
	return []measured{out}, nil
}

// mostDivisions is how many divisions are counted in the ink at most.
const mostDivisions = 24

// even returns the inner marks found where n even divisions between two samples have theirs. A mark that lies off its place by more than a ruling
// pen errs, a sixteenth of a division or 2.5 px, is another one.
func (s strip) even(first, last float64, n int) []mark {
	var out []mark
	part := (last - first) / float64(n)
	for i := 1; i < n; i++ {
		want := first + float64(i)*part
		if at, ok := s.mark(want, part/4); ok && math.Abs(at-want) <= math.Max(2.5/barStep, part/16) {
			out = append(out, mark{float64(i), at})
		}
	}
	return out
}

// shown says into how many even divisions the ink between two samples is marked.
func (s strip) shown(first, last float64) string {
	for n := mostDivisions; n > 1; n-- {
		if len(s.even(first, last, n)) == n-1 {
			return fmt.Sprintf("%d divisions", n)
		}
	}
	return "no even divisions"
}

// A mark is a division of a bar, and where it lies, in samples.
type mark struct{ n, at float64 }

// line fits even divisions to marks and returns where the first and the nth lie, in samples, and the scatter of what lies between, px.
func line(marks []mark, n float64) (from, to, sigma float64) {
	if len(marks) < 3 {
		return marks[0].at, marks[1].at, 0.3 // px: two edges, each as sharp as a scan is
	}
	rows := make([]equation, len(marks))
	for i, m := range marks {
		rows[i] = equation{[]float64{1, m.n}, m.at, 1}
	}
	x, inverse, _ := leastSquares(rows, 2)
	sum := 0.0
	for _, m := range marks {
		d := (m.at - x[0] - x[1]*m.n) * barStep
		sum += d * d
	}
	variance := math.Max(sum/float64(len(marks)-2), 0.01) // px2: a tenth of a pixel is what an edge can be read to
	return x[0], x[0] + n*x[1], n * math.Sqrt(variance*inverse[1][1])
}

// barStep is the distance between the samples of a strip, px.
const barStep = 0.25

// A strip is the darkness along a bar, the mean across it.
type strip struct {
	dark  []float64
	start float64 // px before the first clicked end
}

// at returns the sample at a distance in px from the first clicked end.
func (s strip) at(px float64) float64 { return (px + s.start) / barStep }

// place returns the point of the picture where a sample lies.
func (s strip) place(from, way geom.Point, at float64) geom.Point {
	return from.Add(way.Mul(at*barStep - s.start))
}

// strip reads the darkness along b and somewhat beyond its ends.
func (b Bar) strip(img image.Image) (strip, error) {
	d := b.To.Sub(b.From)
	length, way := d.Norm(), d.Unit()
	half := math.Min(math.Max(4, length*0.02), 24) // px to either side: what clicks miss a bar by
	beyond := math.Max(10, length*0.06)
	box := geom.EmptyRect()
	for _, p := range []geom.Point{b.From.Sub(way.Mul(beyond)), b.To.Add(way.Mul(beyond))} {
		box = box.Union(geom.Polyline(p.Sub(way.Left().Mul(half+8)), p.Add(way.Left().Mul(half+8))).Bounds())
	}
	t, err := toneOf(grayOf(img, image.Rect(int(box.Min.X)-1, int(box.Min.Y)-1, int(box.Max.X)+2, int(box.Max.Y)+2)))
	if err != nil {
		return strip{}, fmt.Errorf("%w: no ink between the clicked ends", ErrBar)
	}
	s := strip{start: beyond, dark: make([]float64, int((length+2*beyond)/barStep)+1)}
	n := int(2 * half)
	for i := range s.dark {
		p := s.place(b.From, way, float64(i)).Sub(geom.Pt(float64(t.box.Min.X), float64(t.box.Min.Y)))
		for j := -n; j <= n; j++ {
			q := p.Add(way.Left().Mul(float64(j) * half / float64(n)))
			s.dark[i] += math.Max(0, t.dark(q.X, q.Y)) / float64(2*n+1)
		}
	}
	return s, nil
}

// end returns the sample where the bar ends near a sample, step telling which way the bar lies from there.
func (s strip) end(near float64, step int, length float64) (float64, bool) {
	top := slices.Max(s.dark)
	level := top * 0.2 // the bar's own line may be a fifth of a tick's height
	span := int(math.Max(8, length*0.05) / barStep)
	lo, hi := max(0, int(near)-span), min(len(s.dark)-2, int(near)+span)
	at, nearest := -1, math.Inf(1)
	for _, r := range s.inked(top) { // what paper parts from the bar, a caption or a figure beside it, has its own ends
		a, b := max(lo, r[0]), min(hi, r[1])
		first := a
		if step < 0 {
			first = b
		}
		for first >= a && first <= b && s.dark[first] < level { // from the outside inward
			first += step
		}
		if first < a || first > b {
			continue
		}
		if d := math.Abs(float64(first) - near); d < nearest {
			at, nearest = first, d
		}
	}
	if at < 0 {
		return 0, false
	}
	return s.peakOrEdge(at, step, top)
}

// inked returns the runs of samples with ink, first and last; a break of a few pixels does not part one.
func (s strip) inked(top float64) [][2]int {
	const broken = int(4 / barStep)
	sorted := slices.Sorted(slices.Values(s.dark))
	paper := sorted[len(sorted)/20]   // some paper is always in sight beyond the ends
	floor := paper + 0.03*(top-paper) // a bar's own line is a twentieth of what is looked at, or more
	var runs [][2]int
	for i, v := range s.dark {
		if v < floor {
			continue
		}
		if n := len(runs) - 1; n >= 0 && i-runs[n][1] <= broken {
			runs[n][1] = i
		} else {
			runs = append(runs, [2]int{i, i})
		}
	}
	return runs
}

// peakOrEdge returns the middle of the tick that begins at sample i, or the edge there when no tick does.
func (s strip) peakOrEdge(i, step int, top float64) (float64, bool) {
	peak := i
	for j := i; j >= 0 && j < len(s.dark) && (j-i)*step < int(14/barStep); j += step { // no tick is thicker than 14 px
		if s.dark[j] > s.dark[peak]+0.01*top {
			peak = j
		}
	}
	level := s.dark[peak] / 2
	outer, ok := s.crossing(peak, -step, level)
	if !ok {
		return 0, false
	}
	inner, ok := s.crossing(peak, step, (s.dark[peak]+s.after(peak, step))/2)
	if ok && math.Abs(inner-outer) < 14/barStep && s.after(peak, step) < 0.7*s.dark[peak] {
		outerMid, ok := s.crossing(peak, -step, (s.dark[peak]+s.after(peak, step))/2)
		if ok {
			return (outerMid + inner) / 2, true
		}
	}
	return outer, true
}

// after returns the least darkness within 16 px past sample i.
func (s strip) after(i, step int) float64 {
	low := s.dark[i]
	for j := i; j >= 0 && j < len(s.dark) && (j-i)*step < int(16/barStep); j += step {
		low = math.Min(low, s.dark[j])
	}
	return low
}

// crossing returns where the darkness falls below level going from sample i.
func (s strip) crossing(i, step int, level float64) (float64, bool) {
	for j := i; j+step >= 0 && j+step < len(s.dark); j += step {
		if a, b := s.dark[j], s.dark[j+step]; a >= level && b < level {
			return float64(j) + float64(step)*(a-level)/(a-b), true
		}
	}
	return 0, false
}

// mark returns the tick or the change from light to dark within reach (in samples) of a sample.
func (s strip) mark(near, reach float64) (float64, bool) {
	lo, hi := max(1, int(near-reach)), min(len(s.dark)-2, int(near+reach))
	least, most := math.Inf(1), 0.0
	peak, steep := lo, lo
	for i := lo; i <= hi; i++ {
		least, most = math.Min(least, s.dark[i]), math.Max(most, s.dark[i])
		if s.dark[i] > s.dark[peak] {
			peak = i
		}
		if math.Abs(s.dark[i+1]-s.dark[i-1]) > math.Abs(s.dark[steep+1]-s.dark[steep-1]) {
			steep = i
		}
	}
	if most-least < 0.1 {
		return 0, false
	}
	level := (most + least) / 2
	left, okL := s.crossing(peak, -1, level)
	right, okR := s.crossing(peak, 1, level)
	if okL && okR && right-left < 14/barStep && left > float64(lo) && right < float64(hi) {
		return (left + right) / 2, true
	}
	for _, step := range []int{1, -1} { // a change: where it passes half way, nearest to where it is steepest
		for i := steep; i > lo && i < hi && math.Abs(float64(i-steep)) < 4/barStep; i += step {
			if a, b := s.dark[i], s.dark[i+1]; (a-level)*(b-level) <= 0 && a != b {
				return float64(i) + (a-level)/(a-b), true
			}
		}
	}
	return 0, false
}
