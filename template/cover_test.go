package template_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

func TestCoverIsOneSheetThatPrints(t *testing.T) {
	c, r := example(t)
	for _, paper := range []string{"Letter", "A4", "A4 landscape", "ANSI B"} {
		pages := template.Cover(c, r, style(t, paper, measure.Inches), []template.Content{{Name: "Sections", Sheets: 4}, {Name: "Templates", Sheets: 1}})
		require.Len(t, pages, 1, paper)
		var b bytes.Buffer
		require.NoError(t, sheet.WritePDF(&b, sheet.Document{Pages: pages}.Numbered()), paper)
	}
}

// The heights on the cover are those of the stages where they stand: the upper one, 32 in high, stands 3/4 in over the lower in the rabbet of
// its waist.
func TestCoverHeightsAreTrue(t *testing.T) {
	c, r := example(t)
	pages := template.Cover(c, r, style(t, "Letter", measure.Inches), nil)
	got := words(pages)
	for _, want := range []string{"|30″|", "|¾″|", "|32″|", "|42″|", "|18″|", "|39″|", "|16½″|", "|foot at 60½″|", "|foot at 30″|", "|foot at 0″|"} {
		require.Contains(t, got, want)
	}
	_, strokes := marksOf(pages[0].Content)
	require.NotEmpty(t, strokes)
	require.InDelta(t, 30.75*25.4, r.Stages[1].Floor, 1e-9)
	require.InDelta(t, 62.75*25.4, r.Stages[1].Top, 1e-9)
	require.Empty(t, clashes(pages[0]))
}
