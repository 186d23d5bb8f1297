package template

import (
	"slices"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/scraper"
	"listel/template/sheet"
)

// A Scraping is the blades for one section, and what they find there.
type Scraping struct {
	Plan    scraper.Plan
	Remains []Remaining // what the set-ups left; nil when no set-ups were planned
	Planed  []string    // broad flats that are planed in place of scraped, in words
}

// title names the section.
func (c Scraping) title() string { return sectionTitle(c.Plan.Section) }

// tool names what the blades are.
func (c Scraping) tool() string {
	if c.Plan.Options.Head != nil {
		return "knives"
	}
	return "scrapers"
}

// ScraperSheets returns the sheets of scrapers: for each section a sheet that shows which blade scrapes what and how it is held, and then
// the blades of all of them at full size, several to a page. The pages are not yet numbered. None give no pages.
func ScraperSheets(all []Scraping, st Style) []sheet.Page {
	var pages []sheet.Page
	for _, c := range all {
		pages = append(pages, c.overview(st.roomy())...)
	}
	return append(pages, bladePages(all, st)...)
}

// CaseScrapings returns the scrapers for every section that pieces of a case are molded to, each once, without the blades for broad flats, which are
// planed. A section that cannot be scraped, or is only planed, is left out.
func CaseScrapings(job Job, o scraper.Options) []Scraping {
	var out []Scraping
	seen := map[string]bool{} // a section from both blanks is scraped alike
	for _, s := range job.Molded() {
		if seen[s.Name] {
			continue
		}
		seen[s.Name] = true
		p, err := scraper.Make(s, o)
		if err != nil {
			continue
		}
		c := Scraping{Plan: p}.withoutFlats()
		if len(c.Plan.Blades) == 0 {
			continue
		}
		for _, set := range job.Setups {
			if set.Section.Name == s.Name {
				c.Remains = append(c.Remains, remainsOf(set)...)
			}
		}
		out = append(out, c)
	}
	return out
}

// caseScrapers returns the sheets of the scrapers of a case and of the gauges to try its moldings with. The positive gauges are
// its templates.
func caseScrapers(job Job, st Style) []sheet.Page {
	pages := ScraperSheets(CaseScrapings(job, scraper.Options{}), st)
	return append(pages, GaugeSheets(CaseGauges(job.Result, st), true, st)...)
}

// ScraperNotes returns what is to be said of the blades of a plan in words, a paragraph each.
func ScraperNotes(p scraper.Plan, f measure.Format) []string {
	return Style{Lengths: f}.scraperNotes(p, nil)
}

const (
	overviewPurpose = "Each blade pressed in along its arrow and drawn along the molding"
	bladePurpose    = "Glue to steel, file to the middle of the heavy dashed line; the fine line runs on finished wood"
	leanPurpose     = "Glue to steel, file to the middle of the heavy dashed line; depth is drawn greater for the lean; the fine line runs on finished wood"
	knifePurpose    = "Full size, filed depth for the head and hook given; the head's maker rules over the blank's size"
)

// overview returns the sheet that shows what each blade scrapes, and on further sheets what it has no room for.
func (c Scraping) overview(st Style) []sheet.Page {
	f := st.sheetFrame(c.title()+": "+c.tool(), overviewPurpose)
	area := f.Area(st.Paper)
	b := c.Plan.Section.Outline.Bounds()
	k := st.scaleFor(b.Width(), b.Height(), 0.42*area.Width(), 0.45*area.Height())
	if f.FullSize = k == 1; f.FullSize {
		area = f.Area(st.Paper)
	} else {
		f.Scale = scaleRatio(k)
	}
	lean := c.Plan.Options.Lean
	var strips []strip
	for _, blades := range dealt(c.Plan.Blades, max(1, int(area.Height()/labelRow))) {
		strips = append(strips, newStrip(st.scraperView(c.Plan, blades, k, area.Width()-14)).drawnAt(k))
	}
	notes := sheet.Drawing{}
	y, left, width := 0.0, 0.0, area.Width()
	if c.Plan.Options.Head == nil {
		pic := newPart(st.leanPicture(lean))
		notes = notes.Add(pic.at(geom.Pt(0, -pic.h))...)
		left, width = pic.w+8, area.Width()-pic.w-8
	}
	lowest := notes.Bounds().Min.Y
	said := st.scraperNotes(c.Plan, c.Remains)
	if words := c.planedWords(); words != "" {
		said = append([]string{words}, said...)
	}
	for _, s := range said {
		set, h := sheet.Paragraph{Text: s, Width: width, Size: nameSize}.Set(geom.Pt(left, y))
		notes = notes.Add(set...)
		if y -= h + 2; left > 0 && y < lowest {
			left, width = 0, area.Width()
		}
	}
	table := c.table(st, area.Width())
	for _, t := range table.Split(area.Height()) {
		strips = append(strips, newStrip(t.Set(geom.Point{}).Drawing))
	}
	strips = append(strips, newStrip(notes))
	return stack(strips, f, st.Paper)
}

// dealt returns the blades in rows of at most n.
func dealt(blades []scraper.Blade, n int) [][]scraper.Blade {
	return slices.Collect(slices.Chunk(blades, n))
}

// table lists the blades with what they scrape, run on and are filed with.
func (c Scraping) table(st Style, width float64) sheet.Table {
	t := sheet.Table{Width: width, Stretch: true, Size: nameSize, Columns: []sheet.Column{
		{Head: "blade", Weight: sheet.Bold}, {Head: "scrapes", Wrap: true}, {Head: "pressed in", Wrap: true}, {Head: "runs on", Wrap: true}, {Head: "file with", Wrap: true},
	}}
	if c.Plan.Options.Head != nil {
		t.Columns[0].Head, t.Columns[1].Head, t.Columns[3].Head = "knife", "cuts", "head's body at most"
	}
	scraped := scrapedWords(c.Plan)
	for i, b := range c.Plan.Blades {
		runs := guideWords(b.Guide)
		if b.Knife != nil {
			runs = st.Lengths.Drawing(b.Knife.Body) + " in radius"
		}
		t.Rows = append(t.Rows, []string{b.Mark, scraped[i], st.plungeWords(b.Plunge), runs, st.fileWords(b.Files)})
	}
	return t
}

// bladePages returns the sheets with the blades at full size.
func bladePages(all []Scraping, st Style) []sheet.Page {
	if len(all) == 0 {
		return nil
	}
	title, what, purpose := "Scraper blades", ": blades", bladePurpose
	if slices.ContainsFunc(all, func(c Scraping) bool { return c.Plan.Options.Lean > 0 }) {
		purpose = leanPurpose
	}
	if all[0].Plan.Options.Head != nil {
		title, what, purpose = "Knives", ": knives", knifePurpose
	}
	if len(all) == 1 {
		title = all[0].title() + what
	}
	f := st.frame(title, purpose, "")
	area := f.Area(st.Paper)
	var parts []part
	var large []sheet.Drawing
	for _, c := range all {
		scraped := scrapedWords(c.Plan)
		for i, b := range c.Plan.Blades {
			d := bladePattern{Blade: b, name: c.title(), words: "scrapes " + scraped[i]}.drawing(st)
			if p := newPart(d); p.fits(area) {
				parts = append(parts, p)
			} else {
				large = append(large, d)
			}
		}
	}
	pages := stackRows(parts, f, area, st)
	for _, d := range large {
		pages = append(pages, st.tiles(d, f)...)
	}
	return pages
}
