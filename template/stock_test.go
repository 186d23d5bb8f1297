package template_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/miter/stock"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
	"listel/template/sheet"
)

const inch = measure.MMPerInch

// cuttingOf plans the stock of a case that is fitted.
func cuttingOf(t testing.TB, c miter.Case, r miter.Result) template.Cutting {
	t.Helper()
	p, err := miter.Buy(c, r)
	require.NoError(t, err)
	plan, err := p.Solve(context.Background(), 0)
	require.NoError(t, err)
	return template.Cutting{Purchase: p, Plan: plan}
}

// cuttings are plans of every kind: the examples, without prices, glued up, on the slant, and plain lists.
func cuttings(t testing.TB) map[string]template.Cutting {
	out := map[string]template.Cutting{"slant": slantCutting(t)}
	for _, name := range []string{"herb-press", "seed-cabinet"} {
		c, r := exampleNamed(t, name)
		out[name] = cuttingOf(t, c, r)
		if name != "herb-press" {
			continue
		}
		c.Stock = []miter.StockItem{{Wood: "black cherry", Thickness: "4/4", ThickMM: inch, Width: 11 * inch, Length: 96 * inch}}
		out["glued up, no prices"] = cuttingOf(t, c, r)
		c.Shop = miter.Shop{}
		out["no allowances"] = cuttingOf(t, c, r)
	}
	list := miter.PieceList{Pieces: []stock.Piece{{Mark: "rail", Length: 22.5 * inch, Count: 30}, {Mark: "stile", Length: 30 * inch, Count: 24}, {Mark: "pin", Length: 20, Count: 40},
		{Mark: "a mark that is long", Length: 3 * inch, Count: 3, Wrap: "w"}},
		Stock: []miter.StockItem{{Length: 120 * inch, Price: 9, Priced: true}, {Thickness: "4/4", ThickMM: inch, Width: 2 * inch, Length: 40 * inch, Have: 3}}, Shop: miter.Shop{Kerf: inch / 8, Trim: inch}}
	p := list.Buy()
	plan, err := p.Solve(context.Background(), 0)
	require.NoError(t, err)
	out["plain list"] = template.Cutting{Purchase: p, Plan: plan}
	return out
}

// slantCutting is a case with a crown that saves a board when it is ripped on the slant: 45 degrees, so that foot and top lean alike.
func slantCutting(t testing.TB) template.Cutting {
	t.Helper()
	crown := profile.Section{Name: "crown", Outline: geom.Polygon(geom.Pt(0, 0), geom.Pt(24, 0), geom.Pt(68, 44), geom.Pt(44, 44)),
		Face: geom.Polyline(geom.Pt(24, 0), geom.Pt(68, 44)), Back: geom.Polyline(geom.Pt(68, 44), geom.Pt(44, 44), geom.Pt(0, 0), geom.Pt(24, 0)),
		Height: 44, Projection: 68, Ground: 24, Spring: &profile.SizedSpring{Angle: 45 * geom.Degree, Top: 24}}
	c := miter.Case{Name: "slant", Stages: []miter.Stage{{Name: "case", Plan: miter.Plan{Width: 1500, Depth: 500}, Height: 900}},
		Moldings: []miter.Molding{{Name: "cornice", On: "case", Profile: "crown", At: 800, EndLeft: miter.EndWall, EndRight: miter.EndWall, Inside: miter.InsideMiter}},
		Shop:     miter.Shop{Kerf: 1.5, Rough: 20},
		Stock:    []miter.StockItem{{Thickness: "38mm", ThickMM: 38, Width: 144, Length: 2000, Price: 20, Priced: true}}}
	r, err := miter.Fit(c, func(string) (profile.Section, error) { return crown, nil }, nil)
	require.NoError(t, err)
	return cuttingOf(t, c, r)
}

// Nothing clashes on the stock sheets, on any paper, in either unit, and each can be printed.
func TestStockSheetsAreClear(t *testing.T) {
	all := cuttings(t)
	for _, paper := range []string{"Letter", "A4", "A4 landscape", "ANSI B"} {
		for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
			for name, c := range all {
				pages := template.StockSheets(c, style(t, paper, units))
				require.NoError(t, sheet.WritePDF(&bytes.Buffer{}, sheet.Document{Pages: pages}))
				for i, page := range (sheet.Document{Pages: pages}).Numbered().Pages {
					require.Empty(t, clashes(page), "%s on %s in %s, page %d", name, paper, units, i+1)
				}
			}
		}
	}
}

// texts returns all that is written on pages, a line each.
func texts(pages []sheet.Page) string {
	var all []string
	for _, p := range pages {
		ts, _ := marksOf(p.Drawing())
		for _, x := range ts {
			all = append(all, x.S)
		}
	}
	return strings.Join(all, "\n")
}

// Two strips of the crown on a board of 144 mm take the slant, and the sheet says at what bevel; square they would take 159.9 mm.
func TestSlantIsSaid(t *testing.T) {
	c := slantCutting(t)
	require.Len(t, c.Plan.Boards, 1)
	rips := c.Rips(c.Plan.Boards[0])
	require.Len(t, rips, 1)
	require.NotNil(t, rips[0].Slant)
	require.Equal(t, 2, rips[0].Strips)
	require.InDelta(t, 143.5, rips[0].Slant.Width(2), 0.1) // 56 x 1.414 + 44 x 1.414 + 1.5 x 1.414
	require.Zero(t, c.Left(c.Plan.Boards[0]))              // less than a kerf
	bevel := measure.Format{}.Angle(rips[0].Slant.Bevel)
	require.Contains(t, texts(template.StockSheets(c, style(t, "A4", measure.Millimeters))), "tilt "+bevel)
	require.Contains(t, strings.Join(c.Notes(measure.Format{}), "\n"), "blade tilted "+bevel)
}

// Every piece of the plan is on the sheets as often as it is cut, and so is the proof.
func TestStockSheetsShowEveryPiece(t *testing.T) {
	c := cuttings(t)["seed-cabinet"]
	all := "\n" + texts(template.StockSheets(c, style(t, "Letter", measure.Inches))) + "\n"
	want := map[string]int{}
	for _, s := range c.Plan.Sticks {
		for _, cut := range s.Cuts {
			want[cut.Mark]++
		}
	}
	for mark, n := range want {
		if mark != stock.SpareMark && mark != stock.TestMark {
			require.Equal(t, n, strings.Count(all, "\n"+mark+"\n")+strings.Count(all, "\n"+mark+" "), mark)
		}
	}
	require.Contains(t, all, "Proven: no way to rip these boards full length, each strip for one section alone, and cut the strips costs less.")
	require.Contains(t, all, "Cornice: its runs are longer together than any one stick")
}

// What is not proven says by how much it may be off.
func TestGapIsSaid(t *testing.T) {
	c := cuttings(t)["herb-press"]
	c.Plan.Proven, c.Plan.LowerBound, c.Plan.Gap, c.Plan.Stopped = false, 140, 10, "time"
	require.Equal(t, "Not proven: this plan costs 246.00, no way to rip these boards full length, each strip for one section alone, and cut the strips comes to less than 140.00 (a gap of 10.00); the time ran out.", c.Proof(measure.Format{}))
}

// The beads, 3/16 in and 7/32 in thick, leave room for a second one in 4/4, 13/16 in surfaced: it is said that they may be resawn, and that they are too
// thin to be machined loose (common practice, no source). The back rail, 1/2 in or more, is not.
func TestThinBlanksAreTold(t *testing.T) {
	c := cuttings(t)["herb-press"]
	notes := strings.Join(c.Notes(measure.Format{Units: measure.Inches}), "\n")
	require.Contains(t, notes, "The beads: two blanks and a kerf fit in the 13/16 in of the surfaced board. Resaw it")
	require.Contains(t, notes, "The beads: too thin to be machined as a loose stick.")
	require.Contains(t, notes, "mold each on the edge of a board planed to 3/16 in and at least 4 in wide")
	require.Regexp(t, "Boards? [0-9 and]+ (is|are) counted for it", notes)
	require.NotContains(t, notes, "The waist: two blanks")
	require.NotContains(t, notes, "The base: too thin")
	// Each strip takes its 7/32 in, 1/8 in of kerf and 1/8 in for the jointer; all but one are off when the last is molded, and the board is still 4 in wide then.
	boards := 0
	for _, b := range c.Plan.Boards {
		for i, r := range c.Rips(b) {
			if c.Strip(r.Profile) != "the beads" {
				continue
			}
			boards++
			require.Equal(t, len(b.Rips)-1, i, "nothing is ripped after them")
			require.InDelta(t, 15.0/32*25.4, r.Each, 1e-9)
			require.GreaterOrEqual(t, b.Width-r.From-float64(r.Strips-1)*r.Each, 4*25.4-1e-6, "board %d", b.N)
		}
	}
	require.Positive(t, boards)
	c.Purchase.Job.Shop.Kerf = 60
	require.NotContains(t, strings.Join(c.Notes(measure.Format{}), "\n"), "Resaw", "the kerf leaves no room")
}

// A strip too thin for a loose stick has a board of 4 in (100 mm) counted behind it where it can be molded on the edge of one at all, as the set-ups find; one
// that runs out at foot and top has none.
func TestBoardsBehindThinStrips(t *testing.T) {
	l := library.Open("", "")
	chamfered := geom.Polygon(geom.Pt(0, 0), geom.Pt(3, 0), geom.Pt(8, 5), geom.Pt(8, 25), geom.Pt(3, 30), geom.Pt(0, 30))
	edge := geom.Polygon(geom.Pt(0, 0), geom.Pt(8, 0), geom.Pt(8, 25), geom.Pt(3, 30), geom.Pt(0, 30))
	bead := geom.Polygon(geom.Pt(0, 0), geom.Pt(4, 0), geom.Pt(8, 3), geom.Pt(4, 6), geom.Pt(0, 6))
	sections := map[string]profile.Section{}
	for name, o := range map[string]geom.Path{"chamfered": chamfered, "edge": edge, "bead": bead} {
		sections[name] = profile.Section{Name: name, Outline: o, Face: o[1 : len(o)-1], Projection: o.Bounds().Max.X, Height: o.Bounds().Max.Y, Ground: 8}
	}
	for _, e := range l.List(library.KindProfile) {
		s, err := l.SectionOf(e.Name)
		require.NoError(t, err)
		sections[e.Name] = s
	}
	var behind, none []string
	for name, s := range sections {
		c := miter.Case{Name: "one", Wood: "black cherry", Stages: []miter.Stage{{Name: "case", Plan: miter.Plan{Width: 1500, Depth: 600}, Height: 900}},
			Moldings: []miter.Molding{{Name: "one", Profile: name, At: 100}}, Stock: []miter.StockItem{{Wood: "black cherry", ThickMM: 50, Width: 200, Length: 3000}}}
		r, err := miter.Fit(c, func(string) (profile.Section, error) { return s, nil }, nil)
		if err != nil {
			continue
		}
		p, err := miter.Buy(c, r)
		require.NoError(t, err)
		blank := s.Blank()
		if min(blank.Width, blank.Thickness) >= cutter.ThinStick-0.01 {
			require.Zero(t, p.Job.Profiles[0].Board, name)
			continue
		}
		want := 100.0
		if cutter.FromSection(s).RunsOut() {
			want, none = 0, append(none, name)
		} else {
			behind = append(behind, name)
		}
		require.Equal(t, want, p.Job.Profiles[0].Board, name)
	}
	require.Contains(t, none, "chamfered")
	require.Subset(t, behind, []string{"edge", "bead"})
}

// A board that its strips fill to within 1/4 in of its width is named (common practice, no source); one with more left is not.
func TestFullBoardsAreTold(t *testing.T) {
	c := cuttings(t)["seed-cabinet"]
	told := func(left ...float64) string {
		for i := range c.Plan.Boards {
			b := &c.Plan.Boards[i]
			for range 3 { // a board that becomes wide enough is no longer ripped on the slant, and has less left
				b.Width += left[i%len(left)] - c.Left(*b)
			}
			require.InDelta(t, left[i%len(left)], c.Left(*b), 1e-9)
		}
		return strings.Join(c.Notes(measure.Format{Units: measure.Inches}), "\n")
	}
	require.Greater(t, len(c.Plan.Boards), 2)
	require.NotContains(t, told(6.5), "is left across")
	n := len(c.Plan.Boards)
	lefts := slices.Repeat([]float64{6.5}, n)
	lefts[1] = 6.2
	require.Contains(t, told(lefts...), "Less than 1/4 in is left across board 2: measure before you buy")
	lefts[n-1] = 0.1
	require.Contains(t, told(lefts...), fmt.Sprintf("Less than 1/4 in is left across boards 2 and %d:", n))
}

// Where a blank is glued up the list says of how many layers: 4/4 is 13/16 in surfaced (hardwood lumber dimension tables at woodbin.com and
// engineeringtoolbox.com), so that 1 1/8 in takes two; the other way 2 11/16 in would take four. The full layer at the foot leaves 1 1/8 - 13/16 = 5/16 in, 7.9 mm, for the other.
func TestGluedUpIsSaid(t *testing.T) {
	notes := strings.Join(cuttings(t)["glued up, no prices"].Notes(measure.Format{}), "\n")
	require.Contains(t, notes, "No stock is thick enough for the waist: each of its blanks is glued up of 2 layers; with full layers from the foot up the last glue line lies 7.9 mm under the top.")
}

// The stock sheets of the example, byte for byte. UPDATE_GOLDEN=1 rewrites them.
func TestStockSheetsGolden(t *testing.T) {
	pages := sheet.Document{Pages: template.StockSheets(cuttings(t)["herb-press"], style(t, "Letter", measure.Inches))}.Numbered().Pages
	for i, name := range []string{"stock-buy.svg", "stock-cut.svg"} {
		golden(t, name, pages[i])
	}
}
