package trace

import "math"

// notches takes for open what lies in a notch of the outline no wider than a gap, as deep as the line or half of it, which blur leaves, and as square: the line is broken there, and a
// line of the hatching stands right behind. A groove of the section is deeper, or too small to be drawn.
func (f *finder) notches(cracks []crack, open []bool) {
	if f.filled || len(cracks) < 200 {
		return
	}
	const round, beside = 3, 9 // cracks: the ends of a broken line are round, and what the outline's way is taken from
	n := len(cracks)
	mouth, deepest := math.Min(2*f.gap+1, 1.3*f.line), 1.3*f.line+1
	at := func(i int) crack { return cracks[(i%n+n)%n] }
	for i := range n {
		from := at(i).at
		best := 0
		for j := i + 5; j <= i+int(2*deepest+mouth)+4; j++ {
			chord := at(j).at.Sub(from)
			across := chord.Norm()
			if across > mouth || across < 1.5 || float64(j-i) < 1.3*across+3 {
				continue
			}
			in, out := from.Sub(at(i-beside).at), at(j+beside).at.Sub(at(j).at)
			if in.Dot(chord) < 0.8*in.Norm()*across || out.Dot(chord) < 0.8*out.Norm()*across {
				continue
			}
			depth, area := 0.0, 0.0
			for k := i; k < j; k++ {
				a, b := at(k).at.Sub(from), at(k+1).at.Sub(from)
				depth = math.Max(depth, chord.Cross(a)/across) // y down: the section is on the right
				area += b.Cross(a) / 2
			}
			if depth > 0.5*f.line && depth <= deepest && math.Abs(area) > 0.65*depth*across { // square, not the cusp of a round
				best = j
			}
		}
		for k := i - round; best > 0 && k <= best+round; k++ {
			open[(k+n)%n] = true
		}
	}
}
