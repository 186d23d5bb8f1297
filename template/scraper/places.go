package scraper

import (
	"math"
	"slices"
)

// places returns the places between two atoms that are named, those of one member and reason that touch joined.
func (m *maker) places(from, to int, named func(i int) (Why, bool)) []Place {
	var out []Place
	joined := -1 // the atom that the last place ends with
	for i := from; i < to; i++ {
		why, is := named(i)
		if !is {
			continue
		}
		a := m.atoms[i]
		b := a.seg.Bounds()
		mem := m.section.Members[a.member]
		if n := len(out); n > 0 && joined == i-1 && out[n-1].Element == mem.Index && out[n-1].Why == why && slices.Equal(out[n-1].Given, m.scraped[i]) {
			p := &out[n-1]
			p.Y0, p.Y1, p.Length = math.Min(p.Y0, b.Min.Y), math.Max(p.Y1, b.Max.Y), p.Length+a.length
		} else {
			out = append(out, Place{Y0: b.Min.Y + 0, Y1: b.Max.Y + 0, Length: a.length, Element: mem.Index, Member: mem.Kind, Why: why, Given: m.scraped[i]})
		}
		joined = i
	}
	return out
}

// missed returns what the plunge that was asked for does not scrape: walls along it, and what lies hidden.
func (m *maker) missed() []Place {
	return m.places(0, len(m.atoms), func(i int) (Why, bool) {
		switch {
		case m.clean[i]&askedMask != 0:
			return "", false
		case m.open[i]&askedMask != 0:
			return Rub, true
		}
		return Hidden, true
	})
}

// left returns what no blade scrapes: a wall that every blade would rub along, though the edge of one may form it, or a place without room.
func (m *maker) left() []Place {
	formed := make([]bool, len(m.atoms))
	for _, st := range m.list {
		for i := st.from; i < st.to; i++ {
			formed[i] = true
		}
	}
	return m.places(0, len(m.atoms), func(i int) (Why, bool) {
		if len(m.scraped[i]) > 0 {
			return "", false
		}
		if formed[i] {
			return Rub, true
		}
		return Small, true
	})
}
