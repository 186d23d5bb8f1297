package sheet_test

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

// drafting is a drawing with every kind of dimension and note on it.
func drafting() sheet.Drawing {
	p := molding().Translate(geom.Pt(-20, -100))
	d := sheet.Drawing{sheet.EndGrain(p), sheet.Stroke{Path: p, Pen: sheet.PenOutline}}
	at := func(xs ...float64) (out []geom.Point) {
		for i := 0; i < len(xs); i += 2 {
			out = append(out, geom.Pt(xs[i], xs[i+1]))
		}
		return out
	}
	const e = 1. / 3
	for _, c := range []sheet.Chain{
		{Along: sheet.Up, At: 70, Points: at(16+e, 0, 16+e, 6, 32+e, 22, 32+e, 28, 52+e, 40, 52+e, 46), Texts: []string{"1/4 in", "5/8 in", "1/4 in", "1/2 in", "1/4 in"}},
		{Along: sheet.Up, At: 112, Bare: true, Points: at(0, 0, 0, 2, 0, 4, 0, 6, 0, 28, 0, 40, 0, 42, 0, 44, 0, 46), Texts: []string{"1/16", "1/16", "1/16", "7/8 in", "1/2 in", "a", "b", "c"}},
		{Along: sheet.Up, At: -12, Below: true, Points: at(0, 0, 0, 2, 0, 46), Texts: []string{"1/16 in", "1 3/4 in"}},
		{Along: sheet.Across, At: 56, Points: at(0, 46, 16, 46, 32, 46, 35, 46, 38, 46, 52, 46), Texts: []string{"5/8 in", "5/8 in", "1/8 in", "1/8 in", "9/16 in"}},
		{Along: sheet.Across, At: -8, Below: true, Points: at(0, 0, 16+e, 0, 18, 0, 20, 0, 22, 0, 24, 0, 26, 0, 52, 46), Texts: []string{"5/8 in", "2 mm", "2 mm", "2 mm", "2 mm", "1 1/16 in", "26"}},
	} {
		d = d.Add(c.Drawing()...)
	}
	center, along := geom.Pt(32+e, 6), geom.Polar(1, 135*geom.Degree)
	d = d.Add(sheet.Leader{Tip: center.Add(along.Mul(16)), Elbow: center.Add(along.Mul(16 - 14)), Text: "R 5/8 in"}.Drawing()...)
	d = d.Add(sheet.CenterMark(center, 1.2)...)
	d = d.Add(sheet.Leader{Tip: geom.Pt(8, 12), Elbow: geom.Pt(-30, -14), Text: "straight grain,\nno knots", Dot: true}.Drawing()...)
	d = d.Add(sheet.Balloon(geom.Pt(40, 42), "3", 9)...)
	d = d.Add(sheet.WayUp(geom.Pt(140, 10), 32, "this way up")...)
	for _, m := range []sheet.Dim{
		{A: geom.Pt(0, -60), B: geom.Pt(40, -60), At: -52, Text: "40.0 mm"},
		{A: geom.Pt(60, -60), B: geom.Pt(72, -60), At: -52, Text: "12.0 mm"},
		{A: geom.Pt(110, -60), B: geom.Pt(113, -60), At: -52, Text: "3.0 mm"},
		{A: geom.Pt(0, -90), B: geom.Pt(0, -70), Along: sheet.Up, At: 10, Text: "20.0 mm"},
		{A: geom.Pt(30, -90), B: geom.Pt(30, -84), Along: sheet.Up, At: 36, Text: "6.0 mm"},
		{A: geom.Pt(55, -90), B: geom.Pt(55, -88), Along: sheet.Up, At: 60, Text: "2.0 mm"},
		{A: geom.Pt(80, -90), B: geom.Pt(110, -70), Along: sheet.Slant, At: 6, Text: "36.1 mm"},
		{A: geom.Pt(150, -90), B: geom.Pt(130, -70), Along: sheet.Slant, At: -6, Text: "28.3 mm", Ticks: true},
	} {
		d = d.Add(m.Drawing()...).Add(sheet.Line(m.A, m.B, sheet.PenOutline))
	}
	d = d.Add(sheet.AngleDim{Vertex: geom.Pt(100, 64), From: 20 * geom.Degree, Sweep: 50 * geom.Degree, Radius: 25, Text: "50.0°", Legs: true}.Drawing()...)
	d = d.Add(sheet.AngleDim{Vertex: geom.Pt(80, 64), From: 80 * geom.Degree, Sweep: 10 * geom.Degree, Radius: 20, Text: "10.0°", Legs: true}.Drawing()...)
	table := sheet.Table{
		Columns: []sheet.Column{{Head: "Mark"}, {Head: "Piece", Wrap: true}, {Head: "Length", Align: sheet.AlignRight}, {Head: "Note", Wrap: true}},
		Rows: [][]string{
			{"A1", "waist molding, front", "42 5/8 in", "miter both ends, the right hand end first, and mind the grain"},
			{"A2", "waist molding, left return", "18 5/16 in", "miter one end"},
			{"B1", "base", "42 in"},
		},
		Width: 165,
	}
	d = d.Add(table.Set(geom.Pt(-20, 140)).Drawing...)
	for i, pen := range []sheet.Pen{sheet.PenOutline, sheet.PenThin, sheet.PenHair, sheet.PenCut, sheet.PenHidden, sheet.PenCenter} {
		y := -18 - float64(i)*4
		d = d.Add(sheet.Line(geom.Pt(90, y), geom.Pt(150, y), pen))
	}
	return d
}

// texts returns all texts of a drawing, groups opened.
func texts(d sheet.Drawing) (out []sheet.Text) {
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Text:
			out = append(out, m)
		case sheet.Group:
			out = append(out, texts(m.Drawing)...)
		case sheet.Drawing:
			out = append(out, texts(m)...)
		}
	}
	return out
}

// overlapping returns the first two upright texts that print over one another.
func overlapping(d sheet.Drawing) string {
	ts := texts(d)
	for i, a := range ts {
		for _, b := range ts[i+1:] {
			ra, rb := a.Bounds().Expand(-0.05), b.Bounds().Expand(-0.05)
			if ra.Overlaps(rb) {
				return fmt.Sprintf("%q at %v and %q at %v", a.S, a.At, b.S, b.At)
			}
		}
	}
	return ""
}

// strikes returns a text that a stroke of the drawing runs through.
func strikes(d sheet.Drawing) string {
	for _, t := range texts(d) {
		box := t.Bounds().Expand(-0.1)
		for _, m := range d {
			if s, ok := m.(sheet.Stroke); ok && len(sheet.Drawing{s}.Clip(box)) > 0 {
				return fmt.Sprintf("%q at %v, struck by %v", t.S, t.At, s.Path)
			}
		}
	}
	return ""
}

// Labels of a chain never meet one another nor a line, whatever the steps.
func TestChainLabelsKeepApart(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	words := []string{"1/16 in", "1 23/64 in+", "3", "44.5 mm", "2 in"}
	for try := range 300 {
		var c sheet.Chain
		at := 0.0
		c.Along, c.Below, c.Bare = sheet.Direction(try%2), try%3 == 0, true
		for i := range 2 + rng.IntN(14) {
			if i > 0 {
				at += []float64{0.5, 2, 4, 9, 25}[rng.IntN(5)] * (0.5 + rng.Float64())
				c.Texts = append(c.Texts, words[rng.IntN(len(words))])
			}
			p := geom.Pt(at, 0)
			if c.Along == sheet.Up {
				p = geom.Pt(0, at)
			}
			c.Points = append(c.Points, p)
		}
		d := c.Drawing()
		require.Len(t, texts(d), len(c.Texts))
		require.Empty(t, overlapping(d), "try %d: %+v", try, c)
		require.Empty(t, strikes(d), "try %d: %+v", try, c)
	}
}

// Spread keeps order and distance, moves nothing that need not move, and no small change of its answer lies nearer to
// what is wanted.
func TestSpread(t *testing.T) {
	assert.Equal(t, []float64{0, 10, 20}, sheet.Spread([]float64{0, 10, 20}, []float64{2, 2, 2}, 1))
	assert.Equal(t, []float64{-2.5, 2.5}, sheet.Spread([]float64{0, 0}, []float64{2, 2}, 1))
	assert.Empty(t, sheet.Spread(nil, nil, 1))
	rng := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		n := 1 + rng.IntN(8)
		want, half := make([]float64, n), make([]float64, n)
		for i := range want {
			half[i] = 0.5 + rng.Float64()
			want[i] = 3 * rng.Float64()
			if i > 0 {
				want[i] += want[i-1]
			}
		}
		got := sheet.Spread(want, half, 0.2)
		cost := func(x []float64) (sum float64, ok bool) {
			for i := range x {
				if i > 0 && x[i]-x[i-1] < half[i]+half[i-1]+0.2-1e-9 {
					return 0, false
				}
				sum += (x[i] - want[i]) * (x[i] - want[i])
			}
			return sum, true
		}
		best, ok := cost(got)
		require.True(t, ok)
		for range 50 {
			x := append([]float64(nil), got...)
			for i := range x {
				x[i] += (rng.Float64() - 0.5) * 0.1
			}
			if c, ok := cost(x); ok {
				require.GreaterOrEqual(t, c, best-1e-9)
			}
		}
	}
}

// A dimension's text never lies on its own line, at any length and direction.
func TestDimTextIsClear(t *testing.T) {
	for length := 0.5; length < 60; length += 0.7 {
		for _, along := range []sheet.Direction{sheet.Across, sheet.Up} {
			d := sheet.Dim{B: geom.Pt(length, length), Along: along, At: -10, Text: "1 3/4 in"}.Drawing()
			require.Empty(t, strikes(d), "%v %v", length, along)
		}
	}
}

// Dimensions measure the same whichever end is named first.
func TestDimEndsMayChangeOver(t *testing.T) {
	a, b := geom.Pt(3, 4), geom.Pt(40, 30)
	for _, along := range []sheet.Direction{sheet.Across, sheet.Up} {
		one := sheet.Dim{A: a, B: b, Along: along, At: 50, Text: "x"}.Drawing()
		two := sheet.Dim{A: b, B: a, Along: along, At: 50, Text: "x"}.Drawing()
		assert.Equal(t, one.Bounds(), two.Bounds())
	}
}

func TestTable(t *testing.T) {
	table := sheet.Table{
		Columns: []sheet.Column{{Head: "Mark"}, {Head: "Note", Wrap: true}, {Head: "Length", Align: sheet.AlignRight}},
		Width:   70,
	}
	for i := range 30 {
		table.Rows = append(table.Rows, []string{fmt.Sprint("A", i), "a note that has to be broken into several lines " + fmt.Sprint(i), "44.5 mm"})
	}
	laid := table.Set(geom.Pt(10, 200))
	assert.InDelta(t, 70, laid.Width, 1e-9)
	assert.InDelta(t, 200-laid.Height, laid.Tops[30], 1e-9)
	b := laid.Drawing.Bounds()
	assert.GreaterOrEqual(t, b.Min.Y, 200-laid.Height-0.2)
	assert.LessOrEqual(t, b.Max.Y, 200.0)
	assert.LessOrEqual(t, b.Width(), 70.4)
	assert.Empty(t, overlapping(laid.Drawing))
	rows := 0
	for _, part := range table.Split(60) {
		set := part.Set(geom.Pt(10, 200))
		assert.LessOrEqual(t, set.Height, 60.0)
		assert.Equal(t, laid.Lefts, set.Lefts, "columns stand under one another on every sheet")
		rows += len(part.Rows)
	}
	assert.Equal(t, 30, rows)
	assert.Len(t, sheet.Table{Columns: table.Columns}.Split(50), 1)
	assert.Zero(t, sheet.Table{}.Set(geom.Point{}).Height)
}

func TestParagraph(t *testing.T) {
	g := sheet.Paragraph{Text: "Follow the machine's manual, local rules, and the guidance of a qualified person.\n\nThe end.", Width: 40}
	d, h := g.Set(geom.Pt(5, 50))
	assert.InDelta(t, g.Height(), h, 1e-12)
	b := d.Bounds()
	assert.GreaterOrEqual(t, b.Min.X, 5-1e-9)
	assert.LessOrEqual(t, b.Max.X, 45+1e-9)
	assert.InDelta(t, 50-h, b.Min.Y, 1e-6)
	assert.LessOrEqual(t, b.Max.Y, 50.2)
	assert.Empty(t, overlapping(d))
}

// Hatch lines cover the area: their length times their spacing is the area, whatever the angle (a strip sum of the
// outline, worked independently of the drawing).
func TestHatchCoversArea(t *testing.T) {
	outer, hole := geom.Circle(geom.Pt(3, 4), 20), geom.Circle(geom.Pt(5, 4), 8)
	for a := geom.Angle(0); a < 180; a += 22.5 {
		h := sheet.Hatch{Paths: []geom.Path{outer, hole}, Angle: a * geom.Degree, Spacing: 0.05, Pen: sheet.PenHair}
		assert.InEpsilon(t, math.Pi*(400-64), h.Lines().Length()*0.05, 2e-3, "%v", a)
		for _, s := range h.Lines() {
			mid := s.At(0.5)
			require.Less(t, mid.Dist(geom.Pt(3, 4)), 20.006)
			require.Greater(t, mid.Dist(geom.Pt(5, 4)), 7.994)
		}
	}
	assert.Empty(t, sheet.Hatch{Paths: []geom.Path{outer}}.Lines(), "no spacing, no lines")
	assert.LessOrEqual(t, len(sheet.Hatch{Paths: []geom.Path{outer}, Spacing: 1e-9}.Lines()), 4001)
}

// What has no size draws something finite or nothing.
func TestDegenerateDrafting(t *testing.T) {
	p := geom.Pt(20, 20)
	d := sheet.Drawing{}.Add(sheet.Dim{A: p, B: p, Along: sheet.Slant, At: 5, Text: "0"}.Drawing()...).
		Add(sheet.Dim{A: p, B: p, At: 30}.Drawing()...).
		Add(sheet.Chain{Points: []geom.Point{p, p, p}, Texts: []string{"a", "b"}, At: 40}.Drawing()...).
		Add(sheet.Chain{Points: []geom.Point{p}}.Drawing()...).
		Add(sheet.Leader{Tip: p, Elbow: p, Text: "x"}.Drawing()...).
		Add(sheet.AngleDim{Vertex: p, Text: "0"}.Drawing()...).
		Add(sheet.AngleDim{Vertex: p, Radius: 4, Text: "0"}.Drawing()...).
		Add(sheet.Line(p, p, sheet.PenCut), sheet.Line(p, p.Add(p), sheet.Pen{Dash: [4]float64{1, 1}}), sheet.Text{At: p}, sheet.Stroke{}, sheet.Fill{}, sheet.Hatch{}, sheet.Picture{})
	out := svg(t, bare(paper(t, "A4"), d))
	assert.NotContains(t, out, "NaN")
	assert.NotContains(t, out, "Inf")
	readBack(t, bare(paper(t, "A4"), d))
	assert.NotPanics(t, func() { d.Clip(geom.Rect{Min: geom.Pt(19, 19), Max: geom.Pt(21, 21)}) })
	require.NoError(t, sheet.WritePNG(io.Discard, bare(paper(t, "A4"), d), 2))
}
