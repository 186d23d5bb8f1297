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

// inches reports whether lengths are printed in inches.
func (st Style) inches() bool { return st.Lengths.Units == measure.Inches }

// frame returns the frame of a full-size sheet, or of one at a scale when that is not "".
func (st Style) frame(title, purpose, scale string) sheet.Frame {
	return sheet.Frame{Title: title, Purpose: purpose, Scale: scale, FullSize: scale == "", Source: st.Source, Printer: st.Printer}
}

// leastRoom is the room across and up that words and a table need on a sheet, mm.
const leastRoom = 80.0

// roomy returns the style with A4 in place of paper on which a frame leaves too little room for words.
func (st Style) roomy() Style {
	area := st.frame("W", "W", "").Area(st.Paper)
	if !area.Empty() && area.Width() >= leastRoom && area.Height() >= leastRoom {
		return st
	}
	if a4, err := sheet.PaperNamed("A4"); err == nil {
		st.Paper = a4
	}
	return st
}

// sheetFrame returns the frame of a sheet whose drawings are not to scale.
func (st Style) sheetFrame(title, purpose string) sheet.Frame {
	return sheet.Frame{Title: title, Purpose: purpose, Source: st.Source, Printer: st.Printer}
}

// asNoted says that the scale of each drawing stands beside it.
const asNoted = "as noted"

// mixedFrame returns the frame of a sheet for stack whose drawings have their scales beside them, full size among them.
func (st Style) mixedFrame(title, purpose string) sheet.Frame {
	f := st.frame(title, purpose, asNoted)
	f.FullSize = true
	return f
}
