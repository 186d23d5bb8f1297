package miter_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A tenon is as thick as a chisel is wide, about a third of its rail; what a rule leaves over is at the wall and over the tenon. The sizes of
// chisels are common practice, no source.
func TestTenonSizes(t *testing.T) {
	frame := func(units measure.Units, rail float64) *miter.Frame {
		c, s := seated()
		c.Units = units
		c.Moldings[0].Frame = &miter.FrameSpec{RailWidth: rail, Tenon: 25}
		return fit(t, c, s).Moldings[0].Frame
	}
	f := frame(measure.Millimeters, 50.4) // the rail is 16 mm thick
	require.InDelta(t, 6, f.Cheek, 1e-9)
	require.InDelta(t, 34, f.Across, 1e-9)
	require.InDelta(t, 16.4, f.Haunch, 1e-9)
	require.InDelta(t, 5, f.Under, 1e-9)
	require.InDelta(t, 5, f.Over, 1e-9)
	require.InDelta(t, 5, f.Mortises[0].Foot, 1e-9)
	f = frame(measure.Inches, 50.8)
	require.InDelta(t, 25.4/4, f.Cheek, 1e-9)
	require.InDelta(t, 25.4*(1+5.0/16), f.Across, 1e-9)
	require.InDelta(t, 25.4*11/16, f.Haunch, 1e-9)
	require.InDelta(t, 25.4*3/16, f.Under, 1e-9)
	require.InDelta(t, 16, f.Under+f.Cheek+f.Over, 1e-9)
	require.Greater(t, f.Over, f.Under)
}

// What is too small or too deep is refused, with what would do.
func TestTooSmallOrTooDeep(t *testing.T) {
	frame := func(spec miter.FrameSpec, want string) {
		t.Helper()
		c, s := seated()
		c.Moldings[0].Frame = &spec
		require.Contains(t, faults(t, c, s), want)
	}
	frame(miter.FrameSpec{RailWidth: 50}, "frame.back-rail.tenon: a tenon of 0.0 mm holds nothing")
	frame(miter.FrameSpec{RailWidth: 12, Tenon: 10}, "frame.back-rail.width: a rail 12.0 mm wide holds no tenon; 12.7 mm or more would do")
	frame(miter.FrameSpec{RailWidth: 50, Tenon: 63}, "leaves 4.0 mm before the molded face of run left, and 6.4 mm must stay; 60.0 mm or less would do")

	// The step of a breakfront, 40 mm with a miter at both ends: grooves 18 mm deep go in 12.7 along it and leave 14.5 mm, those of 20 only 11.7.
	block := profile.Section{Name: "block", Outline: geom.Polygon(geom.Pt(0, 0), geom.Pt(46, 0), geom.Pt(46, 30), geom.Pt(0, 30)), Height: 30, Projection: 46, Ground: 46,
		Face: geom.Polyline(geom.Pt(46, 0), geom.Pt(46, 30))}
	stepped := func(m miter.Molding) miter.Case {
		m.Profile = "block"
		return onPlan(miter.Plan{Width: 1000, Depth: 450, Breakfront: &miter.Breakfront{Width: 500, Step: 40}}, m)
	}
	spline := func(depth float64) miter.Case {
		return stepped(miter.Molding{Spline: &miter.SplineSpec{Thickness: 3, Depth: depth, Stopped: true}})
	}
	fit(t, spline(18), block)
	require.Contains(t, faults(t, spline(20), block),
		"joint.spline.depth: grooves 20.0 mm deep come within 11.7 mm of one another or of the far end in run step-left, and 12.7 mm must stay; 19.0 mm or less would do")
	require.Contains(t, faults(t, stepped(miter.Molding{Pin: &miter.PinSpec{Diameter: 6, Depth: 20}}), block), "joint.pin.depth: pins 20.0 mm deep come within 11.7 mm")
	// 3 mm of wood (1/8 in in a case in inches) stay around a pin: in a block of 12 mm one of 5 has them, one of 7 has not.
	thin := profile.Section{Name: "thin", Outline: geom.Polygon(geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(40, 12), geom.Pt(0, 12)), Height: 12, Projection: 40, Ground: 40,
		Face: geom.Polyline(geom.Pt(40, 0), geom.Pt(40, 12))}
	fit(t, box(miter.Molding{Profile: "thin", Pin: &miter.PinSpec{Diameter: 5, Depth: 10}}), thin)
	require.Contains(t, faults(t, box(miter.Molding{Profile: "thin", Pin: &miter.PinSpec{Diameter: 7, Depth: 10}}), thin), "comes within 3.0 mm of the surface or the spline")
}

// Openings lie clear of the moldings on their face, are wide enough for a hand, and their dividers carry the beads.
func TestOpeningsAreClear(t *testing.T) {
	bad := func(change func(*miter.Case), want string) {
		t.Helper()
		c := box(miter.Molding{Name: "base"}) // 40 mm high, on the floor
		c.Openings = &miter.Openings{Left: 20, Right: 20, Bottom: 40, Top: 860, Divider: 12, Graduate: miter.Graduation{Rows: 3, Step: 10}, TopRow: 2}
		change(&c)
		if want == "" {
			fit(t, c)
			return
		}
		require.Contains(t, faults(t, c), want)
	}
	bad(func(*miter.Case) {}, "")
	bad(func(c *miter.Case) { c.Openings.Bottom = 30 }, "openings.area.bottom: the openings start at 30.0 mm, and base covers the face up to 40.0 mm; 40.0 mm or more would do")
	bad(func(c *miter.Case) { c.Moldings[0].At = 850; c.Openings.Bottom = 30 }, "openings.area.top: the openings reach 860.0 mm, and base covers the face from 850.0 mm; 850.0 mm or less would do")
	seat, w := seated() // its waist, 26 high, seats the upper stage at 916 and covers its face to 926
	w.Projection = w.Outline.Bounds().Max.X
	edge := edgeBead() // 19.05 wide
	c := seat
	c.Openings = &miter.Openings{On: "upper", Left: 20, Right: 20, Bottom: 945, Top: 1596, Graduate: miter.Graduation{Rows: 1}}
	c.Beads = &miter.Beads{Profile: "edge-bead"}
	require.Contains(t, faults(t, c, w, edge), "openings.area.bottom: the openings start at 945.0 mm, the bead under them at 926.0 mm, and waist covers the face up to 926.0 mm; 945.1 mm or more would do")
	c.Openings.Bottom, c.Openings.Top = 946, 1597 // the stage ends at 916 + 700 = 1616
	require.Contains(t, faults(t, c, w, edge), "openings.area.top: the openings reach 1597.0 mm, the bead over them at 1616.1 mm, and stage upper ends at 1616.0 mm; 1596.9 mm or less would do")
	c.Openings.Top = 1596
	fit(t, c, w, edge)
	// All at once: the sides' faults, the top's, and the bead's own.
	c.Openings.Left, c.Openings.Top, c.Beads = 10, 2600, &miter.Beads{Profile: "edge-bead", Inset: 30}
	all := faults(t, c, w, edge)
	require.Contains(t, all, "openings.area.left: the bead is 19.1 mm wide, and only 10.0 mm lies between the opening and the left end of edge front; 19.1 mm or more would do")
	require.Contains(t, all, "stage upper ends at 1616.0 mm; 1596.9 mm or less would do", "not past the top of the stage")
	require.Contains(t, all, "beads.inset")
	bad(func(c *miter.Case) { c.Openings.TopRow = 16 }, "would be 48.8 mm wide; 50.8 mm or more would do")
	bad(func(c *miter.Case) {
		c.Openings.Left, c.Openings.Right, c.Openings.Top, c.Openings.Bottom = 60, 60, 800, 100
		c.Beads = &miter.Beads{Profile: "ogee"}
	}, "openings.divider: the bead is 40.0 mm wide and would stand over the drawers on both sides of a divider of 12.0 mm; 40.0 mm or more would do")
}
