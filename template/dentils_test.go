package template_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/measure"
	"listel/template"
)

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
