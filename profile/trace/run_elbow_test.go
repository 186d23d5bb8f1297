package trace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
)

// A flat goes up to a corner, and a step from there to a slope; the break has taken the step between. What is left of the corner tells how far up the step is, whether it goes
// out or in; where nothing is left, the lines go on until they meet.
func TestElbow(t *testing.T) {
	const line = 6
	row := func(from, way, out geom.Point, n int) run {
		var r run
		for i := range n {
			r.points, r.normals = append(r.points, from.Add(way.Mul(float64(i)))), append(r.normals, out)
		}
		r.measure()
		return r
	}
	flat := row(geom.Pt(97, 130), geom.Pt(0, -1), geom.Pt(-1, 0), 31) // its middle is at x = 100, the section on the right
	slope := geom.Pt(1, -1).Unit()
	for _, c := range []struct {
		name  string
		level float64 // of the edge that is left, y
		face  float64 // up (-1) or down (1)
		start geom.Point
		step  bool
		y     float64 // of the step's middle
	}{
		{"in, its tread left", 92, -1, geom.Pt(109, 93), true, 95},
		{"out, the end of its soffit left", 98, 1, geom.Pt(88, 92), true, 95},
		{"nothing left", 0, -1, geom.Pt(109, 93), false, 0},
	} {
		next := row(c.start, slope, geom.Pt(-slope.X, slope.Y).Unit(), 20)
		first := geom.Pt(99, 98)
		p := parting{gap: true, first: &first}
		for x := -2.0; x <= 2 && c.level > 0; x++ {
			p.lost = append(p.lost, edge{at: geom.Pt((flat.points[30].X+c.start.X)/2+x, c.level), out: geom.Pt(0, c.face), seen: true})
		}
		plain := meeting{}
		m := elbow(flat, next, p, line, plain)
		require.Equal(t, c.step, m.step, c.name)
		if c.step {
			require.InDelta(t, 0, m.at.Dist(geom.Pt(100, c.y)), 1e-6, "%s: %v", c.name, m.at)
			require.InDelta(t, c.y, m.to.Y, 1e-6, "%s: %v", c.name, m.to)
		} else {
			require.Equal(t, plain, m, c.name)
		}
	}
	level := row(geom.Pt(115, 92), geom.Pt(1, 0), geom.Pt(0, -1), 20)
	p := parting{gap: true, first: &flat.points[30], lost: []edge{
		{at: geom.Pt(101, 92), out: geom.Pt(0, -1), seen: true}, {at: geom.Pt(102, 92), out: geom.Pt(0, -1), seen: true},
	}}
	m := elbow(flat, level, p, line, meeting{})
	require.True(t, m.sharp && !m.step, "the other run is the step")
	require.InDelta(t, 0, m.at.Dist(geom.Pt(100, 95)), 1e-6, "%v", m.at)
}

// A round goes on as a round to where it meets a line; one that has come to run straight goes on straight.
func TestSteadyBend(t *testing.T) {
	const radius = 30
	round := func(straight float64) run {
		var r run
		for along := 0.0; along <= 60; along++ {
			turn := min(along, 60-straight) / radius
			q := geom.Pt(radius*math.Sin(turn), radius*(1-math.Cos(turn)))
			r.points = append(r.points, q.Add(geom.Polar(max(0, along-60+straight), geom.Angle(turn))))
		}
		r.normals = make([]geom.Point, len(r.points))
		r.measure()
		return r
	}
	require.InDelta(t, 1./radius, round(0).steadyBend(true), 0.004)
	require.InDelta(t, 0, round(14).steadyBend(true), 0.004)
	end := geom.Pt(radius*math.Sin(2), radius*(1-math.Cos(2)))
	goal := geom.Pt(radius*math.Sin(2.4), radius*(1-math.Cos(2.4)))
	at, ok := onward{tip{end, geom.Polar(1, 2)}, 1. / radius, 1}.meets(tip{goal, geom.Pt(0, 1)})
	require.True(t, ok)
	require.InDelta(t, 0, at.Dist(goal), 0.5, "%v %v", at, goal)
}
