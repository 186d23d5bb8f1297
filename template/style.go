package template

import (
	"listel/profile/measure"
	"listel/template/sheet"
)

// A Style is how the sheets of one job are drawn.
type Style struct {
	Lengths measure.Format   // how lengths are printed
	Paper   sheet.Paper      // as it lies before the reader
	Printer sheet.Correction // the printer's measured error, zero for none
	Source  string           // the file that the job came from, for the title block
}
