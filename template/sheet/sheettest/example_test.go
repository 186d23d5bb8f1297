package sheettest_test

import (
	"bytes"
	"fmt"

	"listel/profile/geom"
	"listel/template/sheet"
	"listel/template/sheet/sheettest"
)

// A test reads back where the lines of a file really lie.
func ExampleReadPDF() {
	page := sheet.Page{
		Paper:   sheet.Paper{Name: "card", Width: 100, Height: 60},
		Frame:   sheet.Frame{Bare: true},
		Content: sheet.Drawing{sheet.Line(geom.Pt(10, 20), geom.Pt(90, 20), sheet.PenThin), sheet.Text{At: geom.Pt(10, 30), S: "80 mm"}},
	}
	var b bytes.Buffer
	if err := sheet.WritePDF(&b, sheet.Document{Pages: []sheet.Page{page}}); err != nil {
		fmt.Println(err)
		return
	}
	f, err := sheettest.ReadPDF(b.Bytes())
	if err != nil {
		fmt.Println(err)
		return
	}
	p := f.Pages[0]
	line := p.Paths[0].Runs[0]
	fmt.Printf("%.3f mm, %q\n", line.Start.Dist(line.Curves[0].End), p.Texts[0].S)
	// Output: 80.000 mm, "80 mm"
}
