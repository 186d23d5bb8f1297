package template

import (
	"fmt"
	"math"
	"strings"

	"listel/miter/stock"
	"listel/profile/geom"
	"listel/template/sheet"
)

// row draws a stick: its trimmed ends dark, its pieces with their marks, the kerfs between them, and what is left. Its lower left corner is anywhere.
func (d stickDiagram) row(r stickRow) sheet.Drawing {
	shop := d.c.Purchase.Job.Shop
	bar := func(from, to float64) geom.Rect {
		return geom.Rect{Min: geom.Pt(from*d.k, 0), Max: geom.Pt(to*d.k, barHigh)}
	}
	trim := r.Trim / 2
	out := sheet.Drawing{sheet.Text{At: geom.Pt(0, barHigh+2), S: d.rowTitle(r), Size: nameSize, Weight: sheet.Bold}}
	if trim > 0 {
		out = out.Add(sheet.FillBox(bar(0, trim), 0.35), sheet.FillBox(bar(r.Length-trim, r.Length), 0.35))
	}
	points, texts := []geom.Point{geom.Pt(trim*d.k, 0)}, []string{}
	at := trim
	end := r.Length - trim
	runs := runsOf(r.Cuts)
	like := 0 // cuts before this one that are the same
	for i, run := range runs {
		start := at
		for _, c := range run {
			out = out.Add(d.piece(c, bar(at, at+c.Length))...)
			if i > 0 && len(run) == 1 && len(runs[i-1]) == 1 && sameCut(runs[i-1][0], c) {
				like++
				points, texts = points[:len(points)-1], texts[:len(texts)-1]
			} else {
				like = 0
			}
			points = append(points, geom.Pt((at+c.Length)*d.k, 0))
			texts = append(texts, d.cutText(c, like+1))
			at += c.Length
			if kerf := min(shop.Kerf, end-at); kerf > 0 {
				out = out.Add(sheet.FillBox(bar(at, at+kerf), 0))
				at += kerf
			}
		}
		if len(run) > 1 {
			out = d.grain(bar(start, at)).Add(out...)
		}
	}
	out = out.Add(sheet.Box(bar(0, r.Length), sheet.PenOutline))
	if r.Left*d.k > 0.3 {
		out = out.Add(d.left(r, bar(at, end))...)
		points, texts = append(points, geom.Pt(end*d.k, 0)), append(texts, d.st.figure(r.Left))
	}
	return out.Add(sheet.Chain{Points: points, Texts: texts, At: -3.5, Below: true, Size: figureSize}.Drawing()...)
}

// rowTitle names the strips or sticks of a row.
func (d stickDiagram) rowTitle(r stickRow) string {
	what := "Strip"
	if r.Board == 0 || len(d.c.Purchase.Blanks) == 0 {
		what = "Stick"
	}
	if len(r.numbers) > 1 {
		what += "s"
	}
	var n []string
	for _, k := range r.numbers {
		n = append(n, fmt.Sprint(k))
	}
	title := what + " " + ListWords(n)
	if len(d.c.Purchase.Blanks) == 0 {
		title += ": " + d.kind(r.Item)
		if r.Width(d.c) > 0 {
			title += ", " + d.st.figure(r.Width(d.c)) + " wide"
		}
		title += ", " + d.long(r.Length)
		if r.Offcut {
			title += ", on the rack"
		}
		return title
	}
	title += ": " + strings.TrimPrefix(d.c.Strip(r.Profile), "the ")
	if r.Layers > 1 {
		title += fmt.Sprintf(", %d layers glued up", r.Layers)
	}
	if d.c.edgeBoard(r.Profile) > 0 && r.Board > 0 {
		b, _ := d.c.Purchase.Blank(r.Profile)
		title += fmt.Sprintf(": mold it on the edge of the rest of the board, planed to %s; rip it off last", d.st.figure(min(b.Width, b.Thickness)))
	}
	return title
}

// Width returns the width of the stick as it is sold, 0 when none is told.
func (r stickRow) Width(c Cutting) float64 {
	it, _ := c.item(r.Item)
	return it.Width
}

// piece draws one piece with its mark, where that fits.
func (d stickDiagram) piece(c stock.Cut, box geom.Rect) sheet.Drawing {
	out := sheet.Drawing{sheet.Box(box, sheet.PenThin)}
	if extra(c) {
		out = sheet.Drawing{sheet.FillBox(box, 0.9), sheet.Box(box, sheet.PenThin)}
	}
	if isTest(c) {
		out = d.testSign(box)
	}
	if d.holds(c) {
		t := sheet.Text{At: box.Center(), S: c.Mark, Size: nameSize, Anchor: sheet.Middle, Halo: !extra(c) || isTest(c)}
		if !extra(c) {
			t.Weight = sheet.Bold
		}
		out = out.Add(t)
	}
	return out
}

// extra reports whether a cut is no piece of the job: spare wood, or a length for tests.
func extra(c stock.Cut) bool { return c.Mark == stock.SpareMark || c.Mark == stock.TestMark }

func isTest(c stock.Cut) bool { return c.Mark == stock.TestMark }

// testSign draws a length that is cut off before the stick is molded: hatched, a heavy line where it is cut.
func (d stickDiagram) testSign(box geom.Rect) sheet.Drawing {
	path := geom.Polygon(box.Min, geom.Pt(box.Max.X, box.Min.Y), box.Max, geom.Pt(box.Min.X, box.Max.Y))
	return sheet.Drawing{sheet.FillBox(box, 0.9), sheet.Hatch{Paths: []geom.Path{path}, Angle: 45 * geom.Degree, Spacing: 2.2, Pen: sheet.PenHair}, sheet.Box(box, sheet.PenThin),
		sheet.Line(geom.Pt(box.Min.X, box.Min.Y-1), geom.Pt(box.Min.X, box.Max.Y+1), sheet.PenOutline)}
}

// holds reports whether the mark of a cut fits into its box.
func (d stickDiagram) holds(c stock.Cut) bool {
	return sheet.TextWidth(c.Mark, nameSize, sheet.Bold)+1.6 <= c.Length*d.k
}

// cutText returns the length of n equal cuts beside one another, with their mark where that does not fit into the box.
func (d stickDiagram) cutText(c stock.Cut, n int) string {
	text := d.st.rough(c.Length)
	if n > 1 {
		text = fmt.Sprintf("%d × %s", n, text)
	}
	if d.holds(c) {
		return text
	}
	return c.Mark + " " + text
}

// left draws what is left of a stick: crossed out, or dashed round when it is worth keeping.
func (d stickDiagram) left(r stickRow, box geom.Rect) sheet.Drawing {
	if !r.Keep {
		return sheet.Drawing{sheet.Line(box.Min, box.Max, sheet.PenHair), sheet.Line(geom.Pt(box.Min.X, box.Max.Y), geom.Pt(box.Max.X, box.Min.Y), sheet.PenHair)}
	}
	out := sheet.Drawing{sheet.Box(box.Expand(-1), sheet.PenHidden)}
	if box.Width() > sheet.TextWidth("keep", nameSize, sheet.Regular)+4 {
		out = out.Add(sheet.Text{At: box.Center(), S: "keep", Size: nameSize, Anchor: sheet.Middle})
	}
	return out
}

// grain draws the grain that runs on through the pieces of a run: two waved lines that no kerf breaks, with an arrow at the right.
func (d stickDiagram) grain(box geom.Rect) sheet.Drawing {
	const wave, step, high = 46.0, 1.5, 0.7 // mm: of a wave, of a chord of it, of its crest
	var out sheet.Drawing
	for _, part := range []float64{0.2, 0.5, 0.8} {
		y := box.Min.Y + part*box.Height()
		var pts []geom.Point
		n := int(math.Ceil((box.Width() - grainTip) / step))
		for i := range n + 1 {
			x := (box.Width() - grainTip) * float64(i) / float64(n)
			pts = append(pts, geom.Pt(box.Min.X+x, y+high*math.Sin(2*math.Pi*(x/wave+part))))
		}
		out = out.Add(sheet.Polyline(sheet.PenHair.WithGray(0.45), pts...))
		out = out.Add(sheet.ArrowHead(pts[len(pts)-1].Add(geom.Pt(1.4, 0)), geom.Pt(1, 0)))
	}
	return out
}

// legend tells what the signs of the diagrams mean.
func (d stickDiagram) legend() sheet.Drawing {
	const wide, high = 16.0, 6.0
	signs := []struct {
		draw  func(geom.Rect) sheet.Drawing
		words string
		needs bool
	}{
		{func(r geom.Rect) sheet.Drawing { return d.grain(r).Add(sheet.Box(r, sheet.PenThin)) },
			"the grain runs on from piece to piece: cut them in this order, the left end of each to the left, its face toward you", d.runs()},
		{func(r geom.Rect) sheet.Drawing { return sheet.Drawing{sheet.FillBox(r, 0.35)} }, "trimmed off, checks and paint with it", d.c.Purchase.Job.Shop.Trim > 0},
		{func(r geom.Rect) sheet.Drawing {
			return sheet.Drawing{sheet.FillBox(r, 0.9), sheet.Box(r, sheet.PenThin)}
		},
			"spare", d.c.Purchase.Job.Shop.Spare > 0},
		{d.testSign, d.testLegend(), d.tests()},
		{func(r geom.Rect) sheet.Drawing { return sheet.Drawing{sheet.Box(r.Expand(-0.5), sheet.PenHidden)} }, "worth keeping", true},
		{func(r geom.Rect) sheet.Drawing {
			return sheet.Drawing{sheet.Line(r.Min, r.Max, sheet.PenHair), sheet.Line(geom.Pt(r.Min.X, r.Max.Y), geom.Pt(r.Max.X, r.Min.Y), sheet.PenHair), sheet.Box(r, sheet.PenThin)}
		}, "too short to keep", true},
	}
	var out sheet.Drawing
	x, y := 0.0, 0.0
	for _, s := range signs {
		if !s.needs {
			continue
		}
		w := wide + 2 + sheet.TextWidth(s.words, noteSize, sheet.Regular)
		if x > 0 && x+w > d.width {
			x, y = 0, y-high-2.5
		}
		box := geom.Rect{Min: geom.Pt(x, y-high), Max: geom.Pt(x+wide, y)}
		words, _ := sheet.Paragraph{Text: s.words, Width: d.width - wide - 2, Size: noteSize}.Set(geom.Pt(x+wide+2, y-high/2+sheet.CapHeight(noteSize)/2))
		out = out.Add(s.draw(box)...).Add(words...)
		x += w + 7
		if w > d.width {
			x, y = 0, y-high-2.5
		}
	}
	return out
}

// testLegend says what a length for tests is.
func (d stickDiagram) testLegend() string {
	if len(d.c.Purchase.Blanks) == 0 {
		return "a length to set machines up with"
	}
	return "a length to set machines up with: cut it off before anything is molded"
}

// runs reports whether any grain runs on.
func (d stickDiagram) runs() bool {
	for _, s := range d.c.Plan.Sticks {
		for _, r := range runsOf(s.Cuts) {
			if len(r) > 1 {
				return true
			}
		}
	}
	return false
}
