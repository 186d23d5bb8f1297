package template

import (
	"slices"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// Sizes of the key that shows where lengths are measured, mm.
const (
	keyHigh = 34.0
	keyWide = 40.0
	keyGap  = 8.0
)

// measureKey returns the sections of the pieces with the points at which their lengths are measured; the top left corner is at the
// origin. A section whose pieces are as long everywhere needs none.
func measureKey(pieces []miter.Piece, width float64) sheet.Drawing {
	title := sheet.Text{S: "Where the lengths are measured", Size: headingSize, Weight: sheet.Bold, Anchor: sheet.TopLeft}
	d := sheet.Drawing{title}
	x, y := 0.0, -sheet.CapHeight(headingSize)-5
	seenAs := sheet.Text{At: geom.Pt(width, 0), S: viewWords(pieces), Size: nameSize, Anchor: sheet.TopRight}
	if title.Width()+seenAs.Width()+4 > width {
		words, h := sheet.Paragraph{Text: seenAs.S, Width: width, Size: nameSize}.Set(geom.Pt(0, y+2))
		d, y = d.Add(words...), y-h
	} else {
		d = d.Add(seenAs)
	}
	low := y
	seen := map[string]bool{}
	for _, p := range pieces {
		if seen[p.Section.Name] {
			continue
		}
		seen[p.Section.Name] = true
		marks := keyMarks(pieces, p.Section.Name)
		k := newPart(sectionKey(*p.Section, marks))
		if x > 0 && x+k.w > width {
			x, y = 0, low-4
		}
		d = d.Add(k.at(geom.Pt(x, y-k.h))...)
		low = min(low, y-k.h)
		x += k.w + keyGap
	}
	return d
}

// viewWords says how the pieces are drawn.
func viewWords(pieces []miter.Piece) string {
	var words []string
	for _, p := range pieces {
		if w := viewOf(p).words; !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	return "Drawn " + strings.Join(words, "; ")
}

// keyMarks returns the different points at which the lengths of the pieces of a section are measured.
func keyMarks(pieces []miter.Piece, section string) []measured {
	var out []measured
	for _, p := range pieces {
		if p.Section.Name != section {
			continue
		}
		for _, m := range newStick(p, nil).lengths() {
			out = noteMark(out, m)
		}
	}
	return out
}

// noteMark adds a mark to those of a section, or its words to one at the same point.
func noteMark(marks []measured, m measured) []measured {
	for _, o := range marks {
		if slices.Contains(strings.Split(o.words, ", "), m.words) {
			return marks
		}
	}
	if m.words == "back and face" {
		return marks // it needs no point of its own
	}
	for i, o := range marks {
		if o.at.Near(m.at, 0.5) {
			marks[i].words += ", " + m.words
			return marks
		}
	}
	return append(marks, m)
}

// sectionKey draws a section small, each mark on a leader to its right or left.
func sectionKey(s profile.Section, marks []measured) sheet.Drawing {
	box := s.Outline.Bounds()
	k := min(keyHigh/box.Height(), keyWide/box.Width())
	to := scaled(k)
	outline := s.Outline.Transform(to)
	d := sheet.Drawing{sheet.EndGrain(outline), sheet.Stroke{Path: outline, Pen: sheet.PenOutline}}
	b := outline.Bounds()
	for _, right := range [2]bool{false, true} {
		var side []measured
		for _, m := range marks {
			if (to.Apply(m.at).X > b.Center().X) == right {
				side = append(side, m)
			}
		}
		side = sortedBy(side, func(m measured) float64 { return m.at.Y })
		want, half := make([]float64, len(side)), make([]float64, len(side))
		for i, m := range side {
			want[i], half[i] = to.Apply(m.at).Y, sheet.LineHeight(nameSize)/2
		}
		x := b.Min.X - 6
		if right {
			x = b.Max.X + 6
		}
		for i, y := range sheet.Spread(want, half, 0.5) {
			d = d.Add(sheet.Leader{Tip: to.Apply(side[i].at), Elbow: geom.Pt(x, y), Text: side[i].words, Size: nameSize, Dot: true}.Drawing()...)
		}
	}
	return d
}
