package cutter

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
)

// Where a blade of a 2 mm kerf, tilted 45 degrees, comes to the fence, worked by hand: across the table the kerf is 2 root 2 wide, and the nearer corner of its tip
// stands root 2 under the other.
func TestABladeInTheFence(t *testing.T) {
	root := math.Sqrt2
	in, mm := measure.Format{Units: measure.Inches}, measure.Format{}
	for name, c := range map[string]struct {
		u          Setup
		deep, high float64
		words      string
		f          measure.Format
	}{
		"upright, 5 mm off":                {Setup{Work: Saw, Fence: 5, Far: 7, Height: 12}, -5, 12, "", in},
		"upright, half a kerf in":          {Setup{Work: Saw, Fence: -1, Far: 1, Height: 12}, 1, 12, "a wooden facing, thicker than 1/32 in and higher than 15/32 in", in},
		"away, comes out of the fence":     {Setup{Work: Saw, Fence: -10, Far: -10 + 2*root, Height: 18, Tilt: -45}, 10, 10, "thicker than 10.0 mm and higher than 10.0 mm", mm},
		"away, all of it in the fence":     {Setup{Work: Saw, Fence: -20, Far: -20 + 2*root, Height: 18, Tilt: -45}, 20, 18, "higher than 23/32 in", in},
		"away, before the fence":           {Setup{Work: Saw, Fence: 2, Far: 2 + 2*root, Height: 18, Tilt: -45}, -2, 0, "", in},
		"toward it, the tip in the fence":  {Setup{Work: Saw, Fence: 10, Far: 10 + 2*root, Height: 13 + root, Tilt: 45}, 3, 13 + root, "stands in the fence: clamp on a wooden facing, thicker than 3.0 mm", mm},
		"toward it, the tip within 1/4 in": {Setup{Work: Saw, Fence: 10, Far: 10 + 2*root, Height: 5 + root, Tilt: 45}, -5, 5 + root, "leans to within 3/16 in of the fence", in},
		"toward it, the tip 7 mm off":      {Setup{Work: Saw, Fence: 10, Far: 10 + 2*root, Height: 3 + root, Tilt: 45}, -7, 3 + root, "", in},
		"a bit stands in its opening":      {Setup{Work: Router, Fence: -8, Far: 4, Height: 6}, 8, 6, "", in},
	} {
		t.Run(name, func(t *testing.T) {
			deep, high := inFence(c.u)
			require.InDelta(t, c.deep, deep, 1e-9)
			require.InDelta(t, c.high, high, 1e-9)
			if words := facingWords(c.u, c.f); c.words == "" {
				require.Empty(t, words)
			} else {
				require.Contains(t, words, c.words)
				require.Contains(t, Result{Setups: []Setup{c.u}}.CautionWords(c.f, 0), facingCaution)
			}
		})
	}
}
