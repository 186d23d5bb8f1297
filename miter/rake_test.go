package miter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
)

// TestRakingRows checks the maps of a pediment's sections. The construction is R. G. Hatfield's (The American House-Carpenter, par. 323);
// the numbers are derived from it, not published.
func TestRakingRows(t *testing.T) {
	for _, r := range table(t, "raking.csv") {
		pitch, p := geom.Angle(r[0])*geom.Degree, geom.Pt(r[1], r[2])
		for i, m := range []geom.Affine{miter.RakingMap(pitch, 1), miter.PlumbMap(pitch, 1), miter.TopReturnMap(pitch, 1)} {
			q := m.Apply(p)
			require.InDelta(t, r[1], q.X, 1e-12, "projections never change")
			require.InDelta(t, r[3+i], q.Y, 0.00011)
		}
	}
}

// TestRakingLaws: no pitch changes nothing, and the slope seen from the top return, falling, gives the raking section again.
func TestRakingLaws(t *testing.T) {
	for _, m := range []geom.Affine{miter.RakingMap(0, 1), miter.PlumbMap(0, 1), miter.TopReturnMap(0, 1)} {
		require.Equal(t, geom.Identity(), m)
	}
	for deg := 1.0; deg < 60; deg += 7 {
		r := geom.Angle(deg) * geom.Degree
		up := miter.RakingMap(r, 1)
		down := miter.TopReturnMap(r, 1).Then(miter.RakingMap(-r, 1))
		require.InDelta(t, up.B, down.B, 1e-12)
		require.InDelta(t, up.D, down.D, 1e-12)
		require.InDelta(t, 1, miter.TopReturnMap(r, 1).Then(miter.TopReturnMap(-r, 1)).D, 1e-12)
		require.InDelta(t, 0, miter.TopReturnMap(r, 1).Then(miter.TopReturnMap(-r, 1)).B, 1e-12)
	}
}

func pediment(r miter.RakeSpec, profile string) miter.Molding {
	return miter.Molding{Name: "pediment", Profile: profile, Rake: &r}
}

// TestRakeSolid saws the pieces of pediments by their settings and closes every miter: eaves, peaks, top returns, both treatments.
func TestRakeSolid(t *testing.T) {
	for _, pitch := range []geom.Angle{10, 20, 30, 45} {
		for _, broken := range []bool{false, true} {
			for _, plumb := range []bool{false, true} {
				for _, end := range []miter.EndKind{miter.EndWall, miter.EndReturn} {
					spec := miter.RakeSpec{Pitch: pitch * geom.Degree, Broken: broken, Plumb: plumb}
					m := pediment(spec, "ogee")
					m.EndLeft, m.EndRight = end, end
					if end == miter.EndReturn {
						m.Runs = []string{"front"}
					}
					want := 3
					if broken {
						want = 4
					}
					require.Equal(t, want, solid(t, fit(t, box(m)).Moldings[0], false), "%v", spec)
				}
			}
		}
	}
	canted := pediment(miter.RakeSpec{Pitch: 25 * geom.Degree, Plumb: true}, "ogee")
	canted.Inset = 12
	require.Equal(t, 5, solid(t, fit(t, onPlan(miter.Plan{Width: 1000, Depth: 450, Canted: 90}, canted)).Moldings[0], false))
	narrow := pediment(miter.RakeSpec{Pitch: 25 * geom.Degree, Plumb: true, Broken: true}, "ogee")
	narrow.Reach = map[string]float64{"left": 25}
	require.Equal(t, 4, solid(t, fit(t, box(narrow)).Moldings[0], false))
	// The pediment of a breakfront with canted ends: over its middle, returned along the steps to the wings.
	middle := pediment(miter.RakeSpec{Pitch: 22 * geom.Degree, Plumb: true, Broken: true, Gap: 150}, "ogee")
	middle.Runs = []string{"step-left", "front", "step-right"}
	both := miter.Plan{Width: 1400, Depth: 450, Canted: 80, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}
	require.Equal(t, 4, solid(t, fit(t, onPlan(both, middle)).Moldings[0], false))
	leaning := pediment(miter.RakeSpec{Pitch: 25 * geom.Degree, Plumb: true}, "sprung")
	r := fit(t, box(leaning), sprung(38*geom.Degree)).Moldings[0]
	require.Equal(t, 3, solid(t, r, false))
	require.Equal(t, 3, solid(t, r, true))
}

// TestRakeLengths, worked by hand: half of the front over the cosine at the back, and the miter's run over the cosine more outside.
func TestRakeLengths(t *testing.T) {
	c := math.Cos(20 * math.Pi / 180)
	m := fit(t, box(pediment(miter.RakeSpec{Pitch: 20 * geom.Degree, Plumb: true}, "ogee"))).Moldings[0]
	p := pieceOf(t, m, "left-rake")
	require.InDelta(t, 500/c, p.Back, 1e-9)
	require.InDelta(t, 540/c, p.Long, 1e-6)
	require.Equal(t, miter.CutPlumb, p.Ends[1].Kind)
	require.Equal(t, miter.LeftHand, p.Hand)
	require.Equal(t, "left-rake", pieceOf(t, m, "left").Ends[1].Meets)
	require.InDelta(t, 500*math.Tan(20*math.Pi/180), m.Rake.Rise, 1e-9)
	var roles []miter.Role
	for _, s := range m.Sections {
		roles = append(roles, s.Role)
	}
	require.Equal(t, []miter.Role{miter.RoleProfile, miter.RoleRaking, miter.RolePlumbCut}, roles)

	open := fit(t, box(pediment(miter.RakeSpec{Pitch: 20 * geom.Degree, Plumb: true, Broken: true, Gap: 300}, "ogee"))).Moldings[0]
	q := pieceOf(t, open, "left-rake")
	require.InDelta(t, 350/c, q.Back, 1e-9)
	require.InDelta(t, 430/c, q.Long, 1e-6)
	top := pieceOf(t, open, "left-top-return")
	require.InDelta(t, 40, top.Long, 1e-9)
	require.InDelta(t, 40+2*40*math.Tan(20*math.Pi/180), top.Section.Outline.Bounds().Max.Y, 1e-6)
	require.Equal(t, "ogee-top-return", top.Profile)

	same := fit(t, box(pediment(miter.RakeSpec{Pitch: 20 * geom.Degree}, "ogee"))).Moldings[0]
	require.Len(t, same.Sections, 1)
	require.Equal(t, "ogee", pieceOf(t, same, "left-rake").Profile)
}

func TestRakeFaults(t *testing.T) {
	bad := func(change func(*miter.Molding, *miter.Case), want string) {
		c := box(pediment(miter.RakeSpec{Pitch: 20 * geom.Degree}, "ogee"))
		change(&c.Moldings[0], &c)
		require.Contains(t, faults(t, c), want)
	}
	bad(func(m *miter.Molding, _ *miter.Case) { m.Rake.Pitch = 0 }, "moldings[0].rake.pitch")
	bad(func(m *miter.Molding, _ *miter.Case) { m.Rake.Pitch = 80 * geom.Degree }, "moldings[0].rake.pitch")
	bad(func(m *miter.Molding, _ *miter.Case) { m.Runs = []string{"left"} }, "stands over the front")
	bad(func(m *miter.Molding, _ *miter.Case) { m.Rake.Broken, m.Rake.Gap = true, 1000 }, "rake.gap")
	bad(func(m *miter.Molding, c *miter.Case) {
		c.Corners = map[string]geom.Angle{"front-left": 95 * geom.Degree}
	}, "rake.peak")
	bad(func(m *miter.Molding, c *miter.Case) { c.Stages[0].Plan.Canted = 50 }, "rake.returns")
	bad(func(m *miter.Molding, _ *miter.Case) { m.Spline = &miter.SplineSpec{Thickness: 30, Depth: 5} }, "joint.spline")
}

// TestSpans: the long, the short and the tips' length are those found by trying every point of the section.
func TestSpans(t *testing.T) {
	for _, plumb := range []bool{false, true} {
		for _, broken := range []bool{false, true} {
			m := fit(t, box(pediment(miter.RakeSpec{Pitch: 33 * geom.Degree, Plumb: plumb, Broken: broken}, "ogee"))).Moldings[0]
			for _, p := range m.Pieces {
				left, right := p.Cuts()
				long, short, lo, hi := math.Inf(-1), math.Inf(1), math.Inf(1), math.Inf(-1)
				for _, q := range p.Section.Outline.Flatten(0.0005) {
					long, short = math.Max(long, p.Length(q)), math.Min(short, p.Length(q))
					lo, hi = math.Min(lo, left.At(q)), math.Max(hi, right.At(q))
				}
				require.InDelta(t, long, p.Long, 0.002, p.Run)
				require.InDelta(t, short, p.Short, 0.002, p.Run)
				require.InDelta(t, hi-lo, p.Tip, 0.002, p.Run)
			}
		}
	}
}

// TestPedimentJoints sinks the groove and the pin into both pieces at the eaves, in the room, and measures the wood around them.
func TestPedimentJoints(t *testing.T) {
	for _, plumb := range []bool{false, true} {
		spec := pediment(miter.RakeSpec{Pitch: 24 * geom.Degree, Plumb: plumb}, "ogee")
		spec.Spline, spec.Pin = &miter.SplineSpec{Thickness: 3, Depth: 7, Stopped: true}, &miter.PinSpec{Diameter: 4, Depth: 7}
		m := fit(t, box(spec)).Moldings[0]
		require.Len(t, m.Faces, 1)
		level, sp := pieceOf(t, m, "left"), m.Spline
		_, cut := level.Cuts()
		at := func(x, y float64) miter.Vec3 { // the point of the miter face at x, y of the profile
			q := geom.Pt(x, y)
			return level.Places[0].At(cut.At(q), q)
		}
		across := at(1, 0).Sub(at(0, 0)) // along the face, square to the plumb of the level piece
		across = across.Mul(1 / across.Norm())
		up := level.Places[0].Up
		normal := across.Cross(up)
		var groove, pin []miter.Vec3
		for i := range 101 {
			f := float64(i) / 100
			p := at(sp.From[0]+(sp.To[0]-sp.From[0])*f, sp.From[1]+(sp.To[1]-sp.From[1])*f)
			side := across
			if sp.From[0] != sp.To[0] {
				side = up
			}
			groove = append(groove, p.Add(side.Mul(1.5)), p.Sub(side.Mul(1.5)))
			a := 2 * math.Pi * f
			pin = append(pin, at(m.Pin.At[0], m.Pin.At[1]).Add(across.Mul(2*math.Cos(a))).Add(up.Mul(2*math.Sin(a))))
		}
		leastGroove, leastPin := math.Inf(1), math.Inf(1)
		for _, run := range []string{"left", "left-rake"} {
			p := pieceOf(t, m, run)
			place := p.Places[0]
			in := normal
			if middle := place.At(p.Back/2, geom.Pt(10, 10)); middle.Sub(at(10, 10)).Dot(in) < 0 {
				in = in.Mul(-1)
			}
			depth := func(pts []miter.Vec3) float64 {
				least := math.Inf(1)
				for _, w := range pts {
					for _, d := range []float64{0, 3.5, 7} {
						v := w.Add(in.Mul(d)).Sub(place.Origin)
						q := geom.Pt(v.Dot(place.Out), v.Dot(place.Up))
						require.True(t, p.Section.Outline.Contains(q), run)
						_, _, dist := p.Section.Outline.Nearest(q)
						least = math.Min(least, dist)
					}
				}
				return least
			}
			leastGroove, leastPin = math.Min(leastGroove, depth(groove)), math.Min(leastPin, depth(pin))
		}
		require.GreaterOrEqual(t, leastGroove, sp.Cover-0.05, "the least is at this miter or at the peak")
		require.GreaterOrEqual(t, leastPin, m.Pin.Cover-0.01)
		require.Greater(t, sp.Cover, 2.0)
	}
}
