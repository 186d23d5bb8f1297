package library

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
)

const inch = measure.MMPerInch

// TestLoadCaseEveryKey reads a file that has every key of a case and compares each value with what the file says.
func TestLoadCaseEveryKey(t *testing.T) {
	data, err := os.ReadFile("testdata/case/every-key.yaml")
	require.NoError(t, err)
	c, src, err := LoadCase("every-key.yaml", data)
	require.NoError(t, err)
	offset := geom.Pt(2*inch, 1.5*inch)
	require.Equal(t, miter.Case{
		Name: "every-key", Title: "A press with every key of a case file", Units: measure.Inches,
		Stages: []miter.Stage{
			{Name: "lower", Plan: miter.Plan{Width: 42 * inch, Depth: 18 * inch}, Height: 38 * inch},
			{Name: "upper", Plan: miter.Plan{Width: 38 * inch, Depth: 16 * inch}, Height: 762, Offset: &offset},
		},
		Corners: map[string]geom.Angle{"front-left": 90 * geom.Degree, "front-right": 89.5 * geom.Degree, "left/front": 91 * geom.Degree},
		Wood:    "black cherry",
		Side:    miter.Side{Framed: true, Cut: miter.QuarterSawn},
		Room:    miter.Room{HumidityLow: 30, HumidityHigh: 65, BuiltAt: 45, Celsius: c.Room.Celsius},
		Moldings: []miter.Molding{{
			Name: "waist", On: "lower", Profile: "press-waist", At: 38 * inch, Inset: 62.70625, Runs: []string{"left", "front", "right"},
			EndLeft: miter.EndReturn, EndRight: miter.EndOpen, Inside: miter.InsideCope, Seats: "upper", Clearance: 0.79375,
			Reach:  map[string]float64{"left": 19.05, "right": 19},
			Spline: &miter.SplineSpec{Thickness: 3.175, Depth: 9.525, Stopped: true}, Pin: &miter.PinSpec{Diameter: 6.35, Depth: 19.05},
			Frame: &miter.FrameSpec{RailWidth: 50.8, Tenon: 25.4}, Rake: &miter.RakeSpec{Pitch: 20 * geom.Degree, Broken: true, Plumb: true},
		}, {
			Name: "press-cornice", On: "upper", Profile: "press-cornice", At: 68 * inch,
			EndLeft: miter.EndReturn, EndRight: miter.EndReturn, Inside: miter.InsideMiter,
		}},
		Openings: &miter.Openings{On: "lower", Edge: "front", Left: inch, Right: inch, Bottom: 4 * inch, Top: 34 * inch, Divider: 19.05,
			Graduate: miter.Graduation{Rows: 4, Ratio: 0.88}, TopRow: 2},
		Beads: &miter.Beads{Profile: "edge-bead"},
		Shop:  miter.Shop{Kerf: 3, Rough: 31.75, Test: 14 * inch, Spare: 0.2, Safe: 254, Trim: 50.8, Offcut: 18 * inch, Planing: 6.35},
		Stock: []miter.StockItem{
			{Wood: "black cherry", Thickness: "8/4", ThickMM: 50.8, Width: 6 * inch, Length: 96 * inch, Price: 54, Priced: true, Have: 2},
			{Wood: "black cherry", Thickness: "1 1/2 in", ThickMM: 38.1, Length: 96 * inch},
		},
	}, c)
	require.InDelta(t, 21.11, c.Room.Celsius, 0.01) // 70 F
	for path, want := range map[string]string{
		"moldings[0].reach.left":           "3/4",
		"moldings[0].joint.pin.depth":      "3/4",
		"moldings[1].profile":              "press-cornice",
		"stages[1].offset[1]":              "1 1/2",
		"stages[0].plan.width":             "42",
		"corners.left/front":               "91",
		"openings.graduate.ratio":          "0.88",
		"stock[0].price":                   "54",
		"stock[1].width":                   "{thickness", // not given: its entry
		"room.humidity[1]":                 "65%",
		"moldings[0].runs[2]":              "right",
		"moldings[0].frame.back-rail.slot": "{width: 2",
	} {
		require.True(t, strings.HasPrefix(from(string(data), src.Place(path)), want), "%s: %v", path, src.Place(path))
	}
}

// from returns the text of a file from a place on.
func from(text string, p Place) string {
	line := []rune(strings.Split(text, "\n")[p.Line-1])
	return string(line[p.Column-1:])
}

// TestLoadCaseForms reads the other forms that plans, openings and ends take.
func TestLoadCaseForms(t *testing.T) {
	load := func(body string) miter.Case {
		t.Helper()
		c, _, err := LoadCase("case.yaml", []byte("kind: case\nunits: mm\n"+body))
		require.NoError(t, err)
		return c
	}
	plan := func(body string) miter.Plan {
		t.Helper()
		return load("plan: " + body + "\nheight: 900").Stages[0].Plan
	}
	require.Equal(t, miter.Plan{Width: 900, Depth: 400, Canted: 75}, plan("{width: 900, depth: 400, canted: {setback: 75}}"))
	require.Equal(t, miter.Plan{Width: 900, Depth: 400, Breakfront: &miter.Breakfront{Width: 500, Step: 40}}, plan("{width: 900, depth: 400, breakfront: {width: 500, step: 40}}"))
	require.Equal(t, miter.Plan{Octagon: 600, Freestanding: true}, plan("{octagon: {across: 600}, freestanding: true}"))
	require.Equal(t, miter.Plan{HalfOctagon: 600}, plan("{half-octagon: {width: 600}}"))
	require.Equal(t, miter.Plan{Outline: []geom.Point{{}, {X: 500}, {X: 500, Y: 300}}, Edges: []string{"front", "right", "back"}},
		plan("{outline: [[0, 0], [500, 0], [500, 300]], edges: [front, right, back]}"))

	c := load("plan: {width: 1, depth: 1}\nheight: 3/4in")
	require.Equal(t, []miter.Stage{{Name: "case", Plan: miter.Plan{Width: 1, Depth: 1}, Height: 19.05}}, c.Stages)
	require.Equal(t, "case", c.Name)
	require.Equal(t, miter.Shop{Kerf: 3.175, Rough: 25.4, Test: 304.8, Spare: 0.15, Safe: 304.8, Trim: 25.4, Offcut: 304.8, Planing: 3.175}, c.Shop)
	require.Equal(t, miter.Side{Cut: miter.FlatSawn}, c.Side)

	rows := func(body string) miter.Graduation {
		t.Helper()
		return load("plan: {width: 1, depth: 1}\nheight: 900\nopenings: {area: {left: 1, right: 1, bottom: 1, top: 800}, graduate: " + body + "}").Openings.Graduate
	}
	require.Equal(t, miter.Graduation{Rows: 3, Step: 25}, rows("{rows: 3, step: 25}"))
	require.Equal(t, miter.Graduation{Rows: 3, Bottom: 300, Top: 100}, rows("{rows: 3, bottom: 300, top: 100}"))
	require.Equal(t, miter.Graduation{Rows: 2, Heights: []miter.Row{{Height: 250, Drawers: 1}, {Height: 200, Drawers: 2}}},
		rows("{rows: [{height: 250}, {height: 200, drawers: 2}]}"))

	c = load("plan: {width: 1, depth: 1}\nheight: 900\nmoldings: [{profile: a, at: 0}, {profile: a, at: 1}, {name: b, profile: a, at: 2}]")
	require.Equal(t, []string{"a", "a-2", "b"}, []string{c.Moldings[0].Name, c.Moldings[1].Name, c.Moldings[2].Name})

	c = load("plan: {width: 1, depth: 1}\nheight: 900\nroom: {humidity: [30, 60]}\nmoldings: [{profile: a, at: 0, ends: {right: return}}]")
	require.Equal(t, 45.0, c.Room.BuiltAt)
	require.Equal(t, miter.EndWall, c.Moldings[0].EndLeft)
	require.Equal(t, miter.EndReturn, c.Moldings[0].EndRight)
	require.Equal(t, "case", c.Moldings[0].On)
	require.Nil(t, c.Moldings[0].Runs)
}
