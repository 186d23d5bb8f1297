package miter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
)

// TestOdd: what is possible and hardly meant is told, and nothing of a case without it.
func TestOdd(t *testing.T) {
	c := box(miter.Molding{At: 0})
	c.Moldings = append(c.Moldings, miter.Molding{Name: "second", Profile: "ogee", At: 40}) // it stands on the first
	require.Empty(t, miter.Odd(c, fit(t, c)))

	c.Room = miter.Room{HumidityLow: 30, HumidityHigh: 65, BuiltAt: 45, Celsius: 21}
	c.Moldings[1].At = 10
	off := geom.Pt(2000, 0)
	c.Stages = append(c.Stages, miter.Stage{Name: "upper", Plan: miter.Plan{Width: 900, Depth: 400}, Height: 300, Offset: &off})
	c.Moldings[0].On, c.Moldings[1].On = "case", "case"
	notes := miter.Odd(c, fit(t, c))
	require.Len(t, notes, 3)
	require.Contains(t, notes[0], "its room and no wood")
	require.Equal(t, "stage upper stands wholly beside stage case, and not on it", notes[1])
	require.Contains(t, notes[2], "the moldings cornice and second take up the same place on edge left, from 10")

	c.Moldings[1].Runs, c.Moldings[0].Runs = []string{"left"}, []string{"front"} // on different edges
	require.Len(t, miter.Odd(c, fit(t, c)), 2)
}
