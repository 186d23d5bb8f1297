package template_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

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
		way := "enter the molding by "
		if m.Nesting != nil {
			way = "stand out of the case by " // through the strip
		}
		require.Contains(t, words, way+st.Lengths.Drawing(at.Enters)+" at most")
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
	c, r := changedExample(t, "herb-press", func(c *miter.Case) {
		c.Stages, c.Moldings, c.Openings, c.Beads = c.Stages[:1], c.Moldings[:1], nil, nil
		c.Stages[0].Plan.Canted, c.Room.BuiltAt = 75, 75
	})
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

// The fixing sheet says where the upper stage stands, and how much its seat lifts it.
func TestFixingSaysWhereTheUpperStands(t *testing.T) {
	c, r := example(t)
	got := strings.ReplaceAll(words(template.FixingSheets(c, r, style(t, "Letter", measure.Inches))), "|", " ")
	require.Contains(t, got, "The upper case stands in the rabbet at 30¾″ over the floor, ¾″ over the top of the lower case")
}

// A molding that lies on the case is held from below through its top or a cleat, and the screw is drawn clear of the side's edge.
func TestScrewFromBelowStandsInTheTop(t *testing.T) {
	for _, inset := range []float64{0, -14} { // of the frame of the press; and so that there is no room for the side beside the screw
		c, r := changedExample(t, "herb-press", func(c *miter.Case) {
			c.Moldings[1].Inset += inset
			c.Moldings[1].Seats = ""
			c.Stages, c.Moldings = c.Stages[:1], c.Moldings[1:2]
		})
		require.True(t, r.Moldings[0].Movement.Screw.Up)
		pages := template.FixingSheets(c, r, style(t, "Letter", measure.Inches))
		require.Empty(t, clashes(pages[0]))
		require.Contains(t, textsOf(pages), "top or cleat")
		shank, sides := geom.EmptyRect(), []geom.Rect{}
		var look func(d sheet.Drawing)
		look = func(d sheet.Drawing) {
			for _, m := range d {
				switch m := m.(type) {
				case sheet.Group:
					look(m.Drawing)
				case sheet.Drawing:
					look(m)
				case sheet.Stroke:
					if b := m.Path.Bounds(); m.Pen == sheet.PenThin && len(m.Path) == 4 && b.Width() < 6 && b.Height() > 10 {
						shank = b
					}
				case sheet.Fill:
					if m.Gray == 0.9 {
						sides = append(sides, m.Paths[0].Bounds())
					}
				}
			}
		}
		look(pages[0].Content)
		require.False(t, shank.Empty())
		require.Len(t, sides, 1)
		over := sides[0].Min.X < shank.Max.X && shank.Min.X < sides[0].Max.X && sides[0].Min.Y < shank.Max.Y && shank.Min.Y < sides[0].Max.Y
		require.False(t, over, "the screw goes through the edge of the side: %v, %v", shank, sides[0])
	}
}

// Where equal pieces share a mark, each side's glue and slots are measured from its own corner with the front.
func TestMeasuredFromTheFrontWhereItStandsFree(t *testing.T) {
	c, r := changedExample(t, "herb-press", func(c *miter.Case) {
		c.Stages = []miter.Stage{{Name: "case", Plan: miter.Plan{Width: 900, Depth: 500, Freestanding: true}, Height: 1000}}
		c.Moldings = []miter.Molding{{Name: "base", Profile: "press-base", Runs: []string{"left", "front", "right", "back"}}}
		c.Openings, c.Beads = nil, nil
	})
	require.Equal(t, []string{"left", "right"}, r.Moldings[0].Pieces[0].Runs)
	words := textsOf(template.FixingSheets(c, r, style(t, "Letter", measure.Inches)))
	require.Contains(t, words, "corner with the front")
	require.Contains(t, words, "back")
	require.NotContains(t, words, "corner with the back")
}

// A molding let into the case says where its faces are cut away: a housing, or a rabbet where it stands at an end of them; and is drawn with the side cut away
// behind it, up to its back. Worked by hand: the base of the press is 4 in high.
func TestLetIntoTheCase(t *testing.T) {
	for at, where := range map[float64]string{10: "a housing from 10″ to 14″ over the floor, ¼″ deep", 0: "a rabbet along its bottom, 4″ high, ¼″ deep", 26: "a rabbet along its top, 4″ high, ¼″ deep"} {
		c, r := changedExample(t, "herb-press", func(c *miter.Case) {
			c.Stages, c.Moldings, c.Openings, c.Beads = c.Stages[:1], c.Moldings[:1], nil, nil
			c.Moldings[0].At, c.Moldings[0].Inset = at*inch, inch/4
		})
		require.InDelta(t, inch/4, r.Moldings[0].LetIn, 1e-9)
		require.InDelta(t, 30*inch, r.Stages[0].Top, 1e-9)
		pages := template.FixingSheets(c, r, style(t, "Letter", measure.Inches))
		require.Empty(t, clashes(pages[0]))
		require.Contains(t, pageWords(pages), where)
	}
}
