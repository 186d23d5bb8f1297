package template

import (
	"fmt"
	"math"
	"slices"

	"listel/profile"
	"listel/template/scraper"
)

// broadFlat is the height over which a plumb flat is planed and not scraped, mm: 1 in, common practice, no source.
const broadFlat = 25.4

// broadFlats returns the plumb flats of a section that are broader than 1 in.
func broadFlats(s profile.Section) []profile.Member {
	var out []profile.Member
	for _, m := range s.Members {
		switch m.Kind {
		case profile.KindFillet, profile.KindFascia, profile.KindCorona:
			if m.Path.Bounds().Height() > broadFlat+0.01 {
				out = append(out, m)
			}
		}
	}
	return out
}

// withoutFlats returns the scraping without the blades that scrape broad flats alone.
func (c Scraping) withoutFlats() Scraping {
	flats := broadFlats(c.Plan.Section)
	dropped := func(b scraper.Blade) bool {
		const sliver = 0.05 // mm, of a neighboring member
		left := b.Covers[1] - b.Covers[0]
		for _, m := range flats {
			box := m.Path.Bounds()
			left -= math.Max(0, math.Min(box.Max.Y, b.Covers[1])-math.Max(box.Min.Y, b.Covers[0]))
		}
		return len(flats) > 0 && left < sliver
	}
	if !slices.ContainsFunc(c.Plan.Blades, dropped) {
		return c
	}
	for _, m := range flats {
		box := m.Path.Bounds()
		if slices.ContainsFunc(c.Plan.Blades, func(b scraper.Blade) bool {
			return dropped(b) && math.Min(box.Max.Y, b.Covers[1])-math.Max(box.Min.Y, b.Covers[0]) > 0
		}) {
			c.Planed = append(c.Planed, fmt.Sprintf("%s %d", m.Kind.Words(), m.Index))
		}
	}
	c.Plan = c.Plan.Without(dropped)
	return c
}

// planedWords says which flats are planed, "" for none.
func (c Scraping) planedWords() string {
	if len(c.Planed) == 0 {
		return ""
	}
	return fmt.Sprintf("Plane the broad flat, %s: it needs no blade, and none is drawn here.", ListWords(c.Planed))
}
