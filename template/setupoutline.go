package template

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// sameCorner is the distance under which two ends of edges are one corner, mm: far over the error of an intersection, far under any
// edge that a drawing shows.
const sameCorner = 0.002

// outline returns the wood after the first n cuts as closed loops: counter-clockwise round wood, clockwise round a hole.
func (s *cutStick) outline(n int) []geom.Path {
	var lines []geom.Line
	for _, seg := range s.edges(n) {
		l := geom.Line{A: seg.Start(), B: seg.End()}
		if side := l.B.Sub(l.A).Unit().Left().Mul(edgeStep); !s.stands(n, l.A.Lerp(l.B, 0.5).Add(side)) {
			l.A, l.B = l.B, l.A
		}
		lines = append(lines, l)
	}
	return newEdgeNet(lines).loops()
}

// An edgeNet is edges between corners, each going on from the end of another. Edges of two cuts that lie on one line are in it once.
type edgeNet struct {
	corners []geom.Point
	grid    map[[2]int][]int // corners by squares of sameCorner
	out     map[int][]int    // from a corner to those that edges lead to
}

func newEdgeNet(lines []geom.Line) *edgeNet {
	g := &edgeNet{grid: map[[2]int][]int{}, out: map[int][]int{}}
	ends := make([][2]int, len(lines))
	for i, l := range lines {
		ends[i] = [2]int{g.corner(l.A), g.corner(l.B)}
	}
	edges := map[[2]int]bool{}
	for i, l := range lines {
		at := g.along(l, ends[i])
		for k := 1; k < len(at); k++ {
			edges[[2]int{at[k-1], at[k]}] = true
		}
	}
	for e := range edges {
		if !edges[[2]int{e[1], e[0]}] { // wood on neither side is no edge
			g.out[e[0]] = append(g.out[e[0]], e[1])
		}
	}
	for _, to := range g.out {
		slices.Sort(to)
	}
	g.bridge()
	return g
}

// bridge joins ends from which no edge goes on to the nearest ends to which none leads: between them lies a neck too thin for its edges to be
// told apart.
func (g *edgeNet) bridge() {
	spare := make([]int, len(g.corners)) // edges that go on, less those that come
	for from, all := range g.out {
		spare[from] += len(all)
		for _, to := range all {
			spare[to]--
		}
	}
	for end := range spare {
		for ; spare[end] < 0; spare[end]++ {
			next, near := -1, math.Inf(1)
			for k, p := range g.corners {
				if d := p.Dist(g.corners[end]); spare[k] > 0 && d < near {
					next, near = k, d
				}
			}
			g.out[end] = append(g.out[end], next)
			spare[next]--
		}
	}
}

func squareOf(p geom.Point) [2]int {
	return [2]int{int(math.Floor(p.X / sameCorner)), int(math.Floor(p.Y / sameCorner))}
}

// corner returns the corner at p, a new one where there is none.
func (g *edgeNet) corner(p geom.Point) int {
	at := squareOf(p)
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			for _, k := range g.grid[[2]int{at[0] + dx, at[1] + dy}] {
				if g.corners[k].Near(p, sameCorner) {
					return k
				}
			}
		}
	}
	g.corners = append(g.corners, p)
	g.grid[at] = append(g.grid[at], len(g.corners)-1)
	return len(g.corners) - 1
}

// along returns the corners on a line from one of its ends to the other.
func (g *edgeNet) along(l geom.Line, ends [2]int) []int {
	d := l.B.Sub(l.A)
	long := d.Norm()
	if ends[0] == ends[1] || long < sameCorner {
		return nil
	}
	u := d.Unit()
	box := geom.EmptyRect().Include(l.A).Include(l.B).Expand(sameCorner)
	type place struct {
		at float64
		k  int
	}
	on := []place{{0, ends[0]}, {long, ends[1]}}
	for k, p := range g.corners {
		if k == ends[0] || k == ends[1] || !box.Contains(p) {
			continue
		}
		if q := p.Sub(l.A); math.Abs(q.Cross(u)) < sameCorner && q.Dot(u) > 0 && q.Dot(u) < long {
			on = append(on, place{q.Dot(u), k})
		}
	}
	slices.SortFunc(on, func(a, b place) int {
		if a.at < b.at {
			return -1
		}
		return 1
	})
	out := make([]int, len(on))
	for i, o := range on {
		out[i] = o.k
	}
	return out
}

// loops goes along the edges, each once, and returns the loops.
func (g *edgeNet) loops() []geom.Path {
	var out []geom.Path
	for from := range g.corners {
		for len(g.out[from]) > 0 {
			loop := []geom.Point{g.corners[from]}
			for at := from; len(g.out[at]) > 0; {
				next := g.out[at][0]
				g.out[at] = g.out[at][1:]
				if next == from {
					break
				}
				loop = append(loop, g.corners[next])
				at = next
			}
			if len(loop) > 2 {
				out = append(out, geom.Polygon(loop...))
			}
		}
	}
	return out
}
