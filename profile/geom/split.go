package geom

import (
	"cmp"
	"math"
	"slices"
)

// SplitAtHeight returns the parts of the region that the closed path p bounds below and above the height y (mm), each a
// closed path that runs the same way round as p. An open path is closed by a line first. A part without area is left out; p
// must not cross itself.
func (p Path) SplitAtHeight(y float64) (below, above []Path) {
	return p.split(Point{0, 1}, y)
}

// SplitAtX returns the parts of the region that the closed path p bounds to the left and the right of x (mm), as
// SplitAtHeight does.
func (p Path) SplitAtX(x float64) (left, right []Path) {
	return p.split(Point{1, 0}, x)
}

// split returns the parts of the region of p where n.q < c and where it is greater; n is a unit vector.
func (p Path) split(n Point, c float64) (under, over []Path) {
	if len(p) > 0 && !p.Closed(joined) {
		p = append(append(Path{}, p...), Line{p.End(), p.Start()})
	}
	pieces := p.cutAt(n, c)
	has := [3]bool{}
	for _, piece := range pieces {
		has[piece.side+1] = true
	}
	switch {
	case has[0] && has[2]:
		return capRuns(pieces, -1, n), capRuns(pieces, 1, n)
	case has[0]:
		return []Path{p}, nil
	case has[2]:
		return nil, []Path{p}
	}
	return nil, nil
}

// A sidedPiece is a part of a segment that does not cross the cut: side is -1 under it, 1 over it and 0 in it.
type sidedPiece struct {
	seg  Segment
	side int
}

// cutAt cuts the segments of p where n.q = c.
func (p Path) cutAt(n Point, c float64) []sidedPiece {
	var out []sidedPiece
	add := func(s Segment) {
		side := 0
		if f := n.Dot(s.At(0.5)) - c; f > touch {
			side = 1
		} else if f < -touch {
			side = -1
		}
		out = append(out, sidedPiece{s, side})
	}
	for _, s := range p {
		length, from := s.Length(), 0.0
		for _, t := range s.levels(n, c) {
			if (t-from)*length > touch && (1-t)*length > touch {
				add(s.Trim(from, t))
				from = t
			}
		}
		if from == 0 {
			add(s)
		} else {
			add(s.Trim(from, 1))
		}
	}
	return out
}

// capRuns returns the closed paths of the runs of pieces on one side, joined along the cut. The ends of the runs, in their order
// along the cut, enter and leave the region by turns, so each belongs to its neighbor.
func capRuns(pieces []sidedPiece, side int, n Point) []Path {
	runs := runsOn(pieces, side)
	type end struct {
		at     float64
		run    int
		finish bool
	}
	var ends []end
	for i, r := range runs {
		along := n.Left()
		ends = append(ends, end{along.Dot(r.Start()), i, false}, end{along.Dot(r.End()), i, true})
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.at, b.at) })
	next := make([]int, len(runs))
	for len(ends) > 0 {
		j := 1
		for ends[j].finish == ends[0].finish {
			j++
		}
		a, b := ends[0], ends[j]
		if b.finish {
			a, b = b, a
		}
		next[a.run] = b.run
		ends = append(slices.Clone(ends[1:j]), ends[j+1:]...)
	}
	return linkRuns(runs, next)
}

// runsOn returns the chains of neighboring pieces on one side; pieces is a ring with some on each side.
func runsOn(pieces []sidedPiece, side int) []Path {
	start := slices.IndexFunc(pieces, func(p sidedPiece) bool { return p.side != side })
	var runs []Path
	var run Path
	for i := range pieces {
		p := pieces[(start+i)%len(pieces)]
		if p.side == side {
			run = append(run, p.seg)
		} else if run != nil {
			runs, run = append(runs, run), nil
		}
	}
	if run != nil {
		runs = append(runs, run)
	}
	return runs
}

// linkRuns follows next from run to run, with lines between, until each ring closes.
func linkRuns(runs []Path, next []int) []Path {
	var out []Path
	done := make([]bool, len(runs))
	for i := range runs {
		var ring Path
		for j := i; !done[j]; j = next[j] {
			done[j] = true
			ring = append(ring, runs[j]...)
			from, to := runs[j].End(), runs[next[j]].Start()
			if !from.Near(to, joined) {
				ring = append(ring, Line{from, to})
			}
		}
		// What rounding leaves at a point that only touches the cut has no area.
		if ring != nil && math.Abs(ring.Area()) > touch*ring.Length() {
			out = append(out, ring)
		}
	}
	return out
}
