package trace

import (
	"errors"
	"math"
	"slices"

	"listel/profile/geom"
)

// ErrNoOutline reports an outline that nothing can be made of: under eight points, points that are no numbers, or no area.
var ErrNoOutline = errors.New("no outline")

// A Piece is a part of a closed polyline that one line or one circular arc follows.
type Piece struct {
	First, Last int          // indices of its end points, which it shares with its neighbors; Last < First when it wraps round
	Segment     geom.Segment // a geom.Line or a geom.Arc; ends are where neighbors cross, or the place nearest to the shared point
	RMS         float64      // mm, root of the mean squared distance of its points
	bend        bend
	arc         bool
}

// Split parts the closed polyline through the points (mm) into lines and circular arcs at the least cost: the squared distances
// of the points from their piece, in units of noise² (noise is their standard deviation in mm, at least 0.001), plus a price for each piece.
// Points nearer together than four pixels (mm, 0 when they are independent) share their weight, as errors of a scan go together there.
// Corners are kept. The error is ErrNoOutline.
func Split(pts []geom.Point, noise, pixel float64) ([]Piece, error) {
	if err := checkOutline(pts); err != nil {
		return nil, err
	}
	return splitAt(pts, noise, pixel, price{line: 18, arc: 25}), nil
}

// splitAt splits a checked outline with pieces at a price.
func splitAt(pts []geom.Point, noise, pixel float64, p price) []Piece {
	start := 0
	s := newSplitter(pts, start, noise, pixel)
	s.price = p
	breaks := s.breaks()
	if k := s.sharpest(breaks); k != 0 { // once more from a corner: where the points happen to start need be none
		start = k % len(pts)
		s = newSplitter(pts, start, noise, pixel)
		s.price = p
		breaks = s.breaks()
	}
	return s.pieces(breaks, start)
}

func checkOutline(pts []geom.Point) error {
	if len(pts) < 4 {
		return ErrNoOutline
	}
	for _, p := range pts {
		if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
			return ErrNoOutline
		}
	}
	if !(math.Abs(geom.PolygonArea(pts)) > 0) {
		return ErrNoOutline
	}
	return nil
}

// A price is what a piece costs, in units of a squared distance of one sigma: the choice between models by G. Schwarz's rule takes ln n, some
// seven, for each number a model is free in; two for a line and three for an arc, and its end.
type price struct{ line, arc float64 }

// A splitter splits a closed polyline that is cut open at one of its points, which is then both first and last.
type splitter struct {
	pts    []geom.Point
	w      []float64
	sums   []moments // of the points before each
	sigma2 float64
	sparse bool // few points, clicked: a piece may not turn far between two of them
	edge   []float64
	price  price
}

func newSplitter(pts []geom.Point, start int, noise, pixel float64) *splitter {
	n := len(pts)
	s := &splitter{pts: make([]geom.Point, n+1), w: make([]float64, n+1), sums: make([]moments, n+2), edge: make([]float64, n)}
	mid := geom.Point{}
	for i := range n + 1 {
		s.pts[i] = pts[(start+i)%n]
		mid = mid.Add(s.pts[i].Mul(1 / float64(n+1)))
	}
	long := 0.0
	for i := range n {
		s.edge[i] = s.pts[i].Dist(s.pts[i+1])
		long += s.edge[i]
	}
	noise = math.Max(noise, 0.001)
	s.sigma2 = noise * noise
	s.sparse = !(long/float64(n) < 3*pixel)
	weight := 1.0
	if pixel > 0 {
		weight = math.Min(1, long/float64(n)/(4*pixel))
	}
	for i, p := range s.pts {
		s.w[i] = weight
		s.sums[i+1] = s.sums[i].plus(p.Sub(mid), weight)
	}
	return s
}

// squares returns the weighted squared distances, in sigma², of the points i to j from their best line and from their best arc.
func (s *splitter) squares(i, j int) (line, arc float64) {
	c := s.sums[j+1].minus(s.sums[i]).central()
	flat, _ := c.line()
	line = c.w * flat / s.sigma2
	if j-i < 3 {
		return line, math.Inf(1)
	}
	arc = math.Min(line, c.w*c.prattRoot()/s.sigma2)
	return line, arc
}

// cost returns what one piece from i to j costs, without its price, as a line and as an arc.
func (s *splitter) cost(i, j int) (best, bare float64) {
	line, arc := s.squares(i, j)
	bare = math.Min(line, arc)
	if s.sparse && arc+s.price.arc < line+s.price.line && s.leaps(i, j) {
		arc = math.Inf(1)
	}
	return math.Min(line+s.price.line, arc+s.price.arc), bare
}

// leaps reports whether the best arc from i to j turns by more than forty degrees between two points: corners, not a curve.
func (s *splitter) leaps(i, j int) bool {
	b := s.sums[j+1].minus(s.sums[i]).central().pratt()
	for k := i; k < j; k++ {
		if s.edge[k]*2*math.Abs(b.a) > 0.7 {
			return true
		}
	}
	return false
}

// coarse is how many places are tried as ends of pieces at first, some: ends are then moved to the best point nearby.
const coarse = 900

// breaks returns the ends of the pieces, from 0 to the last point, by dynamic programming over ends. An end is dropped for good once
// pieces from it cost more than pieces from a later one (R. Killick and others, 2012: what a piece costs never falls as it grows).
func (s *splitter) breaks() []int {
	n := len(s.pts) - 1
	stride := max(1, n/coarse)
	var at []int
	for i := 0; i < n; i += stride {
		at = append(at, i)
	}
	at = append(at, n)
	best, from := make([]float64, len(at)), make([]int, len(at))
	live := []int{0}
	for j := 1; j < len(at); j++ {
		best[j] = math.Inf(1)
		bare := make([]float64, len(live))
		for k, i := range live {
			var c float64
			c, bare[k] = s.cost(at[i], at[j])
			if best[i]+c < best[j] {
				best[j], from[j] = best[i]+c, i
			}
		}
		kept := live[:0]
		for k, i := range live {
			if best[i]+bare[k] <= best[j] {
				kept = append(kept, i)
			}
		}
		live = append(kept, j)
	}
	var out []int
	for j := len(at) - 1; j > 0; j = from[j] {
		out = append(out, at[j])
	}
	out = append(out, 0)
	slices.Reverse(out)
	if stride == 1 {
		return out
	}
	for {
		s.settle(out, stride)
		k := s.needless(out)
		if k == 0 {
			return out
		}
		out = slices.Delete(out, k, k+1)
	}
}

// needless returns the inner end without which the pieces cost least, 0 when they cost more without any: ends tried at some places only
// leave short pieces beside a corner that lies between two of them.
func (s *splitter) needless(breaks []int) int {
	least, where := 0.0, 0
	for k := 1; k+1 < len(breaks); k++ {
		left, _ := s.cost(breaks[k-1], breaks[k])
		right, _ := s.cost(breaks[k], breaks[k+1])
		if whole, _ := s.cost(breaks[k-1], breaks[k+1]); whole-left-right < least {
			least, where = whole-left-right, k
		}
	}
	return where
}

// settle moves each inner end to the best point within a stride, until none moves.
func (s *splitter) settle(breaks []int, stride int) {
	for range 6 {
		moved := false
		for k := 1; k+1 < len(breaks); k++ {
			a, c := breaks[k-1], breaks[k+1]
			best, where := math.Inf(1), breaks[k]
			for m := max(a+1, breaks[k]-stride); m <= min(c-1, breaks[k]+stride); m++ {
				left, _ := s.cost(a, m)
				right, _ := s.cost(m, c)
				if left+right < best {
					best, where = left+right, m
				}
			}
			moved = moved || where != breaks[k]
			breaks[k] = where
		}
		if !moved {
			return
		}
	}
}

// sharpest returns the break with the greatest turn, 0 (where the polyline is cut open) unless another is clearly sharper.
func (s *splitter) sharpest(breaks []int) int {
	m := len(breaks) - 1
	if m < 2 {
		return len(s.pts) / 2
	}
	fit := make([]bend, m)
	for k := range m {
		fit[k], _ = s.fit(breaks[k], breaks[k+1])
	}
	turn := func(a, b int, at geom.Point) float64 {
		u := s.along(fit[a], breaks[a], breaks[a+1], at)
		v := s.along(fit[b], breaks[b], breaks[b+1], at)
		return math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
	}
	best, where := turn(m-1, 0, s.pts[0])+0.3, 0
	for k := 1; k < m; k++ {
		if t := turn(k-1, k, s.pts[breaks[k]]); t > best {
			best, where = t, breaks[k]
		}
	}
	return where
}

// along returns the direction of travel of a fit at a place.
func (s *splitter) along(b bend, i, j int, at geom.Point) geom.Point {
	u := b.normal(at).Left()
	mid := (i + j) / 2
	travel := s.pts[min(mid+1, j)].Sub(s.pts[max(mid-1, i)])
	if b.normal(s.pts[mid]).Left().Dot(travel) < 0 {
		return u.Mul(-1)
	}
	return u
}

// fit returns the geometric fit of the points i to j, a line or an arc, whichever is cheaper.
func (s *splitter) fit(i, j int) (bend, bool) {
	line, arc := s.squares(i, j)
	c := s.sums[j+1].minus(s.sums[i]).central()
	if !(arc+s.price.arc < line+s.price.line) || s.sparse && s.leaps(i, j) {
		_, dir := c.line()
		mid := geom.Point{}
		for k := i; k <= j; k++ {
			mid = mid.Add(s.pts[k].Mul(1 / float64(j-i+1)))
		}
		b := bend{t: float64(dir) + math.Pi/2, o: mid}
		b.squares = b.sum(s.pts[i:j+1], s.w[i:j+1])
		return b, false
	}
	b, ok := fitBend(s.pts[i:j+1], s.w[i:j+1])
	return b, ok && b.a != 0
}

// pieces returns the pieces between breaks; start is the index in the outline of the splitter's first point.
func (s *splitter) pieces(breaks []int, start int) []Piece {
	n := len(s.pts) - 1
	out := make([]Piece, len(breaks)-1)
	for k := range out {
		i, j := breaks[k], breaks[k+1]
		b, arc := s.fit(i, j)
		out[k] = Piece{First: (start + i) % n, Last: (start + j) % n, bend: b, arc: arc}
		out[k].RMS = math.Sqrt(b.squares / (s.sums[j+1].w - s.sums[i].w))
	}
	ends := make([]geom.Point, len(out))
	for k := range out {
		before := out[(k+len(out)-1)%len(out)]
		ends[k] = joint(before.bend, out[k].bend, s.pts[breaks[k]], 4*math.Sqrt(s.sigma2)+s.reach())
	}
	for k := range out {
		mid := s.pts[(breaks[k]+breaks[k+1])/2]
		out[k].Segment = out[k].bend.segment(ends[k], mid, ends[(k+1)%len(out)], out[k].arc)
	}
	return out
}

// reach returns the mean distance of neighboring points, in mm.
func (s *splitter) reach() float64 {
	sum := 0.0
	for _, e := range s.edge {
		sum += e
	}
	return sum / float64(len(s.edge))
}
