package sheet

import (
	"bytes"
	"fmt"
	"io"

	"github.com/tdewolff/canvas/renderers/pdf"
)

// WritePDF writes the document as a PDF file whose pages have their papers' exact sizes. Pages without a number are
// numbered. The file asks the viewer for no scaling, has no dates in it, and is the same bytes for the same
// document. It returns the error of w, or of a page that cannot be printed.
func WritePDF(w io.Writer, doc Document) error {
	doc = doc.Numbered()
	if err := doc.check(); err != nil {
		return err
	}
	var raw bytes.Buffer
	options := pdf.DefaultOptions
	first := doc.Pages[0].Paper
	out := pdf.New(&raw, first.Width, first.Height, &options)
	printer := newWrapper(out)
	for i, p := range doc.Pages {
		if i > 0 {
			out.NewPage(p.Paper.Width, p.Paper.Height)
		}
		p.Drawing().render(printer)
	}
	if err := out.Close(); err != nil {
		return fmt.Errorf("PDF: %w", err)
	}
	fixed, err := finishPDF(raw.Bytes(), doc)
	if err != nil {
		return fmt.Errorf("PDF: %w", err)
	}
	_, err = w.Write(fixed)
	return err
}
