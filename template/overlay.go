package template

import (
	"fmt"
	"image"

	"listel/profile/geom"
	"listel/profile/trace"
	"listel/template/sheet"
)

// An Overlaid is a traced section to be shown over the picture that it was traced from.
type Overlaid struct {
	trace.Traced
	Picture *image.Gray // the whole of it, nil to leave it out
	Scale   string      // name of the scale it is drawn at, "" when the plate has one
}

// overlayPurpose says what an overlay is for.
const overlayPurpose = "To judge a trace by: the scan, its outline and the section made of it"

// OverlaySheets returns the sheets that show a traced section over its scan, as large as they hold: the traced outline, the section with its
// members, the place where the two are furthest apart, that place enlarged, and how true all is. The pages are not yet numbered. On
// paper too small for words A4 is taken.
func OverlaySheets(o Overlaid, st Style) []sheet.Page {
	st = st.roomy()
	title := sectionTitle(o.Section)
	v := overlayView{o: o, st: st}
	frame := st.frame(title, overlayPurpose, asNoted)
	frame.FullSize = false
	area := frame.Area(st.Paper)
	page := func(d sheet.Drawing) sheet.Page { return sheet.Page{Paper: st.Paper, Frame: frame, Content: d} }
	feet := v.feet()
	best, room := 0.0, foot{}
	for _, f := range feet { // all on one sheet while the view stays large; else the sizes on sheets of their own
		for _, k := range overlayScales {
			if k <= best*moreOnOne {
				break
			}
			if v.plain().over(k, f.part, area) != nil {
				best, room = k, f
				break
			}
		}
	}
	if best > 0 {
		pages := []sheet.Page{page(v.over(best, room.part, area))}
		if !room.sizes {
			pages = append(pages, v.sizePages(title)...)
		}
		return pages
	}
	var pages []sheet.Page
	for _, named := range []bool{true, false} { // small paper: the view on a sheet of its own
		for _, k := range overlayScales {
			if len(pages) == 0 && newPart(v.plain().drawing(k, named)).fits(area) {
				pages = append(pages, page(v.drawing(k, named).In(area)))
			}
		}
	}
	foot := feet[len(feet)-1].part
	return append(append(pages, page(foot.at(geom.Pt(area.Min.X, area.Max.Y-foot.h)))), v.sizePages(title)...)
}

// overlayScales are the scales of the view, the largest first.
var overlayScales = [...]float64{8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 6, 1.0 / 8, 1.0 / 12, 1.0 / 16, 1.0 / 24, 1.0 / 32, 1.0 / 64, 1.0 / 128, 1.0 / 256}

// moreOnOne is how much larger a view must become for the sizes to go to a sheet of their own.
const moreOnOne = 2.5

// footGap is the room between the parts of a foot, mm.
const footGap = 6.0

// A foot is what stands under the view.
type foot struct {
	part
	sizes bool // with the table of sizes, where there is one
}

// feet returns the ways to arrange the worst place, the key, how true the trace is and the sizes, the widest first.
func (v overlayView) feet() []foot {
	inset, key, summary, sizes := v.enlarged(), v.key(), v.summary(), v.sizes()
	words := key.Add(summary.At(geom.Pt(0, key.Bounds().Min.Y-5))...)
	b := inset.Bounds()
	narrow := beside(footGap, inset, key)
	narrow = narrow.Add(summary.At(geom.Pt(0, narrow.Bounds().Min.Y-6))...)
	upright := inset.At(geom.Point{}.Sub(b.Min)).Add(words.At(geom.Pt(0, -6))...)
	return []foot{
		{newPart(beside(footGap, inset, words, sizes)), true},
		{newPart(beside(footGap, upright, sizes)), true},
		{newPart(beside(footGap, inset, words)), len(sizes) == 0},
		{newPart(narrow), len(sizes) == 0},
		{newPart(upright), len(sizes) == 0},
	}
}

// over returns the view at the scale k with a foot under it; nil when they do not fit.
func (v overlayView) over(k float64, foot part, area geom.Rect) sheet.Drawing {
	b := v.o.Section.Outline.Bounds()
	if foot.w > area.Width() || b.Width()*k > area.Width() || b.Height()*k+partGap+foot.h > area.Height() {
		return nil
	}
	view := headed(v.drawing(k, true), scaleWords(k))
	if view.w > area.Width() || view.h+partGap+foot.h > area.Height() {
		return nil
	}
	slack := area.Height() - view.h - partGap - foot.h
	top := area.Max.Y - min(slack/3, 12)
	d := view.at(geom.Pt(area.Min.X+(area.Width()-view.w)/2, top-view.h))
	y := top - view.h - partGap - min(slack/3, 12)
	return d.Add(foot.at(geom.Pt(area.Min.X+(area.Width()-foot.w)/2, y-foot.h))...)
}

// sizePages returns the table of sizes on sheets of its own, beside a small view of the section that names its members.
func (v overlayView) sizePages(title string) []sheet.Page {
	if len(v.sizeTable().Rows) == 0 {
		return nil
	}
	f := sheet.Frame{Title: title, Purpose: "What each size may be off by, the top member first", Source: v.st.Source}
	area := f.Area(v.st.Paper)
	var pages []sheet.Page
	for _, t := range v.sizeTable().Split(area.Height()) {
		table := t.Set(geom.Pt(area.Min.X, area.Max.Y)).Drawing
		room := area
		room.Min.X = table.Bounds().Max.X + 2*footGap
		for _, k := range overlayScales {
			if view := newPart(v.drawing(k, true)); view.fits(room) {
				table = table.Add(view.at(geom.Pt(room.Max.X-view.w, room.Max.Y-view.h))...)
				break
			}
		}
		pages = append(pages, sheet.Page{Paper: v.st.Paper, Frame: f, Content: table})
	}
	return pages
}

// distance returns a distance in the units of the sheet and in px.
func (v overlayView) distance(mm, px float64) string {
	return fmt.Sprintf("%s (%.1f px)", v.st.fine(mm), px)
}
