package template

import (
	"math"
	"slices"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/scraper"
	"listel/template/sheet"
)

// GaugeSheets returns the sheets with check gauges of sections at full size, positive and negative, for both hands. The positive
// ones are the section itself, as on its template sheet; with onlyNegative they are left out.
func GaugeSheets(all []Templated, onlyNegative bool, st Style) []sheet.Page {
	if len(all) == 0 {
		return nil
	}
	title := "Check gauges"
	if len(all) == 1 {
		title = sectionTitle(all[0].Section) + ": gauges"
	}
	f := st.frame(title, "Cut from thin stiff stock to the middle of the heavy dashed line; hold to the work against the light", "")
	area := f.Area(st.Paper)
	var parts []part
	var large []sheet.Drawing
	for _, t := range all {
		var set []part
		for _, d := range gaugeDrawings(t, onlyNegative) {
			if p := newPart(d); p.fits(area) {
				set = append(set, p)
			} else {
				large = append(large, d)
			}
		}
		parts = append(parts, together(set, area)...)
	}
	pages := stackRows(parts, f, area, st)
	for _, d := range large {
		pages = append(pages, st.tiles(d, f)...)
	}
	return pages
}

// CaseGauges returns the sections of a case that gauges are made for: those that pieces are cut from and those that mark them, raking ones
// among them, and the faces of the miters.
func CaseGauges(r miter.Result, st Style) []Templated {
	var out []Templated
	add := func(s profile.Section, note string) {
		if !slices.ContainsFunc(out, func(t Templated) bool { return t.Section.Name == s.Name }) {
			out = append(out, Templated{Section: s, Note: note})
		}
	}
	for _, m := range r.Moldings {
		for _, u := range m.Sections {
			if u.Role != miter.RoleRail {
				add(u.Section, roleNote(m.Name, u.Role))
			}
		}
		out = append(out, faceGauges(m, out, st)...)
	}
	for _, p := range r.Beads {
		if p.Section != nil {
			add(*p.Section, "bead round the openings")
		}
	}
	return out
}

// gaugeSame is by how much two sawn faces may differ in width, mm, for one gauge to serve both: less than it shows against the light.
const gaugeSame = 0.2

// faceGauges returns the sections of the sawn faces of a molding that have no gauge yet, with their corners: faces that are nearly the same share one.
func faceGauges(m miter.MoldingResult, known []Templated, st Style) []Templated {
	var out []Templated
	var faces []*miterFace // of out
	for _, f := range miterFaces(m) {
		to := faceMap(f.cut)
		i := slices.IndexFunc(faces, func(g *miterFace) bool {
			of := faceMap(g.cut)
			wide, high := f.section.Projection, f.section.Height
			return g.section.Name == f.section.Name && math.Abs(of.A-to.A)*wide < gaugeSame && math.Abs(of.C-to.C)*wide < gaugeSame && math.Abs(of.D-to.D)*high < gaugeSame
		})
		angle := st.Lengths.Angle(f.corner)
		if i >= 0 {
			if note := &out[i].Note; !strings.Contains(*note, angle) {
				*note += " and " + angle
			}
			continue
		}
		s := f.section.Mapped(f.section.Name+" miter", to)
		s.Title = sectionTitle(f.section) + ": miter"
		if has := func(t Templated) bool { return t.Section.Name == s.Name }; slices.ContainsFunc(out, has) {
			s.Name += " " + angle
		} else if slices.ContainsFunc(known, has) {
			continue // another molding of the same profile
		}
		faces, out = append(faces, f), append(out, Templated{Section: s, Note: "the sawn face, corner " + angle, Face: true})
	}
	return out
}

// gaugeDrawings returns the gauges of one section.
func gaugeDrawings(t Templated, onlyNegative bool) []sheet.Drawing {
	var out []sheet.Drawing
	if !onlyNegative {
		for _, p := range sectionPatterns(t).patterns {
			p.hand += "; positive"
			out = append(out, p.drawing())
		}
	}
	g := scraper.NegativeGauge(t.Section)
	hands := []scraper.Gauge{g, g.Mirrored()}
	if t.Section.OwnMirror(sameTemplate) {
		hands = hands[:1]
	}
	for _, h := range hands {
		out = append(out, negativeGauge(h, t, len(hands) == 1))
	}
	return out
}

// negativeGauge returns one negative gauge with its words.
func negativeGauge(g scraper.Gauge, t Templated, both bool) sheet.Drawing {
	d := sheet.Drawing{cutLine(g.Outline)}
	b := g.Outline.Bounds()
	end := "left end"
	if g.Hand == scraper.RightHand {
		end = "right end"
	}
	if both {
		end = "either end"
	}
	d = d.Add(gaugeWords(g, t, end)...)
	y := b.Min.Y - 5
	how := "negative, " + end + "; the arrow points up, the hook goes under the foot"
	if len(t.Section.Undercuts()) > 0 && hiddenFromFront(t.Section) {
		how += "; slide it on from the end"
	}
	for i, s := range []string{sectionTitle(t.Section), how, t.Note} {
		if s == "" {
			continue
		}
		p := sheet.Paragraph{Text: s, Width: max(b.Width(), 55), Size: nameSize}
		if i == 0 {
			p.Size, p.Weight = headingSize, sheet.Bold
		}
		set, h := p.Set(geom.Pt(b.Min.X, y))
		d = d.Add(set...)
		y -= h + 0.8
	}
	return d
}

// gaugeWords returns what a gauge bears when it is cut out: an arrow up, with its title and its end in the largest lettering and the fewest lines that have
// room on the plate, else whether it is of the miter or of the section, and its end; the arrow alone, or nothing, when none has.
func gaugeWords(g scraper.Gauge, t Templated, end string) sheet.Drawing {
	title, kind := sectionTitle(t.Section), "section"
	if t.Face {
		kind = "miter"
	}
	var tries []sheet.Drawing
	sizes := []float64{nameSize, noteSize, smallName}
	for _, size := range sizes {
		tries = append(tries, gaugeLettering([]string{title + ", " + end}, size)...)
		for most := 1; most <= 4; most++ {
			tries = append(tries, gaugeLettering(append(broken(title, most), end), size)...)
		}
	}
	for _, lines := range [][]string{{kind + ", " + end}, {kind, end}, {end}} {
		for _, size := range sizes {
			tries = append(tries, gaugeLettering(lines, size)...)
		}
	}
	pts := g.Outline.Flatten(0.1)
	for _, d := range append(tries, sheet.WayUp(geom.Point{}, 9, "up")) {
		box := d.Bounds()
		if at, ok := roomIn(pts, g.Outline.Bounds(), geom.EmptyRect(), box.Width()+2.5, box.Height()+2.5); ok {
			return d.At(at.Sub(box.Center()))
		}
	}
	return nil
}

// gaugeLettering returns an arrow up with lines of bold lettering: beside it, running up over it, and level over it.
func gaugeLettering(lines []string, size float64) []sheet.Drawing {
	const long = 9.0 // mm, of the arrow
	arrow, step := sheet.WayUp(geom.Point{}, long, "up"), sheet.LineHeight(size)
	right := arrow.Bounds().Max.X + 2
	beside, up, over := arrow, arrow, arrow
	for i, s := range lines {
		row := float64(i)
		last := float64(len(lines)-1) / 2
		t := sheet.Text{S: s, Size: size, Weight: sheet.Bold, Anchor: sheet.Left}
		t.At = geom.Pt(right, long/2+(last-row)*step)
		beside = beside.Add(t)
		t.At = geom.Pt(arrow.Bounds().Min.X, long+2+(2*last-row+0.5)*step)
		over = over.Add(t)
		t.At, t.Angle = geom.Pt((row-last)*step, long+3), 90*geom.Degree
		up = up.Add(t)
	}
	return []sheet.Drawing{beside, up, over}
}

// broken returns words in at most so many lines, the longest of them as short as it can be.
func broken(s string, most int) []string {
	words := strings.Fields(s)
	for room := len(s) / most; ; room++ {
		lines := []string{""}
		for _, w := range words {
			last := &lines[len(lines)-1]
			switch {
			case *last == "":
				*last = w
			case len(*last)+1+len(w) <= room:
				*last += " " + w
			default:
				lines = append(lines, w)
			}
		}
		if len(lines) <= most {
			return lines
		}
	}
}

func hiddenFromFront(s profile.Section) bool {
	return slices.ContainsFunc(s.Undercuts(), func(u profile.Undercut) bool { return u.From == profile.FromFront })
}
