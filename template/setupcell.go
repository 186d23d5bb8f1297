package template

import (
	"slices"
	"strconv"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A setupCell is one set-up on its sheet: its number and tool, its picture, and beside that what to set and what to watch.
type setupCell struct {
	picture setupPicture
	box     geom.Rect // of the picture, mm on paper
	w       float64   // its width, mm
	way     cellWay
	tall    float64 // of the tallest picture of its row, mm: the words under all of them begin on one line
}

// Parts of a cell, mm.
const (
	cellMargin = 2.5
	cellHead   = 9.0
	cellWords  = 41.0 // width of the words beside the picture
	cellGap    = 3.0  // between picture and words
	remarkGap  = 1.1  // between paragraphs
)

// A cellWay is how picture and words lie in all those of a plan: beside each other, or the words in two columns under a wide picture.
type cellWay int

const (
	wordsBeside cellWay = iota
	wordsUnder
)

// words returns the remarks set in their columns, the top left corner of each at the origin, and their heights: what is set at the fence or stop heads the first column,
// what is set in height heads the last, in every cell alike.
func (c setupCell) words() (columns []sheet.Drawing, heights []float64) {
	widths := []float64{cellWords}
	if c.way == wordsUnder {
		half := (c.w - 2*cellMargin - cellGap) / 2
		widths = []float64{half, half}
	}
	columns, heights = make([]sheet.Drawing, len(widths)), make([]float64, len(widths))
	for _, r := range c.remarks() {
		col := 0
		switch r.place {
		case atHeight:
			col = len(widths) - 1
		case anywhere:
			if len(widths) > 1 && heights[1] < heights[0] {
				col = 1
			}
		}
		if heights[col] > 0 {
			heights[col] += remarkGap
		}
		set, h := r.set(widths[col])
		columns[col] = columns[col].Add(set.At(geom.Pt(0, -heights[col]))...)
		heights[col] += h
	}
	return columns, heights
}

// needs returns the height that the cell needs; ok is false when it is not wide enough.
func (c setupCell) needs() (h float64, ok bool) {
	_, down := c.head()
	_, heights := c.words()
	words := slices.Max(heights)
	if c.way == wordsBeside {
		return down + max(c.box.Height(), words) + cellMargin, c.box.Width() <= c.w-2*cellMargin-cellWords-cellGap
	}
	return down + c.tall + cellGap + words + cellMargin, c.box.Width() <= c.w-2*cellMargin
}

// head returns number and tool, the cell's upper left corner at the origin, and how far down they reach.
func (c setupCell) head() (d sheet.Drawing, down float64) {
	u := c.picture.setup()
	number := geom.Pt(cellMargin+3.2, -cellMargin-3.2)
	d = sheet.Balloon(number, strconv.Itoa(u.N), 12)
	g := sheet.Paragraph{Text: upperFirst(u.Tool), Width: c.w - 2*cellMargin - 9, Size: 11, Weight: sheet.Bold}
	if len(sheet.Wrap(g.Text, g.Size, g.Weight, g.Width)) > 2 {
		g.Size = 9
	}
	head, high := g.Set(geom.Pt(number.X+5.8, -cellMargin-1.8))
	return d.Add(head...), cellMargin + max(cellHead, high+3)
}

// drawing returns the cell with its upper left corner at the origin.
func (c setupCell) drawing() sheet.Drawing {
	d, down := c.head()
	columns, _ := c.words()
	room := geom.Rect{Min: geom.Pt(cellMargin, 0), Max: geom.Pt(c.w-cellMargin, -down)}
	at := []geom.Point{geom.Pt(cellMargin, -down-c.tall-cellGap)}
	if c.way == wordsBeside {
		room.Max.X -= cellWords + cellGap
		at[0] = geom.Pt(room.Max.X+cellGap, -down)
	} else {
		at = append(at, geom.Pt(c.w/2+cellGap/2, at[0].Y))
	}
	for i, column := range columns {
		d = d.Add(column.At(at[i])...)
	}
	return d.Add(c.picture.drawing().At(geom.Pt((room.Min.X+room.Max.X)/2-c.box.Center().X, -down-c.box.Max.Y))...)
}
