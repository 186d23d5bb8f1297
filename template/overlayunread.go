package template

import (
	"image"

	"listel/profile/geom"
	"listel/profile/trace"
	"listel/template/sheet"
)

// An Unread is a section that was found in a picture and could not be read as a molding.
type Unread struct {
	Title   string
	Picture *image.Gray
	Outline []geom.Point // px, closed: what was found
	Why     string
}

// UnreadSheet returns the sheet that shows the outline that was found over the scan, as large as it holds, and why nothing was made of it. The page is not
// yet numbered. On paper too small for words A4 is taken.
func UnreadSheet(u Unread, st Style) sheet.Page {
	st = st.roomy()
	frame := st.frame(u.Title, "Found in the scan and not read: look for where the outline leaves the drawing", asNoted)
	frame.FullSize = false
	area := frame.Area(st.Paper)
	words := sheet.Wrap("Not read: "+u.Why, noteSize, sheet.Regular, area.Width())
	const line, gap = 4.2, 6.0
	room := area.Height() - float64(len(words))*line - gap

	upright := func(p geom.Point) geom.Point { return geom.Pt(p.X, -p.Y) } // pixels, y up
	pixels := trace.Mapping{M: [9]float64{1, 0, 0, 0, -1, 0, 0, 0, 1}}
	var points []geom.Point
	for _, p := range u.Outline {
		points = append(points, upright(p))
	}
	outline := geom.Polygon(points...)
	window := outline.Bounds()
	window = window.Expand(0.06 * max(window.Width(), window.Height()))
	k := min(area.Width()/window.Width(), room/window.Height()) // mm on the sheet for a pixel
	view := scanUnder(u.Picture, pixels, window, k)
	view = view.Add(sheet.Group{Name: "traced", Drawing: dotted(outline.Transform(scaled(k)), outlineStep)})
	corner := geom.Pt(area.Min.X+(area.Width()-window.Width()*k)/2, area.Max.Y-window.Height()*k)
	d := view.At(corner.Sub(window.Min.Mul(k)))
	y := corner.Y - gap
	for _, w := range words {
		d = d.Add(sheet.Text{At: geom.Pt(area.Min.X, y), S: w, Size: noteSize, Anchor: sheet.Left})
		y -= line
	}
	return sheet.Page{Paper: st.Paper, Frame: frame, Content: d}
}
