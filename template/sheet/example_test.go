package sheet_test

import (
	"fmt"
	"os"

	"listel/profile/geom"
	"listel/template/sheet"
)

// A page is made of a paper, a frame and a drawing.
func ExampleWriteSVG() {
	paper, err := sheet.PaperNamed("A6 landscape")
	if err != nil {
		fmt.Println(err)
		return
	}
	frame := sheet.Frame{Bare: true, Title: "A cove", Purpose: "radius 20 mm"}
	cove := geom.Path{geom.Arc{Center: geom.Pt(60, 60), Radius: 20, From: 180 * geom.Degree, Sweep: -90 * geom.Degree}}
	page := sheet.Page{Paper: paper, Frame: frame, Content: sheet.Drawing{sheet.Stroke{Path: cove, Pen: sheet.PenOutline}}}
	if err := sheet.WriteSVG(os.Stdout, page); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="148mm" height="105mm" viewBox="0 0 148 105">
	// <title>A cove</title>
	// <desc>radius 20 mm</desc>
	// <rect width="148" height="105" fill="#fff"/>
	// <g fill="none" stroke="#000" stroke-linejoin="round">
	// <path stroke-width="0.5" d="M40 45A20 20 0 0 1 60 25"/>
	// </g>
	// </svg>
}

// A drawing larger than the paper goes on tiles.
func ExampleTiling() {
	paper, err := sheet.PaperNamed("A4")
	if err != nil {
		fmt.Println(err)
		return
	}
	frame := sheet.Frame{Title: "Template", Purpose: "Trace it on the end of the stick.", FullSize: true}
	board := sheet.Drawing{sheet.Ring(geom.Pt(0, 0), 150, sheet.PenCut)}
	tiles, err := sheet.Tiling{Paper: paper, Frame: frame}.Tiles(board)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, t := range tiles {
		fmt.Print(t.Name, " ")
	}
	// Output: A1 A2 B1 B2
}

// Names of papers may be written as one likes.
func ExamplePaperNamed() {
	p, _ := sheet.PaperNamed("ansi-b landscape")
	fmt.Printf("%s: %.1f x %.1f mm\n", p.Name, p.Width, p.Height)
	// Output: ANSI B: 431.8 x 279.4 mm
}
