package template_test

import (
	"fmt"
	"slices"
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

// fittingCases are cases with something to fix, to frame, to divide, of every size.
func fittingCases(t testing.TB) map[string]func() (miter.Case, miter.Result) {
	varied := func(name string, change func(*miter.Case)) func() (miter.Case, miter.Result) {
		return func() (miter.Case, miter.Result) { return changedExample(t, name, change) }
	}
	return map[string]func() (miter.Case, miter.Result){
		"press": varied("herb-press", func(*miter.Case) {}),
		"seed":  varied("seed-cabinet", func(*miter.Case) {}),
		"many drawers": varied("herb-press", func(c *miter.Case) {
			c.Openings.Graduate = miter.Graduation{Rows: 9, Step: 2}
			c.Openings.TopRow = 5
		}),
		"rows of many": varied("herb-press", func(c *miter.Case) {
			total := c.Openings.Top - c.Openings.Bottom - c.Openings.Divider
			c.Openings.Graduate = miter.Graduation{Heights: []miter.Row{{Height: total * 0.6, Drawers: 3}, {Height: total * 0.4, Drawers: 2}}}
		}),
		"deep": varied("herb-press", func(c *miter.Case) {
			c.Moldings = c.Moldings[:1]
			c.Stages = c.Stages[:1]
			c.Stages[0].Plan.Depth = 1800
		}),
		"shallow": varied("herb-press", func(c *miter.Case) {
			c.Moldings = c.Moldings[:1]
			c.Stages = c.Stages[:1]
			c.Stages[0].Plan.Depth = 110
		}),
		"off corner": varied("herb-press", offCorner),
		"no beads":   varied("herb-press", func(c *miter.Case) { c.Beads = nil }),
		"no room":    varied("herb-press", func(c *miter.Case) { c.Room = miter.Room{} }),
		"with pins":  varied("seed-cabinet", func(c *miter.Case) { c.Moldings[2].Pin = &miter.PinSpec{Diameter: 6, Depth: 15} }),
	}
}

// fittingSheets returns all the sheets under test here.
func fittingSheets(c miter.Case, r miter.Result, st template.Style) []sheet.Page {
	return slices.Concat(template.FrameSheets(r, st), template.OpeningSheets(r, st), template.DentilSheets(r, st),
		template.FixingSheets(c, r, st), template.StoryStick(r, st))
}

// Nothing clashes on the sheets of any case, on any paper, in either unit.
func TestFittingSheetsAreClear(t *testing.T) {
	for _, units := range []measure.Units{measure.Inches, measure.Millimeters} {
		for name, build := range fittingCases(t) {
			c, r := build()
			for _, paper := range []string{"Letter", "A4", "A4 landscape", "ANSI B"} {
				for i, page := range (sheet.Document{Pages: fittingSheets(c, r, style(t, paper, units))}).Numbered().Pages {
					require.Empty(t, clashes(page), "%s on %s in %s, sheet %d %s", name, paper, units, i+1, page.Frame.Title)
				}
			}
		}
	}
}

// textsOf returns the texts of pages, in one string each.
func textsOf(pages []sheet.Page) []string {
	var out []string
	for _, p := range pages {
		texts, _ := marksOf(p.Content)
		for _, x := range texts {
			out = append(out, x.S)
		}
	}
	return out
}

// The numbers on the sheets are those of the result.
func TestFittingSheetsTellTheResult(t *testing.T) {
	c, r := exampleNamed(t, "herb-press")
	st := style(t, "Letter", measure.Inches)
	fig := st.Lengths.Drawing
	has := func(pages []sheet.Page, words string) {
		t.Helper()
		require.Contains(t, strings.Join(textsOf(pages), "\n"), words)
	}
	frame := template.FrameSheets(r, st)
	require.Len(t, frame, 1)
	waist := r.Moldings[1]
	for _, p := range waist.Pieces {
		if p.Run == "back-rail" {
			has(frame, fig(p.Back)+" shoulder to shoulder")
			has(frame, fig(p.Back+2*waist.Frame.Tenon)+" over the tenons")
		}
	}
	has(frame, fig(waist.Frame.Across))
	has(frame, fig(waist.Frame.HaunchIn)+" haunch")

	openings := template.OpeningSheets(r, st)
	for _, d := range r.Drawers {
		has(openings, fig(d.Width)+" × "+fig(d.Height))
	}
	for _, p := range r.Beads {
		has(openings, p.Mark)
		if len(p.Notches) > 0 {
			has(openings, fig(p.Back))
		}
		for _, n := range p.Notches {
			has(openings, fig(n.At))
		}
	}

	fixing := template.FixingSheets(c, r, st)
	moves := 0
	for _, m := range r.Moldings {
		if m.Movement == nil {
			continue
		}
		moves++
		has(fixing, "glue "+fig(m.Movement.Glue))
		for _, s := range m.Movement.Slots {
			has(fixing, fig(s.Length)+" long")
			has(fixing, fig(s.FromFront))
		}
	}
	require.Equal(t, 3, moves)
	n := r.Moldings[2].Nesting
	has(fixing, "On the case: height "+fig(n.Drop)+", projection "+fig(n.Reach))
	has(fixing, fig(n.StripWall)+" against")
}

// A case without frame, openings, dentils and moldings has no sheets of them.
func TestFittingSheetsOfNothing(t *testing.T) {
	st := style(t, "A4", measure.Inches)
	require.Empty(t, template.FrameSheets(miter.Result{}, st))
	require.Empty(t, template.OpeningSheets(miter.Result{}, st))
	require.Empty(t, template.DentilSheets(miter.Result{}, st))
	require.Empty(t, template.FixingSheets(miter.Case{}, miter.Result{}, st))
}

// The packet has the sheets in the order of the work.
func TestPacketOrder(t *testing.T) {
	c, r := exampleNamed(t, "herb-press")
	job := jobOf(t, c, r)
	buy := cuttingOf(t, c, r)
	job.Stock = &buy
	doc := template.Packet(job, style(t, "Letter", measure.Inches))
	at := func(title string) int {
		i := slices.IndexFunc(doc.Pages, func(p sheet.Page) bool { return p.Frame.Title == title })
		require.GreaterOrEqual(t, i, 0, title)
		return i
	}
	order := []string{"Low press for a herb room", "How to cut it", "Templates", "Pieces to cut: rough lengths", "Miter faces", "Splines in the miters", "Waist: the frame", "Drawer openings",
		"Beads: notches", "Fixing", "Base: room to move", "Story stick", "Printer check"}
	for i := 1; i < len(order); i++ {
		require.Less(t, at(order[i-1]), at(order[i]), order[i])
	}
}

// The first sheet of each kind, byte for byte. UPDATE_GOLDEN=1 rewrites them.
func TestFittingSheetsGolden(t *testing.T) {
	st := style(t, "Letter", measure.Inches)
	c, r := exampleNamed(t, "herb-press")
	_, seed := exampleNamed(t, "seed-cabinet")
	openings, fixing, dentils := template.OpeningSheets(r, st), template.FixingSheets(c, r, st), template.DentilSheets(seed, st)
	for name, page := range map[string]sheet.Page{
		"frame": template.FrameSheets(r, st)[0], "openings": openings[0], "openings-beads": openings[1], "dentils": dentils[0],
		"dentils-tapes": dentils[len(dentils)-1], "fixing": fixing[0], "fixing-slots": fixing[len(fixing)-1], "storystick": template.StoryStick(r, st)[1],
	} {
		golden(t, name+".svg", page)
	}
}

// A single opening, a door's, is called an opening, and its beads are told and drawn on its sheet though no divider carries one: a rabbet as wide as the bead and as
// deep as it is let in, of which its projection less that stands proud.
func TestBeadsRoundADoor(t *testing.T) {
	c, _ := exampleNamed(t, "herb-press")
	c.Openings.Graduate, c.Openings.TopRow, c.Openings.Divider = miter.Graduation{Rows: 1}, 1, 0
	lib := library.Open("", "")
	r, err := miter.Fit(c, lib.SectionOf, nil)
	require.NoError(t, err)
	require.Len(t, r.Drawers, 1)
	st := style(t, "Letter", measure.Inches)
	pages := template.OpeningSheets(r, st)
	require.Len(t, pages, 1)
	words := strings.Join(strings.Fields(strings.Join(textsOf(pages), " ")), " ")
	bead := r.Beads[0].Section
	require.Contains(t, words, fmt.Sprintf("a rabbet %s wide and %s deep in the face of the frame, all along the edges of the opening, mitered at the corners; %s stands proud",
		st.Lengths.Drawing(bead.Height), st.Lengths.Drawing(c.Beads.Inset), st.Lengths.Drawing(bead.Projection-c.Beads.Inset)))
	require.NotContains(t, words, "drawers")

	texts, _ := marksOf(pages[0].Content) // the uprights have their marks in the opening, clear of the frame's corners
	heights := func(run string) (out []float64) {
		bead := slices.IndexFunc(r.Layout.Beads, func(b miter.PlacedBead) bool { return b.Run == run })
		for _, x := range texts {
			if x.S == r.Layout.Beads[bead].Mark {
				out = append(out, x.At.Y)
			}
		}
		return out
	}
	level := append(heights("top"), heights("bottom")...)
	for _, y := range append(heights("left-upright"), heights("right-upright")...) {
		require.Less(t, y, slices.Max(level))
		require.Greater(t, y, slices.Min(level))
	}
}

// The bead on its divider is drawn at full size: its own section on the middle of an edge as thick as the divider, with a gap of half of what the divider has
// over the bead on both sides, and its point half as deep in the upright as it is wide.
func TestBeadOnItsDivider(t *testing.T) {
	_, r := exampleNamed(t, "herb-press")
	bead := r.Beads[0].Section
	thick := r.Layout.Dividers[0].Height()
	st := style(t, "A4", measure.Inches)
	pages := template.OpeningSheets(r, st)
	page := pages[slices.IndexFunc(pages, func(p sheet.Page) bool {
		return strings.Contains(strings.Join(textsOf([]sheet.Page{p}), " "), "A bead on its divider, full size")
	})]
	require.True(t, page.Frame.FullSize)
	require.InDelta(t, 25.4*3/32, r.Layout.Inset, 1e-9, "the beads of the example are let in")
	require.Contains(t, strings.Join(strings.Fields(strings.Join(textsOf(pages), " ")), " "), "lay it "+st.Lengths.Drawing((thick-bead.Height)/2)+" in from both edges")
	_, strokes := marksOf(page.Content)
	found, edges, points := geom.Rect{}, 0, 0
	for _, s := range strokes {
		if b := s.Path.Bounds(); s.Path.Closed(1e-9) && near(b.Width(), bead.Projection) && near(b.Height(), bead.Height) {
			found = b
		}
	}
	require.False(t, found.Empty(), "the bead's section")
	for _, s := range strokes {
		b := s.Path.Bounds()
		if s.Pen == sheet.PenOutline && near(b.Max.X, found.Min.X+r.Layout.Inset) && near(b.Height(), thick) && near(b.Center().Y, found.Center().Y) {
			edges++
		}
		if s.Pen == sheet.PenOutline && len(s.Path) == 4 && near(b.Height(), bead.Height) && near(s.Path[1].End().X, s.Path[0].End().X-bead.Height/2) {
			points++
		}
	}
	require.Equal(t, 1, edges, "the divider behind the bead")
	require.Equal(t, 1, points, "the point of the bead")
	r.Layout.Dividers, r.Layout.Posts = nil, nil
	require.NotContains(t, strings.Join(textsOf(template.OpeningSheets(r, st)), " "), "A bead on its")
}
