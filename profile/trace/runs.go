package trace

import (
	"math"
	"slices"

	"listel/profile/geom"
)

const (
	// cornerChord is how far to both sides the way is looked at for a corner, px: the blur of a scan is over in half of that.
	cornerChord = 5
	// leastCorner is the least turn that makes a corner; members meet at sharper ones or not at all.
	leastCorner = 28 * geom.Degree
	// cornerBlur is how far from a corner its blur reaches, px.
	cornerBlur = 2
)

// middle returns the boundary moved inward by half of the line's thickness (px), its corners sharp again: what the pen followed. The
// points are closed, in the edges' order. sigma is their scatter across the boundary, px. The thickness is below 0 for the boundary of the paper within.
func middle(edges []edge, line float64) (points []geom.Point, sigma float64) {
	kept := slices.DeleteFunc(slices.Clone(edges), func(e edge) bool { return !e.ok })
	if len(kept) < 12 {
		return nil, 0
	}
	if kept = ordered(kept); line > 0 {
		kept = undented(kept, line)
	}
	breaks := gaps(kept, corners(kept), line != 0)
	for i, p := range breaks {
		breaks[i].lost = between(edges, kept[p.end].index, kept[p.start].index)
	}
	runs := split(kept, breaks)
	var scatter []float64
	for i := range runs {
		scatter = append(scatter, runs[i].fair()...)
	}
	slices.Sort(scatter)
	if len(scatter) > 0 {
		sigma = 1.4826 * scatter[len(scatter)/2] // of a normal distribution's median distance
	}
	if len(breaks) == 0 {
		return runs[0].moved(0, runs[0].length(), line), sigma
	}
	if line > 0 {
		setStubs(runs, breaks, line)
	}
	meetings := make([]meeting, len(runs)) // at the end of each run
	for i := range runs {
		next := runs[(i+1)%len(runs)]
		if p := breaks[(i+1)%len(breaks)]; p.gap {
			if meetings[i] = bridge(runs[i], next, line); !meetings[i].sharp {
				meetings[i] = stepped(runs[i], next, p, line)
			}
			if line > 0 {
				meetings[i] = elbow(runs[i], next, p, line, meetings[i])
			}
		} else {
			meetings[i] = meet(runs[i], next, line)
		}
	}
	for i, r := range runs {
		before := meetings[(i-1+len(runs))%len(runs)]
		points = append(points, r.moved(before.after, r.length()-meetings[i].before, line)...)
		if meetings[i].sharp {
			points = append(points, meetings[i].at)
		}
		if meetings[i].step {
			points = append(points, meetings[i].to)
		}
	}
	return points, sigma
}

// ordered drops edges that lie behind the one before: normals cross inside a corner.
func ordered(edges []edge) []edge {
	out := edges[:1]
	for _, e := range edges[1:] {
		last := out[len(out)-1]
		d := e.at.Sub(last.at)
		way := geom.Pt(-e.out.Y, e.out.X).Add(geom.Pt(-last.out.Y, last.out.X))
		if d.Norm() > 0.3 && d.Dot(way) > 0 {
			out = append(out, e)
		}
	}
	return out
}

// corners returns the indexes of the edges nearest to corners, in order.
func corners(edges []edge) []int {
	n := len(edges)
	turn := make([]geom.Angle, n)
	for i, e := range edges {
		a, b := walk(edges, i, -1), walk(edges, i, 1)
		u, v := e.at.Sub(a), b.Sub(e.at)
		turn[i] = geom.Angle(math.Abs(math.Atan2(u.Cross(v), u.Dot(v))))
	}
	var out []int
	for i := range edges {
		if turn[i] < leastCorner {
			continue
		}
		best := true
		for j := 1; j < n && best; j++ { // the sharpest within a chord either way, and of two edges with none between them
			a, b := (i+j)%n, (i-j+n)%n
			da, db := edges[a].at.Dist(edges[i].at), edges[b].at.Dist(edges[i].at)
			if j > 1 && da > cornerChord && db > cornerChord {
				break
			}
			near := cornerChord * 0.8
			if j == 1 {
				near = leastGap
			}
			best = !(da <= near && turn[a] > turn[i]) && !(db <= near && turn[b] >= turn[i])
		}
		if best {
			out = append(out, i)
		}
	}
	return out
}

// walk returns the place cornerChord px along the boundary from edge i, to one side or the other.
func walk(edges []edge, i, step int) geom.Point {
	n := len(edges)
	for j := 1; j < n; j++ {
		if q := edges[((i+j*step)%n+n)%n].at; q.Dist(edges[i].at) >= cornerChord {
			return q
		}
	}
	return edges[i].at
}

// A parting is where one run ends and the next starts: at a corner, the same edge, or over a gap.
type parting struct {
	end, start int // indexes of edges
	gap        bool
	first      *geom.Point // px, the edge beside the gap where it is taken to begin before a corner, nil where it is not
	last       *geom.Point // the same after it
	lost       []edge      // what lies between the two
}

// between returns the edges after one and before another, none where it is the same.
func between(edges []edge, from, to int) []edge {
	var out []edge
	for i := from + 1; from != to && i%len(edges) != to; i++ {
		out = append(out, edges[i%len(edges)])
	}
	return out
}

// leastGap is how far edges lie apart where some between them are missing, px.
const leastGap = 3

// gaps returns the partings at corners and at gaps in the edges, in order. A corner beside a gap is what the gap makes of it: the gap of a
// line, which may be broken, is taken to begin before such a corner.
func gaps(edges []edge, corners []int, drawn bool) []parting {
	n := len(edges)
	var out []parting
	for i := range edges {
		if j := (i + 1) % n; edges[i].at.Dist(edges[j].at) > leastGap {
			out = append(out, parting{end: i, start: j, gap: true})
		}
	}
	open := slices.Clone(out)
	for _, c := range corners {
		beside := false
		for _, i := range gapsNear(open, c, n) {
			p := open[i]
			before, after := edges[c].at.Dist(edges[p.end].at) <= cornerChord, edges[c].at.Dist(edges[p.start].at) <= cornerChord
			beside = beside || before || after
			switch {
			case !drawn:
			case before:
				out[i].end, out[i].first = clearOf(edges, c, p.end, n-1), &edges[p.end].at
			case after:
				out[i].start, out[i].last = clearOf(edges, c, p.start, 1), &edges[p.start].at
			}
		}
		if !beside {
			out = append(out, parting{end: c, start: c})
		}
	}
	slices.SortFunc(out, func(a, b parting) int { return a.end - b.end })
	return apart(out, n)
}

// apart makes one of two gaps of n edges that were both taken to begin before the corner between them.
func apart(all []parting, n int) []parting {
	out := all[:0:0]
	for _, p := range all {
		if k := len(out) - 1; k >= 0 && out[k].gap && p.gap && (out[k].start-out[k].end+n)%n > p.end-out[k].end {
			out[k].start, out[k].last = p.start, p.last
			continue
		}
		out = append(out, p)
	}
	return out
}

// edgesNear is how many edges lie along a boundary within a corner's chord, at most: they lie at least 0.3 px apart, and a boundary winds.
const edgesNear = 20

// gapsNear returns the indexes of those of the gaps, in the order of their ends, of n edges that begin or end within edgesNear of edge c.
func gapsNear(open []parting, c, n int) []int {
	m := len(open)
	at, _ := slices.BinarySearchFunc(open, c, func(p parting, c int) int { return p.end - c })
	var out []int
	for k := range m { // from c on
		i := (at + k) % m
		if (open[i].end-c+n)%n > edgesNear {
			break
		}
		out = append(out, i)
	}
	for k, ahead := 1, len(out); k <= m-ahead; k++ { // and before it
		i := (at - k + m) % m
		if (c-open[i].start+n)%n > edgesNear {
			break
		}
		out = append(out, i)
	}
	return out
}

// clearOf returns the first edge, walking away from a gap from its end, that lies beyond a corner and its blur; the end where it comes to none
// before another gap.
func clearOf(edges []edge, corner, end, step int) int {
	passed := false
	for k, i, last := 0, end, end; k < 4*cornerChord; k, i, last = k+1, (i+step)%len(edges), i {
		if edges[i].at.Dist(edges[last].at) > leastGap {
			return end
		}
		passed = passed || i == corner
		if passed && edges[i].at.Dist(edges[corner].at) >= cornerBlur {
			return i
		}
	}
	return end
}

// split returns the runs from each parting to the next, all of the boundary when there are none.
func split(edges []edge, breaks []parting) []run {
	n := len(edges)
	if len(breaks) == 0 {
		breaks = []parting{{}}
	}
	runs := make([]run, 0, len(breaks))
	for i, from := range breaks {
		end := breaks[(i+1)%len(breaks)].end
		if end <= from.start && !(from.gap && end == from.start) {
			end += n
		}
		var r run
		for j := from.start; j <= end; j++ {
			r.points = append(r.points, edges[j%n].at)
			r.normals = append(r.normals, edges[j%n].out)
		}
		runs = append(runs, r)
	}
	return runs
}
