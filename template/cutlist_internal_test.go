package template

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// fitCase returns the pieces of a case whose moldings are all of the plan, with the profiles of testProfiles.
func fitCase(t testing.TB, plan miter.Plan, corners map[string]geom.Angle, moldings ...miter.Molding) miter.Result {
	t.Helper()
	c := miter.Case{Name: "test", Stages: []miter.Stage{{Name: "case", Plan: plan, Height: 900}}, Corners: corners, Moldings: moldings,
		Shop: miter.Shop{Rough: 25, Safe: 300}}
	r, err := miter.Fit(c, testSection, nil)
	require.NoError(t, err)
	return r
}

// testSection builds one of a few profiles, of our own invention: a base that leans back, an ovolo between fillets, a waist with a
// rabbet, a sprung cornice.
func testSection(name string) (profile.Section, error) {
	mm := profile.MM
	p := profile.Profile{Name: name, Units: measure.Millimeters}
	switch name {
	case "base":
		p.Ground = mm(22)
		p.Elements = []profile.Entry{{Kind: profile.KindFillet, Height: mm(70)}, {Kind: profile.KindCymaRecta, Height: mm(20), Projection: mm(-14)}}
	case "ovolo":
		p.Ground = mm(10)
		p.Elements = []profile.Entry{{Kind: profile.KindFillet, Height: mm(5)}, {Kind: profile.KindOvolo, Height: mm(16)}, {Kind: profile.KindFillet, Height: mm(5), Set: mm(3)}}
	case "waist":
		p.Ground = mm(45)
		p.Elements = []profile.Entry{{Kind: profile.KindCove, Height: mm(12)}, {Kind: profile.KindTorus, Height: mm(14), Set: mm(2)}}
		p.Back.Rabbet = &profile.Rabbet{At: profile.AtTop, Width: mm(12), Depth: mm(9)}
	case "bead":
		p.Ground = mm(6)
		p.Elements = []profile.Entry{{Kind: profile.KindAstragal, Height: mm(9)}}
	default:
		p.Ground = mm(9)
		p.Elements = []profile.Entry{{Kind: profile.KindFillet, Height: mm(6)}, {Kind: profile.KindCymaRecta, Height: mm(40), Projection: mm(38)}, {Kind: profile.KindFillet, Height: mm(6)}}
		wall := mm(8)
		p.Back.Spring = &profile.Spring{Angle: 40 * geom.Degree, Wall: wall}
	}
	return p.Section(nil)
}

// cutCases are results with every kind of end: outside and inside corners, returns, copes, off square, sprung, raking, narrowed.
func cutCases(t testing.TB) map[string]miter.Result {
	deep := miter.Plan{Width: 1500, Depth: 450, Canted: 80, Breakfront: &miter.Breakfront{Width: 700, Step: 60}}
	box := miter.Plan{Width: 900, Depth: 400}
	off := map[string]geom.Angle{"front-left": 91.5 * geom.Degree, "front-right": 87 * geom.Degree}
	molding := func(profile string, change func(*miter.Molding)) miter.Molding {
		m := miter.Molding{Name: profile, Profile: profile, At: 100}
		change(&m)
		return m
	}
	return map[string]miter.Result{
		"canted": fitCase(t, deep, nil,
			molding("sprung", func(m *miter.Molding) {}),
			molding("waist", func(m *miter.Molding) { m.Inside = miter.InsideCope })),
		"off square": fitCase(t, box, off,
			molding("base", func(m *miter.Molding) {}),
			molding("sprung", func(m *miter.Molding) {})),
		"returned": fitCase(t, box, nil,
			molding("sprung", func(m *miter.Molding) {
				m.Runs, m.EndLeft, m.EndRight = []string{"front"}, miter.EndReturn, miter.EndReturn
			}),
			molding("ovolo", func(m *miter.Molding) {
				m.Runs, m.EndLeft, m.EndRight = []string{"front"}, miter.EndReturn, miter.EndOpen
			})),
		"raking": fitCase(t, box, nil,
			molding("ovolo", func(m *miter.Molding) { m.Rake = &miter.RakeSpec{Pitch: 20 * geom.Degree, Broken: true, Plumb: true} })),
		"closed pediment": fitCase(t, box, nil,
			molding("ovolo", func(m *miter.Molding) { m.Rake = &miter.RakeSpec{Pitch: 15 * geom.Degree, Plumb: true} })),
		"framed": fitCase(t, box, nil,
			molding("waist", func(m *miter.Molding) { m.Frame = &miter.FrameSpec{RailWidth: 50, Tenon: 20} })),
		"beads": beadCase(t),
		"narrowed": fitCase(t, box, nil,
			molding("ovolo", func(m *miter.Molding) { m.Reach = map[string]float64{"left": 12} })),
	}
}

// beadCase returns a case with drawers whose beads end in miters and in vees, as a molding of its own.
func beadCase(t testing.TB) miter.Result {
	c := miter.Case{Name: "test", Stages: []miter.Stage{{Name: "case", Plan: miter.Plan{Width: 900, Depth: 400}, Height: 900}},
		Openings: &miter.Openings{Left: 25, Right: 25, Bottom: 50, Top: 850, Divider: 20, TopRow: 2, Graduate: miter.Graduation{Rows: 3, Ratio: 0.9}},
		Beads:    &miter.Beads{Profile: "bead"}, Shop: miter.Shop{Rough: 25, Safe: 300}}
	r, err := miter.Fit(c, testSection, nil)
	require.NoError(t, err)
	require.NotEmpty(t, r.Beads)
	r.Moldings = append(r.Moldings, miter.MoldingResult{Name: "beads", Pieces: r.Beads})
	return r
}

// bladeVectors returns two directions in the plane of the blade, in the saw's coordinates: right along the fence, into the fence, up. The
// first points from the fence to the operator along the table, the second up the blade.
func bladeVectors(s miter.Saw) (along, up [3]float64) {
	swing, tilt := handSign(s.Swing), handSign(s.Tilt)
	sm, cm := swing*s.Miter.Sin(), s.Miter.Cos()
	sb, cb := tilt*s.Bevel.Sin(), s.Bevel.Cos()
	return [3]float64{-sm, -cm, 0}, [3]float64{-cm * sb, sm * sb, cb}
}

func dot3(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func cross3(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// eachSaw calls check with every setting of the saw for every end of the cases' moldings.
func eachSaw(t *testing.T, check func(name string, p miter.Piece, end int, s miter.Saw)) {
	for name, r := range cutCases(t) {
		for _, m := range r.Moldings {
			for _, p := range m.Pieces {
				for i, e := range p.Ends {
					check(name, p, i, e.Standing)
					if e.Flat != nil {
						check(name, p, i, *e.Flat)
					}
				}
			}
		}
	}
}

// The saw as it is drawn, with the section lying as it is drawn, cuts the plane of the end, and leaves the piece on the side that is
// marked: the angles on the sheets against the plan's geometry.
func TestSawAsDrawnCutsTheEnd(t *testing.T) {
	ends := 0
	eachSaw(t, func(name string, p miter.Piece, i int, s miter.Saw) {
		ends++
		e := p.Ends[i]
		bed := bedOf(s, *p.Section)
		right := -bed.toFence.Cross(bed.up) // which way along the fence the piece's right end points
		var k sidesKept
		k.note(s, 0)
		d1, d2 := bladeVectors(s)
		normal := cross3(d1, d2)
		outward := [3]float64{right * e.Cut.X, bed.toFence.X, bed.up.X}
		upward := [3]float64{right * e.Cut.Y, bed.toFence.Y, bed.up.Y}
		require.InDelta(t, 0, dot3(normal, outward), 1e-9, "%s %s end %d", name, p.Mark, i)
		require.InDelta(t, 0, dot3(normal, upward), 1e-9, "%s %s end %d", name, p.Mark, i)
		body := right
		if i == 1 {
			body = -right
		}
		require.Equal(t, body, -handSign(s.Keep), "%s %s end %d keeps the piece on its side", name, p.Mark, i)
	})
	require.Greater(t, ends, 60)
}

// The section lies on the table and touches the fence.
func TestSectionTouchesTableAndFence(t *testing.T) {
	eachSaw(t, func(name string, p miter.Piece, _ int, s miter.Saw) {
		b := p.Section.Outline.Transform(bedOf(s, *p.Section).lay(*p.Section)).Bounds()
		require.InDelta(t, 0, b.Min.X, 1e-9, name)
		require.InDelta(t, 0, b.Min.Y, 1e-9, name)
	})
}

// A piece drawn without a break is as long on the sheet, at its scale, as the result says, each length at its place; and broken or
// not, its ends keep their slopes.
func TestDrawnLengthsAreThoseOfTheResult(t *testing.T) {
	whole := 0
	for name, r := range cutCases(t) {
		for _, m := range r.Moldings {
			for _, p := range m.Pieces {
				d := pieceDrawing{stick: newStick(p, m.Frame), width: 195, st: Style{Lengths: measure.Format{Units: measure.Inches}}}
				d.lo, d.hi = d.depth()
				d.setLine()
				for _, l := range d.lengths() {
					left, right := d.on(d.end(0, l.at), l.at), d.on(d.end(1, l.at), l.at)
					require.InDelta(t, left.Y, right.Y, 1e-9)
					if len(d.line.breaks) == 0 {
						whole++
						require.InDelta(t, l.mm, (right.X-left.X)/d.line.k, 0.05, "%s %s %s", name, p.Mark, l.words)
					}
				}
				box := p.Section.Outline.Bounds()
				for i := range p.Ends {
					if d.vee() {
						continue
					}
					a, b := d.on(d.end(i, box.Min), box.Min), d.on(d.end(i, box.Max), box.Max)
					want := p.Ends[i].Cut.At(box.Max) - p.Ends[i].Cut.At(box.Min)
					require.InDelta(t, want, (b.X-a.X)/d.line.k, 1e-6, "%s %s end %d", name, p.Mark, i)
				}
				lo, _ := d.span(0)
				_, hi := d.span(1)
				require.InDelta(t, p.Tip+p.Ends[0].Tenon+p.Ends[1].Tenon, hi-lo, 0.1, "%s %s from tip to tip", name, p.Mark)
				require.GreaterOrEqual(t, d.on(lo, geom.Point{}).X, endRoom-1e-6)
				require.LessOrEqual(t, d.on(hi, geom.Point{}).X, 195-endRoom+1e-6)
			}
		}
	}
	require.Greater(t, whole, 5)
}

// The outline of a piece seen from above has the area of its plan: back and long point over the depth, by the rule for a trapezoid.
func TestOutlineSeenHasTheAreaOfThePlan(t *testing.T) {
	for name, r := range cutCases(t) {
		for _, m := range r.Moldings {
			for _, p := range m.Pieces {
				s := newStick(p, nil)
				if s.view != viewAbove {
					continue
				}
				x := p.Section.Outline.Bounds()
				want := (p.Length(x.Min) + p.Length(geom.Pt(x.Max.X, x.Min.Y))) / 2 * x.Width()
				require.InDelta(t, want, math.Abs(geom.PolygonArea(s.outline())), want*1e-3, "%s %s", name, p.Mark)
			}
		}
	}
}

// Broken or not, a line keeps its order, is true near what must be seen, and fills no more than its room.
func TestBreakLine(t *testing.T) {
	seen := [][2]float64{{0, 20}, {300, 310}, {980, 1000}}
	b := breakLine(seen, 0.5, 120)
	require.Len(t, b.breaks, 2)
	last := -1.0
	for s := 0.0; s <= 1000; s++ {
		require.Greater(t, b.at(s), last)
		last = b.at(s)
	}
	for _, w := range seen {
		require.InDelta(t, (w[1]-w[0])*0.5, b.at(w[1])-b.at(w[0]), 1e-9)
	}
	require.InDelta(t, 120, b.at(1000), 1e-9)
	require.Empty(t, breakLine(seen, 0.1, 120).breaks, "it all fits")
}

// Settings that are the same are one, and no two of one molding are the same.
func TestSettingsAreDrawnOnce(t *testing.T) {
	for name, r := range cutCases(t) {
		var book settingBook
		for _, m := range r.Moldings {
			book.next()
			for _, p := range m.Pieces {
				for i, e := range p.Ends {
					set := book.add(p, i).standing
					require.InDelta(t, e.Standing.Miter.Degrees(), set.Miter.Degrees(), 1e-3, name)
					require.InDelta(t, e.Standing.Bevel.Degrees(), set.Bevel.Degrees(), 1e-3, name)
					require.Equal(t, [2]miter.Hand{e.Standing.Swing, e.Standing.Tilt}, [2]miter.Hand{set.Swing, set.Tilt}, name)
					require.Equal(t, e.Standing.Table, set.Table, name)
					if !straight(set) {
						require.Equal(t, e.Standing.Keep, set.Keep, "%s %s end %d", name, p.Mark, i)
						require.Equal(t, e.Standing.Fence, set.Fence, name)
					}
				}
			}
			for i, a := range book.molding() {
				for _, b := range book.molding()[i+1:] {
					require.False(t, a.kind == b.kind && a.standing == b.standing && a.flat == nil && b.flat == nil, "%s: %d and %d", name, a.n, b.n)
				}
			}
		}
	}
}
