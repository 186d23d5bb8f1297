package miter_test

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
)

// waist returns a broad flat section, as of a frame, 70 mm out and 26 high, with a rabbet.
func waist() profile.Section {
	ogee, _ := geom.ArcRadius(geom.Pt(70, 12), geom.Pt(58, 26), 20, true)
	o := append(geom.Polyline(geom.Pt(0, 0), geom.Pt(62, 0), geom.Pt(70, 8), geom.Pt(70, 12)), ogee)
	face := append(geom.Polyline(geom.Pt(62, 0), geom.Pt(70, 8), geom.Pt(70, 12)), ogee)
	back := geom.Polyline(geom.Pt(58, 26), geom.Pt(13, 26), geom.Pt(13, 16), geom.Pt(0, 16), geom.Pt(0, 0), geom.Pt(62, 0))
	o = append(o, back[:4]...)
	return profile.Section{Name: "waist", Outline: o, Face: face, Back: back, Height: 26, Projection: 70, Ground: 62,
		Rabbet: &profile.SizedRabbet{At: profile.AtTop, Width: 13, Depth: 10}}
}

// tall returns a section as of a deep cornice fascia, 24 mm out and 70 high.
func tall() profile.Section {
	hollow, _ := geom.ArcRadius(geom.Pt(16, 50), geom.Pt(24, 62), 16, false)
	face := append(geom.Polyline(geom.Pt(16, 0), geom.Pt(16, 50)), hollow)
	face = append(face, geom.Line{A: geom.Pt(24, 62), B: geom.Pt(24, 70)})
	back := geom.Polyline(geom.Pt(24, 70), geom.Pt(0, 70), geom.Pt(0, 0), geom.Pt(16, 0))
	return profile.Section{Name: "tall", Outline: append(append(geom.Path(nil), face...), back...), Face: face, Back: back, Height: 70, Projection: 24, Ground: 16}
}

// solidDistance returns the least distance from points sunk square into the miter face to the surface of the piece: the points are
// given on the true face, stretched across, and go depth deep.
func solidDistance(s profile.Section, k, slope, depth float64, pts []geom.Point) float64 {
	outline := s.Outline.Transform(geom.Scaling(k, 1))
	stretch := math.Sqrt(1 + slope*slope)
	least := math.Inf(1)
	for _, p := range pts {
		for _, d := range []float64{0, depth / 2, depth} {
			// On the face a step across is stretch times the step in the section; going in moves the point by the normal's share along x.
			q := geom.Pt(p.X/stretch+d*slope/stretch, p.Y)
			if !outline.Contains(q) {
				return -1
			}
			_, _, dist := outline.Nearest(q)
			least = math.Min(least, dist)
		}
	}
	return least
}

// TestSplineAndPin: the groove and the hole lie in the wood with the cover that is reported, found again by sampling the solid.
func TestSplineAndPin(t *testing.T) {
	splineAndPin(t, waist(), 8, 50)
	splineAndPin(t, tall(), 5, 20)
}

func splineAndPin(t *testing.T, sec profile.Section, depth, narrow float64) {
	plans := map[string]miter.Plan{
		"square":     {Width: 1000, Depth: 450},
		"canted":     {Width: 1000, Depth: 450, Canted: 90},
		"breakfront": {Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}},
	}
	for name, plan := range plans {
		for _, reach := range []map[string]float64{nil, {"left": narrow}} {
			c := onPlan(plan, miter.Molding{Profile: sec.Name, Reach: reach, Spline: &miter.SplineSpec{Thickness: 3, Depth: depth, Stopped: true}, Pin: &miter.PinSpec{Diameter: 4, Depth: depth}})
			m := fit(t, c, sec).Moldings[0]
			sp, pin := m.Spline, m.Pin
			require.NotNil(t, sp)
			require.NotNil(t, pin)
			require.GreaterOrEqual(t, sp.Cover, 1.5, name)
			require.GreaterOrEqual(t, math.Hypot(sp.To[0]-sp.From[0], sp.To[1]-sp.From[1]), 6.0)
			leastSpline, leastPin := math.Inf(1), math.Inf(1)
			for _, p := range m.Pieces {
				k := p.Section.Projection / sec.Projection
				for _, e := range p.Ends {
					if e.Kind != miter.CutMiter {
						continue
					}
					slope := e.Cut.X
					if e.End == miter.LeftHand {
						slope = -slope
					}
					stretch := math.Sqrt(1 + slope*slope)
					var rim, hole []geom.Point
					for i := range 201 {
						f := float64(i) / 200
						x, y := sp.From[0]+(sp.To[0]-sp.From[0])*f, sp.From[1]+(sp.To[1]-sp.From[1])*f
						dx, dy := sp.Thickness/2, 0.0
						if sp.From[0] != sp.To[0] {
							dx, dy = 0, sp.Thickness/2
						}
						rim = append(rim, geom.Pt(x*k*stretch-dx, y-dy), geom.Pt(x*k*stretch+dx, y+dy))
						a := 2 * math.Pi * f
						hole = append(hole, geom.Pt(pin.At[0]*k*stretch+2*math.Cos(a), pin.At[1]+2*math.Sin(a)))
					}
					leastSpline = math.Min(leastSpline, solidDistance(sec, k, slope, depth, rim))
					leastPin = math.Min(leastPin, solidDistance(sec, k, slope, depth, hole))
				}
			}
			require.InDelta(t, leastSpline, sp.Cover, 0.05, name)
			require.GreaterOrEqual(t, leastPin, pin.Cover-0.01, name)
			require.LessOrEqual(t, leastPin, pin.Cover+2.5, name)
			require.NotEmpty(t, m.Faces)
		}
	}
}

// TestPinBest: no place tried at random has more wood around it than the one found.
func TestPinBest(t *testing.T) {
	m := fit(t, box(miter.Molding{Profile: "waist", Pin: &miter.PinSpec{Diameter: 5, Depth: 8}}), waist()).Moldings[0]
	rng := rand.New(rand.NewPCG(3, 3))
	cover := func(p geom.Point) float64 {
		q := p.Add(geom.Pt(8*math.Sin(math.Pi/4), 0))
		out := waist().Outline
		if !out.Contains(p) || !out.Contains(q) {
			return -1
		}
		least := math.Inf(1)
		for i := range 50 {
			_, _, d := out.Nearest(p.Lerp(q, float64(i)/49))
			least = math.Min(least, d)
		}
		return least - 2.5
	}
	require.InDelta(t, cover(geom.Pt(m.Pin.At[0], m.Pin.At[1])), m.Pin.Cover, 0.02)
	for range 3000 {
		require.LessOrEqual(t, cover(geom.Pt(rng.Float64()*70, rng.Float64()*26)), m.Pin.Cover+0.05)
	}
}

// TestPinTop: the pin stands on the top of its rise: no step of 0.05 mm has 0.01 mm more wood around it, on a section with one
// best place.
func TestPinTop(t *testing.T) {
	m := fit(t, box(miter.Molding{Pin: &miter.PinSpec{Diameter: 4, Depth: 9}})).Moldings[0]
	out := ogee().Outline
	cover := func(p geom.Point) float64 {
		least := math.Inf(1)
		for i := range 60 {
			_, _, d := out.Nearest(p.Add(geom.Pt(9*math.Sin(math.Pi/4)*float64(i)/59, 0)))
			least = math.Min(least, d)
		}
		return least - 2
	}
	at := geom.Pt(m.Pin.At[0], m.Pin.At[1])
	for i := range 16 {
		require.LessOrEqual(t, cover(at.Add(geom.Polar(0.05, geom.Angle(i)*22.5*geom.Degree))), cover(at)+0.01)
	}
}

// TestUprightGroove: in a tall section the groove stands up, and at an outside corner it leans toward the face as it goes in.
func TestUprightGroove(t *testing.T) {
	m := fit(t, box(miter.Molding{Profile: "tall", Spline: &miter.SplineSpec{Thickness: 3, Depth: 5, Stopped: true}}), tall()).Moldings[0].Spline
	require.Equal(t, m.From[0], m.To[0])
	require.Greater(t, m.To[1]-m.From[1], 25.0)
	// Half of the groove is 1.5 mm thick on the face and 1.5 / sqrt 2 in the section; its bottom lies 5 / sqrt 2 further out.
	back, front := m.From[0]-1.5/math.Sqrt2, 16-(m.From[0]+1.5/math.Sqrt2+5/math.Sqrt2)
	require.InDelta(t, math.Min(back, front), m.Cover, 0.01)
	require.InDelta(t, back, front, 0.8, "it lies in the middle of the wood")
}

// TestThroughGroove: a groove that is not stopped runs out where it does not show on the face.
func TestThroughGroove(t *testing.T) {
	m := fit(t, box(miter.Molding{Profile: "waist", Spline: &miter.SplineSpec{Thickness: 3, Depth: 6}}), waist()).Moldings[0]
	require.InDelta(t, 0, m.Spline.From[0], 1e-6, "it runs out at the back")
	require.Less(t, m.Spline.To[0], 70.0)
	require.Contains(t, m.Notes[0], "the back")
}

// TestJointFaults: too thick, too deep, or nothing to join.
func TestJointFaults(t *testing.T) {
	sp := func(thick, deep float64) miter.Case {
		return box(miter.Molding{Profile: "waist", Spline: &miter.SplineSpec{Thickness: thick, Depth: deep}})
	}
	require.Contains(t, faults(t, sp(25, 5), waist()), "moldings[0].joint.spline: a spline 25.0 mm thick")
	require.Contains(t, faults(t, sp(3, 90), waist()), "comes within")
	for _, c := range []miter.Case{sp(3, 90), sp(25, 5)} { // what would do does, and half a millimeter more does not
		said := regexp.MustCompile(`wherever it lies; a (depth|thickness) of ([0-9.]+) mm at most would do`).FindStringSubmatch(faults(t, c, waist()))
		require.NotNil(t, said)
		mm, err := strconv.ParseFloat(said[2], 64)
		require.NoError(t, err)
		size := &c.Moldings[0].Spline.Depth
		if said[1] == "thickness" {
			size = &c.Moldings[0].Spline.Thickness
		}
		*size = mm
		fit(t, c, waist())
		*size = mm + 0.5
		faults(t, c, waist())
	}
	require.Contains(t, faults(t, sp(math.NaN(), 9), waist()), "joint.spline.thickness")
	require.Contains(t, faults(t, box(miter.Molding{Profile: "waist", Pin: &miter.PinSpec{Diameter: 24, Depth: 9}}), waist()), "joint.pin: a pin of 24.0 mm")
	require.Contains(t, faults(t, box(miter.Molding{Profile: "waist", Runs: []string{"front"}, Pin: &miter.PinSpec{Diameter: 4, Depth: 9}}), waist()), "no miter")
}

// TestMiterFaces: the outline of the section stretched by 1 over the cosine of half the turn, both hands mirror images.
func TestMiterFaces(t *testing.T) {
	f := fit(t, onPlan(miter.Plan{Width: 1000, Depth: 450, Canted: 90}, miter.Molding{})).Moldings[0].Faces
	require.Len(t, f, 1)
	require.InDelta(t, 1/math.Cos(22.5*math.Pi/180), f[0].Stretch, 1e-12)
	require.InDelta(t, ogee().Outline.Area()*f[0].Stretch, f[0].Outline.Area(), 1e-6)
	require.InDelta(t, f[0].Outline.Area(), f[0].Mirrored().Outline.Area(), 1e-6)
}

// TestFacesCongruent: both pieces at a miter show the face that is drawn, on square, canted and unequal corners.
func TestFacesCongruent(t *testing.T) {
	for _, c := range []miter.Case{
		box(miter.Molding{}), onPlan(miter.Plan{Width: 1000, Depth: 450, Canted: 90}, miter.Molding{}),
		box(miter.Molding{Reach: map[string]float64{"left": 25, "right": 33}}), box(miter.Molding{Reach: map[string]float64{"front": 25}}),
	} {
		m := fit(t, c).Moldings[0]
		for _, f := range m.Faces {
			want := f.Outline.Area()
			for _, side := range []struct {
				run string
				end int
			}{{f.Left, 1}, {f.Right, 0}} {
				p := pieceOf(t, m, side.run)
				x := p.Ends[side.end].Cut.X
				require.InDelta(t, want, p.Section.Outline.Area()*math.Hypot(1, x), 1e-6, side.run)
				require.InDelta(t, f.Outline.Bounds().Width(), p.Section.Outline.Bounds().Width()*math.Hypot(1, x), 1e-6, side.run)
			}
		}
	}
}

// TestSplineInTheMiddle: in a plain block the groove lies in the middle, worked by hand: of 100 mm less a spline of 20 half is left on each side.
func TestSplineInTheMiddle(t *testing.T) {
	o := geom.Polygon(geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 100), geom.Pt(0, 100))
	block := profile.Section{Name: "block", Outline: o, Height: 100, Projection: 200, Ground: 200}
	s := fit(t, box(miter.Molding{Profile: "block", Spline: &miter.SplineSpec{Thickness: 20, Depth: 20, Stopped: true}}), block).Moldings[0].Spline
	require.InDeltaSlice(t, []float64{50, 50, 40}, []float64{s.From[1], s.To[1], s.Cover}, 0.05)
}
