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
		faces, out = append(faces, f), append(out, Templated{Section: s, Note: "the sawn face, corner " + angle})
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
	d = d.Add(gaugeWords(g, []string{sectionTitle(t.Section) + ", " + end, t.Section.Name + ", " + end, end})...)
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

// gaugeWords returns an arrow up and the first of the words that has room on the plate with it; the arrow alone, or nothing, when none has.
func gaugeWords(g scraper.Gauge, words []string) sheet.Drawing {
	pts := g.Outline.Flatten(0.1)
	tries := make([]sheet.Drawing, 0, 2*len(words)+1)
	arrow := sheet.WayUp(geom.Point{}, 9, "up")
	for _, s := range words {
		text := sheet.Text{S: s, Size: nameSize, Weight: sheet.Bold, Anchor: sheet.Left}
		text.At = geom.Pt(arrow.Bounds().Max.X+2, 4.5)
		level := text
		text.At, text.Angle = geom.Pt(0, 12), 90*geom.Degree
		tries = append(tries, arrow.Add(text), arrow.Add(level))
	}
	for _, d := range append(tries, arrow) {
		box := d.Bounds()
		if at, ok := roomIn(pts, g.Outline.Bounds(), geom.EmptyRect(), box.Width()+2.5, box.Height()+2.5); ok {
			return d.At(at.Sub(box.Center()))
		}
	}
	return nil
}

func hiddenFromFront(s profile.Section) bool {
	return slices.ContainsFunc(s.Undercuts(), func(u profile.Undercut) bool { return u.From == profile.FromFront })
}
