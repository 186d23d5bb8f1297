package template_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
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
	for _, want := range []string{"|30″|", "|¾″|", "|32″|", "|42″|", "|18″|", "|39″|", "|16½″|", "|foot at 60½″|", "|foot at 30″|", "|foot at 0″|", "|upper|", "|lower|"} {
		require.Contains(t, got, want)
	}
	_, strokes := marksOf(pages[0].Content)
	require.NotEmpty(t, strokes)
	require.InDelta(t, 30.75*25.4, r.Stages[1].Floor, 1e-9)
	require.InDelta(t, 62.75*25.4, r.Stages[1].Top, 1e-9)
	require.Empty(t, clashes(pages[0]))
}

// The cover says what room a case takes. A tall clock of three cases, 440 by 250, 340 by 200 and 436 by 248, with a base that projects 31 and a crown that projects
// 52: 436 + 2 x 52 = 540 wide, 248 + 52 = 300 deep; on the floor 440 + 2 x 31 = 502 by 250 + 31 = 281.
func TestCoverSaysTheRoom(t *testing.T) {
	plain := func(name string, high, out float64) profile.Section {
		o := geom.Polygon(geom.Pt(0, 0), geom.Pt(out, 0), geom.Pt(out, high), geom.Pt(0, high))
		return profile.Section{Name: name, Outline: o, Face: o[1:2], Height: high, Projection: out, Ground: out}
	}
	c := miter.Case{Name: "clock", Stages: []miter.Stage{
		{Name: "base", Plan: miter.Plan{Width: 440, Depth: 250}, Height: 520}, {Name: "trunk", Plan: miter.Plan{Width: 340, Depth: 200}, Height: 760},
		{Name: "hood", Plan: miter.Plan{Width: 436, Depth: 248}, Height: 420}},
		Moldings: []miter.Molding{{Name: "base", On: "base", Profile: "base"}, {Name: "crown", On: "hood", Profile: "crown", At: 1640}}}
	r, err := miter.Fit(c, func(name string) (profile.Section, error) {
		if name == "base" {
			return plain(name, 107, 31), nil
		}
		return plain(name, 58, 52), nil
	}, nil)
	require.NoError(t, err)
	page := template.Cover(c, r, style(t, "A4", measure.Millimeters), nil)[0]
	require.Contains(t, page.Frame.Purpose, "With its moldings 540.0 mm wide and 300.0 mm deep, on the floor 502.0 mm by 281.0 mm")
}
