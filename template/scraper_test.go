package template_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
	"listel/template/scraper"
	"listel/template/sheet"
)

func blades(t testing.TB, s profile.Section, o scraper.Options) scraper.Plan {
	t.Helper()
	p, err := scraper.Make(s, o)
	require.NoError(t, err)
	return p
}

var leaning = scraper.Options{Lean: 20 * geom.Degree}

// scraperPages returns every sheet that a profile's scrapers come on.
func scraperPages(p scraper.Plan, st template.Style) []sheet.Page {
	pages := template.ScraperSheets([]template.Scraping{{Plan: p}}, st)
	pages = append(pages, template.ScratchSheets(p.Section, st)...)
	return append(pages, template.GaugeSheets([]template.Templated{{Section: p.Section}}, false, st)...)
}

// Every blade and every gauge is on its sheet at full size, to 0.01 mm, read back from the file.
func TestBladesReadBack(t *testing.T) {
	t.Parallel()
	for _, name := range libraryNames {
		_, s := libraryProfile(t, name, 1)
		p := blades(t, s, leaning)
		f := readBack(t, scraperPages(p, style(t, "A4", measure.Millimeters)))
		outlines := map[string]geom.Path{"negative gauge": scraper.NegativeGauge(s).Outline, "positive gauge": s.Outline}
		for _, b := range p.Blades {
			outlines["blade "+b.Mark] = b.Outline
		}
		if k, ok := scraper.NewScratchStock(s); ok {
			outlines["scratch stock's blade"] = k.Blade.Outline
			outlines["scratch stock's holder"] = k.Holder
		}
		for what, outline := range outlines {
			found := false
			for _, page := range f.Pages {
				for _, pen := range []sheet.Pen{sheet.PenHair, sheet.PenOutline} {
					found = found || findOutline(page, outline, pen.Width) != nil
				}
			}
			require.True(t, found, "%s: the %s is not on its sheet", name, what)
		}
	}
}

// Nothing clashes on the sheets of scrapers, knives and gauges.
func TestNothingClashesOnScraperSheets(t *testing.T) {
	t.Parallel()
	options := []scraper.Options{{}, leaning, {MaxWidth: 12}, {Head: &scraper.Head{Radius: 90, Hook: 15 * geom.Degree}}}
	zero := geom.Angle(0)
	options = append(options, scraper.Options{Plunge: &zero})
	for i, paper := range []string{"A4", "Letter landscape", "Letter", "A5", "ANSI B"} {
		st := style(t, paper, measure.Units(i%2))
		for _, name := range libraryNames {
			_, s := libraryProfile(t, name, 1)
			for j, page := range (sheet.Document{Pages: scraperPages(blades(t, s, options[i%len(options)]), st)}).Numbered().Pages {
				require.Empty(t, clashes(page), "%s on %s, page %d", name, paper, j+1)
			}
		}
	}
}

// Blades on one sheet keep clear of each other, on paper and in the file for a cutting machine.
func TestBladesNestWithoutTouching(t *testing.T) {
	for _, name := range libraryNames {
		_, s := libraryProfile(t, name, 1)
		p := blades(t, s, leaning)
		pages := append(template.ScraperSheets([]template.Scraping{{Plan: p}}, style(t, "A4", measure.Millimeters)), template.BladeCutting(p))
		for i, page := range pages {
			var outlines []geom.Path
			for _, g := range groupsNamed(page.Content, "cut", "blade-") {
				_, strokes := marksOf(g.Drawing)
				outlines = append(outlines, strokes[0].Path)
			}
			for j, a := range outlines {
				for _, b := range outlines[j+1:] {
					require.False(t, a.Bounds().Expand(2).Overlaps(b.Bounds().Expand(2)), "%s, page %d", name, i+1)
				}
			}
		}
	}
}

// groupsNamed returns the groups of a drawing whose names begin so.
func groupsNamed(d sheet.Drawing, names ...string) []sheet.Group {
	var out []sheet.Group
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Group:
			for _, n := range names {
				if strings.HasPrefix(m.Name, n) {
					out = append(out, m)
				}
			}
			out = append(out, groupsNamed(m.Drawing, names...)...)
		case sheet.Drawing:
			out = append(out, groupsNamed(m, names...)...)
		}
	}
	return out
}

// The file for a cutting machine holds one closed path a blade and nothing else that could be cut, one user unit to the millimeter.
func TestCuttingFile(t *testing.T) {
	_, s := libraryProfile(t, "press-waist", 1)
	p := blades(t, s, leaning)
	for _, page := range []sheet.Page{template.BladeCutting(p), template.GaugeCutting(p)} {
		var b bytes.Buffer
		require.NoError(t, sheet.WriteSVG(&b, page))
		paths, shapes := svgShapes(t, b.Bytes())
		require.Len(t, paths, 2, "two blades, or two gauges")
		require.Empty(t, shapes)
		for _, d := range paths {
			require.Equal(t, 1, strings.Count(d, "M"), "one run of the pen")
			require.Equal(t, 1, strings.Count(d, "Z"), "closed")
			require.True(t, strings.HasSuffix(d, "Z"))
		}
		require.Contains(t, b.String(), fmt.Sprintf(`width="%.4gmm"`, page.Paper.Width)[:9])
	}
	all := template.BladeCutting(p)
	for i, g := range groupsNamed(all.Content, "blade-") {
		require.Equal(t, "blade-"+p.Blades[i].Mark, g.Name)
		_, strokes := marksOf(g.Drawing)
		require.InDelta(t, p.Blades[i].Outline.Area(), strokes[0].Path.Area(), 1e-9)
		require.InDelta(t, p.Blades[i].Steel.Width, strokes[0].Path.Bounds().Width(), 1e-9)
	}
}

// svgShapes returns the paths of an SVG file and the names of its other shapes.
func svgShapes(t *testing.T, data []byte) (paths, others []string) {
	t.Helper()
	for dec := xml.NewDecoder(bytes.NewReader(data)); ; {
		tok, err := dec.Token()
		if tok == nil {
			return paths, others
		}
		require.NoError(t, err)
		if e, ok := tok.(xml.StartElement); ok {
			switch e.Name.Local {
			case "path":
				for _, a := range e.Attr {
					if a.Name.Local == "d" {
						paths = append(paths, a.Value)
					}
				}
			case "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "image", "use":
				others = append(others, e.Name.Local)
			}
		}
	}
}

// What the set-ups left is stated where it lies, and what a blade cannot scrape is named.
func TestScraperWords(t *testing.T) {
	_, s := libraryProfile(t, "press-waist", 1)
	st := style(t, "A4", measure.Millimeters)
	c := template.Scraping{Plan: blades(t, s, leaning), Remains: []template.Remaining{{Y0: 4, Y1: 9, Depth: 0.3}, {Y0: 20, Y1: 21, Depth: 0.12}}}
	require.Contains(t, pageWords(template.ScraperSheets([]template.Scraping{c}, st)), "0.30 mm at the cove (2), 0.12 mm at the torus (4)")
	inches := pageWords(template.ScraperSheets([]template.Scraping{c}, style(t, "A4", measure.Inches)))
	require.Contains(t, inches, "0.012″ at the cove (2), 0.005″ at the torus (4)")
	require.NotContains(t, inches, " mm ")
	c.Remains = []template.Remaining{}
	require.Contains(t, pageWords(template.ScraperSheets([]template.Scraping{c}, st)), "next to nothing")
	c.Remains = nil
	words := pageWords(template.ScraperSheets([]template.Scraping{c}, st))
	require.NotContains(t, words, "set-ups leave")
	for _, want := range []string{"this edge cuts", "this face up", "pull to left end", "leaning 20.0°", "45.0° from below", "lip along the foot", "Fresh edges and corners cut fingers"} {
		require.Contains(t, words, want)
	}
	level := geom.Angle(0)
	words = pageWords(template.ScraperSheets([]template.Scraping{{Plan: blades(t, s, scraper.Options{Plunge: &level})}}, st))
	require.Contains(t, words, "lies along the plunge asked for, blade B scrapes it")
	words = pageWords(template.ScraperSheets([]template.Scraping{{Plan: blades(t, s, scraper.Options{Head: &scraper.Head{Radius: 80, Hook: 15 * geom.Degree}})}}, st))
	for _, want := range []string{"in pairs of the same weight", "Feed by hand only with tooling", "manuals of machine and head", "qualified person", "hook 15.0°"} {
		require.Contains(t, words, want)
	}
}

// pageWords returns all that is written on pages, with single spaces.
func pageWords(pages []sheet.Page) string {
	var out []string
	for _, p := range pages {
		texts, _ := marksOf(p.Content)
		for _, t := range texts {
			out = append(out, t.S)
		}
	}
	return strings.Join(strings.Fields(strings.Join(out, " ")), " ")
}

// A packet's scrapers say what its plans of set-ups leave: of the sprung cornice's cyma, whose arcs no cutter at hand fits, no more than the plan's
// deepest remainder.
func TestPacketStatesWhatTheSetupsLeave(t *testing.T) {
	job := exampleJob(t)
	st := style(t, "A4", measure.Millimeters)
	without := template.CaseScrapings(job, scraper.Options{})
	require.NotContains(t, pageWords(template.ScraperSheets(without, st)), "set-ups leave")
	require.Len(t, without, len(job.Molded()))

	kept := planOf(t, "press-cornice")
	job.Setups = []template.SetupPlan{kept}
	for _, c := range template.CaseScrapings(job, scraper.Options{}) {
		words := pageWords(template.ScraperSheets([]template.Scraping{c}, st))
		if c.Plan.Section.Name != "press-cornice" {
			require.NotContains(t, words, "set-ups leave", "no set-ups were planned for it")
			continue
		}
		for _, f := range kept.Plan.Faces {
			if f.Element > 0 && f.Clean < 0.999 {
				m := c.Plan.Section.Members[f.Element-1]
				require.Contains(t, words, fmt.Sprintf("up to %.2f mm at the %s (%d)", kept.Left, strings.ReplaceAll(string(m.Kind), "-", " "), m.Index))
			}
		}
		require.NotContains(t, words, "at the cove (2)", "which comes clean")
	}
	kept.Plan.Unreached = append(kept.Plan.Unreached, cutter.Unreached{Y0: 8, Y1: 12, Depth: 0.4, Deep: 0.4, Why: "no cutter"})
	job.Setups[0] = kept
	words := pageWords(template.ScraperSheets(template.CaseScrapings(job, scraper.Options{}), st))
	require.Contains(t, words, "0.40 mm at the cove (2)")
}

// The blades of the waist and the file to cut them by, byte for byte. UPDATE_GOLDEN=1 rewrites them.
func TestScraperGolden(t *testing.T) {
	_, s := libraryProfile(t, "press-waist", 1)
	p := blades(t, s, leaning)
	doc := sheet.Document{Pages: scraperPages(p, style(t, "Letter", measure.Inches))}.Numbered()
	for name, page := range map[string]sheet.Page{"scraper.svg": doc.Pages[0], "scraper-blades.svg": doc.Pages[1], "scraper-cutting.svg": template.BladeCutting(p)} {
		golden(t, name, page)
	}
}

func TestNoScrapersNoPages(t *testing.T) {
	st := style(t, "A4", measure.Millimeters)
	require.Empty(t, template.ScraperSheets(nil, st))
	require.Empty(t, template.GaugeSheets(nil, true, st))
	_, s := libraryProfile(t, "press-base", 1)
	require.Empty(t, template.ScratchSheets(s, st))
}
