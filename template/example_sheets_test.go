package template_test

import (
	"fmt"

	"listel/library"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// The sheets of one molding: its section to read, and its templates to cut out.
func Example() {
	lib := library.Open("", "")
	p, _, err := lib.Profile("ogee-base")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := p.Scaled(2.2).Section(lib.Lookup)
	if err != nil {
		fmt.Println(err)
		return
	}
	paper, _ := sheet.PaperNamed("Letter")
	st := template.Style{Lengths: measure.Format{Units: measure.Inches}, Paper: paper}
	pages := append(template.SectionSheet(s, p, st), template.FullSize(s, st)...)
	for _, page := range (sheet.Document{Pages: pages}).Numbered().Pages {
		fmt.Printf("%d of %d: %s\n", page.Frame.Sheet, page.Frame.Of, page.Frame.Title)
	}
	// Output:
	// 1 of 5: Base of a fascia and a cyma recta
	// 2 of 5: Base of a fascia and a cyma recta: template
	// 3 of 5: Base of a fascia and a cyma recta: template
	// 4 of 5: Base of a fascia and a cyma recta: template
	// 5 of 5: Base of a fascia and a cyma recta: template
}
