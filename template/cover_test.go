package template_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// example returns the embedded example, fitted.
func example(t testing.TB) (miter.Case, miter.Result) {
	t.Helper()
	lib := library.Open("", "")
	c, _, err := lib.Case(library.ExampleName)
	require.NoError(t, err)
	r, err := miter.Fit(c, lib.SectionOf, lib.Wood)
	require.NoError(t, err)
	return c, r
}

func TestCoverIsOneSheetThatPrints(t *testing.T) {
	c, r := example(t)
	for _, paper := range []string{"Letter", "A4", "A4 landscape", "ANSI B"} {
		pages := template.Cover(c, r, style(t, paper, measure.Inches), []template.Content{{Name: "Sections", Sheets: 4}, {Name: "Templates", Sheets: 1}})
		require.Len(t, pages, 1, paper)
		var b bytes.Buffer
		require.NoError(t, sheet.WritePDF(&b, sheet.Document{Pages: pages}.Numbered()), paper)
	}
}
