package template_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
	"listel/template/sheet/sheettest"
)

// handed returns the section for the left end and its mirror for the right end: one of the two where turning it over makes them one.
func handed(s profile.Section) []geom.Path {
	if s.OwnMirror(figure) {
		return []geom.Path{s.Outline}
	}
	return []geom.Path{s.Outline, s.Outline.Transform(geom.Scaling(-1, 1))}
}

// Every outline of every library profile, for both ends, is on its template sheet and in place to 0.01 mm, read back from the
// file; nothing else is closed and of its size.
func TestFullSizeReadBack(t *testing.T) {
	t.Parallel()
	for _, paper := range []string{"A4", "Letter landscape"} {
		for _, name := range libraryNames {
			_, s := libraryProfile(t, name, 1)
			outlines := handed(s)
			f := readBack(t, template.FullSize(s, style(t, paper, measure.Inches)))
			for i, outline := range outlines {
				found := false
				for _, page := range f.Pages {
					for _, width := range []float64{sheet.PenHair.Width, sheet.PenCut.Width} {
						if pts := findOutline(page, outline, width); pts != nil {
							covers(t, outline, []geom.Path{geom.Polyline(pts...)}, name)
							found = true
						}
					}
				}
				require.True(t, found, "%s on %s: outline %d is not on its sheet", name, paper, i)
			}
		}
	}
}

// The section on a section sheet, where it is at full size, is as exact.
func TestSectionSheetReadBack(t *testing.T) {
	t.Parallel()
	for _, name := range libraryNames {
		p, s := libraryProfile(t, name, 1)
		f := readBack(t, template.SectionSheet(s, p, style(t, "A4", measure.Millimeters)))
		pts := findOutline(f.Pages[0], s.Outline, sheet.PenOutline.Width)
		require.NotNil(t, pts, "%s: the section is not on its sheet at full size", name)
		covers(t, s.Outline, []geom.Path{geom.Polyline(pts...)}, name)
	}
}

// rings returns the centers of the register crosses on a page: they have rings of radius 1.5 mm.
func rings(page sheettest.Page) []geom.Point {
	var out []geom.Point
	for _, p := range page.Paths {
		if !isWidth(p, sheet.PenHair.Width) || len(p.Runs) != 1 || !p.Runs[0].Closed {
			continue
		}
		if b := boundsOf(p.Points(steps)); math.Abs(b.Width()-3) < figure && math.Abs(b.Height()-3) < figure {
			out = append(out, b.Center())
		}
	}
	return out
}

// Two tiles laid with their register crosses over one another show the whole outline, and nothing that is not on it.
func TestTilesPutTogether(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, paper string
		k           float64
	}{{"ogee-base", "Letter", 2.2}, {"press-cornice", "A4", 3}, {"press-base", "A5", 1.8}} {
		_, s := libraryProfile(t, c.name, c.k)
		f := readBack(t, template.FullSize(s, style(t, c.paper, measure.Inches)))
		outlines := handed(s)
		require.Len(t, f.Pages, 2*len(outlines), "%s: two tiles for each end", c.name)
		for i, outline := range outlines {
			first, second := f.Pages[2*i], f.Pages[2*i+1]
			a, b := rings(first), rings(second)
			require.Len(t, a, 2)
			require.Len(t, b, 2)
			require.InDelta(t, 0, a[1].Sub(a[0]).Dist(b[1].Sub(b[0])), figure)
			var drawn, heavy []geom.Path
			all := geom.EmptyRect()
			for j, page := range []sheettest.Page{first, second} {
				move := geom.Point{}
				if j == 1 {
					move = a[0].Sub(b[0])
				}
				for _, p := range page.Paths {
					if !isWidth(p, sheet.PenCut.Width) {
						continue
					}
					for _, run := range p.Runs {
						line := geom.Polyline(run.Points(steps)...).Translate(move)
						if line.Length() < 8 && len(p.Runs) > 1 || len(p.Dashes) > 0 {
							drawn, heavy, all = append(drawn, line), append(heavy, line), all.Union(line.Bounds())
						}
					}
				}
				for _, p := range page.Paths {
					if isWidth(p, sheet.PenHair.Width) && len(p.Runs) >= 1 && !p.Runs[0].Closed && len(p.Dashes) == 0 {
						for _, run := range p.Runs {
							drawn = append(drawn, geom.Polyline(run.Points(steps)...).Translate(move))
						}
					}
				}
			}
			want := outline.Bounds()
			require.InDelta(t, want.Width(), all.Width(), figure)
			require.InDelta(t, want.Height(), all.Height(), figure)
			moved := outline.Translate(all.Min.Sub(want.Min))
			covers(t, moved, drawn, c.name)
			for _, line := range heavy {
				require.LessOrEqual(t, greatestDistance(line.Flatten(0.01), moved), figure, c.name)
			}
		}
	}
}

// A sheet may be shared by small templates, and a set that fits side by side never parts.
func TestFullSizeAllShares(t *testing.T) {
	var all []template.Templated
	for _, name := range []string{"edge-bead", "press-shelf-bead", "thumb-edge"} {
		_, s := libraryProfile(t, name, 1)
		all = append(all, template.Templated{Section: s, Note: name})
	}
	pages := template.FullSizeAll(all, style(t, "A4", measure.Millimeters))
	require.Len(t, pages, 1)
	require.Empty(t, template.FullSizeAll(nil, style(t, "A4", measure.Millimeters)))
}

// A template that has room for its name carries it within its outline, so that it is not lost when that is cut out.
func TestTemplateCarriesItsName(t *testing.T) {
	for _, name := range []string{"press-base"} {
		_, s := libraryProfile(t, name, 1)
		pages := template.FullSize(s, style(t, "A3", measure.Millimeters))
		texts, strokes := marksOf(pages[0].Content)
		inside := 0
		for _, text := range texts {
			for _, stroke := range strokes {
				if text.S == s.Title && stroke.Pen == sheet.PenHair && stroke.Path.Contains(text.Bounds().Center()) {
					inside++
				}
			}
		}
		require.GreaterOrEqual(t, inside, 2, "%s: one for each end", name)
	}
}

// Small sprung sections have no room for their name beside the arrow: it runs along their back, or a leader goes from the wood to it. It is never missing.
func TestSmallTemplatesCarryTheirName(t *testing.T) {
	ways := map[string]int{}
	for _, name := range []string{"press-cornice", "crown-cove-and-cyma", "double-ogee-crown", "quarter-round", "edge-bead"} {
		for _, scale := range []float64{0.3, 0.5, 0.75, 1, 1.5} {
			_, s := libraryProfile(t, name, scale)
			for _, page := range (sheet.Document{Pages: template.FullSize(s, style(t, "Letter", measure.Inches))}).Numbered().Pages {
				require.Empty(t, clashes(page), "%s at %g", name, scale)
				texts, strokes := marksOf(page.Content)
				for _, cut := range strokes {
					if cut.Pen != sheet.PenCut || !cut.Path.Closed(1e-9) {
						continue
					}
					b := cut.Path.Bounds()
					way := ""
					for _, text := range texts {
						if strings.HasPrefix(text.S, s.Title) && text.Weight == sheet.Bold && cut.Path.Contains(text.At) {
							way = "named"
							if text.Angle != 0 && text.Angle != 90*geom.Degree {
								way = "along"
							}
						}
					}
					for _, line := range strokes {
						a, e := line.Path.Start(), line.Path.End()
						if way == "" && line.Pen == sheet.PenHair && len(line.Path) == 1 && near(a.X, e.X) && cut.Path.Contains(a) && near(e.Y, b.Min.Y-4) {
							way = "led"
						}
					}
					require.NotEmpty(t, way, "%s at %g", name, scale)
					ways[way]++
				}
			}
		}
	}
	require.Positive(t, ways["along"])
	require.Positive(t, ways["led"])
}
