package miter_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
)

// dentiled returns a section with a course of dentils whose faces stand 20 mm out.
func dentiled(block, gap float64) profile.Section {
	s := ogee()
	s.Name = "dentils"
	s.Members = []profile.Member{{Index: 1, Kind: profile.KindDentils, Foot: 6, Start: 20, Height: block * 1.25,
		Dentils: &profile.Dentils{Height: block * 1.25, Block: block, Gap: gap, Depth: block}}}
	return s
}

// TestDentilRatios: the proportions of the documentation, from W. R. Ware (The American Vignola, 1920, pp. 14 and 16) and F. Laureys
// (after Vignola): a course that comes out at them is left at them.
func TestDentilRatios(t *testing.T) {
	const d = 144.0 // the diameter of a column, mm
	for name, r := range map[string][3]float64{"Ware, Doric": {d / 12, d / 24, d / 8}, "Ware, Ionic": {d / 9, d / 18, d / 6}, "Laureys, Doric": {4, 2, 6}} {
		require.InDelta(t, r[2], r[0]+r[1], 1e-12, name)
		require.InDelta(t, 2, r[0]/r[1], 1e-12, name)
		front := 50*r[2] + r[0] // 51 blocks
		side := 20*r[2] + r[0]
		c := onPlan(miter.Plan{Width: front - 40, Depth: side - 20}, miter.Molding{Profile: "dentils"})
		course := fit(t, c, dentiled(r[0], r[1])).Moldings[0].Course
		require.InDelta(t, r[0], course.Block, 1e-6, name)
		require.Equal(t, 51, course.Faces[1].Blocks, name)
		for _, f := range course.Faces {
			require.InDelta(t, r[1], f.Gap, 1e-5, name)
		}
	}
}

// TestDentilCourses: every face begins and ends with a block at an outside corner and with a gap at an inside one.
func TestDentilCourses(t *testing.T) {
	const seed = 5
	rng := rand.New(rand.NewPCG(seed, 1))
	spaced := 0
	for n := range 200 {
		c := onPlan(randomPlan(rng), miter.Molding{Profile: "dentils"})
		r, err := miter.Fit(c, with(dentiled(6+rng.Float64()*10, 3+rng.Float64()*5)), nil)
		if err != nil {
			continue
		}
		spaced++
		m := r.Moldings[0]
		for _, f := range m.Course.Faces {
			p := pieceOf(t, m, f.Run)
			last := f.At[len(f.At)-1] + m.Course.Block
			first, tail := 0.0, 0.0
			if p.Ends[0].Corner.Degrees() > 180.001 {
				first = f.Gap
			}
			if p.Ends[1].Corner.Degrees() > 180.001 {
				tail = f.Gap
			}
			require.InDelta(t, first, f.At[0], 1e-9, "seed %d case %d", seed, n)
			require.InDelta(t, f.Length, last+tail, 1e-6, "seed %d case %d", seed, n)
			require.Len(t, f.At, f.Blocks)
			require.InDelta(t, m.Course.AskedBlock, m.Course.Block, 0.25*m.Course.AskedBlock)
			if f.Length > 300 {
				require.InDelta(t, m.Course.AskedGap, f.Gap, 0.2*m.Course.AskedGap, "seed %d case %d", seed, n)
			}
		}
	}
	require.Greater(t, spaced, 100)
}

// TestDentilLimit: no course of more blocks than anyone can cut is counted out.
func TestDentilLimit(t *testing.T) {
	c := onPlan(miter.Plan{Width: 19000, Depth: 450}, miter.Molding{Profile: "dentils"})
	fit(t, c, dentiled(8, 4))
	require.Contains(t, faults(t, c, dentiled(0.2, 0.1)), "moldings[0].profile: run front would have more than 2,000 dentils, the most on a face: its blocks are 0.2 mm wide and its gaps 0.1 mm")
}
