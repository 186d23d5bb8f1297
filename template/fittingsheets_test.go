package template_test

import (
	"bytes"
	"cmp"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// exampleNamed returns an embedded example, fitted.
func exampleNamed(t testing.TB, name string) (miter.Case, miter.Result) {
	t.Helper()
	lib := library.Open("", "")
	c, _, err := lib.Case(name)
	require.NoError(t, err)
	r, err := miter.Fit(c, lib.SectionOf, lib.Wood)
	require.NoError(t, err)
	return c, r
}

// fittingCases are cases with something to fix, to frame, to divide, of every size.
func fittingCases(t testing.TB) map[string]func() (miter.Case, miter.Result) {
	lib := library.Open("", "")
	varied := func(name string, change func(*miter.Case)) func() (miter.Case, miter.Result) {
		return func() (miter.Case, miter.Result) {
			c, _, err := lib.Case(name)
			require.NoError(t, err)
			change(&c)
			r, err := miter.Fit(c, lib.SectionOf, lib.Wood)
			require.NoError(t, err)
			return c, r
		}
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
		"no beads":  varied("herb-press", func(c *miter.Case) { c.Beads = nil }),
		"no room":   varied("herb-press", func(c *miter.Case) { c.Room = miter.Room{} }),
		"with pins": varied("seed-cabinet", func(c *miter.Case) { c.Moldings[2].Pin = &miter.PinSpec{Diameter: 6, Depth: 15} }),
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
		has(openings, fig(p.Back))
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
	has(fixing, "Drop "+fig(n.Drop))
	has(fixing, fig(n.StripWall)+" against")
}

// The slots are drawn at full size: as long as the result says, and as wide as the shank.
func TestSlotsFullSize(t *testing.T) {
	c, r := exampleNamed(t, "herb-press")
	for _, m := range r.Moldings {
		if m.Movement == nil {
			continue
		}
		for _, slot := range m.Movement.Slots {
			found := false
			for _, p := range template.FixingSheets(c, r, style(t, "A4", measure.Millimeters)) {
				_, strokes := marksOf(p.Content)
				for _, s := range strokes {
					b := s.Path.Bounds()
					found = found || math.Abs(b.Width()-slot.Length) < 1e-6 && math.Abs(b.Height()-miter.ScrewShank) < 1e-6
				}
			}
			require.True(t, found, "%s at %g", m.Name, slot.FromFront)
		}
	}
}

// No screw is drawn nearer to the molded face than 3 mm (1/8 in) of wood, whatever the scale, and the sheet says how far it may go in.
func TestScrewsAreDrawnInTheWood(t *testing.T) {
	c, r := exampleNamed(t, "herb-press")
	st := style(t, "Letter", measure.Inches)
	words := strings.Join(strings.Fields(strings.Join(textsOf(template.FixingSheets(c, r, st)), " ")), " ")
	seen := 0
	for _, m := range r.Moldings {
		if m.Movement == nil {
			continue
		}
		at := m.Movement.Screw
		require.Contains(t, words, "enter the molding by "+st.Lengths.Drawing(at.Enters)+" at most")
		one := c
		one.Moldings = nil
		for _, asked := range c.Moldings {
			if asked.Name == m.Name {
				one.Moldings = append(one.Moldings, asked)
			}
		}
		only := r
		only.Moldings = []miter.MoldingResult{m}
		_, strokes := marksOf(template.FixingSheets(one, only, st)[0].Content)
		outline := m.Sections[0].Section.Outline
		for _, k := range []float64{1, 2.0 / 3, 1.0 / 2, 1.0 / 3, 1.0 / 4} { // the scale is that at which the section is found
			var section, shank *geom.Rect
			for _, s := range strokes {
				b := s.Path.Bounds()
				if near(b.Width(), outline.Bounds().Width()*k) && near(b.Height(), outline.Bounds().Height()*k) {
					section = &b
				}
				if thin := min(b.Width(), b.Height()); s.Pen == sheet.PenThin && near(thin, miter.ScrewShank*k) {
					shank = &b
				}
			}
			if section == nil || shank == nil {
				continue
			}
			seen++
			tip := geom.Pt((shank.Max.X-section.Min.X)/k, ((shank.Min.Y+shank.Max.Y)/2-section.Min.Y)/k)
			deeper := geom.Pt(25.4/8-0.05, 0)
			if at.Up {
				tip = geom.Pt(((shank.Min.X+shank.Max.X)/2-section.Min.X)/k, (shank.Max.Y-section.Min.Y)/k)
				deeper = geom.Pt(0, 25.4/8-0.05)
			}
			require.True(t, outline.Contains(tip.Add(deeper)) || m.Nesting != nil && tip.X < outline.Bounds().Max.X, "%s: %v", m.Name, tip)
		}
	}
	require.Equal(t, 3, seen)
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

// Built wetter than the wettest air the side only ever shrinks, and the sheet gives it so; a canted corner is drawn as it is and named.
func TestMovementSheetOfACantedCase(t *testing.T) {
	lib := library.Open("", "")
	c, _, err := lib.Case("herb-press")
	require.NoError(t, err)
	c.Stages, c.Moldings, c.Openings, c.Beads = c.Stages[:1], c.Moldings[:1], nil, nil
	c.Stages[0].Plan.Canted, c.Room.BuiltAt = 75, 75
	r, err := miter.Fit(c, lib.SectionOf, lib.Wood)
	require.NoError(t, err)
	v := r.Moldings[0].Movement
	require.Negative(t, v.Swells)
	st := style(t, "Letter", measure.Inches)
	pages := template.FixingSheets(c, r, st)
	for _, p := range pages {
		require.Empty(t, clashes(p))
	}
	words := strings.Join(textsOf(pages), "\n")
	require.Contains(t, words, "goes in "+st.Lengths.Drawing(-v.Swells)+" in the wettest air")
	require.Contains(t, words, st.Lengths.Drawing(v.Width+v.Swells))
	require.Contains(t, words, "corner with the front-right")
	require.Contains(t, words, "The corner of right and front-right from above, 135.0°")
	miters := 0 // half of 135 degrees between the miter and the side
	for _, p := range pages {
		_, strokes := marksOf(p.Content)
		for _, s := range strokes {
			d := s.Path.End().Sub(s.Path.Start())
			if s.Pen == sheet.PenOutline && len(s.Path) == 1 && d.Norm() > 5 && math.Abs(math.Abs(d.Y/d.X)-math.Tan(67.5*math.Pi/180)) < 1e-6 {
				miters++
			}
		}
	}
	require.Positive(t, miters)
}

// A length of a tape as it is read back from a sheet: the lines to cut and to glue it at, and the level lines that start on its heavy edge.
type readLength struct {
	x, foot, top float64
	lines        []float64
}

// readLengths returns the lengths of the tapes on the pages in their order.
func readLengths(pages []sheet.Page) []readLength {
	var out []readLength
	for _, p := range pages {
		_, strokes := marksOf(p.Content)
		var here []readLength
		for _, s := range strokes {
			a, b := s.Path.Start(), s.Path.End()
			if s.Pen == sheet.PenOutline && math.Abs(a.X-b.X) < 1e-9 && len(s.Path) == 1 {
				here = append(here, readLength{x: a.X})
			}
		}
		slices.SortFunc(here, func(a, b readLength) int { return cmp.Compare(a.x, b.x) })
		for i := range here {
			for _, s := range strokes {
				a, b := s.Path.Start(), s.Path.End()
				if math.Abs(a.Y-b.Y) > 1e-9 || math.Abs(a.X-here[i].x) > 1e-9 {
					continue
				}
				switch {
				case s.Pen == sheet.PenCut:
					here[i].foot = a.Y
				case s.Pen == sheet.PenHidden:
					here[i].top = a.Y
				case b.X-a.X > 9 && b.X-a.X < 16:
					here[i].lines = append(here[i].lines, a.Y)
				}
			}
		}
		out = append(out, here...)
	}
	return out
}

// The lengths of the stick glued foot to top give the heights of the case back: each foot and top, opening and notch within what a sheet
// promises.
func TestStoryStickPutTogether(t *testing.T) {
	_, r := exampleNamed(t, "herb-press")
	for _, paper := range []string{"Letter", "A4", "ANSI B"} {
		lengths := readLengths(template.StoryStick(r, style(t, paper, measure.Inches)))
		lengths[0].foot = slices.Min(lengths[0].lines) // the floor
		at := func(want float64) bool {
			sum := 0.0
			for _, l := range lengths {
				for _, y := range l.lines {
					if math.Abs(sum+y-l.foot-want) < figure {
						return true
					}
				}
				sum += l.top - l.foot
			}
			return false
		}
		for _, m := range r.Moldings {
			require.True(t, at(m.Foot), "%s: foot of %s", paper, m.Name)
			require.True(t, at(m.Foot+m.Sections[0].Section.Height), "%s: top of %s", paper, m.Name)
		}
		for _, s := range r.Stages {
			require.True(t, at(s.Top), "%s: top of %s", paper, s.Name)
		}
		for _, o := range r.Layout.Openings {
			require.True(t, at(o.Min.Y) && at(o.Max.Y), "%s: opening %v", paper, o)
		}
		require.False(t, at(100.5), "a height that nothing has")
	}
}

// The blocks on the tapes are as wide as the result says, and as many.
func TestDentilTapes(t *testing.T) {
	_, r := exampleNamed(t, "seed-cabinet")
	course := r.Moldings[2].Course
	require.NotNil(t, course)
	blocks := 0
	for _, p := range template.DentilSheets(r, style(t, "Letter", measure.Inches)) {
		if !p.Frame.FullSize {
			continue
		}
		_, strokes := marksOf(p.Content)
		for _, s := range strokes {
			b := s.Path.Bounds()
			if s.Path.Closed(1e-9) && math.Abs(b.Height()-course.Block) < 1e-6 && math.Abs(b.Width()-12) < 1e-6 {
				blocks++
			}
		}
	}
	want := 0
	for i, f := range course.Faces {
		twin := slices.ContainsFunc(course.Faces[:i], func(o miter.CourseFace) bool {
			return o.Blocks == f.Blocks && math.Abs(o.Length-f.Length) < 1e-6 && math.Abs(o.At[0]-f.At[0]) < 1e-6
		})
		if !twin {
			want += f.Blocks
		}
	}
	require.Equal(t, want, blocks)
	list := strings.Join(textsOf(template.DentilSheets(r, style(t, "Letter", measure.Inches))), " ")
	for _, f := range course.Faces {
		require.Contains(t, list, measure.Format{Units: measure.Inches}.SetDrawing(f.Pitch), f.Run)
	}
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
	lib := library.Open("", "")
	c, r := exampleNamed(t, "herb-press")
	profiles := map[string]profile.Profile{}
	for _, m := range c.Moldings {
		p, _, err := lib.Profile(m.Profile)
		require.NoError(t, err)
		profiles[m.Profile] = p
	}
	p, _, err := lib.Profile(c.Beads.Profile)
	require.NoError(t, err)
	profiles[c.Beads.Profile] = p
	doc := template.Packet(template.Job{Case: c, Result: r, Profiles: profiles}, style(t, "Letter", measure.Inches))
	at := func(title string) int {
		i := slices.IndexFunc(doc.Pages, func(p sheet.Page) bool { return p.Frame.Title == title })
		require.GreaterOrEqual(t, i, 0, title)
		return i
	}
	order := []string{"Low press for a herb room", "Rough lengths", "Waist: the frame", "Drawer openings", "Edge beads: notches", "Miter faces", "Templates",
		"Fixing", "Base: room to move", "Story stick", "Printer check"}
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
		var b bytes.Buffer
		require.NoError(t, sheet.WriteSVG(&b, page))
		path := filepath.Join("testdata", name+".svg")
		if os.Getenv("UPDATE_GOLDEN") != "" {
			require.NoError(t, os.WriteFile(path, b.Bytes(), 0o666))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.True(t, bytes.Equal(want, b.Bytes()), "the sheet is no longer that of %s; look at it, then UPDATE_GOLDEN=1 rewrites it", path)
	}
}

// The fixing sheet says where the upper stage stands, and how much its seat lifts it.
func TestFixingSaysWhereTheUpperStands(t *testing.T) {
	c, r := example(t)
	got := strings.ReplaceAll(words(template.FixingSheets(c, r, style(t, "Letter", measure.Inches))), "|", " ")
	require.Contains(t, got, "The upper stands in the rabbet at 30¾″ over the floor, ¾″ over the top of the lower")
}

// A mixed number on the story stick stands on one line, whatever the width of its name.
func TestStoryStickKeepsNumbersWhole(t *testing.T) {
	_, r := exampleNamed(t, "herb-press")
	st := style(t, "Letter", measure.Inches)
	texts := textsOf(template.StoryStick(r, st))
	var heights []float64
	for _, o := range r.Layout.Openings {
		heights = append(heights, o.Min.Y, o.Max.Y)
	}
	for _, m := range r.Moldings {
		heights = append(heights, m.Foot+m.Sections[0].Section.Height)
	}
	for _, b := range r.Layout.Beads {
		if strings.HasPrefix(b.Run, "divider-") {
			heights = append(heights, b.At.Center().Y)
		}
	}
	for _, h := range heights {
		mark := st.Lengths.Drawing(h)
		require.True(t, slices.ContainsFunc(texts, func(s string) bool { return strings.HasSuffix(s, mark) }), "%s is not on one line: %q", mark, texts)
	}
}
