package trace_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/geom"
	"listel/profile/trace"
)

// strayed returns the share of the outline found in a scan that lies further than 0.15 mm from the one that was drawn, and the notes.
func strayed(t *testing.T, s scan, outline geom.Path) (float64, []string) {
	t.Helper()
	img, p := s.render(t, outline)
	got, _, notes, err := trace.Drawing(img, trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "drawn", Face: p.face()}}})
	require.NoError(t, err)
	far, all := 0.0, 0.0
	for _, seg := range got {
		if _, _, d := outline.Nearest(seg.Start()); d > 0.15 {
			far += seg.Length()
		}
		all += seg.Length()
	}
	return far / all, notes
}

// However heavy the pen, the outline of a hatched section is told from its hatching, which has most of the ink and lies tight.
func TestHeavyPen(t *testing.T) {
	s, err := library.Open("", "").SectionOf("bolection")
	require.NoError(t, err)
	for _, pen := range []float64{0.4, 0.7} {
		c := scan{dpi: 300, scale: 1.5, style: hatched, pen: pen, hatch: [2]float64{0.13, 0.6}, seed: 3}.in(clean)
		share, notes := strayed(t, c, s.Outline)
		require.Less(t, share, 0.02, "pen %g mm: %v", pen, notes) // cusps are filled
	}
}
