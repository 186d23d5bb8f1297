package cutter

import (
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// ThinStick is the thickness, in mm, that a stick must have to be machined loose: 1/2 in, common practice, no source.
const ThinStick = 12.7

// boardWidth is the width, in mm, of the board that a thinner section is molded on, the molding included: 4 in, common practice, no source.
const boardWidth = 101.6

// A rip is the last set-up of a section that is molded on the edge of a board: it parts the molding from what is left of that.
type rip struct {
	strip Piece // the molding by itself
	side  int   // of the strip's blank, that the rip runs along, and of the board's
	saw   Tool
}

// onBoard returns a piece too thin to be a loose stick as the edge of a board of its thickness, and how it is ripped off that: along the back, or
// where it is thinner square to the back than along it, along the foot or the top. It returns the piece as it is, and nil, when it is thick enough, no
// saw is at hand or no such face lies in one on its blank.
func (p Piece) onBoard(tools []Tool) (Piece, *rip) {
	r := &rip{strip: p}
	r.side, _ = p.boardSide()
	if r.side < 0 {
		return p, nil
	}
	sides := p.sides()
	side := sides[r.side]
	for _, t := range tools {
		if t.Kind == SawBlade && t.Reach >= side.a.Dist(side.b)+proud && (r.saw.Kind == "" || t.Width < r.saw.Width) {
			r.saw = t
		}
	}
	if r.saw.Kind == "" {
		return p, nil
	}
	next := sides[(r.side+1)%4]
	p.Board = math.Max(boardWidth-next.a.Dist(next.b), boardWidth/2)
	out := side.n.Mul(p.Board)
	p.Outline = grownOver(p.Outline, side, []geom.Point{side.a, side.a.Add(out), side.b.Add(out), side.b})
	p.Blank[r.side], p.Blank[(r.side+1)%4] = side.a.Add(out), side.b.Add(out)
	return p, r
}

// boardSide returns the side of a thin piece along which a board may go on, -1 where there is none, and whether the piece is too thin to be a loose
// stick at all.
func (p Piece) boardSide() (side int, thin bool) {
	side = -1
	sides := p.sides()
	for i, s := range sides {
		thick, wide := s.a.Dist(s.b), sides[(i+1)%4].a.Dist(sides[(i+1)%4].b)
		if s.name == Front || thick >= ThinStick-0.01 || thick > wide {
			continue
		}
		thin = true
		behind := s.name == Back || s.name == Spring
		if (side < 0 || behind) && p.inOne(s, behind) {
			side = i
		}
	}
	return side, thin
}

// RunsOut reports whether a piece is too thin to be a loose stick and cannot be molded on the edge of a board either: members run out at its foot and
// its top, and no face is left along which the board could stay.
func (p Piece) RunsOut() bool {
	side, thin := p.boardSide()
	return thin && side < 0
}

// inOne reports whether the outline touches a side of the blank along one line, and unless part of it will do along the whole: where a member runs out at
// the foot or the top, no tool could finish it without cutting into the board.
func (p Piece) inOne(s side, part bool) bool {
	n, along := 0, 0.0
	for _, seg := range p.Outline.Simplify(1e-6) {
		if onBlank(seg, []side{s}) {
			n++
			along += seg.Length()
		}
	}
	return n == 1 && (part || along > s.a.Dist(s.b)-1e-3)
}

// grownOver returns a closed path whose line along a side is led over further points.
func grownOver(p geom.Path, s side, over []geom.Point) geom.Path {
	var out geom.Path
	for _, seg := range p.Simplify(1e-6) {
		if !onBlank(seg, []side{s}) {
			out = append(out, seg)
			continue
		}
		at := seg.Start()
		for _, q := range append(append([]geom.Point{}, over...), seg.End()) {
			if !q.Near(at, 1e-6) {
				out = append(out, geom.Line{A: at, B: q})
				at = q
			}
		}
	}
	return out
}

// setup returns the rip as the n-th set-up: the board's other edge to the fence, so that the molding and not the board falls away, on the face that
// more is left of. wood is what stands before it.
func (r *rip) setup(s *search, wood *block, n int) Setup {
	a := stance{fence: r.side, table: (r.side + 1) % 4}
	if other := (r.side + 3) % 4; s.bears(wood, other) > s.bears(wood, a.table)+faceStep {
		a.table = other
	}
	g, b := s.t.sides[a.fence], s.t.sides[a.table]
	a.endForEnd = g.n.Cross(b.n) > 0
	kerf, at, high := r.saw.Width, s.t.piece.Board, g.a.Dist(g.b)+proud
	box := func(low, high float64) []geom.Point {
		var out []geom.Point
		for _, q := range []geom.Point{geom.Pt(at-kerf, low), geom.Pt(at, low), geom.Pt(at, high), geom.Pt(at-kerf, high)} {
			out = append(out, s.fromMachine(a, q))
		}
		return out
	}
	before := wood.area()
	wood.cut(newPolygon(box(-proud, high)))
	e := g.n.Mul(g.d).Add(b.n.Mul(b.d))
	bears := round(s.bears(wood, a.table), 10)
	u := Setup{
		N: n, Tool: r.saw.Name, Work: Saw, OnTable: b.name, AgainstFence: g.name, EndForEnd: a.endForEnd, Enters: "table", Rips: true, Frees: true,
		Fence: round(at-kerf, 1e4), Far: round(at, 1e4), Axis: round(at-kerf/2, 1e4), Height: round(high, 1e4), Passes: 1,
		Silhouette: points(box(-proud, high)), Body: points(box(-proud, -proud/2)),
		Transform: [6]float64{-g.n.X + 0, -g.n.Y + 0, -b.n.X + 0, -b.n.Y + 0, e.X, e.Y},
		Cleans:    []int{}, Removed: round(before-wood.area(), 100), OnTableWidth: bears, FenceWidth: round(g.a.Dist(g.b), 10),
		FenceHigh: s.fenceHigh(a, Saw, wood), Watch: []Note{},
	}
	u.Warning = u.Words(measure.Format{})
	return u
}

// bears returns the width of wood, in mm, along a side of the blank.
func (s *search) bears(wood *block, i int) float64 {
	f, n := s.t.sides[i], 0
	m := int(math.Ceil(f.a.Dist(f.b) / faceStep))
	for k := range m {
		if wood.stands(f.a.Lerp(f.b, (float64(k)+0.5)/float64(m)).Sub(f.n.Mul(0.03))) {
			n++
		}
	}
	return float64(n) * faceStep
}
