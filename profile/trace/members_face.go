package trace

import (
	"math"

	"listel/profile/geom"
)

// A bit is a piece of the outline, or the part of one between places where its circle is level or plumb: members may start there.
type bit struct {
	first, last int // of the outline's points as turned; last is after first
	parent      int // index of the piece
	bend        bend
	arc         bool
	from, to    geom.Point
	squares     float64 // squared distances of its points from the bend, in sigma²
}

// A chain is the outline cut open at the foot of the back and split into bits: those of the foot, the face, the top, the back.
type chain struct {
	pts       []geom.Point // the first is the last again
	w         []float64
	sigma     float64
	least     float64 // mm, the size below which a member or a step is taken for a fault of the drawing
	bits      []bit
	face, top int // indices of the first bit of the face and of the top
}

// length returns how far apart the bit's ends are, mm.
func (b bit) length() float64 { return b.from.Dist(b.to) }

// tilt is the angle from level or plumb up to which a straight bit counts as such: what its own noise allows, and a degree and a half for
// a plate that was drawn so.
func (b bit) tilt(sigma float64) float64 {
	n := math.Max(4, float64(b.last-b.first))
	return math.Min(0.35, 0.026+4*sigma*math.Sqrt(12/n)/math.Max(b.length(), 1e-3))
}

func (b bit) level(sigma float64) bool {
	d := b.to.Sub(b.from)
	return b.straight(sigma) && math.Abs(d.Y) <= b.tilt(sigma)*math.Abs(d.X)
}

// straight reports whether the bit is a line or as good as one.
func (b bit) straight(sigma float64) bool {
	l := b.length()
	return !b.arc || math.Abs(b.bend.a)*l*l/4 < 2*sigma
}

// travel returns the direction of travel at the start or the end of the bit.
func (b bit) travel(atEnd bool) geom.Point {
	at := b.from
	if atEnd {
		at = b.to
	}
	u := b.bend.normal(at).Left()
	// A bit turns by less than half a turn, or its chord would not tell.
	if b.arc {
		mid := b.bend.foot(b.from.Lerp(b.to, 0.5))
		if u.Dot(mid.Sub(at))*map[bool]float64{false: 1, true: -1}[atEnd] < 0 {
			return u.Mul(-1)
		}
		return u
	}
	return b.to.Sub(b.from).Unit()
}

// newChain cuts the outline open and finds face, top and back in it.
func newChain(d Drawn) (*chain, error) {
	pts := d.Points
	if err := checkOutline(pts); err != nil {
		return nil, err
	}
	sigma := math.Hypot(math.Max(d.Noise, d.Pixel/6), 0.015) // a hair of 0.015 mm for what no outline shows: the drawing's own truth
	// Pieces are cheap here: a joint too many costs the members nothing, one that is missing is hard to find.
	pieces := splitAt(pts, sigma, d.Pixel, price{line: 14, arc: 20})
	first := 0
	for i, p := range pieces {
		if at, least := p.Segment.Start(), pieces[first].Segment.Start(); at.X+at.Y < least.X+least.Y {
			first = i
		}
	}
	pieces = append(append([]Piece{}, pieces[first:]...), pieces[:first]...)
	n, turn := len(pts), pieces[0].First
	c := &chain{sigma: sigma, least: math.Max(math.Max(leastDrawn, 6*sigma), d.Line/2), pts: make([]geom.Point, n+1), w: make([]float64, n+1)}
	s := newSplitter(pts, turn, sigma, d.Pixel)
	copy(c.pts, s.pts)
	copy(c.w, s.w)
	for i, p := range pieces {
		a, b := (p.First-turn+n)%n, (p.Last-turn+n)%n
		if b <= a {
			b += n
		}
		whole := bit{first: a, last: min(b, n), parent: i, bend: p.bend, arc: p.arc, from: p.Segment.Start(), to: p.Segment.End()}
		if whole.straight(sigma) {
			whole.arc = false
			c.bits = append(c.bits, whole)
			continue
		}
		c.bits = append(c.bits, c.parted(whole, p.Segment)...)
	}
	for i := range c.bits {
		b := &c.bits[i]
		b.squares = b.bend.sum(c.pts[b.first:b.last+1], c.w[b.first:b.last+1]) / (sigma * sigma)
	}
	c.findFace()
	return c, nil
}

// shortBit is the length in mm under which a part of an arc is not parted off.
const shortBit = 0.4

// parted returns the bit in parts, cut where its arc is level or plumb.
func (c *chain) parted(b bit, seg geom.Segment) []bit {
	arc, ok := seg.(geom.Arc)
	if !ok || b.last-b.first < 6 {
		return []bit{b}
	}
	var out []bit
	dir := math.Copysign(1, float64(arc.Sweep))
	for k := range 9 {
		// Quarter turns passed from the start on.
		q := math.Floor(float64(arc.From)/(math.Pi/2)*dir+float64(k)+1) * (math.Pi / 2) * dir
		turned := (q - float64(arc.From)) * dir
		if turned > math.Abs(float64(arc.Sweep)) {
			break
		}
		at := arc.Center.Add(geom.Polar(arc.Radius, geom.Angle(q)))
		if turned*arc.Radius < shortBit || (math.Abs(float64(arc.Sweep))-turned)*arc.Radius < shortBit {
			continue
		}
		best, where := math.Inf(1), -1
		for i := b.first + 1; i < b.last; i++ {
			if d := c.pts[i].Dist(at); d < best {
				best, where = d, i
			}
		}
		if where <= b.first || where >= b.last {
			continue
		}
		head := b
		head.last, head.to = where, at
		b.first, b.from = where, at
		out = append(out, head)
	}
	return append(out, b)
}

// findFace finds where the face starts, after the level foot, and where it ends, at the level top.
func (c *chain) findFace() {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range c.pts {
		low, high = math.Min(low, p.Y), math.Max(high, p.Y)
	}
	near := 6*c.sigma + 0.1 + 0.002*(high-low)
	for i, b := range c.bits {
		if !b.arc && b.level(c.sigma) && math.Max(b.from.Y, b.to.Y) < low+near && b.to.X > b.from.X {
			c.face = i + 1
		}
		if b.to.Y > (low+high)/2 {
			break
		}
	}
	c.top = len(c.bits)
	for i := c.face; i < len(c.bits); i++ {
		if b := c.bits[i]; !b.arc && b.level(c.sigma) && math.Min(b.from.Y, b.to.Y) > high-near && b.to.X < b.from.X {
			c.top = i
			break
		}
	}
	if c.top < len(c.bits) {
		return
	}
	for i := c.face; i < len(c.bits); i++ { // no level top: the face ends at the highest joint
		if c.bits[i].to.Y > high-near {
			c.top = i + 1
			return
		}
	}
}
