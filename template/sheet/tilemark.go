package sheet

import "listel/profile/geom"

// Room that a tile's name and map take in the title block, mm.
const (
	tileMarkWidth  = 36.0
	tileMarkHeight = 12.0
)

// A tileMark says which tile of how many a page is.
type tileMark struct {
	name       string
	col, row   int
	cols, rows int
	used       []bool // by row, then column: whether the tile has a page
}

// draw returns the name and the map, the top right corner of their room at p.
func (m *tileMark) draw(p geom.Point) Drawing {
	const nameWidth = 14.0
	k := min((tileMarkWidth-nameWidth)/float64(m.cols), tileMarkHeight/float64(m.rows), 6)
	origin := p.Add(geom.Pt(-k*float64(m.cols), -(tileMarkHeight+k*float64(m.rows))/2))
	var d Drawing
	for row := range m.rows {
		for col := range m.cols {
			if !m.used[row*m.cols+col] {
				continue
			}
			at := origin.Add(geom.Pt(k*float64(col), k*float64(m.rows-1-row)))
			cell := geom.Rect{Min: at, Max: at.Add(geom.Pt(k, k))}
			if row == m.row && col == m.col {
				d = d.Add(FillBox(cell, 0.25))
			}
			d = d.Add(Box(cell, PenHair))
		}
	}
	return d.Add(Text{At: geom.Pt(origin.X-2, p.Y-tileMarkHeight/2), S: m.name, Size: 22, Weight: Bold, Anchor: Right})
}
