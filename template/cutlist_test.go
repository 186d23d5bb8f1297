package template_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// caseOf returns a case around a plan, fitted with the library's profiles.
func caseOf(t testing.TB, units measure.Units, plan miter.Plan, corners map[string]geom.Angle, moldings ...miter.Molding) (miter.Case, miter.Result) {
	t.Helper()
	c := miter.Case{Name: "test", Title: "Test", Units: units, Stages: []miter.Stage{{Name: "case", Plan: plan, Height: 900}}, Corners: corners,
		Moldings: moldings, Shop: miter.Shop{Rough: 25, Safe: 300}}
	r, err := miter.Fit(c, library.Open("", "").SectionOf, nil)
	require.NoError(t, err)
	return c, r
}

// sheetCases are cases whose pieces have ends of every kind.
func sheetCases(t testing.TB, units measure.Units) map[string]func() (miter.Case, miter.Result) {
	box := miter.Plan{Width: 900, Depth: 400}
	one := func(plan miter.Plan, corners map[string]geom.Angle, m miter.Molding) func() (miter.Case, miter.Result) {
		return func() (miter.Case, miter.Result) {
			m.Name, m.At = "cornice", 800
			return caseOf(t, units, plan, corners, m)
		}
	}
	broken := miter.Plan{Width: 1500, Depth: 450, Canted: 80, Breakfront: &miter.Breakfront{Width: 700, Step: 60}}
	spline := &miter.SplineSpec{Thickness: 3, Depth: 8}
	return map[string]func() (miter.Case, miter.Result){
		"example":  func() (miter.Case, miter.Result) { return example(t) },
		"one end":  one(box, nil, miter.Molding{Profile: "press-base"}),
		"returned": one(box, nil, miter.Molding{Profile: "press-cornice", Runs: []string{"front"}, EndLeft: miter.EndReturn, EndRight: miter.EndReturn}),
		"off":      one(box, map[string]geom.Angle{"front-left": 91.5 * geom.Degree, "front-right": 87 * geom.Degree}, miter.Molding{Profile: "press-cornice"}),
		"coped":    one(broken, nil, miter.Molding{Profile: "press-waist", Inside: miter.InsideCope, Spline: spline}),
		"canted":   one(broken, nil, miter.Molding{Profile: "press-cornice"}),
		"framed":   one(box, nil, miter.Molding{Profile: "press-waist", Frame: &miter.FrameSpec{RailWidth: 50, Tenon: 20}}),
		"raking":   one(box, nil, miter.Molding{Profile: "ovolo-with-fillets", Rake: &miter.RakeSpec{Pitch: 20 * geom.Degree, Broken: true, Plumb: true}}),
		"narrowed": one(box, nil, miter.Molding{Profile: "ovolo-with-fillets", Reach: map[string]float64{"left": 12}}),
		"octagon":  one(miter.Plan{Octagon: 500, Freestanding: true}, nil, miter.Molding{Profile: "press-cornice"}),
	}
}

// Nothing clashes on the sheets of any case, on any paper, in either unit.
func TestCutListIsClear(t *testing.T) {
	for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
		for name, build := range sheetCases(t, units) {
			c, r := build()
			for _, paper := range []string{"Letter", "A4", "A4 landscape", "A5", "ANSI B"} {
				pages := sheet.Document{Pages: template.CutList(c, r, style(t, paper, units))}.Numbered().Pages
				for i, page := range pages {
					require.Empty(t, clashes(page), "%s on %s in %s, sheet %d, %s", name, paper, units, i+1, page.Frame.Title)
				}
			}
		}
	}
}

// An end cut along a wall that is not square to it is drawn with its angle, and called what it is.
func TestOffSquareEndOnTheSheets(t *testing.T) {
	c, r := caseOf(t, measure.Millimeters, miter.Plan{Width: 900, Depth: 400}, map[string]geom.Angle{"front-left": 90.5 * geom.Degree},
		miter.Molding{Name: "base", Profile: "press-base", Runs: []string{"left", "front"}, EndRight: miter.EndReturn})
	got := words(template.CutList(c, r, style(t, "A4", measure.Millimeters)))
	require.Contains(t, got, "|1|to the wall|0.5°|", "at the piece")
	require.Contains(t, got, "|1|to the wall|miter|0.5°|", "at the saw")
	require.Contains(t, got, "|44.75°|", "a square cut less half of 90.5 degrees")
	require.NotContains(t, got, "|1|square|")
}

// words returns all that is written on the pages.
func words(pages []sheet.Page) string {
	var out []string
	for _, p := range pages {
		texts, _ := marksOf(p.Content)
		for _, t := range texts {
			out = append(out, t.S)
		}
	}
	return "|" + strings.Join(out, "|") + "|"
}

// Every length and every angle of the result stands on the sheets, and each mark.
func TestCutListSaysTheResult(t *testing.T) {
	for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
		for name, build := range sheetCases(t, units) {
			c, r := build()
			st := style(t, "Letter", units)
			all := words(template.CutList(c, r, st))
			figure := func(mm float64) string {
				if units == measure.Inches {
					return st.Lengths.Drawing(mm)
				}
				return st.Lengths.Bare(mm)
			}
			pieces := append([]miter.Piece(nil), r.Beads...)
			for _, m := range r.Moldings {
				pieces = append(pieces, m.Pieces...)
			}
			for _, p := range pieces {
				require.Contains(t, all, "|"+p.Mark+"|", name)
				require.Contains(t, all, "rough  "+figure(st.Lengths.NoLess(p.Stick(c.Shop.Rough)))+"|", name)
				for what, mm := range map[string]float64{"back": p.Back, "long": p.Long, "short": p.Short} {
					if mm > 0.01 {
						require.Contains(t, all, "  "+figure(mm)+"|", "%s %s %s", name, p.Mark, what)
					}
				}
				for _, e := range p.Ends {
					for _, s := range []*miter.Saw{&e.Standing, e.Flat} {
						if s != nil {
							for _, angle := range st.Lengths.Angles(s.Miter, s.Bevel) {
								require.Contains(t, all, "|"+angle+"|", name)
							}
							require.Contains(t, all, fmt.Sprintf("|%s down, %s to the fence|", s.Table, s.Fence), name)
						}
					}
				}
			}
		}
	}
}

// Common practice, no source beyond the hopper rule of the saw's settings: a cornice that springs 38 degrees from the wall lies flat for a
// square corner at a miter of 31.6 and a bevel of 33.9 (33.86) degrees, and nests at 45 and 0.
func TestSprungCorniceAtItsSettings(t *testing.T) {
	c, r := example(t)
	for _, m := range r.Moldings {
		if m.Nesting == nil {
			continue
		}
		r.Moldings = []miter.MoldingResult{m}
		break
	}
	require.InDelta(t, 38, r.Moldings[0].Nesting.Spring.Degrees(), 1e-9)
	all := words(template.CutList(c, r, style(t, "Letter", measure.Inches)))
	for _, want := range []string{"31.62°", "33.86°", "45.0°", "0.0°"} {
		require.Contains(t, all, "|"+want+"|")
	}
}

// A piece with nothing to say to the saw is on one sheet with its setting.
func TestOnePieceTakesOneSheet(t *testing.T) {
	c, r := caseOf(t, measure.Inches, miter.Plan{Width: 900, Depth: 400}, nil,
		miter.Molding{Name: "shelf", Profile: "press-shelf-bead", Runs: []string{"front"}, EndLeft: miter.EndOpen, EndRight: miter.EndOpen})
	require.Len(t, template.CutList(c, r, style(t, "Letter", measure.Inches)), 2)
}

// The sheets of the example, byte for byte. UPDATE_GOLDEN=1 rewrites them.
func TestCutListGolden(t *testing.T) {
	c, r := example(t)
	pages := sheet.Document{Pages: template.CutList(c, r, style(t, "Letter", measure.Inches))}.Numbered().Pages
	files := map[string]string{
		"Pieces to cut: rough lengths": "cutlist-rough.svg", "Base: pieces to cut": "cutlist-base.svg", "Base: the saw": "cutlist-base-saw.svg",
		"Cornice: pieces to cut": "cutlist-cornice.svg", "Cornice: the saw, the molding lying flat": "cutlist-cornice-flat.svg",
	}
	for _, p := range pages {
		name := files[p.Frame.Title]
		if name == "" {
			continue
		}
		delete(files, p.Frame.Title)
		golden(t, name, p)
	}
	require.Empty(t, files, "sheets that are missing")
}

// exampleJob returns the example as a packet is drawn from it.
func exampleJob(t testing.TB) template.Job {
	c, r := example(t)
	return jobOf(t, c, r)
}

// The packet follows the order of the work, its sheets are numbered through, and it is the same every time.
func TestPacket(t *testing.T) {
	job := exampleJob(t)
	doc := template.Packet(job, style(t, "Letter", measure.Inches))
	var order []string
	for i, p := range doc.Pages {
		require.Equal(t, i+1, p.Frame.Sheet)
		require.Equal(t, len(doc.Pages), p.Frame.Of)
		for _, key := range []string{"Templates", "Pieces to cut: rough lengths", "Miter faces", "Printer check"} {
			if p.Frame.Title == key && (len(order) == 0 || order[len(order)-1] != key) {
				order = append(order, key)
			}
		}
	}
	require.Equal(t, []string{"Templates", "Pieces to cut: rough lengths", "Miter faces", "Printer check"}, order)
	require.Equal(t, job.Case.Title, doc.Title)
	var a, b bytes.Buffer
	require.NoError(t, sheet.WritePDF(&a, doc))
	require.NoError(t, sheet.WritePDF(&b, template.Packet(job, style(t, "Letter", measure.Inches))))
	require.True(t, bytes.Equal(a.Bytes(), b.Bytes()))
}

// The packet's pages, not yet printed.
func BenchmarkPacket(b *testing.B) {
	job := exampleJob(b)
	st := style(b, "Letter", measure.Inches)
	for b.Loop() {
		template.Packet(job, st)
	}
}

func BenchmarkCutList(b *testing.B) {
	job := exampleJob(b)
	st := style(b, "Letter", measure.Inches)
	for b.Loop() {
		template.CutList(job.Case, job.Result, st)
	}
}
