package template_test

import (
	"fmt"
	"math"
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

// Every element and each of its constructions is documented, and what stands for it in a file is built by the library.
func TestEveryConstructionIsDocumented(t *testing.T) {
	lib := library.Open("", "")
	for _, k := range profile.Kinds() {
		all := template.Constructions(k)
		require.NotEmpty(t, all, k)
		var curves []profile.Construction
		for _, c := range all {
			require.Equal(t, k, c.Kind)
			require.NotEmpty(t, c.Steps, k)
			require.NotEmpty(t, c.Source, k)
			if c.Curve != "" {
				curves = append(curves, c.Curve)
			}
			text := "kind: profile\nname: one\nunits: in\nground: 2\nelements:\n  - fillet: {height: 1/4}\n  " + c.Entry + "\n  - fillet: {height: 1/4}\n"
			p, src, err := library.LoadProfile("one.yaml", []byte(text))
			require.NoError(t, err, c.Entry)
			_, err = p.Section(lib.Lookup)
			require.NoError(t, src.Mistakes(err), c.Entry)
		}
		require.Equal(t, k.Constructions(), curves, k)
	}
	require.Empty(t, template.Constructions("boat"))
}

func TestConstructionSheetsAreClear(t *testing.T) {
	t.Parallel()
	for _, paper := range []string{"Letter", "A4", "A4 landscape", "ANSI B"} {
		pages := template.ConstructionSheets(profile.Kinds(), style(t, paper, measure.Inches))
		for _, k := range profile.Kinds() {
			pages = append(pages, template.ConstructionSheets([]profile.Kind{k}, style(t, paper, measure.Inches))...)
		}
		for i, p := range (sheet.Document{Pages: pages}).Numbered().Pages {
			require.Empty(t, clashes(p), "%s on %s, page %d", p.Frame.Title, paper, i+1)
		}
	}
}

// The figures are struck as they say. Of the flat cyma (Nicholson, Mechanic's Companion, fig. 11; Sheraton 1793) both arcs have half the chord for a radius
// and turn through 60 degrees; of the scotia (Nicholson, fig. 9) the arcs are quadrants whose radii are as 2 to 1; of the ovolo of
// curve arc (fig. 7) the radius is the height.
func TestFiguresAreStruckAsTheySay(t *testing.T) {
	arcs := func(k profile.Kind, which int) (out []geom.Arc, height float64) {
		all := template.Constructions(k)
		_, strokes := marksOf(template.ConstructionSheets([]profile.Kind{k}, style(t, "ANSI B", measure.Inches))[0].Content)
		n := -1
		for _, s := range strokes {
			if s.Pen.Width != 0.7 {
				continue
			}
			if n++; n != which {
				continue
			}
			for _, seg := range s.Path {
				if a, ok := seg.(geom.Arc); ok {
					out = append(out, a)
				}
			}
			height = s.Path.Bounds().Height()
		}
		require.Equal(t, len(all)-1, n)
		return out, height
	}
	flat, h := arcs(profile.KindCymaRecta, 0)
	require.Len(t, flat, 2)
	chord := flat[0].Start().Dist(flat[1].End())
	for _, a := range flat {
		require.InDelta(t, chord/2, a.Radius, 1e-9)
		require.InDelta(t, 60, math.Abs(a.Sweep.Degrees()), 1e-9)
	}
	require.InDelta(t, 40, h, 1e-9)
	scotia, h := arcs(profile.KindScotia, 0)
	require.InDelta(t, 2*h/3, scotia[0].Radius, 1e-9)
	require.InDelta(t, h/3, scotia[1].Radius, 1e-9)
	require.InDelta(t, scotia[0].Center.Y, scotia[1].Center.Y, 1e-9)
	ovolo, h := arcs(profile.KindOvolo, 1)
	require.InDelta(t, h, ovolo[0].Radius, 1e-9)
}

func TestConstructionGolden(t *testing.T) {
	golden(t, "scotia-construction.svg", template.ConstructionSheets([]profile.Kind{profile.KindScotia}, style(t, "Letter", measure.Inches))[0])
}

func ExampleConstructions() {
	for _, c := range template.Constructions(profile.KindCymaReversa) {
		fmt.Printf("%s: %s\n", c.Title, strings.TrimSuffix(c.Source, "."))
	}
	// Output:
	// Flat: the default: Source: P. Nicholson (1823), p. 6; T. Sheraton, The Cabinet-Maker and Upholsterer's Drawing-Book (1793)
	// Bold: two quadrants: Source: P. Nicholson, Mechanic's Companion, fig. 10
	// Ellipse: any rise and run: Source: Building Trades Pocketbook, p. 375, says that the curves of Greek moldings are ellipses, parabolas and hyperbolas
	// Of a radius that is given: Common practice, no source
}
