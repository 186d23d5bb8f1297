// Package template composes the sheets that are carried to the bench, from results that other packages have computed: it draws
// and arranges, and decides nothing about the wood.
//
// Packet lists the parts of the whole in the order of the work, one function a part; each part is a list of pages, and a page is
// paper, a frame, a title block and a drawing in millimeters.
//
//	section, pieces, plans, blades -> views -> pages -> sheet.Document -> PDF, SVG or PNG
//
// A Style says what all sheets of a job have in common: how lengths are printed, the paper, the printer's measured error and the file
// the job came from. What must be true is drawn full size, on as many tiles as it takes; what is only to be understood is drawn as large as
// the sheet allows and says its scale.
package template
