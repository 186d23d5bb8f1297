package template

import (
	"errors"

	"listel/profile/geom"
	"listel/template/sheet"
)

// layPatterns lays patterns out on sheets under one frame: sets that fit stand in rows, several to a sheet; a set too wide for the
// paper is taken apart, and a pattern larger than the paper comes on tiles after the others.
func layPatterns(sets []patternSet, frame sheet.Frame, st Style) []sheet.Page {
	area := frame.Area(st.Paper)
	var rows []part
	var large []pattern
	for _, set := range sets {
		var singles []part
		for _, p := range set.patterns {
			one := newPart(p.drawing())
			if !one.fits(area) {
				large = append(large, p)
				continue
			}
			singles = append(singles, one)
		}
		rows = append(rows, together(singles, area)...)
	}
	pages := stackRows(rows, frame, area, st)
	for _, p := range large {
		f := frame
		if len(sets) > 1 {
			f.Title = p.name + ": template"
		}
		pages = append(pages, st.tiles(p.drawing(), f)...)
	}
	return pages
}

// patternGap is the room between patterns on a sheet, mm.
const patternGap = 12.0

// together returns the parts joined into one, so that they come on one sheet: beside one another with their feet level when the area is wide
// enough, else under one another when it is tall enough, else as they are.
func together(parts []part, area geom.Rect) []part {
	wide, high, widest, tallest := -patternGap, -patternGap, 0.0, 0.0
	for _, p := range parts {
		wide, high = wide+p.w+patternGap, high+p.h+patternGap
		widest, tallest = max(widest, p.w), max(tallest, p.h)
	}
	var d sheet.Drawing
	switch {
	case len(parts) == 0:
		return nil
	case wide <= area.Width():
		x := 0.0
		for _, p := range parts {
			d = d.Add(p.at(geom.Pt(x, tallest-p.h))...)
			x += p.w + patternGap
		}
		return []part{{d, wide, tallest}}
	case high <= area.Height():
		y := high
		for _, p := range parts {
			y -= p.h
			d = d.Add(p.at(geom.Pt((widest-p.w)/2, y))...)
			y -= patternGap
		}
		return []part{{d, widest, high}}
	}
	return parts
}

// stackRows deals the parts out over sheets: under the one before where the row has room there, beside it while the width lasts, then in a new row, then on
// a new sheet.
func stackRows(parts []part, frame sheet.Frame, area geom.Rect, st Style) []sheet.Page {
	var pages []sheet.Page
	var content sheet.Drawing
	x, top, deepest := 0.0, 0.0, 0.0 // of the row, from the area's top left corner
	left, under := 0.0, 0.0          // of the part before: its left, and how deep its column reaches in the row
	flush := func() {
		if len(content) > 0 {
			pages = append(pages, sheet.Page{Paper: st.Paper, Frame: frame, Content: centered(content, area)})
		}
		content, x, top, deepest = nil, 0, 0, 0
	}
	for _, p := range parts {
		if at := under + patternGap; x > 0 && at+p.h <= deepest+1e-9 && left+p.w <= area.Width()+1e-9 {
			content = content.Add(p.at(geom.Pt(area.Min.X+left, area.Max.Y-top-at-p.h))...)
			x, under = max(x, left+p.w+patternGap), at+p.h
			continue
		}
		if x > 0 && x+p.w > area.Width()+1e-9 {
			x, top, deepest = 0, top+deepest+patternGap, 0
		}
		if top+p.h > area.Height()+1e-9 {
			flush()
		}
		content = content.Add(p.at(geom.Pt(area.Min.X+x, area.Max.Y-top-p.h))...)
		left, under = x, p.h
		x, deepest = x+p.w+patternGap, max(deepest, p.h)
	}
	flush()
	return pages
}

// centered returns the drawing moved so that what is left of the area's width is the same on both sides, and somewhat more of its height is under
// the drawing than over it.
func centered(d sheet.Drawing, area geom.Rect) sheet.Drawing {
	b := d.Bounds()
	return d.At(geom.Pt(area.Center().X-b.Center().X, -0.3*max(0, b.Min.Y-area.Min.Y)))
}

// tiles returns the sheets of a drawing at full size, on the style's paper or, when that is too small for the frame or the tiles would be too
// many, on the smallest of the standard sheets that will do.
func (st Style) tiles(d sheet.Drawing, frame sheet.Frame) []sheet.Page {
	paper := st.Paper
	for _, next := range []string{"A4", "A3", "A2", "A1", "A0", ""} {
		tiles, err := sheet.Tiling{Paper: paper, Frame: frame, Turn: true}.Tiles(d)
		if err == nil {
			return sheet.Pages(tiles)
		}
		if errors.Is(err, sheet.ErrPaperTooSmall) {
			frame.Purpose = sentence(frame.Purpose, st.Paper.Name+" is too small for this sheet")
		}
		if paper, err = sheet.PaperNamed(next); err != nil {
			break
		}
	}
	return []sheet.Page{sheet.FitPage(d, 20, frame.Title, frame.Purpose)}
}
