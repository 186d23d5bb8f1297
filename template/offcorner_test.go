package template_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/scraper"
	"listel/template/sheet"
)

// offCorner makes a corner of the example a degree and a half too sharp; no seated stage fits that.
func offCorner(c *miter.Case) {
	c.Corners = map[string]geom.Angle{"front-right": 88.5 * geom.Degree}
	for i := range c.Moldings {
		c.Moldings[i].Seats = ""
	}
}

// A corner that is off is told on the sheets: on the plans by its angle, on the pieces by what is held and what turns; shoulders that differ are no mirror
// images; a piece whose ends lean the same way has one length to be cut off the stick by; and the shoulder of a tenon is no miter face.
func TestOffCornersOnTheSheets(t *testing.T) {
	c, r := changedExample(t, "herb-press", offCorner)
	st := style(t, "Letter", measure.Inches)
	cover := template.Cover(c, r, st, nil)
	require.Contains(t, pageWords(cover), "88.5°")
	cut := template.CutList(c, r, st)
	pieces := pageWords(cut)
	require.Contains(t, pieces, "Corner front-right measures 88.5°, not 90°: every edge of the case keeps the length")
	frame := template.FrameSheets(r, st)
	require.Len(t, frame, 1)
	require.Contains(t, pageWords(frame), "mirror image but for the shoulders, drawn square: the left is square, the right 1.5° off square")
	lean := 0
	for _, m := range r.Moldings {
		for _, p := range m.Pieces {
			require.Contains(t, words(cut), "|rough  "+st.Lengths.Drawing(st.Lengths.NoLess(p.Stick(c.Shop.Rough)))+"|", p.Mark)
			if p.Stick(c.Shop.Rough) > p.Rough+1 {
				lean++
			}
		}
	}
	require.Positive(t, lean, "the test must see a piece whose stick is longer than its rough length")
	require.NotContains(t, pageWords(template.MiterFaces(r, st)), "Back rail")
	for _, page := range append(append(cover, cut...), frame...) {
		require.Empty(t, clashes(page), page.Frame.Title)
	}
	_, square := exampleNamed(t, "herb-press")
	require.Contains(t, pageWords(template.FrameSheets(square, st)), "the right one is its mirror image; the wall at the top")
}

// The angle of a corner lies clear of the outline on every plan, where the molding does not reach and where the corner is blunt too.
func TestCornerAnglesAreClear(t *testing.T) {
	for name, plan := range map[string]miter.Plan{"broad": {Width: 1500, Depth: 350, Breakfront: &miter.Breakfront{Width: 760, Step: 60}}, "canted": {Width: 1100, Depth: 500, Canted: 76}} {
		angle := 92 * geom.Degree
		if name == "canted" {
			angle = 137 * geom.Degree
		}
		c, r := caseOf(t, measure.Millimeters, plan, map[string]geom.Angle{"left/front-left": angle},
			miter.Molding{Name: "base", Profile: "press-base"}, miter.Molding{Name: "band", Profile: "press-base", At: 400, Runs: []string{"front"}})
		for i, page := range template.Cover(c, r, style(t, "Letter", measure.Millimeters), nil) {
			require.Contains(t, pageWords([]sheet.Page{page}), strconv.FormatFloat(angle.Degrees(), 'g', 4, 64)+"°")
			require.Empty(t, clashes(page), "%s, sheet %d", name, i+1)
		}
	}
}

// A sprung molding's settings have a name for each way that it lies, at its pieces and at the saw; the others have one.
func TestEachWayToLieHasItsName(t *testing.T) {
	c, r := exampleNamed(t, "herb-press")
	said := words(template.CutList(c, r, style(t, "Letter", measure.Inches)))
	nested, flat := 0, 0
	for i := 1; i < 40; i++ {
		n, f := strings.Count(said, "|"+strconv.Itoa(i)+"N|"), strings.Count(said, "|"+strconv.Itoa(i)+"F|")
		require.Equal(t, n, f, "setting %d", i)
		if n > 0 {
			require.GreaterOrEqual(t, n, 2, "at a piece and at the saw")
			require.NotContains(t, said, "|"+strconv.Itoa(i)+"|", "a number alone does not say how the molding lies")
		}
		nested, flat = nested+n, flat+f
	}
	require.Positive(t, nested)
	require.Positive(t, flat)
	require.NotContains(t, said, "next sheet")
}

// Gauges of sawn faces: one serves corners whose faces differ by less than shows, and says which; others have their own.
func TestGaugesOfEveryCorner(t *testing.T) {
	plan := miter.Plan{Width: 900, Depth: 400, Canted: 80}
	gauges := func(deg float64) string {
		_, r := caseOf(t, measure.Millimeters, plan, map[string]geom.Angle{"front/front-right": geom.Angle(deg) * geom.Degree}, miter.Molding{Name: "base", Profile: "press-base"})
		st := style(t, "A4", measure.Millimeters)
		return pageWords(template.GaugeSheets(template.CaseGauges(r, st), true, st))
	}
	require.Contains(t, gauges(134.9), "the sawn face, corner 135.0° and 134.9°")
	own := gauges(125)
	require.Contains(t, own, "the sawn face, corner 135.0°")
	require.Contains(t, own, "the sawn face, corner 125.0°")
}

// A broad flat's blade is not made, and the sheet says so; those that are made are marked from A. Nothing on the sheets is said of the program's options.
func TestBroadFlatWithoutBladeIsTold(t *testing.T) {
	st := style(t, "A4", measure.Millimeters)
	said := pageWords(template.ScraperSheets(template.CaseScrapings(exampleJob(t), scraper.Options{}), st))
	require.Contains(t, said, "Plane the broad flat, fascia 1: it needs no blade, and none is drawn here.")
	require.Contains(t, said, "file with A 2 astragal")
	require.NotContains(t, said, "--")
}

// A molding round a case that stands free: each side is glued in one way, at its front, and its miter at the back moves. What has the same mark as the
// front but lies otherwise is named by its run.
func TestGluedOneWay(t *testing.T) {
	all := func(p miter.Plan) string {
		p.Freestanding = true
		c, r := changedExample(t, "herb-press", func(c *miter.Case) {
			c.Stages = []miter.Stage{{Name: "lower", Plan: p, Height: 900}}
			c.Moldings = []miter.Molding{{Name: "base", Profile: "press-base", On: "lower"}}
			c.Openings, c.Beads, c.Stock = nil, nil, nil
		})
		require.True(t, r.Moldings[0].Closed)
		require.NotNil(t, r.Moldings[0].Movement)
		return pageWords(template.FixingSheets(c, r, style(t, "Letter", measure.Inches)))
	}
	free := all(miter.Plan{Width: 1000, Depth: 450})
	require.Contains(t, free, "Sides: glue the first 3″, then screws in slots")
	require.Contains(t, free, "The sides' miters at the back stay without glue: the sides move there.")
	require.NotContains(t, free, "glue the middle")
	eight := all(miter.Plan{Octagon: 700})
	require.Contains(t, eight, "The sides' miters at the back stay without glue")
	require.Contains(t, eight, "front-left, front-right, back-right and back-left: glue the middle 3″ and the miters")
}

// On a canted case with a corner off by a degree: grooves that differ by less than 1/64 in are one spline; the sheets say how the cants are glued; and the left
// side is drawn as it is seen, its front at the right.
func TestCantsOnTheSheets(t *testing.T) {
	c, r := changedExample(t, "herb-press", func(c *miter.Case) {
		offCorner(c)
		c.Corners = map[string]geom.Angle{"front/front-right": 134 * geom.Degree}
		c.Openings, c.Beads = nil, nil
		for i := range c.Stages {
			c.Stages[i].Plan.Canted = 70
		}
	})
	st := style(t, "Letter", measure.Inches)
	require.Equal(t, 1, strings.Count(words(template.SplineSheets(r, st)), "|⅜″|"), "one row for all grooves")
	pages := template.FixingSheets(c, r, st)
	require.Contains(t, pageWords(pages), "B2 and B4: glue the middle 3″ and the miters")
	require.Contains(t, pageWords(pages), "W2 and W4: glue all along, like the front.")
	sides := 0
	for _, page := range pages {
		require.Empty(t, clashes(page), page.Frame.Title)
		said, _ := marksOf(page.Content)
		at := map[string]float64{}
		for _, x := range said {
			at[x.S] = x.Bounds().Center().X
		}
		if _, ok := at["wall"]; ok && strings.Contains(pageWords([]sheet.Page{page}), "The left side ") {
			sides++
			require.Greater(t, at["GLUE"], at["wall"], page.Frame.Title)
		}
	}
	require.Positive(t, sides)
	require.NotContains(t, pageWords(pages), "mirror")
}

// A notch that is not in the foot of its bead says so; the notches are drawn once, and the list of pieces names them.
func TestNotchesInTheTopEdgeSaySo(t *testing.T) {
	c, r := exampleNamed(t, "herb-press")
	st := style(t, "Letter", measure.Inches)
	top, notched := 0, 0
	for _, p := range r.Beads {
		if len(p.Notches) > 0 {
			notched++
		}
		for _, n := range p.Notches {
			if n.Side == miter.TopFace {
				top++
			}
		}
	}
	require.Positive(t, top)
	require.Equal(t, top, strings.Count(pageWords(template.OpeningSheets(r, st)), "in the top edge"))
	require.Equal(t, notched, strings.Count(pageWords(template.CutList(c, r, st)), "see Beads: notches"))
}
