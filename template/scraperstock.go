package template

import (
	"fmt"

	"listel/profile"
	"listel/profile/geom"
	"listel/template/scraper"
	"listel/template/sheet"
)

// ScratchSheets returns the sheet of the scratch stock for a small molding that is worked on the edge of a board: blade, holder and fence at full
// size over the section, and the blade by itself to cut out. There is none for a larger molding.
func ScratchSheets(s profile.Section, st Style) []sheet.Page {
	k, ok := scraper.NewScratchStock(s)
	if !ok {
		return nil
	}
	f := st.frame(sectionTitle(s)+": scratch stock", "A wooden holder, its fence along the foot of the molding, and the blade wedged square in a saw cut", "")
	area := f.Area(st.Paper)
	held := st.scratchView(k)
	blade := bladePattern{Blade: k.Blade, name: sectionTitle(s), words: "scrapes the whole face; its walls only rub"}.drawing(st)
	parts := []part{newPart(held), newPart(blade)}
	notes, width := sheet.Drawing{}, min(area.Width(), 170)
	y := 0.0
	for _, words := range scratchNotes {
		set, h := sheet.Paragraph{Text: words, Width: width, Size: noteSize}.Set(geom.Pt(0, y))
		notes = notes.Add(set...)
		y -= h + 2
	}
	return stackRows(append(parts, newPart(notes)), f, area, st)
}

// Common practice, no source.
var scratchNotes = []string{
	"Saw the holder from hardwood, the cut for the blade square across the arm and just as wide as the steel; clamp the blade with two screws across the cut. " +
		"File the edge square. Start with the blade set shallow, lean the stock a little the way it moves, and set it deeper until the sole bears.",
	"The board's edge must be straight and its foot planed before, since the fence runs on it. Work with the grain, and the end of the stroke first.",
	"Fresh edges and corners cut fingers: ease every edge but the lower one, and keep your hands behind the blade.",
}

// scratchView returns the holder with its blade on the work.
func (st Style) scratchView(k scraper.ScratchStock) sheet.Drawing {
	d := sheet.Drawing{
		sheet.EndGrain(k.Work),
		sheet.Stroke{Path: k.Work, Pen: sheet.PenOutline},
		sheet.Fill{Paths: []geom.Path{k.Blade.Outline}, Gray: 0.85},
		sheet.Stroke{Path: k.Blade.Outline, Pen: sheet.PenThin},
		sheet.Stroke{Path: k.Holder, Pen: sheet.PenOutline},
		sheet.Stroke{Path: k.Slot, Pen: sheet.PenHidden},
	}
	h, w := k.Holder.Bounds(), k.Work.Bounds()
	arm := geom.Pt((h.Min.X+k.Slot.Bounds().Min.X)/2, (k.Sole+h.Max.Y)/2)
	for _, t := range []sheet.Text{
		{At: arm, S: "arm", Anchor: sheet.Middle},
		{At: geom.Pt((w.Max.X+h.Max.X)/2+0.5, (h.Min.Y+k.Sole)/2), S: "fence", Anchor: sheet.Middle, Angle: 90 * geom.Degree},
		{At: k.Slot.Bounds().Center(), S: "blade", Anchor: sheet.Middle, Halo: true},
	} {
		t.Size = nameSize
		d = d.Add(t)
	}
	top := k.Blade.Outline.Bounds().Max.Y
	d = d.Add(sheet.Dim{A: geom.Pt(w.Max.X-k.Fence[1], top), B: geom.Pt(w.Max.X-k.Fence[0], top), Along: sheet.Across, At: top + 8, Text: st.figure(k.Fence[1] - k.Fence[0]), Size: figureSize}.Drawing()...)
	d = d.Add(sheet.Dim{A: geom.Pt(h.Max.X, k.Sole-k.Stop), B: geom.Pt(h.Max.X, k.Sole), Along: sheet.Up, At: h.Max.X + 9, Text: st.figure(k.Stop), Size: figureSize}.Drawing()...)
	words := fmt.Sprintf("The blade stands %s under the sole; its cutting part begins at the fence. %s", st.Lengths.Drawing(k.Stop), "The work lies with its foot against the fence.")
	set, _ := sheet.Paragraph{Text: words, Width: max(h.Width(), 60), Size: noteSize}.Set(geom.Pt(h.Min.X, min(w.Min.Y, h.Min.Y)-4))
	return d.Add(set...)
}
