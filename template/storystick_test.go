package template_test

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// A length of a tape as it is read back from a sheet: the lines to cut and to glue it at, and the level lines that start on its heavy edge.
type readLength struct {
	x, foot, top float64
	lines        []float64
	at           float64 // where it says that its foot lies, -1 where it goes on from the one before
}

// readLengths returns the lengths of the tapes on the pages in their order.
func readLengths(t *testing.T, pages []sheet.Page) []readLength {
	t.Helper()
	var out []readLength
	for _, p := range pages {
		texts, strokes := marksOf(p.Content)
		var here []readLength
		for _, s := range strokes {
			a, b := s.Path.Start(), s.Path.End()
			if s.Pen == sheet.PenOutline && math.Abs(a.X-b.X) < 1e-9 && len(s.Path) == 1 {
				here = append(here, readLength{x: a.X, at: -1})
			}
		}
		slices.SortFunc(here, func(a, b readLength) int { return cmp.Compare(a.x, b.x) })
		for i := range here {
			for _, text := range texts {
				if _, words, ok := strings.Cut(text.S, "foot at "); ok && math.Abs(text.At.X-here[i].x) < 1e-9 {
					mm, err := measure.ParseLength(strings.ReplaceAll(words, "\u00a0", " "), measure.Inches)
					require.NoError(t, err)
					here[i].at = mm
				}
			}
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

// The lengths of the stick glued foot to top, or laid where they say, give the heights of the case back: each foot and top, opening and notch within what a sheet
// promises.
func TestStoryStickPutTogether(t *testing.T) {
	_, r := exampleNamed(t, "herb-press")
	for _, paper := range []string{"Letter", "A4", "ANSI B"} {
		lengths := readLengths(t, template.StoryStick(r, style(t, paper, measure.Inches)))
		lengths[0].foot = slices.Min(lengths[0].lines) // the floor
		at := func(want float64) bool {
			sum := 0.0
			for _, l := range lengths {
				if l.at >= 0 {
					sum = l.at
				}
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
		laid := 0
		for _, l := range lengths {
			require.NotEmpty(t, l.lines, "%s: a length with nothing on it", paper)
			if l.at >= 0 {
				laid++
			}
		}
		require.Positive(t, laid, "the stretch between the rabbet and the shelf is left out")
	}
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
