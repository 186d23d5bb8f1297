package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// straightRun returns a run of n points between two.
func straightRun(from, to geom.Point, n int) run {
	var r run
	for i := range n {
		r.points = append(r.points, from.Lerp(to, float64(i)/float64(n-1)))
		r.normals = append(r.normals, geom.Pt(0, -1))
	}
	r.measure()
	return r
}

// A short run near to plumb, its end pulled in by a round corner, is laid plumb with the long lines; one that leans more is left as it is.
func TestSetStubs(t *testing.T) {
	for _, lean := range []float64{1.2, 6} { // px over 12
		stub := straightRun(geom.Pt(200, 100), geom.Pt(200+lean, 112), 13)
		runs := []run{straightRun(geom.Pt(0, 100), geom.Pt(200, 100), 201), stub, straightRun(geom.Pt(220, 130), geom.Pt(220, 330), 201), straightRun(geom.Pt(220, 330), geom.Pt(0, 330), 221), straightRun(geom.Pt(0, 330), geom.Pt(0, 100), 231)}
		breaks := []parting{{end: 0}, {end: 1, start: 1}, {end: 2, start: 3, gap: true}, {end: 4, start: 4}, {end: 5, start: 5}}
		setStubs(runs, breaks, 6)
		first, last := runs[1].points[0], runs[1].points[12]
		if lean < 2 {
			require.InDelta(t, first.X, last.X, 0.02)
			require.InDelta(t, 200+lean/2, first.X, 0.35)
		} else {
			require.InDelta(t, lean, last.X-first.X, 1e-9)
		}
	}
}

// The end of a small round that looks like a short run beside a corner is not laid level; a short flat beside another member is.
func TestRoundOn(t *testing.T) {
	arc := func(radius, from, to float64) run {
		var r run
		for a := from; a <= to; a += 1 / radius {
			r.points = append(r.points, geom.Pt(radius*math.Sin(a), radius*(1-math.Cos(a))))
			r.normals = append(r.normals, geom.Pt(0, -1))
		}
		r.measure()
		return r
	}
	require.True(t, arc(11, 0, 0.8).roundOn(arc(11, 0.8, 2.6), true, 6))
	require.True(t, arc(11, 1.8, 2.6).roundOn(arc(11, 0, 1.8), false, 6))
	require.False(t, straightRun(geom.Pt(0, 9), geom.Pt(0, 0), 10).roundOn(arc(20, 0, 1.5), true, 6))
	require.False(t, straightRun(geom.Pt(-9, 0), geom.Pt(0, 0), 10).roundOn(straightRun(geom.Pt(0, 0), geom.Pt(20, 20), 28), true, 6))
}

// Two plumb lines, 6 px thick, the second 11 px to the right as one goes down (y down, the section on the left of the picture), and a gap that hides the
// step between them but for a place on its lower edge: the middle of the step lies half a line above that.
func TestStepped(t *testing.T) {
	above, below := straightRun(geom.Pt(333, 100), geom.Pt(333, 160), 61), straightRun(geom.Pt(322, 172), geom.Pt(322, 260), 89)
	seen := geom.Pt(330, 166)
	m := stepped(above, below, parting{gap: true, first: &seen}, 6)
	require.True(t, m.sharp && m.step)
	require.True(t, m.at.Near(geom.Pt(330, 163), 1e-6), "%v", m.at)
	require.True(t, m.to.Near(geom.Pt(319, 163), 1e-6), "%v", m.to)
	require.False(t, stepped(above, below, parting{gap: true}, 6).sharp, "nothing tells where")
	require.False(t, stepped(above, straightRun(geom.Pt(333, 172), geom.Pt(333, 260), 89), parting{gap: true, first: &seen}, 6).sharp, "no step")
}

// A gap beside a corner is taken to begin before it.
func TestGapBesideCorner(t *testing.T) {
	var edges []edge
	for x := range 60 {
		edges = append(edges, edge{at: geom.Pt(float64(x), 0), ok: true})
	}
	for y := range 4 {
		edges = append(edges, edge{at: geom.Pt(60, float64(y)), ok: true})
	}
	for y := 14; y < 60; y++ {
		edges = append(edges, edge{at: geom.Pt(60, float64(y)), ok: true})
	}
	got := gaps(edges, []int{60}, true)
	require.Len(t, got, 2) // the second is that from the end to the start
	require.True(t, got[0].gap)
	require.Equal(t, geom.Pt(58, 0), edges[got[0].end].at)
	require.Equal(t, geom.Pt(60, 3), *got[0].first)
	require.Nil(t, got[0].last)
}

// Two gaps with a corner alone between them are one; others stay two.
func TestGapsApart(t *testing.T) {
	a, b, c := parting{end: 10, start: 20, gap: true}, parting{end: 15, start: 26, gap: true}, parting{end: 40, start: 48, gap: true}
	require.Equal(t, []parting{{end: 10, start: 26, gap: true}, c}, apart([]parting{a, b, c}, 60))
	require.Equal(t, []parting{a, c}, apart([]parting{a, c}, 60))
}
