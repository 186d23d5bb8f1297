package miter_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// TestSquareCase checks the plain case by hand: 1000 wide, 450 deep, a molding that projects 40.
func TestSquareCase(t *testing.T) {
	r := fit(t, box(miter.Molding{})).Moldings[0]
	require.Len(t, r.Pieces, 3)
	left, front, right := r.Pieces[0], r.Pieces[1], r.Pieces[2]
	require.Equal(t, []string{"C1", "C2", "C3"}, []string{left.Mark, front.Mark, right.Mark})
	require.Equal(t, []miter.Hand{miter.LeftHand, miter.NoHand, miter.RightHand}, []miter.Hand{left.Hand, front.Hand, right.Hand})
	require.InDeltaSlice(t, []float64{450, 490, 450, 540}, []float64{left.Back, left.Long, left.Short, left.Rough}, 1e-9)
	require.InDeltaSlice(t, []float64{1000, 1080, 1000, 1130}, []float64{front.Back, front.Long, front.Short, front.Rough}, 1e-9)
	require.Nil(t, front.Seat)
	require.Equal(t, miter.CutSquare, left.Ends[0].Kind)
	require.Equal(t, miter.Saw{Swing: miter.NoHand, Tilt: miter.NoHand, Table: miter.FootFace, Fence: miter.BackFace, Keep: miter.RightHand}, left.Ends[0].Standing)
	require.Equal(t, 45.0, math.Round(left.Ends[1].Standing.Miter.Degrees()*1e9)/1e9)
	require.Equal(t, miter.RightHand, left.Ends[1].Standing.Swing)
	require.Equal(t, miter.LeftHand, left.Ends[1].Standing.Keep)
	require.Nil(t, left.Ends[1].Flat)
}

// TestReturns checks the returned ends: a miter on the run and a piece of its own whose length at x is x.
func TestReturns(t *testing.T) {
	r := fit(t, box(miter.Molding{EndLeft: miter.EndReturn, EndRight: miter.EndReturn})).Moldings[0]
	require.Len(t, r.Pieces, 4) // left and right are alike, each its own mirror
	require.Equal(t, 2, pieceOf(t, r, "right").Count)
	require.Equal(t, "left", pieceOf(t, r, "right").Run)
	left := pieceOf(t, r, "left")
	require.InDelta(t, 450+80, left.Long, 1e-9)
	require.InDelta(t, 450, left.Back, 1e-9)
	for _, run := range []string{"left-return", "right-return"} {
		p := pieceOf(t, r, run)
		require.Zero(t, p.Back)
		require.InDelta(t, 40, p.Long, 1e-9)
		for _, x := range []float64{0, 7, 40} {
			require.InDelta(t, x, p.Length(geom.Pt(x, 0)), 1e-9)
		}
	}
	require.Equal(t, miter.LeftHand, pieceOf(t, r, "left-return").Hand)
	require.Equal(t, miter.CutMiter, pieceOf(t, r, "left-return").Ends[1].Kind)
	require.Equal(t, miter.CutSquare, pieceOf(t, r, "left-return").Ends[0].Kind)

	alone := fit(t, box(miter.Molding{Runs: []string{"front"}, EndLeft: miter.EndReturn, EndRight: miter.EndOpen})).Moldings[0]
	require.Len(t, alone.Pieces, 2)
	front := pieceOf(t, alone, "front")
	require.InDelta(t, 1040, front.Long, 1e-9)
	require.Equal(t, miter.CutSquare, front.Ends[1].Kind)
}

// TestMeasuredCorner: edge lengths are kept, the front stays on x, the sides turn, and a wall end is cut parallel to the wall.
func TestMeasuredCorner(t *testing.T) {
	c := box(miter.Molding{})
	c.Corners = map[string]geom.Angle{"front-left": 91 * geom.Degree}
	r := fit(t, c)
	left, front := pieceOf(t, r.Moldings[0], "left"), pieceOf(t, r.Moldings[0], "front")
	require.InDelta(t, 450, left.Back, 1e-9)
	require.InDelta(t, 1000, front.Back, 1e-9)
	require.InDelta(t, 44.5, front.Ends[0].Standing.Miter.Degrees(), 1e-9)
	require.InDelta(t, 91, front.Ends[0].Corner.Degrees(), 1e-9)
	require.InDelta(t, 1, left.Ends[0].Standing.Miter.Degrees(), 1e-9)
	require.Equal(t, miter.CutSquare, left.Ends[0].Kind)
	e, _ := r.Stages[0].Edge("left")
	require.InDelta(t, 450*math.Cos(91*math.Pi/180), e.A.X, 1e-9)
	inset := c
	inset.Moldings = []miter.Molding{{Name: "cornice", Profile: "ogee", Inset: 30}}
	in := fit(t, inset).Moldings[0].Runs[0]
	require.InDelta(t, e.A.Y, in.Inner[0].Y, 1e-9, "the wall end passes through the end of the edge")
	require.InDelta(t, e.A.Y, in.Outer[0].Y, 1e-9)
	// The wall end of the molding lies along a line parallel to the front.
	run := r.Moldings[0].Runs[0]
	require.InDelta(t, run.Inner[0].Y, run.Outer[0].Y, 1e-9)
}

// TestClosing: at any distance between 0 and the projection the runs are the edges of the plan moved out by it.
func TestClosing(t *testing.T) {
	const seed = 20261125
	rng := rand.New(rand.NewPCG(seed, 1))
	fitted := 0
	for n := range 300 {
		c := onPlan(randomPlan(rng), miter.Molding{Inset: float64(rng.IntN(3)) * 5})
		r, err := miter.Fit(c, with(ogee()), nil)
		if err != nil {
			continue
		}
		fitted++
		m := r.Moldings[0]
		x := rng.Float64() * 40
		want := offsetEdges(r.Stages[0], x-c.Moldings[0].Inset)
		for _, run := range m.Runs {
			p := pieceOf(t, m, run.Run)
			require.InDelta(t, want[run.Run], p.Length(geom.Pt(x, 0)), 1e-6, "seed %d case %d, run %s at %g", seed, n, run.Run, x)
		}
		for i := 1; i < len(m.Runs); i++ {
			require.Less(t, m.Runs[i-1].Outer[1].Dist(m.Runs[i].Outer[0]), 1e-6, "seed %d case %d", seed, n)
			require.Less(t, m.Runs[i-1].Inner[1].Dist(m.Runs[i].Inner[0]), 1e-6, "seed %d case %d", seed, n)
		}
		if m.Closed {
			require.Less(t, m.Runs[len(m.Runs)-1].Outer[1].Dist(m.Runs[0].Outer[0]), 1e-6, "seed %d case %d", seed, n)
		}
	}
	require.Greater(t, fitted, 200)
}

// offsetEdges returns the lengths of the edges of the plan moved out by d, each between the crossings of its line with its
// neighbors'; the back stays where it is, as the wall.
func offsetEdges(s miter.StagePlan, d float64) map[string]float64 {
	n := len(s.Edges)
	line := func(i int) (geom.Point, geom.Point) {
		e := s.Edges[(i+n)%n]
		if e.Name == "back" && !s.Freestanding {
			return e.A, e.Dir()
		}
		return e.A.Add(e.Out().Mul(d)), e.Dir()
	}
	meet := func(i, j int) geom.Point {
		p, u := line(i)
		q, v := line(j)
		return p.Add(u.Mul(q.Sub(p).Cross(v) / u.Cross(v)))
	}
	out := map[string]float64{}
	for i, e := range s.Edges {
		out[e.Name] = meet(i-1, i).Dist(meet(i, i+1))
	}
	return out
}

func randomPlan(rng *rand.Rand) miter.Plan {
	w, d := 500+rng.Float64()*1000, 300+rng.Float64()*400
	p := miter.Plan{Width: w, Depth: d, Freestanding: rng.IntN(3) == 0}
	switch rng.IntN(6) {
	case 0:
		p.Canted = 60 + rng.Float64()*100
	case 1:
		p.Breakfront = &miter.Breakfront{Width: w / 2, Step: 45 + rng.Float64()*100}
	case 2:
		p.Canted, p.Breakfront = 40+rng.Float64()*40, &miter.Breakfront{Width: w / 2, Step: 45 + rng.Float64()*100}
	case 3:
		return miter.Plan{Octagon: w, Freestanding: true}
	case 4:
		return miter.Plan{HalfOctagon: w}
	}
	return p
}

// TestPlans checks the lengths of the other plans at the case and at the long point, worked by hand.
func TestPlans(t *testing.T) {
	tan := func(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }
	lengths := func(p miter.Plan, m miter.Molding) map[string][2]float64 {
		out := map[string][2]float64{}
		r := fit(t, onPlan(p, m)).Moldings[0]
		for _, q := range r.Pieces {
			for _, run := range q.Runs {
				out[run] = [2]float64{q.Back, q.Long}
			}
		}
		return out
	}
	canted := lengths(miter.Plan{Width: 1000, Depth: 450, Canted: 90}, miter.Molding{})
	require.InDelta(t, 360, canted["left"][0], 1e-9)
	require.InDelta(t, 360+40*tan(22.5), canted["left"][1], 1e-9)
	require.InDelta(t, 90*math.Sqrt2, canted["front-left"][0], 1e-9)
	require.InDelta(t, 90*math.Sqrt2+80*tan(22.5), canted["front-left"][1], 1e-9)
	require.InDelta(t, 820+80*tan(22.5), canted["front"][1], 1e-9)

	step := lengths(miter.Plan{Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}, miter.Molding{})
	require.InDelta(t, 400, step["front-left"][1], 1e-9) // out at one end, in at the other
	require.InDelta(t, 120, step["step-left"][1], 1e-9)
	require.InDelta(t, 680, step["front"][1], 1e-9)

	oct := lengths(miter.Plan{Octagon: 700, Freestanding: true}, miter.Molding{})
	require.Len(t, oct, 8)
	require.InDelta(t, 700*tan(22.5), oct["front"][0], 1e-9)
	require.InDelta(t, 780*tan(22.5), oct["back-left"][1], 1e-9) // an octagon 40 mm further out

	half := lengths(miter.Plan{HalfOctagon: 900}, miter.Molding{})
	require.InDelta(t, 450*tan(22.5), half["left"][0], 1e-9)
	require.InDelta(t, 980*tan(22.5), half["front"][1], 1e-9)

	outline := lengths(miter.Plan{Outline: []geom.Point{{X: 0, Y: 300}, {X: 0, Y: 0}, {X: 400, Y: 0}, {X: 400, Y: 300}}, Edges: []string{"west", "south", "east", "back"}}, miter.Molding{})
	require.InDelta(t, 340, outline["west"][1], 1e-9)
}

// TestOctagonMarks: eight equal pieces share a mark and are of no hand; the two cants of a canted case too.
func TestOctagonMarks(t *testing.T) {
	r := fit(t, onPlan(miter.Plan{Octagon: 700, Freestanding: true}, miter.Molding{})).Moldings[0]
	require.Len(t, r.Pieces, 1)
	require.Equal(t, 8, r.Pieces[0].Count)
	require.Equal(t, "left", r.Pieces[0].Run)
	require.Equal(t, miter.NoHand, r.Pieces[0].Hand)
	require.InDelta(t, 22.5, r.Pieces[0].Ends[0].Standing.Miter.Degrees(), 1e-9)
}

// TestMirror: the case seen in a mirror has the same pieces with their hands and ends exchanged.
func TestMirror(t *testing.T) {
	const seed = 7
	rng := rand.New(rand.NewPCG(seed, 2))
	mirrored := 0
	for range 100 {
		p := randomPlan(rng)
		m := miter.Molding{Profile: "sprung", EndLeft: miter.EndReturn, EndRight: miter.EndOpen}
		mm := miter.Molding{Profile: "sprung", EndLeft: miter.EndOpen, EndRight: miter.EndReturn}
		c, d := onPlan(p, m), onPlan(p, mm)
		if p.Octagon == 0 && p.Canted == 0 && p.HalfOctagon == 0 && !p.Freestanding && p.Breakfront == nil {
			c.Corners = map[string]geom.Angle{"front-left": 88 * geom.Degree}
			d.Corners = map[string]geom.Angle{"front-right": 88 * geom.Degree}
		}
		r, err := miter.Fit(c, with(sprung(38*geom.Degree)), nil)
		if err != nil {
			continue
		}
		a, b := r.Moldings[0], fit(t, d, sprung(38*geom.Degree)).Moldings[0]
		require.Len(t, b.Runs, len(a.Runs))
		if a.Closed {
			continue // the rows begin at the left of each
		}
		mirrored++
		for i, run := range a.Runs {
			p, q := pieceOf(t, a, run.Run), pieceOf(t, b, b.Runs[len(b.Runs)-1-i].Run)
			require.InDelta(t, p.Long, q.Long, 1e-6)
			require.Equal(t, p.Hand, map[miter.Hand]miter.Hand{miter.LeftHand: miter.RightHand, miter.RightHand: miter.LeftHand, miter.NoHand: miter.NoHand}[q.Hand])
			for e := range 2 {
				x, y := p.Ends[e], q.Ends[1-e]
				require.InDelta(t, x.Standing.Miter.Degrees(), y.Standing.Miter.Degrees(), 1e-9)
				if x.Standing.Swing != miter.NoHand {
					require.NotEqual(t, x.Standing.Swing, y.Standing.Swing)
				}
				require.NotEqual(t, x.Standing.Keep, y.Standing.Keep)
				if x.Flat.Tilt != miter.NoHand {
					require.NotEqual(t, x.Flat.Fence, y.Flat.Fence)
				}
			}
		}
	}
	require.Greater(t, mirrored, 30)
}

// TestReach: a side that reaches 25 mm where the front reaches 40 is cut from the profile narrowed, and the miter goes from corner
// to corner: at the side it runs out 40 mm over 25, at the front 25 over 40.
func TestReach(t *testing.T) {
	m := fit(t, box(miter.Molding{Reach: map[string]float64{"left": 25}})).Moldings[0]
	require.Len(t, m.Sections, 2)
	require.Equal(t, miter.RoleNarrowed, m.Sections[1].Role)
	require.Equal(t, "ogee-left", m.Sections[1].Section.Name)
	require.Equal(t, []string{"left"}, m.Sections[1].Runs)
	require.InDelta(t, 25, m.Sections[1].Section.Projection, 1e-9)
	require.InDelta(t, 40, m.Sections[1].Section.Height, 1e-9)
	left, front := pieceOf(t, m, "left"), pieceOf(t, m, "front")
	require.Equal(t, "ogee-left", left.Profile)
	require.InDelta(t, 450+40, left.Long, 1e-9)
	require.InDelta(t, 1000+25+40, front.Long, 1e-9)
	require.InDelta(t, math.Atan2(40, 25)*180/math.Pi, left.Ends[1].Standing.Miter.Degrees(), 1e-9)
	require.InDelta(t, math.Atan2(25, 40)*180/math.Pi, front.Ends[0].Standing.Miter.Degrees(), 1e-9)
}

// TestSeat: the length at the rabbet's width, clearance not taken off.
func TestSeat(t *testing.T) {
	s := ogee()
	s.Rabbet = &profile.SizedRabbet{At: profile.AtTop, Width: 12, Depth: 10}
	p := pieceOf(t, fit(t, box(miter.Molding{}), s).Moldings[0], "front")
	require.InDelta(t, 1024, *p.Seat, 1e-9)
}

// TestCope: the wing runs square into the corner and the step is cut to its face.
func TestCope(t *testing.T) {
	plan := miter.Plan{Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}
	r := fit(t, onPlan(plan, miter.Molding{Inside: miter.InsideCope})).Moldings[0]
	wing, step := pieceOf(t, r, "front-left"), pieceOf(t, r, "step-left")
	require.Equal(t, miter.CutSquare, wing.Ends[1].Kind)
	require.Zero(t, wing.Ends[1].Standing.Miter)
	require.InDelta(t, 440, wing.Long, 1e-9)
	require.InDelta(t, 400, wing.Back, 1e-9)
	require.Equal(t, miter.CutCope, step.Ends[0].Kind)
	require.Equal(t, miter.CutMiter, step.Ends[1].Kind)
	require.InDelta(t, 45, step.Ends[0].Standing.Miter.Degrees(), 1e-9)
	right := pieceOf(t, r, "step-right")
	require.Equal(t, miter.CutCope, right.Ends[1].Kind)
	require.Equal(t, miter.CutSquare, pieceOf(t, r, "front-right").Ends[0].Kind)
}

// TestRoughLeaning: where both ends lean the same way the stick must hold the piece from tip to tip.
func TestRoughLeaning(t *testing.T) {
	plan := miter.Plan{Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}
	c := onPlan(plan, miter.Molding{})
	c.Shop.Rough = 3
	p := pieceOf(t, fit(t, c).Moldings[0], "step-left")
	require.InDelta(t, 120, p.Long, 1e-9)
	require.InDelta(t, 160, p.Tip, 1e-9)
	require.InDelta(t, 126, p.Rough, 1e-9) // 120 and twice 3
	require.InDelta(t, 166, p.Stick(3), 1e-9)
	require.Contains(t, strings.Join(p.Notes, " "), "cut 166.0 mm off the stick")

	c.Units = measure.Millimeters
	c.Stock = []miter.StockItem{{Length: 2400}}
	buy, err := miter.Buy(c, fit(t, c))
	require.NoError(t, err)
	lengths := map[string]float64{}
	for _, q := range buy.Job.Pieces {
		lengths[q.Mark] = q.Length
	}
	require.InDelta(t, 166, lengths[p.Mark], 1e-9)
}

// TestFaults: all that is wrong at once, each under its key.
func TestFaults(t *testing.T) {
	abc := strings.Split("abcdefgh", "") // names of edges
	cases := []struct {
		name string
		c    miter.Case
		want string
	}{
		{"no stage", miter.Case{}, "stages: "},
		{"unknown run", box(miter.Molding{Runs: []string{"frnt"}}), `moldings[0].runs[0]: stage case has no edge named "frnt"; it has left, front, right, back`},
		{"back", box(miter.Molding{Runs: []string{"back"}}), "freestanding"},
		{"apart", box(miter.Molding{Runs: []string{"left", "right"}}), "not neighbors"},
		{"no runs", box(miter.Molding{Runs: []string{}}), "at least one edge"},
		{"twice", box(miter.Molding{Runs: []string{"left", "left"}}), "twice"},
		{"stage", box(miter.Molding{On: "cas"}), `"cas"; it has case`},
		{"profile", box(miter.Molding{Profile: "none"}), `moldings[0].profile: no profile "none"`},
		{"reach", box(miter.Molding{Reach: map[string]float64{"left": 41}}), "moldings[0].reach.left"},
		{"reach name", box(miter.Molding{Reach: map[string]float64{"lft": 20}}), `"lft"; it has left, front, right`},
		{"end", box(miter.Molding{EndLeft: "cut"}), "moldings[0].ends.left"},
		{"plan", onPlan(miter.Plan{}, miter.Molding{}), "stages[0].plan"},
		{"NaN", onPlan(miter.Plan{Width: math.NaN(), Depth: 3}, miter.Molding{}), "stages[0].plan.width"},
		{"names", onPlan(miter.Plan{Outline: []geom.Point{{}, {X: 100}, {X: 100, Y: 100}}}, miter.Molding{}), "stages[0].plan.edges: there are 0 names for the 3 edges"},
		{"setback", onPlan(miter.Plan{Width: 100, Depth: 60, Canted: 60}, miter.Molding{}), "canted.setback"},
		{"crossing", onPlan(miter.Plan{Outline: []geom.Point{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 100}, {X: 100, Y: -20}, {X: 0, Y: 100}}, Edges: abc[:5]}, miter.Molding{}), "cross"},
		{"clockwise", onPlan(miter.Plan{Outline: []geom.Point{{X: 0, Y: 0}, {X: 0, Y: 100}, {X: 100, Y: 100}}, Edges: abc[:3]}, miter.Molding{}), "clockwise"},
		{"in line", onPlan(miter.Plan{Outline: []geom.Point{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 100}}, Edges: abc[:4]}, miter.Molding{}), "180"},
		{"tight", onPlan(miter.Plan{Outline: []geom.Point{{X: 0, Y: 300}, {X: 0, Y: 0}, {X: 300, Y: 0}, {X: 300, Y: 100}, {X: 360, Y: 100}, {X: 360, Y: 0}, {X: 600, Y: 0}, {X: 600, Y: 300}}, Edges: abc[:8]}, miter.Molding{}), "can hold no more than 30.0 mm"},
		{"corner 180", withCorner("front-left", 180), "corners.front-left"},
		{"corner 0", withCorner("front-left", 0), "corners.front-left"},
		{"corner name", withCorner("front-lft", 90), `"front-lft"; it has front-left, front-right`},
		{"corner at the wall", withCorner("back-left", 90), "back closes"},
		{"return inside", onPlan(miter.Plan{Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}, miter.Molding{Runs: []string{"front-left"}, EndRight: miter.EndReturn}), "inside corner"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Contains(t, faults(t, c.c), c.want) })
	}
	both := box(miter.Molding{Runs: []string{"frnt"}, EndLeft: "x"})
	both.Moldings = append(both.Moldings, miter.Molding{Name: "b", Profile: "none"})
	_, err := miter.Fit(both, with(ogee()), nil)
	var errs miter.Errors
	require.True(t, errors.As(err, &errs))
	require.Len(t, errs, 3)
}

func withCorner(name string, deg float64) miter.Case {
	c := box(miter.Molding{})
	c.Corners = map[string]geom.Angle{name: geom.Angle(deg) * geom.Degree}
	return c
}

// TestJSON: the fields of the contract are there.
func TestJSON(t *testing.T) {
	data, err := json.Marshal(fit(t, box(miter.Molding{Profile: "sprung"}), sprung(38*geom.Degree)))
	require.NoError(t, err)
	for _, key := range []string{`"moldings":[`, `"beads":[]`, `"drawers":[]`, `"spline":null`, `"pin":null`, `"movement":null`, `"mark":"C1"`, `"hand":"left"`,
		`"back_mm":450`, `"seat_mm":null`, `"rough_mm":`, `"corner_deg":90`, `"tenon_mm":0`, `"miter_deg":45`, `"bevel_deg":33.862914`, `"table":"top"`} {
		require.Contains(t, string(data), key)
	}
}

// A wall end that is half a degree off square stays of kind square and is never called so.
func TestOffSquareWallEndIsNotCalledSquare(t *testing.T) {
	c := box(miter.Molding{})
	left := pieceOf(t, fit(t, c).Moldings[0], "left")
	require.Equal(t, "square", left.Ends[0].Words())
	c.Corners = map[string]geom.Angle{"front-left": 90.5 * geom.Degree}
	left = pieceOf(t, fit(t, c).Moldings[0], "left")
	require.Equal(t, miter.CutSquare, left.Ends[0].Kind)
	require.Equal(t, "to the wall", left.Ends[0].Words())
	require.InDelta(t, 0.5, left.Ends[0].Standing.Miter.Degrees(), 1e-9)
	require.Equal(t, "miter", left.Ends[1].Words())
	c.Corners = map[string]geom.Angle{"front-left": 90.01 * geom.Degree} // finer than any saw is set
	require.Equal(t, "square", pieceOf(t, fit(t, c).Moldings[0], "left").Ends[0].Words())

	c = onPlan(miter.Plan{Width: 1400, Depth: 450, Breakfront: &miter.Breakfront{Width: 600, Step: 120}}, miter.Molding{Runs: []string{"front-left"}})
	c.Corners = map[string]geom.Angle{"front-left/step-left": 271 * geom.Degree} // the step stands in its way
	require.Equal(t, "to the edge", pieceOf(t, fit(t, c).Moldings[0], "front-left").Ends[1].Words())
}
