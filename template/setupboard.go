package template

import (
	"math"

	"listel/profile/geom"
)

// Of a board whose edge is molded, the pictures show no more behind the molding than shownBoard, or what the molding takes where that is more, mm; where
// the fence bears on the board's other edge it is drawn boardGap from where the board is broken off.
const (
	shownBoard = 9.0
	boardGap   = 2.0
)

// shown returns the blank as the pictures show it: a board broken off behind the molding.
func (p SetupPlan) shown() polygon {
	blank := p.Plan.Blank
	all := polygonOf(blank.Polygon[:])
	keep := max(shownBoard, stripOf(p.Plan))
	if blank.Board <= keep {
		return all
	}
	pts := all.pts
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		n := b.Sub(a).Unit().Left().Mul(-1)
		far := math.Inf(-1)
		for _, q := range p.Plan.Outline {
			far = math.Max(far, n.Dot(geom.Pt(q[0], q[1])))
		}
		if n.Dot(a)-far < blank.Board-0.01 {
			continue
		}
		in, zig := n.Mul(keep-blank.Board), n.Mul(a.Dist(b)/8)
		a, b = a.Add(in), b.Add(in)
		rest := append(append([]geom.Point{}, pts[i:]...), pts[:i]...)[2:]
		return newPolygon(append([]geom.Point{a, a.Lerp(b, 0.42), a.Lerp(b, 0.46).Add(zig), a.Lerp(b, 0.54).Sub(zig), a.Lerp(b, 0.58), b}, rest...))
	}
	return all
}

// leftOut returns how much of the board, in mm, a picture leaves out between the fence and the wood that it shows.
func (v setupPicture) leftOut() float64 {
	near := math.Inf(1)
	m := machine(v.setup())
	for _, p := range v.stick.blank.pts {
		near = math.Min(near, m.Apply(p).X)
	}
	return math.Max(0, near-boardGap)
}
