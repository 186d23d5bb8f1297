package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// Nothing clashes on the section sheet or the template of any profile of the library.
func TestEveryLibraryProfileIsClear(t *testing.T) {
	t.Parallel()
	st := style(t, "Letter", measure.Inches)
	for _, e := range library.Open("", "").List(library.KindProfile) {
		p, s := libraryProfile(t, e.Name, 1)
		for i, page := range (sheet.Document{Pages: append(template.SectionSheet(s, p, st), template.FullSize(s, st)...)}).Numbered().Pages {
			require.Empty(t, clashes(page), "%s, page %d", e.Name, i+1)
		}
	}
}
