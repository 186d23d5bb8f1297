package geom

import (
	"cmp"
	"math"
	"slices"
)

// A trimmer takes the loops out of a raw offset.
type trimmer struct {
	source Path // what was offset: lines and arcs
	raw    Path
	dist   float64 // mm, > 0
	inside float64 // 1 when inside corners turn left, -1 when right
	closed bool
	reach  []Rect // of each segment of source, all points within dist of it
}

func newTrimmer(source, raw Path, d float64, closed bool) trimmer {
	t := trimmer{source: source, raw: raw, dist: math.Abs(d), inside: math.Copysign(1, d), closed: closed}
	for _, s := range source {
		t.reach = append(t.reach, s.Bounds().Expand(t.dist))
	}
	return t
}

// pieces cuts the raw offset where it crosses or touches itself, and an open one also where it comes within the distance of a
// loose end, round which it does not run.
func (t trimmer) pieces() []Path {
	cuts := []float64{0, float64(len(t.raw))}
	for _, c := range t.raw.SelfCrossings(joined) {
		cuts = append(cuts, c.S0, c.S1)
	}
	if !t.closed {
		cuts = append(cuts, t.cutsAround(t.source.Start())...)
		cuts = append(cuts, t.cutsAround(t.source.End())...)
	}
	slices.Sort(cuts)
	var out []Path
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] < 1e-12 {
			continue
		}
		if piece := t.raw.between(cuts[i-1], cuts[i]); piece.Length() > joined {
			out = append(out, piece)
		}
	}
	return out
}

// cutsAround returns where the raw offset passes the circle of the distance round q.
func (t trimmer) cutsAround(q Point) []float64 {
	var cuts []float64
	ring := Arc{Center: q, Radius: t.dist, Sweep: 2 * math.Pi}
	for i, s := range t.raw {
		for _, c := range Crossings(s, ring) {
			cuts = append(cuts, float64(i)+c.TA)
		}
	}
	return cuts
}

// keep returns the pieces that belong to the result. No point of an offset is nearer to the source than its distance. Round a
// closed path it also bounds what the raw offset winds round: that is on its left and not on its right.
func (t trimmer) keep(pieces []Path) []Path {
	var out []Path
	for _, piece := range pieces {
		if t.farEnough(piece) && (!t.closed || t.bounds(piece)) {
			out = append(out, piece)
		}
	}
	return out
}

// farEnough reports whether the piece keeps the distance. Pieces change sides only where they cross, so a few points on each segment
// tell. The slack is for joints of the source that do not quite meet.
func (t trimmer) farEnough(piece Path) bool {
	for _, s := range piece {
		length := s.Length()
		if length < joined {
			continue
		}
		slack := math.Min(joined/10, length/100) + touch
		for _, u := range [3]float64{0.5, 0.21, 0.83} {
			if t.within(s.At(u), t.dist-slack) {
				return false
			}
		}
	}
	return true
}

// within reports whether q is nearer to the source than limit, which is at most dist.
func (t trimmer) within(q Point, limit float64) bool {
	for i, s := range t.source {
		if t.reach[i].Contains(q) && s.clear(q) < limit && s.At(s.Nearest(q)).Dist(q) < limit {
			return true
		}
	}
	return false
}

// bounds reports whether the raw offset winds round what is left of the piece and not round what is right of it.
func (t trimmer) bounds(piece Path) bool {
	s := slices.MaxFunc(piece, func(a, b Segment) int { return cmp.Compare(a.Length(), b.Length()) })
	step := s.Tangent(0.5).Left().Mul(math.Min(1e-5, s.Length()/100))
	at := s.At(0.5)
	return t.raw.winding(at.Add(step)) > 0 && t.raw.winding(at.Sub(step)) <= 0
}

// gap is how far the ends of neighboring pieces may lie apart: one shorter than joined may be left out between them.
const gap = 10 * joined

// scrap is the length, in mm, below which a chain is what rounding left of a loop at a nearly straight corner.
const scrap = 1e-3

// chains links pieces whose ends meet. A chain that comes back to its start is closed; a closed source gives no others.
func (t trimmer) chains(pieces []Path) []Path {
	used := make([]bool, len(pieces))
	var out []Path
	for i := range pieces {
		if used[i] {
			continue
		}
		used[i] = true
		chain := append(Path{}, pieces[i]...)
		for !ring(chain) {
			next := t.nextPiece(chain, pieces, used)
			if next < 0 {
				break
			}
			used[next] = true
			chain = append(chain, pieces[next]...)
		}
		if chain.Length() < scrap || t.closed && !ring(chain) {
			continue
		}
		out = append(out, weld(chain).Simplify(joined/10))
	}
	if !t.closed {
		return joinChains(out)
	}
	return out
}

// ring reports whether a chain has come back to its start.
func ring(p Path) bool { return p.Closed(gap) && p.Length() > scrap }

// weld closes what gaps are left between the segments of p, by moving the end of a line where there is one.
func weld(p Path) Path {
	var out Path
	for i, s := range p {
		if i == 0 || p[i-1].End().Near(s.Start(), joined/10) {
			out = append(out, s)
			continue
		}
		from := out.End()
		if l, ok := s.(Line); ok {
			out = append(out, Line{from, l.B})
		} else if l, ok := out[len(out)-1].(Line); ok {
			out[len(out)-1] = Line{l.A, s.Start()}
			out = append(out, s)
		} else {
			out = append(out, Line{from, s.Start()}, s)
		}
	}
	if ring(p) && !out.Closed(joined/10) {
		out = append(out, Line{out.End(), out.Start()})
	}
	return out
}

// nextPiece returns the unused piece that starts where chain ends, the one that turns most to the inside where several do, or -1.
func (t trimmer) nextPiece(chain Path, pieces []Path, used []bool) int {
	best, most := -1, math.Inf(-1)
	u := chain[len(chain)-1].Tangent(1)
	for j, p := range pieces {
		if used[j] || !p.Start().Near(chain.End(), gap) {
			continue
		}
		v := p[0].Tangent(0)
		if turn := t.inside * math.Atan2(u.Cross(v), u.Dot(v)); turn > most {
			best, most = j, turn
		}
	}
	return best
}

// joinChains links open chains whose ends meet, whatever order they were found in.
func joinChains(chains []Path) []Path {
	for i := 0; i < len(chains); i++ {
		for j := range chains {
			if i != j && chains[j].End().Near(chains[i].Start(), gap) && !ring(chains[i]) {
				chains[j] = append(chains[j], chains[i]...)
				chains = slices.Delete(chains, i, i+1)
				i = -1
				break
			}
		}
	}
	return chains
}
