package trace

import (
	"math"

	"listel/profile/geom"
)

// Where two lines of an outline come nearer to each other than the pen is broad - in the cusp beside a half round, between two reeds - ink fills what lies between them, and
// the edge outside no longer tells where they go. Within the section they stand out as a spur, which ends as round as the pen:
//
//	  outside        | |
//	                 | |__________
//	              ___|____________)   the spur, and the pen's way through it and back
//	             / ___/
//	            | |      within
//
// A line's middle lies half of its thickness from either of its edges; so the paper within is followed too, and where the way found from it goes deeper, it is the pen's.

// spurred returns the pen's way, closed, as found from outside, with the way through spurs as found from within.
func (f *finder) spurred(e edger, way []geom.Point) []geom.Point {
	d := f.distances(has(isOutside), false)
	bold := f.bold(loopWall * f.line / 2)
	for i, p := range f.pix {
		if p&isSection == 0 {
			bold.pix[i] = isOutside
		}
	}
	e.within = true
	holes, _ := bold.patches(lacks(isInk|isOutside), false)
	for _, h := range holes {
		if float64(h.area) < 10*f.line*f.line {
			continue
		}
		cracks := bold.contour(h, lacks(isInk|isOutside))
		n := len(cracks)
		spur, open := false, make([]bool, n)
		for i, c := range cracks {
			spur = spur || d.pix[c.within] > chamfer(leastSpur*f.line+1)
			for j := i - 4; j <= i+4 && d.pix[c.within] <= chamfer(0.6*f.line); j++ {
				open[(j+n)%n] = true // the line is broken there
			}
		}
		if !spur {
			continue
		}
		within, _ := middle(e.edges(f.placesOf(cracks), make([]bool, n), open), -e.line)
		way = joinedSpurs(way, within, e.line, func(p geom.Point) bool {
			x, y := int(p.X/e.k)-f.x0, int(p.Y/e.k)-f.y0
			return x >= 0 && y >= 0 && x < f.w && y < f.h && d.pix[y*f.w+x] > chamfer(f.line/2+leastDeep/e.k)
		})
	}
	return way
}

// leastSpur is how deep the ink is in a spur at least, in thicknesses of the line: in a square corner it is 1.2.
const leastSpur = 1.5

// joinedSpurs returns a closed way in which the stretches of the one within that lie deeper stand for what they leave and come back to. deep tells which points may do so.
func joinedSpurs(way, within []geom.Point, line float64, deep func(p geom.Point) bool) []geom.Point {
	n := len(within)
	depth := make([]float64, n)
	start := -1
	for i, p := range within {
		if deep(p) {
			_, depth[i] = nearestOnWay(way, p)
		}
		if depth[i] < leastDeep {
			start = i
		}
	}
	if start < 0 {
		return way
	}
	for i := start; i < start+n; i++ {
		j, most := i, 0.0
		for ; depth[j%n] >= leastDeep; j++ {
			most = math.Max(most, depth[j%n])
		}
		if most > line/2 {
			way = joinedSpur(way, within, i, j-1, line)
		}
		i = j
	}
	return way
}

// leastDeep is how far the way within lies off that from outside at least, px, where the latter misses the pen's.
const leastDeep = 1.0

// joinedSpur returns the way with the points from i to j of the one within, and those beside them as far as the two ways part, for its own between them.
func joinedSpur(way, within []geom.Point, i, j int, line float64) []geom.Point {
	from, okFrom := backOn(way, within, i, -1, line)
	to, okTo := backOn(way, within, j, 1, line)
	n, m := len(within), len(way)
	if !okFrom || !okTo || to.within-from.within >= n {
		return way
	}
	spur := []geom.Point{from.at}
	long := 0.0
	for k := from.within; k <= to.within; k++ {
		spur = append(spur, within[(k%n+n)%n])
		long += spur[len(spur)-1].Dist(spur[len(spur)-2])
	}
	if spur = append(spur, to.at); from.at.Dist(to.at) < leastMouth*line { // a single line that ends there
		return way
	}
	cut := 0.0
	for k := from.way; k != to.way; k = (k + 1) % m {
		if cut += way[k].Dist(way[(k+1)%m]); cut > long {
			return way
		}
	}
	for k := range (from.way-to.way+m-1)%m + 1 { // all of them where the spur stands on one stretch
		spur = append(spur, way[(to.way+1+k)%m])
	}
	return spur
}

// A junction is a place where two ways come together: after a point of the one, the last point of the other before it.
type junction struct {
	way, within int
	at          geom.Point
}

// backOn returns where the way within, followed from point i on, one way or the other, comes back to the other way, within a few px. Where it turns off before, beside a corner that
// the blur has rounded, it is where it would come to by going straight on.
func backOn(way, within []geom.Point, i, step int, line float64) (junction, bool) {
	const same, behind = 0.75, 5 // px, below which the two are one; points that tell how it goes on
	n := len(within)
	at := func(i int) geom.Point { return within[(i%n+n)%n] }
	last, before := junction{}, math.Inf(1)
	for gone, first := 0.0, i; gone < 4*line && (i-first)*step < n; i += step {
		k, d := nearestOnWay(way, at(i))
		if before < same && d >= before {
			return last, true
		}
		last, before = junction{k, i, at(i)}, d
		on, next := at(i).Sub(at(i-behind*step)), at(i+step).Sub(at(i))
		if gone += next.Norm(); d < same || on.Norm() == 0 || on.Dot(next) > 0.85*on.Norm()*next.Norm() {
			continue
		}
		if k, q, ok := crossedBy(way, tip{at(i), on.Unit()}, line); ok {
			return junction{k, i, q}, true
		}
	}
	return junction{}, false
}

// crossedBy returns where the straight line ahead of a tip first crosses a closed way within so many px: after which of its points, and the place.
func crossedBy(way []geom.Point, t tip, reach float64) (int, geom.Point, bool) {
	const least = 0.5 // sine of the angle between the two
	where := -1
	for i, a := range way {
		d := way[(i+1)%len(way)].Sub(a)
		c := t.way.Cross(d)
		if math.Abs(c) < least*d.Norm() {
			continue
		}
		ahead, along := a.Sub(t.at).Cross(d)/c, a.Sub(t.at).Cross(t.way)/c
		if ahead >= 0 && ahead <= reach && along >= 0 && along <= 1 {
			where, reach = i, ahead
		}
	}
	return where, t.at.Add(t.way.Mul(reach)), where >= 0
}

// leastMouth is how far the two lines of a spur lie apart at least where it begins, in thicknesses of the line.
const leastMouth = 0.4

// nearestOnWay returns the index of the point of a closed way after which the place nearest to p lies, and how far that is.
func nearestOnWay(way []geom.Point, p geom.Point) (int, float64) {
	best, where := math.Inf(1), 0
	for i, a := range way {
		l := geom.Line{A: a, B: way[(i+1)%len(way)]}
		if reach := best + math.Abs(l.B.X-a.X) + math.Abs(l.B.Y-a.Y); math.Abs(p.X-a.X) > reach || math.Abs(p.Y-a.Y) > reach {
			continue
		}
		if d := l.At(l.Nearest(p)).Dist(p); d < best {
			best, where = d, i
		}
	}
	return where, best
}
