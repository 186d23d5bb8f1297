package sheet_test

import (
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/template/sheet"
)

// A section with all its dimensions and a table to SVG: the figure to stay under is 2 ms.
func BenchmarkSectionSVG(b *testing.B) {
	page := sheet.Page{Paper: paper(b, "A4").Landscape(), Frame: fullSize(), Content: drafting()}
	for b.Loop() {
		require.NoError(b, sheet.WriteSVG(io.Discard, page))
	}
}

func BenchmarkSectionPDF(b *testing.B) {
	doc := sheet.Document{Pages: []sheet.Page{{Paper: paper(b, "A4").Landscape(), Frame: fullSize(), Content: drafting()}}}
	for b.Loop() {
		require.NoError(b, sheet.WritePDF(io.Discard, doc))
	}
}

func BenchmarkTwentyPagesPDF(b *testing.B) {
	page := sheet.Page{Paper: paper(b, "A4").Landscape(), Frame: fullSize(), Content: drafting()}
	var doc sheet.Document
	for range 20 {
		doc.Pages = append(doc.Pages, page)
	}
	for b.Loop() {
		require.NoError(b, sheet.WritePDF(io.Discard, doc))
	}
}

func BenchmarkSectionPNG(b *testing.B) {
	page := sheet.Page{Paper: paper(b, "A4").Landscape(), Frame: fullSize(), Content: drafting()}
	for b.Loop() {
		require.NoError(b, sheet.WritePNG(io.Discard, page, 4))
	}
}

func BenchmarkTiles(b *testing.B) {
	d := large()
	for b.Loop() {
		tiles(b, 0, d)
	}
}
