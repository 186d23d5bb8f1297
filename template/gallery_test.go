package template_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// hung returns the profiles of the embedded library that the words find.
func hung(words ...string) []template.Hung {
	lib := library.Open("", "")
	var out []template.Hung
	for _, s := range lib.Shown(lib.Find(words)) {
		out = append(out, template.Hung{Section: s.Section, Family: profile.Family(s.Family), Name: s.Name})
	}
	return out
}

// Every profile hangs once, named, on few pages, and nothing is in the way of anything else.
func TestGalleryShowsAll(t *testing.T) {
	t.Parallel()
	all := hung()
	for _, paper := range []string{"Letter", "A4 landscape", "ANSI B"} {
		for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
			pages := (sheet.Document{Pages: template.Gallery(all, "Moldings", style(t, paper, units))}).Numbered().Pages
			require.LessOrEqual(t, len(pages), 7)
			var said strings.Builder
			outlines := 0
			for i, p := range pages {
				require.Empty(t, clashes(p), "%s in %s, page %d", paper, units, i+1)
				require.True(t, p.Frame.Area(p.Paper).Expand(0.3).Contains(p.Content.Bounds().Min), "page %d", i+1)
				texts, strokes := marksOf(p.Content)
				for _, x := range texts {
					if x.Weight == sheet.Bold {
						said.WriteString(x.S)
					}
				}
				for _, s := range strokes {
					if s.Pen == sheet.PenOutline {
						outlines++
					}
				}
				require.Equal(t, pages[0].Frame.Scale, p.Frame.Scale)
			}
			require.Equal(t, len(all), outlines)
			for _, h := range all {
				require.Contains(t, said.String(), h.Name)
			}
		}
	}
}

// The outlines are the sections at the scale that the sheet states.
func TestGalleryIsToScale(t *testing.T) {
	all := hung("waist")
	p := template.Gallery(all, "Waists", style(t, "Letter", measure.Inches))[0]
	k := 1.0
	if p.Frame.Scale != "" {
		var n float64
		_, err := fmt.Sscanf(p.Frame.Scale, "1:%g", &n)
		require.NoError(t, err)
		k = 1 / n
	}
	_, strokes := marksOf(p.Content)
	i := 0
	for _, s := range strokes {
		if s.Pen != sheet.PenOutline {
			continue
		}
		want := all[i].Section.Outline.Transform(geom.Scaling(k, k))
		require.InDelta(t, want.Area(), s.Path.Area(), 1e-6, all[i].Name)
		require.InDelta(t, want.Bounds().Width(), s.Path.Bounds().Width(), 1e-9, all[i].Name)
		i++
	}
	require.Equal(t, len(all), i)
	require.True(t, p.Frame.FullSize, "a few small ones are drawn full size")
}

func TestGalleryOfNothing(t *testing.T) {
	require.Empty(t, template.Gallery(nil, "None", style(t, "A4", measure.Inches)))
	require.NotEmpty(t, template.Gallery(hung("waist"), "Small paper", style(t, "A10", measure.Inches)))
}

// The gallery of the waists, byte for byte. UPDATE_GOLDEN=1 rewrites it.
func TestGalleryGolden(t *testing.T) {
	golden(t, "waist-gallery.svg", template.Gallery(hung("waist"), "Moldings: waist", style(t, "Letter", measure.Inches))[0])
}
