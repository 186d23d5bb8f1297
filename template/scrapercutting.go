package template

import (
	"listel/profile/geom"
	"listel/template/scraper"
	"listel/template/sheet"
)

// Room between outlines and round them for a cutting machine, mm, and how wide their rows are at most.
const (
	cuttingGap   = 6.0
	cuttingWidth = 280.0
)

// BladeCutting returns a page for a cutting machine: the outlines of the blades in true millimeters, one closed path each and nothing
// else, side by side in rows without touching. Each is a group named after its mark.
func BladeCutting(p scraper.Plan) sheet.Page {
	var names []string
	var outlines []geom.Path
	for _, b := range p.Blades {
		names, outlines = append(names, "blade-"+b.Mark), append(outlines, b.Outline)
	}
	return cuttingPage(names, outlines, p.Section.Name+": blades", "Cutting outlines, true size in millimeters")
}

// GaugeCutting returns a page for a cutting machine with the gauges of a section: positive, then negative, for the left end. Turned over they serve the
// right end.
func GaugeCutting(p scraper.Plan) sheet.Page {
	outlines := []geom.Path{scraper.PositiveGauge(p.Section).Outline, scraper.NegativeGauge(p.Section).Outline}
	return cuttingPage([]string{"gauge-positive", "gauge-negative"}, outlines, p.Section.Name+": gauges", "Cutting outlines, true size in millimeters")
}

// cuttingPage sets outlines in rows from the top left on a page of their own size.
func cuttingPage(names []string, outlines []geom.Path, title, purpose string) sheet.Page {
	var d sheet.Drawing
	x, top, deepest := 0.0, 0.0, 0.0
	for i, o := range outlines {
		b := o.Bounds()
		if x > 0 && x+b.Width() > cuttingWidth {
			x, top, deepest = 0, top-deepest-cuttingGap, 0
		}
		path := o.Translate(geom.Pt(x-b.Min.X, top-b.Max.Y))
		d = d.Add(sheet.Group{Name: names[i], Drawing: sheet.Drawing{sheet.Stroke{Path: path, Pen: sheet.PenHair}}})
		x, deepest = x+b.Width()+cuttingGap, max(deepest, b.Height())
	}
	page := sheet.FitPage(d, cuttingGap, title, purpose)
	page.Clear = true
	return page
}
