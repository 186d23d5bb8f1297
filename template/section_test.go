package template_test

import (
	"cmp"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// libraryNames are profiles of every shape that the sheets must hold: tall, small, sprung, wide with a rabbet, with many
// members, with dentils, with ellipses.
var libraryNames = []string{
	"astragal-with-fillets", "attic-base", "attic-base-modern", "base-cap", "bed-mold", "bolection", "corinthian-architrave",
	"corinthian-cornice", "corona-and-cove", "cove-and-bead", "crown-cove-and-cyma", "dentil-cornice", "edge-bead",
	"ionic-archivolt", "ionic-base", "ionic-impost", "ionic-pedestal-base", "ionic-pedestal-cap", "ogee-base",
	"ovolo-with-fillets", "press-base", "press-cornice", "press-shelf-bead", "press-waist", "quirked-bead", "three-flutes",
	"three-reeds", "thumb-edge", "tuscan-base", "tuscan-base-with-listel", "tuscan-cornice",
}

func libraryProfile(t testing.TB, name string, k float64) (profile.Profile, profile.Section) {
	t.Helper()
	lib := library.Open("", "")
	p, _, err := lib.Profile(name)
	require.NoError(t, err)
	p = p.Scaled(k)
	s, err := p.Section(lib.Lookup)
	require.NoError(t, err)
	return p, s
}

func style(t testing.TB, paper string, units measure.Units) template.Style {
	t.Helper()
	p, err := sheet.PaperNamed(paper)
	require.NoError(t, err)
	return template.Style{Lengths: measure.Format{Units: units}, Paper: p, Source: "herb-press.yaml"}
}

// rowWith returns the texts on one line of the page with the given text, from left to right.
func rowWith(t *testing.T, p sheet.Page, first, second string) []string {
	t.Helper()
	texts, _ := marksOf(p.Content)
	for _, a := range texts {
		if a.S != second {
			continue
		}
		var row []sheet.Text
		for _, b := range texts {
			if math.Abs(b.At.Y-a.At.Y) < 1e-6 && b.Size == a.Size && b.Anchor <= sheet.BottomRight {
				row = append(row, b)
			}
		}
		slices.SortFunc(row, func(x, y sheet.Text) int { return cmp.Compare(x.At.X, y.At.X) })
		if row[0].S == first {
			var out []string
			for _, c := range row {
				out = append(out, c.S)
			}
			return out
		}
	}
	t.Fatalf("no row %s %s", first, second)
	return nil
}

// The rows of the press's cornice, worked by hand from its file: the cyma is the rest, 2 1/2 - 1/4 - 3/4 - 1/8 - 1/4 = 1 1/8; x at its foot is
// 3/8 + 3/4 + 1/16 + 1/16; both its radii are half its chord, sqrt(1.125^2 + 1.0625^2) / 2 = 0.7737 in, a little under 25/32.
func TestTableValues(t *testing.T) {
	p, s := libraryProfile(t, "press-cornice", 1)
	page := template.SectionSheet(s, p, style(t, "A4", measure.Inches))[0]
	require.Equal(t, []string{"4", "cyma recta", "1⅛″", "1 1⁄16″", "1⁄16″", "1¼″", "R 25⁄32″−"}, rowWith(t, page, "4", "cyma recta"))
	require.Equal(t, []string{"2", "cove", "¾″", "¾″", "–", "⅜″", "R ¾″"}, rowWith(t, page, "2", "cove"))
	require.Equal(t, []string{"1", "fillet", "¼″", "–", "–", "⅜″"}, rowWith(t, page, "1", "fillet"))
	page = template.SectionSheet(s, p, style(t, "A4", measure.Millimeters))[0]
	require.Equal(t, []string{"4", "cyma recta", "28.6", "27.0", "1.6", "31.8", "R 19.7"}, rowWith(t, page, "4", "cyma recta"))
}

// More members than lettering has room for, larger sections than the paper and paper smaller than a hand: the section is
// drawn and the table is whole all the same.
func TestSectionSheetExtremes(t *testing.T) {
	many := profile.Profile{Name: "many", Units: measure.Millimeters, Ground: profile.MM(150)}
	for i := range 120 {
		many.Elements = append(many.Elements, profile.Entry{Kind: profile.KindFillet, Height: profile.MM(1), Set: profile.MM(float64(1 - i%2*2))})
	}
	for _, c := range []struct {
		p     profile.Profile
		k     float64
		paper string
	}{{many, 1, "A4"}, {many, 1, "A4 landscape"}, {many, 4, "A4"}, {many, 1, "A7"}} {
		s, err := c.p.Scaled(c.k).Section(nil)
		require.NoError(t, err)
		rows := map[string]bool{}
		pages := template.SectionSheet(s, c.p, style(t, c.paper, measure.Millimeters))
		readBack(t, pages)
		for _, page := range (sheet.Document{Pages: pages}).Numbered().Pages {
			require.Empty(t, clashes(page), "%g times on %s", c.k, c.paper)
			texts, _ := marksOf(page.Content)
			for _, x := range texts {
				rows[x.S] = true
			}
		}
		for i := range 120 {
			require.True(t, rows[strconv.Itoa(i+1)], "member %d at %g times on %s", i+1, c.k, c.paper)
		}
		_, strokes := marksOf(pages[0].Content)
		require.True(t, slices.ContainsFunc(strokes, func(x sheet.Stroke) bool { return x.Pen == sheet.PenOutline && len(x.Path) > 100 }))
	}
	for _, name := range []string{"press-base", "press-cornice", "edge-bead"} {
		p, s := libraryProfile(t, name, 1)
		for _, paper := range []string{"A6", "A8", "A10"} {
			readBack(t, template.SectionSheet(s, p, style(t, paper, measure.Inches)))
		}
		p, s = libraryProfile(t, name, 40)
		require.Empty(t, clashes(template.SectionSheet(s, p, style(t, "A4", measure.Inches))[0]))
	}
}

var numberedName = regexp.MustCompile(`(^|   )\(\d+\) `)

// A bead's height in the drawing is with its quirk, 3/8 + 1/16, and the table says what the bead alone is.
func TestTableCountsQuirks(t *testing.T) {
	p, s := libraryProfile(t, "quirked-bead", 1)
	page := template.SectionSheet(s, p, style(t, "A4", measure.Inches))[0]
	require.Equal(t, []string{"1", "bead", "7⁄16″", "–", "–", "¾″", "R 3⁄16″; bead alone ⅜″"}, rowWith(t, page, "1", "bead"))
}

// Members too low for their lettering keep their names apart: fourteen, of which eleven are a millimeter high.
func TestManyLowMembers(t *testing.T) {
	p := profile.Profile{Name: "many", Title: "Many low members", Units: measure.Millimeters, Ground: profile.MM(12)}
	for i := range 14 {
		e := profile.Entry{Kind: profile.KindFillet, Height: profile.MM(1), Set: profile.MM(1.2)}
		if i%5 == 2 {
			e = profile.Entry{Kind: profile.KindCove, Height: profile.MM(6)}
		}
		p.Elements = append(p.Elements, e)
	}
	s, err := p.Section(nil)
	require.NoError(t, err)
	for _, paper := range []string{"A4", "A4 landscape", "ANSI B", "A5"} {
		for i, page := range (sheet.Document{Pages: template.SectionSheet(s, p, style(t, paper, measure.Millimeters))}).Numbered().Pages {
			require.Empty(t, clashes(page), "%s, page %d", paper, i+1)
		}
	}
}

// The heights along the chain come to the height of the section, and every member has its row and its name.
func TestEveryMemberIsShown(t *testing.T) {
	for _, name := range libraryNames {
		p, s := libraryProfile(t, name, 1)
		rows := 0
		for _, page := range template.SectionSheet(s, p, style(t, "Letter", measure.Inches)) {
			texts, _ := marksOf(page.Content)
			for _, x := range texts {
				if numberedName.MatchString(x.S) {
					rows++
				}
			}
		}
		require.Equal(t, len(s.Members), rows, name)
	}
}

// A stack's own members are numbered under it and drawn each for itself.
func TestStackMembers(t *testing.T) {
	lookup := library.Open("", "").Lookup
	p := profile.Profile{Name: "built-up", Title: "Built up", Units: measure.Inches, Ground: profile.MM(12.7), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: profile.MM(6.35)}, {Kind: profile.KindStack, Profile: "press-cornice"},
	}}
	s, err := p.Section(lookup)
	require.NoError(t, err)
	page := template.SectionSheet(s, p, style(t, "ANSI B", measure.Inches))[0]
	require.Equal(t, "1⅛″", rowWith(t, page, "2.4", "cyma recta")[2])
	require.Empty(t, clashes(page))
}

// The section sheet of a waist with a rabbet, byte for byte. UPDATE_GOLDEN=1 rewrites it.
func TestSectionGolden(t *testing.T) {
	const in = 25.4
	p := profile.Profile{
		Name: "waist", Title: "Waist with a rabbet", Source: "invented", Units: measure.Inches, Height: 1.125 * in, Ground: profile.MM(2 * in),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: profile.MM(in / 8)}, {Kind: profile.KindCove, Height: profile.MM(in * 3 / 8)},
			{Kind: profile.KindFillet, Height: profile.MM(in / 8), Set: profile.MM(in / 16)}, {Kind: profile.KindTorus, Height: profile.Rest()},
		},
		Back: profile.Back{Rabbet: &profile.Rabbet{At: profile.AtTop, Width: profile.MM(in / 2), Depth: profile.MM(in * 3 / 8)}},
	}
	s, err := p.Section(nil)
	require.NoError(t, err)
	golden(t, "waist-section.svg", template.SectionSheet(s, p, style(t, "Letter", measure.Inches))[0])
}

// From a profile to the bytes of its sheet: 2 ms is the figure to keep.
func BenchmarkSectionSVG(b *testing.B) {
	lib := library.Open("", "")
	p, _, err := lib.Profile("press-cornice")
	require.NoError(b, err)
	st := style(b, "Letter", measure.Inches)
	for b.Loop() {
		s, err := p.Section(nil)
		require.NoError(b, err)
		for _, page := range template.SectionSheet(s, p, st) {
			require.NoError(b, sheet.WriteSVG(io.Discard, page))
		}
	}
}
