package trace_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/trace"
)

// A groove of a sixteenth of an inch at half scale, three pixels of paper between two lines of six, keeps its bottom where it is. Where a line that makes a groove is
// broken, the break is closed and not the groove's mouth, if that is wider.
func TestNarrowGroove(t *testing.T) {
	for _, style := range []style{outlined, hatched} {
		for _, c := range []struct {
			broad  float64 // mm
			broken geom.Point
		}{{1.6, geom.Point{}}, {2.2, geom.Point{}}, {2.2, geom.Pt(18, 9.5)}, {2.2, geom.Pt(17.6, 11.7)}, {3.2, geom.Pt(17.6, 9.5)}} {
			broken, top := c.broken, 9.5+c.broad
			outline := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 9.5), geom.Pt(15.2, 9.5), geom.Pt(15.2, top), geom.Pt(20, top), geom.Pt(20, 25), geom.Pt(0, 25))
			p := scan{dpi: 300, scale: 0.5, style: style, seed: 2}.in(clean).lay(outline)
			p.draw(outline)
			if broken != (geom.Point{}) {
				p.cut(p.toPx(broken), 3)
			}
			got, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "groove"}}})
			require.NoError(t, err)
			for _, at := range []geom.Point{geom.Pt(15.2, 10.3), geom.Pt(17, 9.5), geom.Pt(17, top)} {
				_, _, d := got.Nearest(at)
				require.Less(t, d, 0.2, "%v, broken at %v: %v at %v", style, broken, notes, at)
			}
		}
	}
}

// cut takes the ink of a level line away about a place, so many px of it.
func (p *page) cut(at geom.Point, px int) {
	deep := int(p.pen*p.weight/2) + 2
	for y := int(at.Y) - deep; y <= int(at.Y)+deep; y++ {
		for x := int(at.X); x < int(at.X)+px; x++ {
			p.cover[y*p.w+x] = 0
		}
	}
}

// A break in a corner of a drip leaves its top as high as what is left of it.
func TestBrokenDrip(t *testing.T) {
	outline := geom.Polygon(geom.Pt(0, 0), geom.Pt(10, 0), geom.Pt(10, 8), geom.Pt(24, 8), geom.Pt(24, 11.2), geom.Pt(27.2, 11.2), geom.Pt(27.2, 8), geom.Pt(31, 8), geom.Pt(31, 25), geom.Pt(0, 25))
	for _, broken := range []geom.Point{geom.Pt(24.3, 11.2), geom.Pt(26.4, 11.2)} {
		p := scan{dpi: 300, scale: 0.5, style: hatched, seed: 2}.in(clean).lay(outline)
		p.draw(outline)
		p.cut(p.toPx(broken), 3)
		got, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "drip"}}})
		require.NoError(t, err)
		for _, at := range []geom.Point{geom.Pt(25.6, 11.2), geom.Pt(24.2, 11), geom.Pt(27, 11)} {
			_, _, d := got.Nearest(at)
			require.Less(t, d, 0.3, "broken at %v: %v at %v", broken, notes, at)
		}
	}
}

// Where the ink of a half round and of the flat that stands out over it runs together, the drawing at half scale, the way to the cusp between them is read within.
func TestFilledCusp(t *testing.T) {
	for _, round := range []float64{3.2, 8, 12} { // mm
		p := profile.Profile{Name: "cusp", Ground: profile.MM(10), Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: profile.MM(5)}, {Kind: profile.KindTorus, Height: profile.MM(round)}, {Kind: profile.KindFillet, Height: profile.MM(9), Set: profile.MM(round / 2)}}}
		section, err := p.Section(nil)
		require.NoError(t, err)
		img, page := scan{dpi: 300, scale: 0.5, style: outlined, seed: 2}.in(clean).render(t, section.Outline)
		got, _, notes, err := trace.Drawing(img, trace.Plate{Scales: []trace.Scale{page.known()}, Sections: []trace.Wanted{{Name: "cusp"}}})
		require.NoError(t, err)
		for _, x := range []float64{10.2, 10 + round/4, 9.8 + round/2} {
			_, _, d := got.Nearest(geom.Pt(x, 5+round))
			require.Less(t, d, 0.25, "a round of %v at x = %v: %v", round, x, notes)
		}
	}
}

// A ledge as thin as a dimension line may be at another scale stays a part of the filled section that it stands out from.
func TestThinLedge(t *testing.T) {
	outline := geom.Polygon(geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(44, 44), geom.Pt(50, 44), geom.Pt(50, 47.2), geom.Pt(0, 47.2))
	p := scan{dpi: 300, scale: 0.5, style: filled, seed: 2}.in(clean).lay(outline)
	p.draw(outline)
	got, _, notes, err := trace.Drawing(p.scanned(t), trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: "ledge"}}})
	require.NoError(t, err)
	require.Less(t, geom.Hausdorff(got, outline, 0.2), 0.2, "%v", notes)
}

// A small section holds few lines of hatching, and none of their ends is a spur that two edges of the section make.
func TestFewLinesOfHatching(t *testing.T) {
	p := profile.Profile{Name: "few", Ground: profile.MM(9.525), Elements: []profile.Entry{
		{Kind: profile.KindFillet, Height: profile.MM(3.175)}, {Kind: profile.KindCove, Height: profile.MM(6.35)}, {Kind: profile.KindFillet, Height: profile.MM(3.175), Set: profile.MM(4.7625)}}}
	section, err := p.Section(nil)
	require.NoError(t, err)
	for seed := range uint64(4) {
		img, page := scan{dpi: 300, scale: 0.5, style: hatched, seed: seed, left: seed%2 == 1}.in(clean).render(t, section.Outline)
		got, _, notes, err := trace.Drawing(img, trace.Plate{Scales: []trace.Scale{page.known()}, Sections: []trace.Wanted{{Name: "few", Face: page.face()}}})
		require.NoError(t, err)
		require.Less(t, geom.Hausdorff(got, section.Outline, 0.2), 0.3, "%v", notes)
	}
}
