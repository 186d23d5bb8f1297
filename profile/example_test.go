package profile_test

import (
	"fmt"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A small cornice: sizes in inches, the crown takes what is left.
func Example() {
	in := func(v float64) profile.Size { return profile.MM(v * measure.MMPerInch) }
	p := profile.Profile{
		Name: "shelf-edge", Units: measure.Inches,
		Height: 1.5 * measure.MMPerInch, Ground: in(0.5),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: in(0.25)},
			{Kind: profile.KindCove, Height: in(0.5)},
			{Kind: profile.KindFillet, Height: in(0.125), Set: in(0.0625)},
			{Kind: profile.KindOvolo, Height: profile.Rest(), Projection: in(0.5), Curve: profile.CurveEllipse},
		},
	}
	s, err := p.Section(nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	f := measure.Format{Units: measure.Inches}
	for _, m := range s.Members {
		fmt.Printf("%-7s foot %s, from x %s, high %s\n", m.Kind, f.Length(m.Foot), f.Length(m.Start), f.Length(m.Height))
	}
	fmt.Println("stands out", f.Length(s.Projection))
	// Output:
	// fillet  foot 0 in, from x 1/2 in, high 1/4 in
	// cove    foot 1/4 in, from x 1/2 in, high 1/2 in
	// fillet  foot 3/4 in, from x 1 1/16 in, high 1/8 in
	// ovolo   foot 7/8 in, from x 1 1/16 in, high 5/8 in
	// stands out 1 9/16 in
}

// All faults are told at once, in the units of the file.
func ExampleProfile_Section() {
	p := profile.Profile{
		Units: measure.Inches, Ground: profile.MM(25.4),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: profile.MM(-6.35)},
			{Kind: profile.KindCymaRecta, Height: profile.MM(12.7), Projection: profile.MM(25.4)},
		},
	}
	_, err := p.Section(nil)
	fmt.Println(err)
	// Output:
	// element 1, fillet: height is -1/4 in; it must be more than 0
	// element 2, cyma-recta: a cyma-recta of curve: flat needs a chord of 30 to 60 degrees, but a height of 1/2 in and a projection of 1 in make it 26.6 degrees; curve: ellipse would do, or a radius of 5/8 in or more
}

// Elements are values that can be drawn by themselves. This is the scotia of Nicholson, turned for a base.
func ExampleScotia() {
	e := profile.Scotia{Height: 30, Projection: -10}
	fmt.Println(e.Validate())
	for _, s := range e.Outline(geom.Pt(50, 0)) {
		a := s.(geom.Arc)
		fmt.Printf("radius %.0f about (%.0f, %.0f)\n", a.Radius, a.Center.X, a.Center.Y)
	}
	// Output:
	// <nil>
	// radius 20 about (50, 20)
	// radius 10 about (40, 20)
}

// A drip under a corona cannot be seen from the front.
func ExampleSection_Undercuts() {
	p := profile.Profile{
		Ground: profile.MM(20),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: profile.MM(10)},
			{Kind: profile.KindCorona, Height: profile.MM(12), Set: profile.MM(15),
				Drip: &profile.Drip{Width: profile.MM(4), Depth: profile.MM(3), Inset: profile.MM(4)}},
		},
	}
	s, err := p.Section(nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, u := range s.Undercuts() {
		fmt.Printf("from %s: y %.0f to %.0f, %.0f deep\n", u.From, u.Y0, u.Y1, u.Depth)
	}
	// Output:
	// from above: y 0 to 13, 15 deep
	// from front: y 10 to 13, 3 deep
}
