package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

// By hand sizes come to 1/64 in or 0.5 mm, without thousandths, and nobody counts sixty-eight passes.
func TestWhatAPlaneIsSetTo(t *testing.T) {
	in, mm := measure.Format{Units: measure.Inches}, measure.Format{}
	u := cutter.Setup{Work: cutter.Plane, Fence: 12.6, Far: 25.3, Height: 19.2}
	require.Equal(t, "3/4 in", template.HeightSetting(u, in), "19.2 mm is 48.4 sixty-fourths")
	require.Equal(t, "19.0 mm", template.HeightSetting(u, mm))
	require.Equal(t, "1/2 in", template.FenceSetting(u, in), "12.6 mm is 31.7 sixty-fourths")
	require.Equal(t, "12.5 mm", template.FenceSetting(u, mm))
	require.Equal(t, "FAR edge 5/32 in BEHIND the stop's face", template.FenceSetting(cutter.Setup{Work: cutter.Plane, Fence: -12.7, Far: -4}, in), "4 mm is 10.1 sixty-fourths")
	u.Tilt = -14.8
	require.Equal(t, "about 15° away", template.TiltSetting(u, in))
	u.Tilt = 0.2
	require.Empty(t, template.TiltSetting(u, in))
	u.Work = cutter.Saw
	require.Equal(t, "0.2° toward", template.TiltSetting(u, in))
	u.Tilt, u.Work = 0, cutter.Router
	require.Empty(t, template.TiltSetting(u, in))
	require.Equal(t, "19.20 mm", template.HeightSetting(u, mm))
	require.Equal(t, "1 pass", template.PassesByHand(cutter.Setup{Passes: 1}))
	require.Equal(t, "about 20 passes", template.PassesByHand(cutter.Setup{Passes: 20}))
	require.Equal(t, "saw near the line first, then plane to it", template.PassesByHand(cutter.Setup{Passes: 21}))
	require.Equal(t, "plow or chop the groove first, then plane to the line", template.PassesByHand(cutter.Setup{Passes: 21, Grooves: true}), "no saw gets into a groove")
	require.Equal(t, "about 20 passes", template.PassesByHand(cutter.Setup{Passes: 20, Grooves: true}))
}

// Rim speeds by pi D n / 12, worked from the common table of speeds: 1 in at 24,000 turns 6283 ft/min, 2 in at 18,000 9425, 2 1/2 in at 16,000 10472,
// 3 1/2 in at 12,000 10996.
func TestRimSpeedsInFeetAMinute(t *testing.T) {
	for _, c := range []struct {
		across float64
		in, mm string
	}{{1, "6283 ft/min", "32 m/s"}, {2, "9425 ft/min", "48 m/s"}, {2.5, "10472 ft/min", "53 m/s"}, {3.5, "10996 ft/min", "56 m/s"}} {
		rpm := cutter.SpeedFor(c.across * 25.4)
		plan := keptPlan(t)
		tool := plan.Plan.Setups[0].Tool
		plan.Plan.Speeds = []cutter.Speed{{Tool: tool, Diameter: c.across * 25.4, RPM: rpm, Rim: cutter.RimSpeed(c.across*25.4, rpm)}}
		require.Equal(t, c.in, template.ViewSetups(plan, measure.Format{Units: measure.Inches}).Tools[0].Rim)
		require.Equal(t, c.mm, template.ViewSetups(plan, measure.Format{}).Tools[0].Rim)
	}
}

// The tools say what cutting length the deepest of their cuts needs, up to the next 1/32 in or 0.5 mm; an edge inside the fence is said to be there.
func TestToolsSayTheirCuttingLength(t *testing.T) {
	plan := keptPlan(t)
	in := measure.Format{Units: measure.Inches}
	u := &plan.Plan.Setups[0]
	plan.Plan.Setups[1].Tool, u.Engages, plan.Plan.Setups[1].Engages = u.Tool, 10, 12.8
	u.Fence, u.Far = -9, -25.4*7/64
	require.Equal(t, "17⁄32″", template.ViewSetups(plan, in).Tools[0].Cuts, "12.8 mm is 16.1 thirty-seconds")
	require.Equal(t, "13.0 mm", template.ViewSetups(plan, measure.Format{}).Tools[0].Cuts)
	require.Equal(t, "7⁄64″ inside", template.ViewSetups(plan, in).Steps[0].SettingText)
	plan.Gouge, plan.Left = 0.005, 0.3
	require.Contains(t, template.ViewSetups(plan, in).Before[0].Text, "none goes more than 0.001″ into the section, no more than 0.012″ is left")
	plan.Gouge = 0
	require.Contains(t, template.ViewSetups(plan, in).Before[0].Text, "none goes into the section, no more")
}
