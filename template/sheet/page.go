package sheet

import (
	"fmt"

	"listel/profile/geom"
)

// A Page is one sheet: paper, the frame with its title block, and the drawing. Content is in page
// coordinates: the origin is the lower left corner of the paper, and Frame.Area is the room it has.
type Page struct {
	Paper   Paper
	Frame   Frame // the zero Frame draws nothing
	Content Drawing
	Part    string // of the work that it is for; it is not drawn, "" for none
	Clear   bool   // an SVG file of it has no white ground, for a machine that would take that for a shape
}

// Drawing returns all that is printed on the page, moved as the frame's printer correction asks.
func (p Page) Drawing() Drawing {
	d := p.Frame.draw(p.Paper).Add(p.Content...)
	if p.Frame.Printer.none() {
		return d
	}
	return d.Moved(p.Frame.Printer.affine(p.Paper))
}

func (p Page) check() error {
	if err := p.Paper.check(); err != nil {
		return err
	}
	if err := p.Frame.Printer.Validate(); err != nil {
		return err
	}
	if err := p.Frame.Fits(p.Paper); err != nil {
		return err
	}
	return p.Content.check()
}

func (p Page) title() string { return p.Frame.Title }

func (p Page) description() string {
	s := p.Frame.Purpose
	if n := p.Frame.number(); n != "" {
		s += map[bool]string{true: "; ", false: ""}[s != ""] + n
	}
	return s
}

// FitPage returns a page without a frame that is just as large as the drawing with a margin (mm) round it, for pictures. Its
// title and purpose are kept in the file but not drawn.
func FitPage(d Drawing, margin float64, title, purpose string) Page {
	b := d.Bounds()
	if b.Empty() {
		b = geom.Rect{}
	}
	b = b.Expand(margin)
	paper := Paper{Name: "picture", Width: max(20, b.Width()), Height: max(20, b.Height())}
	return Page{Paper: paper, Frame: Frame{Title: title, Purpose: purpose, Bare: true}, Content: d.At(geom.Point{}.Sub(b.Min))}
}

// A Document is the pages of one file.
type Document struct {
	Title string
	Lang  string // of the text, as in "en-US"; "" is en-US
	Pages []Page
}

// maxPages is the most sheets that one document may have.
const maxPages = 400

// ErrTooManySheets is what a document of more sheets than may be in a file ends in.
var ErrTooManySheets = fmt.Errorf("a file takes at most %d", maxPages)

// Numbered returns the document with each page numbered that has a frame and no number of its own: sheet n of m.
func (d Document) Numbered() Document {
	pages := make([]Page, len(d.Pages))
	for i, p := range d.Pages {
		if p.Frame.Sheet == 0 {
			p.Frame.Sheet, p.Frame.Of = i+1, len(d.Pages)
		}
		pages[i] = p
	}
	d.Pages = pages
	return d
}

func (d Document) check() error {
	if len(d.Pages) == 0 {
		return fmt.Errorf("a document needs at least one sheet")
	}
	if len(d.Pages) > maxPages {
		return fmt.Errorf("%d sheets: %w", len(d.Pages), ErrTooManySheets)
	}
	for i, p := range d.Pages {
		if err := p.check(); err != nil {
			return fmt.Errorf("sheet %d: %w", i+1, err)
		}
	}
	return nil
}

func (d Document) title() string {
	if d.Title == "" {
		return d.Pages[0].Frame.Title
	}
	return d.Title
}

// bookmark returns the words by which the page is found in the file.
func (p Page) bookmark(n int) string {
	s := p.Frame.Title
	if s == "" {
		s = fmt.Sprintf("sheet %d", n)
	}
	if p.Frame.tile != nil {
		s += ", tile " + p.Frame.tile.name
	}
	return s
}
