package cutter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/geom"
	"listel/template/cutter"
)

// The steps whose blade comes to the fence, by its silhouette against the fence's plane, are those that ask for a facing: the beads of five reeds are freed
// by a blade buried in it, and base-cap has one that leans to within 1/4 in.
func TestFacingsOfTheLibrary(t *testing.T) {
	lib, said := library.Open("", ""), map[string]int{}
	for _, name := range []string{"five-reeds", "base-cap"} {
		s, err := lib.SectionOf(name)
		require.NoError(t, err)
		r, _ := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), cutter.Options{})
		for _, u := range r.Setups {
			if u.Work != cutter.Saw {
				continue
			}
			m := geom.Affine{A: u.Transform[0], B: u.Transform[1], C: u.Transform[2], D: u.Transform[3], E: u.Transform[4], F: u.Transform[5]}.Inverse()
			near := u.Fence
			for _, p := range u.Silhouette {
				if q := m.Apply(geom.Pt(p[0], p[1])); q.Y > 0 {
					near = math.Min(near, q.X)
				}
			}
			want := near < 25.4/32 || u.Tilt > 0 && near < 25.4/4
			require.Equal(t, want, cutter.Faced(u), "%s, step %d: %.2f mm before the fence: %s", name, u.N, near, u.Warning)
			if want {
				said[name]++
			}
		}
	}
	require.NotZero(t, said["five-reeds"])
	require.NotZero(t, said["base-cap"])
}
