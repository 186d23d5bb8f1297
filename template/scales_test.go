package template_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/scraper"
	"listel/template/sheet"
)

var fullSizeWords = regexp.MustCompile(`(?i)full size|\b1:1\b`)

// A sheet on which anything is said to be at full size has the bars to check the printer by, and one that has bars has something at full size.
func TestFullSizeHasBars(t *testing.T) {
	for _, name := range []string{"herb-press", "seed-cabinet"} {
		c, r := exampleNamed(t, name)
		for paper, units := range map[string]measure.Units{"Letter": measure.Inches, "A4": measure.Millimeters, "A2": measure.Millimeters} {
			st := style(t, paper, units)
			sets := [][]sheet.Page{template.FixingSheets(c, r, st), template.FrameSheets(r, st), template.OpeningSheets(r, st), template.CutList(c, r, st), template.DentilSheets(r, st)}
			for _, m := range r.Moldings {
				if p, err := scraper.Make(m.Sections[0].Section, scraper.Options{}); err == nil {
					sets = append(sets, template.ScraperSheets([]template.Scraping{{Plan: p}}, st))
				}
			}
			for _, pages := range sets {
				for _, p := range pages {
					said := false
					for _, s := range textsOf([]sheet.Page{p}) {
						said = said || fullSizeWords.MatchString(s)
					}
					if said {
						require.True(t, p.Frame.FullSize, "%s on %s: %s", name, paper, p.Frame.Title)
					}
					require.NotEqual(t, "1:1", p.Frame.Scale, "%s on %s: %s", name, paper, p.Frame.Title)
					if p.Frame.FullSize && p.Frame.Scale != "" {
						require.True(t, said, "%s on %s: %s has bars for nothing", name, paper, p.Frame.Title)
					}
				}
			}
		}
	}
}
