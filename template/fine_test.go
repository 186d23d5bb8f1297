package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

// Small lengths and the planner's words come in the reader's units. An inch is 25.4 mm.
func TestFineLengths(t *testing.T) {
	in, mm := measure.Format{Units: measure.Inches}, measure.Format{}
	require.Equal(t, "0.003 in", template.Fine(0.08, in))
	require.Equal(t, "0.08 mm", template.Fine(0.08, mm))
	require.Equal(t, "under 0.001 in", template.Fine(0.005, in))
	require.Equal(t, "under 0.01 mm", template.Fine(0.002, mm))
	require.Equal(t, "0.000 in", template.Fine(0, in))
	require.Equal(t, "0.020 in", template.Fine(0.508, in))
	text := "From an upright blank of 63.5 by 60.325 mm 12 set-ups do; a round plane of 12.70 mm radius for element 3"
	require.Equal(t, text, template.InUnits(text, mm))
	require.Equal(t, "From an upright blank of 2 1/2 by 2 3/8 in 12 set-ups do; a round plane of 1/2 in radius for element 3", template.InUnits(text, in))
}

// A distance from the fence is never negative without words.
func TestFenceSettingSaysWhichEdge(t *testing.T) {
	in := measure.Format{Units: measure.Inches}
	require.Equal(t, "1/2 in (0.500)", template.FenceSetting(cutter.Setup{Fence: 12.7, Far: 25.4}, in))
	require.Equal(t, "1 in (1.000) to FAR edge", template.FenceSetting(cutter.Setup{Fence: -12.7, Far: 25.4}, in))
	require.Equal(t, "far side 1/4 in (0.250) INSIDE the fence", template.FenceSetting(cutter.Setup{Fence: -12.7, Far: -6.35}, in))
	require.Equal(t, "0.00 mm", template.FenceSetting(cutter.Setup{Fence: -1e-6, Far: 25.4}, measure.Format{}))
}
