package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// hollowed returns edges a pixel apart along the top of a bar, which bows by bend radians a px, with a hollow of a depth and breadth in px round x = 100. From x = 300 it runs
// back and round at a distance, so that the edges are closed.
func hollowed(depth, broad, bend float64) []edge {
	var out []edge
	top := func(x float64) float64 {
		y := bend * (x - 100) * (x - 100) / 2
		if off := math.Abs(x - 100); off < broad/2 {
			y += depth * (1 + math.Cos(2*math.Pi*off/broad)) / 2 // y down: into the section
		}
		return y
	}
	for x := 70.0; x <= 130; x++ {
		way := geom.Pt(2, top(x+1)-top(x-1)).Unit()
		out = append(out, edge{at: geom.Pt(x, top(x)), out: geom.Pt(way.Y, -way.X), ok: true})
	}
	for a := 0.0; a < math.Pi; a += 0.03 {
		out = append(out, edge{at: geom.Pt(100+40*math.Cos(a), 60+40*math.Sin(a)), out: geom.Polar(1, geom.Angle(a)), ok: true})
	}
	return out
}

// A dent no deeper than the line and no broader than a break goes, on a straight line as on a round; a plain line, a broader hollow, a deep groove and what stands out stay.
func TestUndented(t *testing.T) {
	for _, c := range []struct {
		depth, broad, bend float64
		want               bool
	}{
		{2, 8, 0, true}, {1, 7, 0, true}, {2, 8, 0.02, true}, {2, 8, -0.02, true},
		{0, 8, 0, false}, {0, 8, 0.03, false}, {6, 40, 0, false}, {12, 8, 0, false}, {-2, 8, 0, false},
	} {
		edges := hollowed(c.depth, c.broad, c.bend)
		got := undented(edges, 6)
		kept := map[geom.Point]bool{}
		for _, e := range got {
			kept[e.at] = true
		}
		require.Equal(t, c.want, len(got) < len(edges), "%+v", c)
		for _, e := range edges {
			switch off := math.Abs(e.at.X - 100); {
			case c.want && off == 0 && e.at.Y < 20:
				require.False(t, kept[e.at], "%+v: the middle of the dent", c)
			case off > c.broad || e.at.Y > 40:
				require.True(t, kept[e.at], "%+v at %v", c, e.at)
			}
		}
	}
}

// Where a gap has taken a step's tread away, what lies off the lines on either side tells where it was; where nothing does, the two ends.
func TestSteppedFromEnds(t *testing.T) {
	upward := func(x, from, to float64) run {
		var r run
		for y := from; y >= to; y-- {
			r.points = append(r.points, geom.Pt(x, y))
			r.normals = append(r.normals, geom.Pt(-1, 0)) // the section is on the right
		}
		r.measure()
		return r
	}
	const line = 6
	r, next := upward(100, 200, 105), upward(110, 95, 0) // the outline goes up and steps to the right, which is in
	end, start, tread := geom.Pt(100, 103), geom.Pt(110, 97), geom.Pt(105, 97)
	for _, c := range []struct {
		first, last *geom.Point
		y           float64 // of the step, the middle of its line; 0 for none
	}{
		{&end, &start, 100}, {&tread, nil, 97 + line/2}, {nil, &tread, 97 + line/2}, {&end, &tread, 97 + line/2},
		{nil, nil, 0},
	} {
		m := stepped(r, next, parting{gap: true, first: c.first, last: c.last}, line)
		require.Equal(t, c.y != 0, m.step, "%v %v", c.first, c.last)
		if c.y != 0 {
			require.InDelta(t, 0, m.at.Dist(geom.Pt(100+line/2, c.y)), 1e-6, "%v", m.at)
			require.InDelta(t, 0, m.to.Dist(geom.Pt(110+line/2, c.y)), 1e-6, "%v", m.to)
		}
	}
}
