package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

// Small lengths come in the reader's units. An inch is 25.4 mm.
func TestFineLengths(t *testing.T) {
	in, mm := measure.Format{Units: measure.Inches}, measure.Format{}
	require.Equal(t, "0.003 in", template.Fine(0.08, in))
	require.Equal(t, "0.08 mm", template.Fine(0.08, mm))
	require.Equal(t, "under 0.001 in", template.Fine(0.005, in))
	require.Equal(t, "under 0.01 mm", template.Fine(0.002, mm))
	require.Equal(t, "0.000 in", template.Fine(0, in))
	require.Equal(t, "0.020 in", template.Fine(0.508, in))
}

// A distance from the fence is never negative without words.
func TestFenceSettingSaysWhichEdge(t *testing.T) {
	in := measure.Format{Units: measure.Inches}
	require.Equal(t, "1/2 in (0.500)", template.FenceSetting(cutter.Setup{Fence: 12.7, Far: 25.4}, in))
	require.Equal(t, "1 in (1.000) to FAR edge", template.FenceSetting(cutter.Setup{Fence: -12.7, Far: 25.4}, in))
	require.Equal(t, "far side 1/4 in (0.250) INSIDE the fence", template.FenceSetting(cutter.Setup{Fence: -12.7, Far: -6.35}, in))
	require.Equal(t, "0.00 mm", template.FenceSetting(cutter.Setup{Fence: -1e-6, Far: 25.4}, measure.Format{}))
}
