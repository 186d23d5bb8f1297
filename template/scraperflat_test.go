package template_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/scraper"
)

// A plumb flat broader than 1 in is planed: the packet has no blade that scrapes it alone and says so; the others are named from A on.
func TestBroadFlatsArePlaned(t *testing.T) {
	job := exampleJob(t)
	st := style(t, "A4", measure.Millimeters)
	fewer := 0
	for _, c := range template.CaseScrapings(job, scraper.Options{}) {
		all := blades(t, c.Plan.Section, scraper.Options{})
		words := pageWords(template.ScraperSheets([]template.Scraping{c}, st))
		gone := len(all.Blades) - len(c.Plan.Blades)
		require.Equal(t, gone > 0, strings.Contains(words, "Plane the broad flat"), c.Plan.Section.Name)
		kept := map[[2]float64]bool{}
		for i, b := range c.Plan.Blades {
			kept[b.Covers] = true
			require.Equal(t, string(rune('A'+i)), b.Mark)
		}
		for _, b := range all.Blades {
			if kept[b.Covers] {
				continue
			}
			fewer++
			_, x := spanOf(c.Plan.Section.Outline, b.Covers)
			require.Less(t, x, 0.1, "%s %s scrapes a plumb flat alone", c.Plan.Section.Name, b.Mark)
		}
	}
	require.Positive(t, fewer, "the base of the example has a broad flat")
	_, s := libraryProfile(t, "press-base", 1)
	require.NotContains(t, pageWords(template.ScraperSheets([]template.Scraping{{Plan: blades(t, s, scraper.Options{})}}, st)), "Plane the broad flat")
}

// spanOf returns how far the face runs up and out between two heights, a hair within them.
func spanOf(outline geom.Path, covers [2]float64) (up, out float64) {
	box := geom.EmptyRect()
	for _, p := range outline.Flatten(0.01) {
		if p.Y > covers[0]+0.2 && p.Y < covers[1]-0.2 && p.X > outline.Bounds().Min.X+0.1 {
			box = box.Include(p)
		}
	}
	if box.Empty() {
		return covers[1] - covers[0], 0
	}
	return box.Height(), box.Width()
}

// The blades are drawn deeper only where they lean, and only then do their sheets say so.
func TestDepthIsGreaterOnlyForALean(t *testing.T) {
	_, s := libraryProfile(t, "press-waist", 1)
	st := style(t, "A4", measure.Millimeters)
	for _, tt := range []struct {
		o     scraper.Options
		leans bool
	}{{scraper.Options{}, false}, {leaning, true}} {
		pages := template.ScraperSheets([]template.Scraping{{Plan: blades(t, s, tt.o)}}, st)
		said := false
		for _, p := range pages {
			said = said || strings.Contains(p.Frame.Purpose, "for the lean")
		}
		require.Equal(t, tt.leans, said)
	}
}
