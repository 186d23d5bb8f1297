package geom_test

import (
	"fmt"

	"listel/profile/geom"
)

// A quarter-round of 20 mm: its area and where it balances, from closed forms.
func ExamplePath_Centroid() {
	quarter := geom.Path{
		geom.Line{A: geom.Pt(0, 0), B: geom.Pt(20, 0)},
		geom.Arc{Center: geom.Pt(0, 0), Radius: 20, Sweep: 90 * geom.Degree},
		geom.Line{A: geom.Pt(0, 20), B: geom.Pt(0, 0)},
	}
	c := quarter.Centroid()
	fmt.Printf("area %.2f mm2, balances at %.3f, %.3f mm\n", quarter.Area(), c.X, c.Y)
	// Output: area 314.16 mm2, balances at 8.488, 8.488 mm
}

// Stretching a circular arc along one axis makes an exact elliptic arc of it.
func ExampleArc_Transform() {
	arc := geom.Arc{Center: geom.Pt(0, 0), Radius: 10, Sweep: 90 * geom.Degree}
	oval := arc.Transform(geom.Scaling(2, 1)).(geom.EllipticArc)
	fmt.Printf("semi-axes %.1f and %.1f, from (%.1f, %.1f)\n", oval.RX, oval.RY, oval.Start().X, oval.Start().Y)
	// Output: semi-axes 20.0 and 10.0, from (20.0, 0.0)
}

// A line at half the height of the 3-4-5 triangle's circle meets it twice.
func ExampleCrossings() {
	ring := geom.Arc{Center: geom.Pt(0, 0), Radius: 5, Sweep: 360 * geom.Degree}
	for _, c := range geom.Crossings(geom.Line{A: geom.Pt(-9, 3), B: geom.Pt(9, 3)}, ring) {
		fmt.Printf("%.1f, %.1f\n", c.At.X, c.At.Y)
	}
	// Output:
	// -4.0, 3.0
	// 4.0, 3.0
}

// Growing a square by 2 mm rounds its corners, and shrinking it too far leaves nothing.
func ExamplePath_Offset() {
	square := geom.Polygon(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 10), geom.Pt(0, 10))
	grown, _ := square.Offset(-2, geom.Round)
	gone, _ := square.Offset(6, geom.Round)
	fmt.Printf("%.2f mm2 in %d segments, then %d paths\n", grown[0].Area(), len(grown[0]), len(gone))
	// Output: 192.57 mm2 in 8 segments, then 0 paths
}

// A section sawn apart at a height gives closed parts.
func ExamplePath_SplitAtHeight() {
	below, above := geom.Circle(geom.Pt(0, 0), 10).SplitAtHeight(0)
	fmt.Printf("%d and %d, %.3f mm2 each\n", len(below), len(above), below[0].Area())
	// Output: 1 and 1, 157.080 mm2 each
}

// Three points give an arc; the fillet's own radius comes out.
func ExampleArcThrough() {
	s, err := geom.ArcThrough(geom.Pt(10, 0), geom.Pt(0, 10), geom.Pt(-10, 0))
	if err != nil {
		fmt.Println(err)
		return
	}
	arc := s.(geom.Arc)
	fmt.Printf("radius %.1f mm, turning %.0f degrees\n", arc.Radius, arc.Sweep.Degrees())
	// Output: radius 10.0 mm, turning 180 degrees
}
