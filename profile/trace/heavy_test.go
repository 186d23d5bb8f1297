package trace_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/trace"
)

// Dimension lines and leaders as heavy as the outline leave it where it is; where nothing tells the space between them from the section, the line that
// parts the two is told with its place.
func TestHeavyDimensions(t *testing.T) {
	outline := corniceOutline()
	for style := outlined; style <= filled; style++ {
		for _, c := range []struct {
			name  string
			lines [][]geom.Point
			named bool // an outlined section takes what they shut off for a part of it
		}{
			{"height on the left", [][]geom.Point{{geom.Pt(0, 0), geom.Pt(-8, 0)}, {geom.Pt(0, 40), geom.Pt(-8, 40)}, {geom.Pt(-6, 0), geom.Pt(-6, 40)}}, true},
			{"height on the right", [][]geom.Point{{geom.Pt(14, 0), geom.Pt(46, 0)}, {geom.Pt(38, 40), geom.Pt(46, 40)}, {geom.Pt(44, 0), geom.Pt(44, 40)}}, true},
			{"leader across the edge", [][]geom.Point{{geom.Pt(10, 20), geom.Pt(48, 34)}}, false},
			{"leader along an edge", [][]geom.Point{{geom.Pt(14, -6), geom.Pt(14, 8)}}, false},
			{"leader into a corner", [][]geom.Point{{geom.Pt(28, 20), geom.Pt(40, 12)}}, false},
			{"leader aslant into a corner", [][]geom.Point{{geom.Pt(28, 20), geom.Pt(38, 10)}}, false}, // the fewest of its pixels lie in its middle
		} {
			p := scan{dpi: 150, scale: 1, style: style, seed: 2}.in(clean).lay(outline)
			p.draw(outline)
			for _, l := range c.lines {
				for i := range l {
					l[i] = p.toPx(l[i])
				}
				thick := p.pen * p.weight
				if c.name == "leader along an edge" {
					thick *= 0.8 // over the outline itself
				}
				p.ink(penned(l, thick))
			}
			got, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "heavy"}}})
			require.NoError(t, err)
			if said := strings.Join(notes, "; "); c.named && style == outlined {
				require.Contains(t, said, "a line as heavy as the outline runs through the section between (", c.name)
				continue
			}
			for _, seg := range got {
				_, _, d := outline.Nearest(seg.Start())
				require.Less(t, d, 0.4, "%v, %s, at %v: %v", style, c.name, seg.Start(), notes)
			}
		}
	}
}

// A break in the back of a hatched section, where a dimension line shuts off the paper behind it, is closed as any other: the strip of hatching that it opens is not
// taken for that paper.
func TestBreakBesideDimension(t *testing.T) {
	outline := corniceOutline()
	p := scan{dpi: 200, scale: 1, style: hatched, seed: 2}.in(clean).lay(outline)
	p.draw(outline)
	for _, l := range [][]geom.Point{{geom.Pt(0, 0), geom.Pt(-8, 0)}, {geom.Pt(0, 40), geom.Pt(-8, 40)}, {geom.Pt(-6, 0), geom.Pt(-6, 40)}} {
		for i := range l {
			l[i] = p.toPx(l[i])
		}
		p.ink(penned(l, 0.45*p.pen*p.weight))
	}
	p.wipe(p.toPx(geom.Pt(0, 18)), 6)
	got, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "broken"}}})
	require.NoError(t, err)
	for _, seg := range got {
		_, _, d := outline.Nearest(seg.Start())
		require.Less(t, d, 0.3, "at %v: %v", seg.Start(), notes)
	}
}
