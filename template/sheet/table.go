package sheet

import "listel/profile/geom"

// A Column is one column of a table.
type Column struct {
	Head   string
	Align  Align
	Width  float64 // mm; 0 is as wide as its widest cell
	Wrap   bool    // may be made narrower, its cells broken into lines, when the table is too wide
	Weight Weight
}

// A Table is rows of text under a header. Columns are as wide as they need; a table wider than Width is narrowed in the
// columns that may wrap, and one still too wide keeps its size.
type Table struct {
	Columns   []Column
	Rows      [][]string // short rows end in empty cells
	Width     float64    // mm; 0 is as wide as it comes
	Size      float64    // points; 0 is DefaultSize
	RowHeight float64    // mm, the least height of a row, with the text in its middle; 0 is that of the text
	Stretch   bool       // widens the columns evenly to fill Width
}

// Room in a table, mm.
const (
	cellPad  = 1.2 // above and below the text of a row
	cellGap  = 4.0 // between columns
	minWidth = 12.0
)

// A Laid is a table set out on the sheet.
type Laid struct {
	Drawing Drawing
	Height  float64   // mm, header and all rows
	Width   float64   // mm
	Tops    []float64 // y of the top of each row, and of the table's bottom
	Lefts   []float64 // x of the left of each column
}

func (t Table) size() float64 { return Text{Size: t.Size}.size() }

// cell returns the text of a cell, the header's for row -1.
func (t Table) cell(row, col int) string {
	if row < 0 {
		return t.Columns[col].Head
	}
	if col < len(t.Rows[row]) {
		return t.Rows[row][col]
	}
	return ""
}

// widths returns the columns' widths, mm.
func (t Table) widths() []float64 {
	ws := make([]float64, len(t.Columns))
	sum := cellGap * float64(len(ws)-1)
	for c, col := range t.Columns {
		ws[c] = col.Width
		if !(col.Width > 0) {
			ws[c] = TextWidth(col.Head, t.size(), Bold)
			for r := range t.Rows {
				ws[c] = max(ws[c], TextWidth(t.cell(r, c), t.size(), col.Weight))
			}
			ws[c] += 0.01 // so that rounding breaks no cell
		}
		sum += ws[c]
	}
	if !(t.Width > 0) {
		return ws
	}
	for sum > t.Width+1e-9 {
		widest := -1
		for c, col := range t.Columns {
			if col.Wrap && ws[c] > minWidth && (widest < 0 || ws[c] > ws[widest]) {
				widest = c
			}
		}
		if widest < 0 {
			return ws
		}
		cut := min(sum-t.Width, max(1, ws[widest]-minWidth), 4)
		ws[widest] -= cut
		sum -= cut
	}
	if t.Stretch && sum < t.Width {
		for c := range ws {
			ws[c] += (t.Width - sum) / float64(len(ws))
		}
	}
	return ws
}

// rowHeight returns the height of a row, -1 for the header.
func (t Table) rowHeight(row int, ws []float64) float64 {
	h := t.textHeight(row, ws)
	if row >= 0 {
		h = max(h, t.RowHeight)
	}
	return h
}

// textHeight returns the height that the text of a row takes, -1 for the header.
func (t Table) textHeight(row int, ws []float64) float64 {
	lines := 1
	for c, col := range t.Columns {
		weight := col.Weight
		if row < 0 {
			weight = Bold
		}
		lines = max(lines, len(Wrap(t.cell(row, c), t.size(), weight, ws[c])))
	}
	em := t.size() * mmPerPoint
	return capHeight*em + descent*em + float64(lines-1)*LineHeight(t.size()) + 2*cellPad
}

// Set returns the table with its top left corner at p.
func (t Table) Set(p geom.Point) Laid {
	if len(t.Columns) == 0 {
		return Laid{}
	}
	ws := t.widths()
	out := Laid{}
	x := p.X
	for _, w := range ws {
		out.Lefts = append(out.Lefts, x)
		x += w + cellGap
	}
	out.Width = x - cellGap - p.X
	y := p.Y
	for row := -1; row < len(t.Rows); row++ {
		h, over := t.rowHeight(row, ws), cellPad
		if row >= 0 {
			out.Tops = append(out.Tops, y)
			over += (h - t.textHeight(row, ws)) / 2 // in the middle of a row that is higher than its text
		}
		for c, col := range t.Columns {
			weight := col.Weight
			if row < 0 {
				weight = Bold
			}
			g := Paragraph{Text: t.cell(row, c), Width: ws[c], Size: t.Size, Weight: weight, Align: col.Align}
			d, _ := g.Set(geom.Pt(out.Lefts[c], y-over))
			out.Drawing = append(out.Drawing, d...)
		}
		y -= h
		pen := PenHair.WithGray(0.45)
		if row < 0 {
			pen = Pen{Width: 0.35}
		}
		out.Drawing = append(out.Drawing, Line(geom.Pt(p.X, y), geom.Pt(p.X+out.Width, y), pen))
	}
	out.Tops = append(out.Tops, y)
	out.Height = p.Y - y
	return out
}

// Split returns tables with the same columns whose heights are at most so many mm, the rows dealt out in order; each
// holds at least one row.
func (t Table) Split(height float64) []Table {
	ws := t.widths()
	for c := range t.Columns {
		t.Columns = append([]Column(nil), t.Columns...)
		t.Columns[c].Width = ws[c] // every part keeps the widths of the whole
	}
	var out []Table
	from, y := 0, t.rowHeight(-1, ws)
	for row := range t.Rows {
		h := t.rowHeight(row, ws)
		if row > from && y+h > height {
			part := t
			part.Rows = t.Rows[from:row]
			out = append(out, part)
			from, y = row, t.rowHeight(-1, ws)
		}
		y += h
	}
	t.Rows = t.Rows[from:]
	return append(out, t)
}
