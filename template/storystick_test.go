package template_test

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// A length of a tape as it is read back from a sheet: its box to cut out, where it says that it begins, the places of its lines and of the line to glue the next at.
type readLength struct {
	box    geom.Rect
	across bool
	at     float64
	lines  []float64
	glue   float64 // 0 at the end of a stretch
}

// readLengths returns the lengths of the tapes on the pages in their order.
func readLengths(t *testing.T, pages []sheet.Page) []readLength {
	t.Helper()
	var out []readLength
	for _, p := range pages {
		_, strokes := marksOf(p.Content)
		var here []readLength
		for _, s := range strokes {
			if s.Pen == sheet.PenCut {
				require.True(t, s.Path.Closed(1e-9), "every edge is cut along")
				here = append(here, readLength{box: s.Path.Bounds(), at: -1})
			}
		}
		slices.SortFunc(here, func(a, b readLength) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
		for i := range here {
			l := &here[i]
			for _, text := range textsIn(p, l.box) {
				for k, words := range []string{"bottom at ", "left end at "} {
					if _, rest, ok := strings.Cut(text, " of "); ok && strings.Contains(rest, words) {
						_, length, _ := strings.Cut(rest, words)
						mm, err := measure.ParseLength(strings.ReplaceAll(length, "\u00a0", " "), measure.Inches)
						require.NoError(t, err)
						l.at, l.across = mm, k == 1
					}
				}
			}
			require.GreaterOrEqual(t, l.at, 0.0, "a length that does not say where it begins")
			for _, s := range strokes {
				a, b := s.Path.Start(), s.Path.End()
				if !l.box.Expand(1e-6).Contains(a) || len(s.Path) != 1 {
					continue
				}
				along, edge, long := a.Y-l.box.Min.Y, a.X-l.box.Min.X, math.Abs(b.X-a.X)
				if l.across {
					along, edge, long = a.X-l.box.Min.X, l.box.Max.Y-a.Y, math.Abs(b.Y-a.Y)
				}
				switch {
				case s.Pen == sheet.PenHidden:
					l.glue = along
				case math.Abs(edge) < 1e-6 && long > 9 && long < 16:
					l.lines = append(l.lines, l.at+along)
				}
			}
		}
		out = append(out, here...)
	}
	return out
}

// textsIn returns the texts within a box, those of one turn and size that follow one another as one.
func textsIn(p sheet.Page, box geom.Rect) []string {
	texts, _ := marksOf(p.Content)
	var out []string
	last := sheet.Text{}
	for _, text := range texts {
		if !box.Contains(text.At) {
			continue
		}
		if len(out) > 0 && text.Weight == last.Weight && text.Angle == last.Angle {
			out[len(out)-1] += " " + text.S
		} else {
			out = append(out, text.S)
		}
		last = text
	}
	return out
}

// Each length of the stick laid where it says gives the sizes of the case back: each foot and top, opening and notch within what a sheet promises; glued end to end
// they lie there too.
func TestStoryStickPutTogether(t *testing.T) {
	_, r := exampleNamed(t, "herb-press")
	for _, paper := range []string{"Letter", "A4", "ANSI B"} {
		lengths := readLengths(t, template.StoryStick(r, style(t, paper, measure.Inches)))
		at := func(across bool, want float64) bool {
			return slices.ContainsFunc(lengths, func(l readLength) bool {
				return l.across == across && slices.ContainsFunc(l.lines, func(v float64) bool { return math.Abs(v-want) < figure })
			})
		}
		require.Zero(t, lengths[0].at, "the stick begins on the floor")
		for _, m := range r.Moldings {
			require.True(t, at(false, m.Foot), "%s: foot of %s", paper, m.Name)
			require.True(t, at(false, m.Foot+m.Sections[0].Section.Height), "%s: top of %s", paper, m.Name)
		}
		for _, s := range r.Stages {
			require.True(t, at(false, s.Top), "%s: top of %s", paper, s.Name)
		}
		for _, o := range r.Layout.Openings {
			require.True(t, at(false, o.Min.Y) && at(false, o.Max.Y), "%s: opening %v", paper, o)
		}
		require.True(t, at(true, 0) && at(true, 42*25.4), "%s: the ends of the front", paper)
		for _, p := range r.Layout.Posts {
			require.True(t, at(true, p.Min.X) && at(true, p.Max.X), "%s: post %v", paper, p)
		}
		require.False(t, at(false, 100.5), "a height that nothing has")
		glued, laid := 0, 0
		for i, l := range lengths {
			require.NotEmpty(t, l.lines, "%s: a length with nothing on it", paper)
			if l.glue > 0 {
				require.InDelta(t, lengths[i+1].at, l.at+l.glue, figure, "%s: the one glued on length %d", paper, i)
				glued++
			} else {
				laid++
			}
		}
		require.Positive(t, glued)
		require.Greater(t, laid, 2, "the stretch between the rabbet and the shelf is left out")
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
