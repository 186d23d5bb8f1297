package sheet_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A page with every kind of mark comes out the same twice, in all three forms.
func TestWritersAreRepeatable(t *testing.T) {
	p := geom.Polygon(geom.Pt(30, 60), geom.Pt(90, 60), geom.Pt(90, 120), geom.Pt(30, 120))
	paper, err := sheet.PaperNamed("A4")
	require.NoError(t, err)
	page := sheet.Page{
		Paper: paper,
		Frame: sheet.Frame{Title: "Waist molding", Purpose: "Section at full size", FullSize: true, Source: "press.yaml"},
		Content: sheet.Drawing{
			sheet.EndGrain(p), sheet.Stroke{Path: p, Pen: sheet.PenOutline},
			sheet.Text{At: geom.Pt(60, 90), S: "1 3/4 in", Anchor: sheet.Middle, Halo: true},
		},
	}
	write := map[string]func() []byte{
		"pdf": func() []byte {
			var b bytes.Buffer
			require.NoError(t, sheet.WritePDF(&b, sheet.Document{Pages: []sheet.Page{page, page}}))
			return b.Bytes()
		},
		"svg": func() []byte {
			var b bytes.Buffer
			require.NoError(t, sheet.WriteSVG(&b, page))
			return b.Bytes()
		},
		"png": func() []byte {
			var b bytes.Buffer
			require.NoError(t, sheet.WritePNG(&b, page, 4))
			return b.Bytes()
		},
	}
	for name, f := range write {
		first := f()
		require.NotEmpty(t, first, name)
		require.Equal(t, first, f(), name)
	}
}
