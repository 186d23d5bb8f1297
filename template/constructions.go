package template

import (
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sources of the constructions.
const (
	ofPocketbook = "Source: Building Trades Pocketbook, Roman Moldings, p. 376."
	ofGreek      = "Source: Building Trades Pocketbook, p. 375, says that the curves of Greek moldings are ellipses, parabolas and hyperbolas."
	ofNicholson  = "Source: P. Nicholson, Mechanic's Companion, "
	ofSheraton   = "T. Sheraton, The Cabinet-Maker and Upholsterer's Drawing-Book (1793)"
	common       = "Common practice, no source."
)

// rise is the height of most figures, mm.
const rise = 40.0

// KindWords says what a kind of element is, in one line; "" for a kind that does not exist.
func KindWords(k profile.Kind) string {
	return map[profile.Kind]string{
		profile.KindFillet: "a narrow plumb flat that parts two curves", profile.KindFascia: "a broad plumb flat",
		profile.KindCorona: "a plumb flat over an overhanging soffit", profile.KindChamfer: "a straight slope",
		profile.KindOvolo: "a round that starts level and ends plumb", profile.KindCove: "a hollow that starts plumb and ends level",
		profile.KindConge: "a small hollow that fairs a fillet into a face", profile.KindCymaRecta: "round at its inner end, hollow at its outer end",
		profile.KindCymaReversa: "hollow at its inner end, round at its outer end", profile.KindScotia: "a hollow of two arcs, deep in a base",
		profile.KindTorus: "a half round", profile.KindAstragal: "a small half round", profile.KindBead: "a half round with grooves beside it",
		profile.KindThumb: "the edge of a table top, a quarter ellipse with its fillet", profile.KindQuirk: "a square groove",
		profile.KindReeds: "equal half rounds side by side", profile.KindFlutes: "equal hollows side by side",
		profile.KindDentils: "a course of blocks", profile.KindCurve: "lines and arcs through points", profile.KindStack: "another profile as a member",
	}[k]
}

// Constructions returns how elements of a kind are constructed, the default first; nil for a kind that does not exist.
func Constructions(k profile.Kind) []Construction {
	var all []Construction
	switch k {
	case profile.KindOvolo, profile.KindCove, profile.KindConge:
		all = quarterConstructions(k)
	case profile.KindCymaRecta, profile.KindCymaReversa:
		all = cymaConstructions(k)
	case profile.KindScotia:
		all = scotiaConstructions()
	case profile.KindFillet, profile.KindFascia, profile.KindCorona, profile.KindChamfer, profile.KindQuirk, profile.KindDentils:
		all = flatConstructions(k)
	case profile.KindTorus, profile.KindAstragal, profile.KindBead, profile.KindReeds, profile.KindFlutes, profile.KindThumb:
		all = roundConstructions(k)
	case profile.KindCurve, profile.KindStack:
		all = freeConstructions(k)
	}
	for i := range all {
		all[i].Kind = k
	}
	return all
}

// quarterConstructions returns those of ovolo, cove and conge.
func quarterConstructions(k profile.Kind) []Construction {
	round := k == profile.KindOvolo
	member := func(p float64, c profile.Construction) profile.Element {
		if round {
			return profile.Ovolo{Height: rise, Projection: p, Curve: c}
		}
		return profile.Cove{Height: rise, Projection: p, Curve: c}
	}
	where := "plumb over the foot and level with the top"
	if !round {
		where = "level with the foot and plumb under the top"
	}
	quadrant := Construction{
		Curve: profile.CurveQuadrant, Title: "Quadrant: the default", Entry: "- " + string(k) + ": {height: 5/8}",
		Steps:  []string{"Height and projection are equal.", "Mark the center " + where + ".", "Strike the quadrant with the height for a radius."},
		Source: ofPocketbook + " So does Nicholson, Mechanic's Companion.", element: member(rise, profile.CurveQuadrant), radii: []string{"height"},
	}
	if k == profile.KindConge {
		quadrant.Curve, quadrant.Title = "", "Quadrant"
		quadrant.Steps[0] = "Its height is that by which the fillet stands out; give it a negative projection over a base's listel."
		return []Construction{quadrant}
	}
	const p = 26.0
	arc := member(p, profile.CurveArc).Outline(geom.Point{})[0].(geom.Arc)
	a, b := geom.Point{}, geom.Pt(p, rise)
	return []Construction{quadrant, {
		Curve: profile.CurveArc, Title: "Arc: radius the height", Entry: "- " + string(k) + ": {height: 5/8, projection: 3/8, curve: arc}",
		Steps: []string{"Set the compasses to the height.", "Strike an arc from each end, A and B; they cross in the center.",
			"From there, with the same radius, strike the curve from A to B."},
		Source: ofNicholson + "fig. 7.", element: member(p, profile.CurveArc), radii: []string{"height"},
		arcs: []geom.Arc{finding(a, arc.Center), finding(b, arc.Center)}, marks: []spot{outside(a, arc.Center, "A"), outside(b, arc.Center, "B")},
	}, {
		Curve: profile.CurveEllipse, Title: "Ellipse", Entry: "- " + string(k) + ": {height: 5/8, projection: 3/8, curve: ellipse}",
		Steps:  []string{"Mark the center " + where + ".", "Draw the quarter of an ellipse that rises the height, a, over the projection, b."},
		Source: ofGreek, element: member(p, profile.CurveEllipse), radii: []string{"a|b"},
	}}
}

// finding returns a short arc about from that passes through a center to be found.
func finding(from, center geom.Point) geom.Arc {
	const half = 11 * geom.Degree
	v := center.Sub(from)
	return geom.Arc{Center: from, Radius: v.Norm(), From: v.Angle() - half, Sweep: 2 * half}
}

// outside returns the lettered end of an arc, the letter on the side away from its center.
func outside(at, center geom.Point, s string) spot { return spot{at, s, at.Sub(center)} }

// cymaConstructions returns those of the two cymas.
func cymaConstructions(k profile.Kind) []Construction {
	member := func(p float64, c profile.Construction) profile.Element {
		if k == profile.KindCymaRecta {
			return profile.CymaRecta{Height: rise, Projection: p, Curve: c}
		}
		return profile.CymaReversa{Height: rise, Projection: p, Curve: c}
	}
	name, p := string(k), 32.0
	a, b := geom.Point{}, geom.Pt(p, rise)
	first := member(p, profile.CurveFlat).Outline(geom.Point{})[0].(geom.Arc).Center
	second := member(p, profile.CurveFlat).Outline(geom.Point{})[1].(geom.Arc).Center
	const given = 32.0
	struck := profile.Element(profile.CymaRecta{Height: rise, Projection: p, Radius: given})
	if k == profile.KindCymaReversa {
		struck = profile.CymaReversa{Height: rise, Projection: p, Radius: given}
	}
	one := struck.Outline(geom.Point{})[0].(geom.Arc).Center
	other := b.Sub(one)
	flatSource := ofNicholson + "fig. 11; " + ofSheraton + ", of the summits of equilateral triangles."
	if k == profile.KindCymaReversa {
		flatSource = "Source: P. Nicholson (1823), p. 6; " + ofSheraton + "."
	}
	return []Construction{{
		Curve: profile.CurveFlat, Title: "Flat: the default", Entry: "- " + name + ": {height: 5/8, projection: 1/2}",
		Steps: []string{"Join the ends A and B and halve the chord in M.", "On each half set up an equilateral triangle, one on either side.",
			"Their summits are the centers; the radius of both arcs is half the chord, and each is of 60 degrees."},
		Source: flatSource, element: member(p, profile.CurveFlat), radii: []string{"½ chord", "½ chord"}, lines: []geom.Line{{A: a, B: b}},
		marks: []spot{outside(a, first, "A"), {b.Mul(0.5), "M", b.Left()}, outside(b, second, "B")},
	}, {
		Curve: profile.CurveBold, Title: "Bold: two quadrants", Entry: "- " + name + ": {height: 5/8, projection: 5/8, curve: bold}",
		Steps: []string{"Height and projection are equal; halve the chord in M.", "The centers are level with M or plumb over and under it, half the height away.",
			"Strike a quadrant from each."},
		Source: ofNicholson + "fig. 10.", element: member(rise, profile.CurveBold), radii: []string{"½ height", "½ height"},
		marks: []spot{{geom.Pt(rise/2, rise/2), "M", geom.Pt(1, -1)}},
	}, {
		Curve: profile.CurveEllipse, Title: "Ellipse: any rise and run", Entry: "- " + name + ": {height: 5/8, projection: 3/8, curve: ellipse}",
		Steps:  []string{"Halve the height and the projection.", "Draw a quarter of an ellipse in either half: each rises half the height, a, over half the projection, b."},
		Source: ofGreek, element: member(28, profile.CurveEllipse), radii: []string{"a|b", "a|b"},
	}, {
		Title: "Of a radius that is given", Entry: "- " + name + ": {height: 5/8, projection: 1/2, radius: 1/2}",
		Steps: []string{"Join the ends A and B and halve the chord in M. Set the compasses to the radius: more than half the chord is flatter, less is bolder.",
			"Strike arcs from A and from M; they cross in the first center. From M and from B: the second, on the other side.",
			"Strike the curve from both. It is smooth in M, since the centers are in line with it."},
		Source: common, element: struck, radii: []string{"radius", "radius"}, lines: []geom.Line{{A: a, B: b}},
		arcs:  []geom.Arc{finding(a, one), finding(b.Mul(0.5), one), finding(b.Mul(0.5), other), finding(b, other)},
		marks: []spot{outside(a, one, "A"), {b.Mul(0.5), "M", b.Left()}, outside(b, other, "B")},
	}}
}

// scotiaConstructions returns those of a scotia, as in a base.
func scotiaConstructions() []Construction {
	const h, h7 = 45.0, 49.0
	level := -h / 3
	seventh := profile.Scotia{Height: h7, Projection: -18, Curve: profile.CurveSevenths}
	path := seventh.Outline(geom.Point{})
	big, small := path[0].(geom.Arc), path[1].(geom.Arc)
	return []Construction{{
		Curve: profile.CurveThirds, Title: "Thirds: the default", Entry: "- scotia: {height: 5/8, projection: -5/24}",
		Steps: []string{"Divide the height in three; the run is a third of it.", "On the level a third below the top, mark the center of the small arc plumb under the upper end and that of the large one plumb over the lower end.",
			"Strike the small quadrant with one third, the large one with two."},
		Source: ofNicholson + "fig. 9.", element: profile.Scotia{Height: h, Projection: -h / 3}, radii: []string{"⅔", "⅓"},
		lines: []geom.Line{{A: geom.Pt(-2*h/3, 2*h/3), B: geom.Pt(6, 2*h/3)}, {A: geom.Pt(level-h/3-4, h/3), B: geom.Pt(6, h/3)}},
		sizes: []sizeMark{{geom.Pt(0, 0), geom.Pt(0, h/3), sheet.Up, 9, "⅓"}, {geom.Pt(0, h/3), geom.Pt(0, 2*h/3), sheet.Up, 9, "⅓"}, {geom.Pt(0, 2*h/3), geom.Pt(level, h), sheet.Up, 9, "⅓"}},
	}, {
		Curve: profile.CurveSevenths, Title: "Sevenths: any run of a seventh or more", Entry: "- scotia: {height: 5/8, projection: -1/4, curve: sevenths}",
		Steps: []string{"Divide the height in seven; mark the center of the small arc three parts plumb under the upper end and strike it.",
			"From the lower end go three parts plumb up, join that point and the small center, and halve this line squarely.",
			"Where that meets the plumb line over the lower end is the large center; the arcs meet on the line through both centers."},
		Source:  "Source: " + ofSheraton + "; T. Chippendale, The Gentleman and Cabinet-Maker's Director (1754), p. 3. The second center is worked out from the arcs' being tangent.",
		element: seventh, radii: []string{"R", "3/7"},
		lines: []geom.Line{{A: big.Center, B: geom.Pt(0, 0)}, {A: geom.Pt(0, 3*h7/7), B: small.Center}, {A: geom.Pt(0, 3*h7/7).Lerp(small.Center, 0.5), B: big.Center}},
		sizes: []sizeMark{{geom.Pt(0, 0), geom.Pt(0, 4*h7/7), sheet.Up, 12, "4/7"}, {geom.Pt(0, 4*h7/7), geom.Pt(-18, h7), sheet.Up, 12, "3/7"}},
	}}
}

// flatConstructions returns those of what is made of flats.
func flatConstructions(k profile.Kind) []Construction {
	switch k {
	case profile.KindFillet:
		return []Construction{{Title: "Plumb flat", Entry: "- fillet: {height: 1/8, set: 1/16}", set: 12, element: profile.Fillet{Height: 24}, flat: true,
			Steps: []string{"Step level by set: outward when it is positive, inward when it is negative.", "Go plumb up by the height."}, Source: common, sizes: setSize(12)}}
	case profile.KindFascia:
		return []Construction{{Title: "Broad plumb flat", Entry: "- fascia: {height: 2 1/2}", element: profile.Fillet{Height: rise}, flat: true,
			Steps: []string{"Go plumb up by the height: as a fillet, only broader."}, Source: common}}
	case profile.KindChamfer:
		return []Construction{{Title: "Straight slope", Entry: "- chamfer: {height: 1/2, projection: 3/8}", element: profile.Chamfer{Height: rise, Projection: 30},
			Steps: []string{"Join the ends. Without a projection its run is its height, at 45 degrees."}, Source: common}}
	case profile.KindQuirk:
		return []Construction{{Title: "Square groove", Entry: "- quirk: {height: 1/16, depth: 1/8}", element: profile.Quirk{Height: 14, Depth: 20}, flat: true,
			Steps: []string{"Go level in by the depth, plumb up by the height, and back."}, Source: common,
			sizes: []sizeMark{{geom.Pt(-20, 0), geom.Pt(0, -struckStub), sheet.Across, -struckStub - 5, "depth"}}}}
	case profile.KindCorona:
		e := profile.Corona{Height: rise, Set: 54, Drip: &profile.SizedDrip{Width: 18, Depth: 10, Inset: 18}}
		return []Construction{{Title: "Overhanging, with a drip", Entry: "- corona: {height: 5/8, set: 1/2, drip: {width: 1/8, depth: 1/8, inset: 1/8}}", element: e, flat: true,
			Steps:  []string{"Step level out by set: the soffit.", "From the face go back by the inset; there cut the drip, as wide and as deep as it says, up into the soffit.", "Go plumb up by the height."},
			Source: common,
			sizes: []sizeMark{{geom.Pt(0, -struckStub), geom.Pt(54, 0), sheet.Across, -struckStub - 6, "set"}, {geom.Pt(36, 0), geom.Pt(54, 0), sheet.Across, -6, "inset"},
				{geom.Pt(18, 0), geom.Pt(36, 0), sheet.Across, -6, "width"}}}}
	}
	e := profile.Dentils{Height: 26, Block: 14, Gap: 7, Depth: 14}
	var front sheet.Drawing
	for i := range 2 {
		x := 28 + float64(i)*21
		front = front.Add(sheet.Box(geom.Rect{Min: geom.Pt(x, 0), Max: geom.Pt(x+14, 26)}, sheet.PenOutline))
	}
	front = front.Add(sheet.Line(geom.Pt(24, 26), geom.Pt(67, 26), sheet.PenThin), sheet.Stroke{Path: e.GapOutline(geom.Point{}), Pen: sheet.PenHidden},
		sheet.Text{At: geom.Pt(45.5, 31), S: "from the front", Size: noteSize, Anchor: sheet.Bottom})
	return []Construction{{Title: "Course of blocks", Entry: "- dentils: {height: 1/2, set: 3/8, block: 3/8, gap: 3/16, depth: 3/8}", element: e, flat: true, extra: front,
		Steps:  []string{"The face of the blocks stands at x before, plus set.", "The ground between them lies depth behind it (dashed).", "Along the molding a block and a gap follow in turn."},
		Source: common + " W. R. Ware, The American Vignola (1920), p. 14, has blocks 1/12 of the column's diameter wide and gaps of 1/24.",
		sizes: []sizeMark{{geom.Pt(49, 0), geom.Pt(63, 0), sheet.Across, -6, "block"}, {geom.Pt(42, 0), geom.Pt(49, 0), sheet.Across, -12, "gap"},
			{geom.Pt(-14, 0), geom.Pt(0, -struckStub), sheet.Across, -struckStub - 5, "depth"}}}}
}

// setSize returns the dimension of a step before a member.
func setSize(set float64) []sizeMark {
	return []sizeMark{{geom.Pt(-set, -struckStub), geom.Pt(0, 0), sheet.Across, -struckStub - 5, "set"}}
}

// roundConstructions returns those of half rounds and of the thumb.
func roundConstructions(k profile.Kind) []Construction {
	half := "Halve the height: that is the center, and half the height the radius."
	switch k {
	case profile.KindTorus, profile.KindAstragal:
		return []Construction{{Title: "Semicircle on the height", Entry: "- " + string(k) + ": {height: 1/2}", element: profile.Torus{Height: rise}, radii: []string{"½ height"}, flat: true,
			Steps: []string{half, "It ends at the x where it began, and stands out by half its height."}, Source: ofPocketbook}}
	case profile.KindBead:
		return []Construction{{Title: "Standing out", Entry: "- bead: {height: 3/8}", element: profile.Bead{Height: 32}, radii: []string{"½ height"}, flat: true,
			Steps: []string{half}, Source: ofPocketbook,
		}, {Title: "Flush, with a quirk on either side", Entry: "- bead: {height: 3/8, flush: true, quirk: {width: 1/16, depth: 3/16}}", flat: true,
			element: profile.Bead{Height: 32, Flush: true, Quirk: &profile.SizedQuirk{Width: 7, Depth: 22}}, radii: []string{"½ height"}, tall: [2]float64{7, 39},
			Steps:  []string{"Flush sinks the bead until its crest is in the face.", "Beside it cut the quirks, half the bead's height deep at least. Sides: above, below or both.", "The height is the bead's alone; the quirks come to it."},
			Source: common,
			sizes:  []sizeMark{{geom.Pt(0, 0), geom.Pt(0, 7), sheet.Up, 7, "width"}, {geom.Pt(-22, 0), geom.Pt(0, -struckStub), sheet.Across, -struckStub - 5, "depth"}}}}
	case profile.KindReeds:
		return []Construction{{Title: "Reeds", Entry: "- reeds: {height: 1, count: 3, gap: 1/16}", element: profile.Reeds{Height: 48, Count: 3, Gap: 3}, flat: true,
			Steps: []string{"Take the gaps off the height and divide the rest by the count.", "Strike a half round on each part; between two of them lies a flat, if there is a gap."}, Source: common,
			sizes: []sizeMark{{geom.Pt(0, 14), geom.Pt(0, 17), sheet.Up, 14, "gap"}}}}
	case profile.KindFlutes:
		return []Construction{{Title: "Flutes", Entry: "- flutes: {height: 1 1/2, count: 3, gap: 1/8}", element: profile.Flutes{Height: 48, Count: 3, Gap: 4}, flat: true,
			Steps: []string{"Take the gaps off the height and divide the rest by the count.", "Strike a half-round hollow on each part; a flat must stay between two of them."}, Source: common,
			sizes: []sizeMark{{geom.Pt(0, 13.33), geom.Pt(0, 17.33), sheet.Up, 8, "gap"}}}}
	}
	return []Construction{{Title: "Quarter ellipse over its fillet", Entry: "- thumb: {height: 1/2, projection: -3/8, fillet: 1/8}",
		element: profile.Thumb{Height: rise, Projection: -32, Fillet: 10}, radii: []string{"a|b"},
		Steps:  []string{"Go plumb up by the fillet; the height includes it.", "From there draw a quarter of an ellipse that starts plumb and leans back: it rises what is left of the height, a, over the run, b."},
		Source: common, sizes: []sizeMark{{geom.Pt(0, 0), geom.Pt(0, 10), sheet.Up, 7, "fillet"}}}}
}

// freeConstructions returns those of curve and stack.
func freeConstructions(k profile.Kind) []Construction {
	if k == profile.KindCurve {
		through := geom.Pt(21, 9)
		e := profile.Curve{Points: []profile.SizedPoint{{At: geom.Pt(30, 26), Through: &through}, {At: geom.Pt(30, rise)}}}
		return []Construction{{Title: "Through points", Entry: "- curve: {points: [{x: 3/8, y: 5/16, through: [1/4, 1/8]}, {x: 3/8, y: 1/2}]}", element: e, radii: []string{"R"},
			Steps: []string{"x and y are counted from the start, S.", "Without through a straight line leads to a point; with it, the arc from the point before that passes through T.",
				"To find its center, join S, T and the point 1, and halve both lines squarely."}, Source: "Source: Euclid, Elements IV.5, the circle about a triangle; from memory.",
			marks: []spot{{geom.Point{}, "S", geom.Pt(1, -1)}, {through, "T", geom.Pt(1, -1)}, {geom.Pt(30, 26), "1", geom.Pt(1, 0)}, {geom.Pt(30, rise), "2", geom.Pt(1, 0)}}}}
	}
	p := profile.Profile{Name: "bed", Ground: profile.MM(20), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: profile.MM(6)}, {Kind: profile.KindCove, Height: profile.MM(16)}, {Kind: profile.KindFillet, Height: profile.MM(5), Set: profile.MM(3)},
	}}
	s, err := p.Section(nil)
	if err != nil {
		panic("template: " + err.Error()) // its sizes are right
	}
	return []Construction{{Title: "Another profile's face", Entry: "- stack: {profile: bed-mold, height: 3/4}", element: profile.Stack{Section: s},
		Steps: []string{"The face of the profile named is drawn from here on, without its back.", "Its height follows, as far as its own sizes are in parts or rest; its run is its last x less its ground.",
			"The name is looked for beside the file, then in your library, then in the one that listel brings."}, Source: common}}
}
