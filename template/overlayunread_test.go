package template_test

import (
	"image"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
)

// The sheet of a section that was not read says why, on paper of any size, and all that it draws lies within its frame.
func TestUnreadSheet(t *testing.T) {
	u := template.Unread{Title: "Cornice", Picture: image.NewGray(image.Rect(0, 0, 400, 300)), Why: "no members found: no face between a foot and a top",
		Outline: []geom.Point{geom.Pt(50, 250), geom.Pt(150, 250), geom.Pt(300, 60), geom.Pt(50, 60)}}
	for _, paper := range []string{"A4", "A3", "letter"} {
		st := style(t, paper, measure.Inches)
		p := template.UnreadSheet(u, st)
		texts, _ := marksOf(p.Content)
		var all []string
		for _, x := range texts {
			all = append(all, x.S)
		}
		require.Contains(t, strings.Join(all, " "), "Not read: no members found: no face between a foot and a top", paper)
		area := p.Frame.Area(p.Paper).Expand(1e-6)
		b := p.Content.Bounds()
		require.True(t, area.Contains(b.Min) && area.Contains(b.Max), "%s: %v in %v", paper, b, area)
		require.Len(t, picturesOf(p.Content), 1)
	}
}
