package miter_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

const inch = 25.4

// edgeBead is half round, 3/4 in wide on the face.
func edgeBead() profile.Section {
	h := 0.75 * inch
	arc := geom.Arc{Center: geom.Pt(3, h/2), Radius: h / 2, From: -90 * geom.Degree, Sweep: 180 * geom.Degree}
	o := append(geom.Polyline(geom.Pt(0, 0), geom.Pt(3, 0)), arc)
	o = append(o, geom.Polyline(geom.Pt(3, h), geom.Pt(0, h), geom.Pt(0, 0))...)
	return profile.Section{Name: "edge-bead", Outline: o, Height: h, Projection: 3 + h/2, Ground: 3}
}

func drawers(g miter.Graduation) miter.Case {
	return miter.Case{Name: "press", Units: measure.Inches,
		Stages:   []miter.Stage{{Name: "case", Plan: miter.Plan{Width: 42 * inch, Depth: 18 * inch}, Height: 38 * inch}},
		Openings: &miter.Openings{Left: inch, Right: inch, Bottom: 4 * inch, Top: 34 * inch, Divider: 0.75 * inch, Graduate: g, TopRow: 2},
		Beads:    &miter.Beads{Profile: "edge-bead"}}
}

// heights returns the heights of the rows from the bottom, in 64ths of an inch.
func heights(r miter.Result) []float64 {
	var out []float64
	for _, h := range r.Layout.Heights {
		out = append(out, h/inch*64)
	}
	return out
}

// TestGraduation: the sum of rows and dividers is the opening, the bottom row is the tallest, and every row but it is a whole
// number of 64ths.
func TestGraduation(t *testing.T) {
	const seed = 11
	rng := rand.New(rand.NewPCG(seed, 1))
	fitted := 0
	for n := range 200 {
		g := miter.Graduation{Rows: 1 + rng.IntN(6)}
		switch rng.IntN(3) {
		case 0:
			g.Ratio = 0.7 + 0.3*rng.Float64()
		case 1:
			g.Step = rng.Float64() * 20
		default:
			g.Bottom, g.Top = 250, 100
		}
		r, err := miter.Fit(drawers(g), with(edgeBead()), nil)
		if err != nil {
			require.ErrorContains(t, err, "openings.graduate", "seed %d case %d", seed, n)
			continue
		}
		fitted++
		hs := heights(r)
		sum := 0.0
		for i, h := range hs {
			sum += h
			if i > 0 {
				require.InDelta(t, math.Round(h), h, 1e-6, "seed %d case %d", seed, n)
				require.LessOrEqual(t, h, hs[i-1]+1e-6, "seed %d case %d", seed, n)
				require.Less(t, math.Abs(r.Layout.Left), 25.4/64*1.5, "seed %d case %d", seed, n)
			}
		}
		require.InDelta(t, 30*64, sum+float64(g.Rows-1)*48, 1e-6, "seed %d case %d", seed, n)
	}
	require.Greater(t, fitted, 100)
}

// TestRatio, worked by hand: 27 3/4 in for four rows at 0.88. The first is 27.75 / (1 + 0.88 + 0.7744 + 0.681472) = 8.3178 in.
func TestRatio(t *testing.T) {
	r := fit(t, drawers(miter.Graduation{Rows: 4, Ratio: 0.88}), edgeBead())
	hs := heights(r)
	// In 64ths 532.34, 468.46, 412.24 and 362.78 are 1776 together: two of the upper rows are rounded up, so that the bottom one is off by least.
	require.InDeltaSlice(t, []float64{532, 469, 412, 363}, hs, 1e-6)
	require.Len(t, r.Drawers, 5)
	require.Equal(t, []int{4, 2}, []int{r.Drawers[4].Row, r.Drawers[4].Column})
	require.InDelta(t, (40-0.75)/2*inch, r.Drawers[4].Width, 1e-9)
	require.InDelta(t, 40*inch, r.Drawers[0].Width, 1e-9)
	require.Contains(t, r.Notes[0], "in the bottom row")
}

// TestStepAndEnds: by a step of 1 in; and from a bottom and a top row, on a curve when the sum asks for it.
func TestStepAndEnds(t *testing.T) {
	hs := heights(fit(t, drawers(miter.Graduation{Rows: 3, Step: inch}), edgeBead()))
	require.InDelta(t, 64, hs[0]-hs[1], 1.01)
	require.InDelta(t, 64, hs[1]-hs[2], 1e-6)
	hs = heights(fit(t, drawers(miter.Graduation{Rows: 3, Bottom: 12 * inch, Top: 7 * inch}), edgeBead()))
	require.InDelta(t, 12*64, hs[0], 1.01)
	require.InDelta(t, 7*64, hs[2], 1e-6)
	require.InDelta(t, 28.5*64-19*64, hs[1], 1.01)
	list := miter.Graduation{Heights: []miter.Row{{Height: 20 * inch, Drawers: 1}, {Height: 9.25 * inch, Drawers: 3}}}
	r := fit(t, drawers(list), edgeBead())
	require.Len(t, r.Drawers, 4)
	require.InDelta(t, (40-1.5)/3*inch, r.Drawers[2].Width, 1e-9)
}

// TestBeads: uprights run through and are mitered at the outer corners; dividers and posts end in points of 90 degrees in their vees.
func TestBeads(t *testing.T) {
	r := fit(t, drawers(miter.Graduation{Rows: 4, Ratio: 0.88}), edgeBead())
	of := func(run string) miter.Piece { return pieceOf(t, miter.MoldingResult{Pieces: r.Beads}, run) }
	w := 0.75 * inch
	up, right := of("left-upright"), of("right-upright")
	require.InDelta(t, 30*inch, up.Back, 1e-9)
	require.InDelta(t, 30*inch+2*w, up.Long, 1e-9)
	require.Equal(t, miter.CutMiter, up.Ends[0].Kind)
	require.InDelta(t, 45, up.Ends[0].Standing.Miter.Degrees(), 1e-9)
	require.Len(t, up.Notches, 3)
	require.NotEqual(t, up.Mark, right.Mark)
	require.Equal(t, miter.LeftHand, up.Hand)
	require.Equal(t, miter.RightHand, right.Hand)
	for i, n := range up.Notches {
		require.InDelta(t, up.Back, n.At+right.Notches[2-i].At, 1e-9)
		require.InDelta(t, w/2, n.Depth, 1e-9)
	}
	d := of("divider-1")
	require.InDelta(t, 40*inch, d.Back, 1e-9)
	require.InDelta(t, 40*inch+w, d.Long, 1e-9)
	require.Equal(t, 2, d.Count) // the third carries the notch of the post
	require.Equal(t, miter.CutVee, d.Ends[0].Kind)
	require.Equal(t, miter.NoHand, d.Hand)
	require.Len(t, of("divider-3").Notches, 1)
	require.Equal(t, miter.TopFace, of("divider-3").Notches[0].Side)
	require.Len(t, of("top").Notches, 1)
	require.Empty(t, of("bottom").Notches)
	p := of("post-1")
	require.InDelta(t, r.Drawers[4].Height, p.Back, 1e-9)
	require.InDelta(t, p.Back+w, p.Long, 1e-9)
	// The tip of each divider lies in the middle of its notch on the left upright.
	for i, b := range r.Layout.Beads {
		if b.Run == "divider-1" {
			require.InDelta(t, b.At.Center().Y, r.Layout.Area.Min.Y+up.Notches[0].At, 1e-9, "%d", i)
			require.InDelta(t, r.Layout.Area.Min.X-w/2, b.At.Min.X, 1e-9)
		}
	}
	n := 0
	for _, b := range r.Beads {
		n += b.Count
	}
	require.Equal(t, len(r.Layout.Beads), n)
	require.Equal(t, 8, n)
}

// TestBeadSolid: the mitered corners of the outer beads close when cut by their settings.
func TestBeadSolid(t *testing.T) {
	r := fit(t, drawers(miter.Graduation{Rows: 1}), edgeBead())
	m := miter.MoldingResult{Pieces: r.Beads, Closed: true}
	for _, run := range []string{"left-upright", "top", "right-upright", "bottom"} {
		m.Runs = append(m.Runs, miter.PlacedRun{Run: run, Mark: pieceOf(t, m, run).Mark})
	}
	require.Equal(t, 4, solid(t, m, false))
}

func TestOpeningFaults(t *testing.T) {
	bad := func(change func(*miter.Case), want string) {
		c := drawers(miter.Graduation{Rows: 4, Ratio: 0.88})
		change(&c)
		require.Contains(t, faults(t, c, edgeBead()), want)
	}
	bad(func(c *miter.Case) { c.Openings.Edge = "frnt" }, `openings.edge: stage case has no edge named "frnt"; it has left, front, right, back`)
	bad(func(c *miter.Case) { c.Openings.On = "csae" }, "openings.on")
	bad(func(c *miter.Case) { c.Openings.Left = 42 * inch }, "leave no opening")
	bad(func(c *miter.Case) { c.Openings.Top = 3 * inch }, "the top is not above the bottom")
	bad(func(c *miter.Case) { c.Openings.Top = 39 * inch }, "the bead over them at 39 3/4 in, and stage case ends at 38 in; 37 1/4 in or less would do")
	bad(func(c *miter.Case) { c.Openings.Divider = 10 * inch }, "openings.divider")
	bad(func(c *miter.Case) { c.Openings.Graduate = miter.Graduation{Rows: 4, Step: 6 * inch} }, "the drawers do not fit")
	bad(func(c *miter.Case) { c.Openings.Graduate = miter.Graduation{Rows: 4, Ratio: 1.5} }, "openings.graduate.ratio")
	bad(func(c *miter.Case) { c.Openings.Graduate = miter.Graduation{Rows: 2, Bottom: 9 * inch, Top: 8 * inch} }, "the difference is 12 1/4 in")
	bad(func(c *miter.Case) {
		c.Openings.Graduate = miter.Graduation{Heights: []miter.Row{{Height: 9 * inch}}}
	}, "the difference is 21 in")
	bad(func(c *miter.Case) { c.Openings.Graduate.Rows = 0 }, "openings.graduate.rows")
	bad(func(c *miter.Case) { c.Openings.TopRow = 90 }, "the drawers do not fit: 90 in row 4")
	bad(func(c *miter.Case) { c.Openings.Left = 0.5 * inch }, "openings.area.left: the bead is 3/4 in wide, and only 1/2 in")
	bad(func(c *miter.Case) { c.Openings.Divider = 0 }, "needs a divider")
	bad(func(c *miter.Case) { c.Beads.Profile = "none" }, "beads.profile")
	bad(func(c *miter.Case) { c.Openings = nil }, "beads: there are no openings")
}

func ExampleFit() {
	c := drawers(miter.Graduation{Rows: 3, Step: inch})
	r, err := miter.Fit(c, with(edgeBead()), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	in := measure.Format{Units: measure.Inches}
	for _, d := range r.Drawers {
		fmt.Printf("row %d, drawer %d: %s wide, %s high\n", d.Row, d.Column, in.Length(d.Width), in.Length(d.Height))
	}
	// Output:
	// row 1, drawer 1: 40 in wide, 10 1/2 in high
	// row 2, drawer 1: 40 in wide, 9 1/2 in high
	// row 3, drawer 1: 19 5/8 in wide, 8 1/2 in high
	// row 3, drawer 2: 19 5/8 in wide, 8 1/2 in high
}

// Beads may be let into the front: their backs then lie that deep inside it, and what is left of them stands proud. What hides them is refused, and beads
// that stand out far are told of.
func TestBeadsLetIn(t *testing.T) {
	c := drawers(miter.Graduation{Rows: 3, Step: 10})
	bead := edgeBead()
	on, err := miter.Fit(c, with(bead), nil)
	require.NoError(t, err)
	require.InDelta(t, bead.Projection, on.Layout.Proud, 1e-9)
	require.Contains(t, on.Notes, "the beads stand 1/2- in proud of the front; cock beads are let in until about 1/8 in shows (common practice, no source): inset: 3/8 under beads does it")

	c.Beads.Inset = 9
	in, err := miter.Fit(c, with(bead), nil)
	require.NoError(t, err)
	require.InDelta(t, bead.Projection-9, in.Layout.Proud, 1e-9)
	require.Len(t, in.Notes, len(on.Notes)-1)
	for i := range in.Beads {
		for k, p := range in.Beads[i].Places {
			q := on.Beads[i].Places[k]
			require.InDelta(t, q.At(0, geom.Pt(0, 0)).Y+9, p.At(0, geom.Pt(0, 0)).Y, 1e-9)
		}
	}

	c.Beads.Inset = bead.Projection
	_, err = miter.Fit(c, with(bead), nil)
	require.ErrorContains(t, err, "beads.inset: the bead is 1/2- in from its back to its crest: let in by 1/2- in, less than 1/32 in of it stands proud; 15/32- in or less would do")
}

// What says of drawers that do not fit would do does: the step or the ratio named is taken.
func TestGraduationThatWouldDo(t *testing.T) {
	said := func(g miter.Graduation) string {
		_, err := miter.Fit(drawers(g), with(edgeBead()), nil)
		require.Error(t, err)
		return err.Error()
	}
	require.Contains(t, said(miter.Graduation{Rows: 4, Step: 150}), "a step of 4 5/16 in at most, or fewer rows would do")
	_, err := miter.Fit(drawers(miter.Graduation{Rows: 4, Step: 4.3125 * inch}), with(edgeBead()), nil)
	require.NoError(t, err)
	require.Contains(t, said(miter.Graduation{Rows: 4, Ratio: 0.1}), "a ratio from 0.27 to 1 would do")
	_, err = miter.Fit(drawers(miter.Graduation{Rows: 4, Ratio: 0.27}), with(edgeBead()), nil)
	require.NoError(t, err)
}
