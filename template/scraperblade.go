package template

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/template/scraper"
	"listel/template/sheet"
)

// A bladePattern is one blade to cut out at full size, with what is marked on it.
type bladePattern struct {
	scraper.Blade
	name  string // of the molding
	words string // what it scrapes
}

// drawing returns the pattern at full size, its outline in the blade's own coordinates.
func (p bladePattern) drawing(st Style) sheet.Drawing {
	d := sheet.Drawing{cutLine(p.Outline)}
	d = d.Add(p.guideLine()...)
	inside, rest := p.labels(st)
	d = d.Add(inside...)
	return d.Add(p.caption(st, rest)...)
}

// hold returns the part of the steel over the edge, where there is room for words.
func (p bladePattern) hold() geom.Rect {
	o := p.Outline.Bounds()
	low := p.Edge.Bounds().Max.Y
	if p.Steel.Ears {
		low = math.Max(low, p.Steel.Shoulder)
	}
	half := p.Steel.Width / 2
	if w := p.Edge.Bounds(); !p.Steel.Ears || w.Max.X < o.Max.X-1e-9 || w.Min.X > o.Min.X+1e-9 {
		half = math.Min(p.Steel.Center-p.narrowest().Min.X, p.narrowest().Max.X-p.Steel.Center)
	}
	return geom.Rect{Min: geom.Pt(p.Steel.Center-half, low), Max: geom.Pt(p.Steel.Center+half, o.Max.Y)}
}

// narrowest returns the width of the steel at its top.
func (p bladePattern) narrowest() geom.Rect {
	o := p.Outline.Bounds()
	r := geom.EmptyRect()
	for _, g := range p.Outline {
		for _, q := range []geom.Point{g.Start(), g.End()} {
			if q.Y > o.Max.Y-1e-6 {
				r = r.Include(q)
			}
		}
	}
	return r
}

// labels returns the words that stand on the steel, and those that found no room there.
func (p bladePattern) labels(st Style) (inside sheet.Drawing, rest []string) {
	hold := p.hold()
	x := p.Steel.Center
	const top, foot = 3.0, 2.5 // mm, of center line at the top and of air over the edge
	y := hold.Max.Y - top - 1.5
	held, end := st.leanWords(p.Lean), "pull to "+string(p.Hand)+" end"
	if p.Knife != nil {
		held, end = "hook "+st.Lengths.Angle(p.Knife.Hook), "toward "+string(p.Hand)+" end"
	}
	lines := []struct {
		s    string
		size float64
		bold bool
	}{
		{p.Mark, 20, true}, {"this face up", nameSize, true}, {end, nameSize, false}, {held, nameSize, false}, {"this edge cuts", nameSize, true},
	}
	d := sheet.Drawing{sheet.Line(geom.Pt(x, hold.Max.Y-top), geom.Pt(x, hold.Max.Y), sheet.PenThin)}
	for i, l := range lines {
		t := sheet.Text{At: geom.Pt(x, y), S: l.s, Size: l.size, Anchor: sheet.Top}
		if l.bold {
			t.Weight = sheet.Bold
		}
		b := t.Bounds()
		if t.Width() > hold.Width()-3 || b.Min.Y < hold.Min.Y+foot {
			if i > 0 {
				rest = append(rest, l.s)
			} else {
				t.Size = math.Max(8, t.Size*(hold.Width()-3)/t.Width())
				d = d.Add(t)
				y = t.Bounds().Min.Y - 1.5
			}
			continue
		}
		d = d.Add(t)
		y = b.Min.Y - 1.2
	}
	if edge, ok := p.edgeAt(x); ok && y-edge > 3 {
		d = d.Add(sheet.Line(geom.Pt(x, edge+2), geom.Pt(x, y-0.6), sheet.PenThin), sheet.ArrowHead(geom.Pt(x, edge+0.6), geom.Pt(0, -1)))
	}
	return d, rest
}

// placeOn returns the place on the edge at u, or that of the nearer end.
func (p bladePattern) placeOn(u float64) float64 {
	for i, g := range p.Edge {
		if a, b := g.Start().X, g.End().X; u < b || i == len(p.Edge)-1 {
			if b-a < 1e-9 || u <= a {
				return float64(i)
			}
			up := geom.Line{A: geom.Pt(u, p.Edge.Bounds().Min.Y-1), B: geom.Pt(u, p.Edge.Bounds().Max.Y+1)}
			if c := geom.Crossings(up, g); len(c) > 0 {
				return float64(i) + c[0].TB
			}
			return float64(i + 1)
		}
	}
	return 0
}

// edgeAt returns the v of the edge at a place across.
func (p bladePattern) edgeAt(u float64) (float64, bool) {
	far := p.Outline.Bounds().Expand(5)
	up := geom.Line{A: geom.Pt(u, far.Min.Y), B: geom.Pt(u, far.Max.Y)}
	for _, g := range p.Edge {
		if c := geom.Crossings(up, g); len(c) > 0 {
			return c[len(c)-1].At.Y, true
		}
	}
	return 0, false
}

// guideLine returns a fine line inside the part of the edge that runs on finished wood.
func (p bladePattern) guideLine() sheet.Drawing {
	switch k := p.Guide.Kind; {
	case p.Knife != nil || k == scraper.GuideNone || k == scraper.GuideOwn || k == scraper.GuideHold:
		return nil
	}
	part := p.Edge.Trim(p.placeOn(p.Guide.U[0]), p.placeOn(p.Guide.U[1]))
	if part.Length() < 1 {
		return nil
	}
	return sheet.Drawing{sheet.Group{Name: "guide", Drawing: sheet.Drawing{sheet.Stroke{Path: part.Translate(geom.Pt(0, 1.2)), Pen: sheet.PenThin}}}}
}

// caption returns the words under the pattern: what it is, and what found no room on it.
func (p bladePattern) caption(st Style, rest []string) sheet.Drawing {
	b := p.Outline.Bounds()
	name := p.name + " " + p.Mark
	width := math.Max(math.Max(b.Width(), 44), math.Min(70, sheet.TextWidth(name, nameSize, sheet.Bold)+1))
	what := p.words
	held := sentence(append([]string{st.plungeWords(p.Plunge)}, rest...)...)
	size := fmt.Sprintf("steel %s x %s; %s", st.Lengths.Drawing(p.Steel.Width), st.Lengths.Drawing(p.Steel.Height), guideWords(p.Guide))
	if k := p.Knife; k != nil {
		size = fmt.Sprintf("blank %s x %s; cuts %s deep, filed %s; body of the head at most %s in radius", st.Lengths.Drawing(p.Steel.Width), st.Lengths.Drawing(p.Steel.Height),
			st.Lengths.Drawing(k.Depth), st.Lengths.Drawing(k.Filed), st.Lengths.Drawing(k.Body))
	}
	var d sheet.Drawing
	y := b.Min.Y - 5
	for i, s := range []string{name, what, held, size} {
		g := sheet.Paragraph{Text: s, Width: width, Size: nameSize}
		if i == 0 {
			g.Weight = sheet.Bold
		}
		words, h := g.Set(geom.Pt(b.Min.X, y))
		d = d.Add(words...)
		y -= h + 0.8
	}
	return d
}
