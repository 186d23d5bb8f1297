package template

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/sheet"
)

// bladeOf returns the line of the blade on a picture, and the middle of the wood that is kept.
func bladeOf(t *testing.T, d sheet.Drawing) (along, kept geom.Point) {
	t.Helper()
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Stroke:
			if m.Pen == bladePen {
				along = m.Path.End().Sub(m.Path.Start()).Unit()
				kept = kept.Sub(m.Path.Start())
			}
		case sheet.Fill:
			if m.Gray == keptGray {
				kept = m.Bounds().Center()
			}
		}
	}
	require.NotZero(t, along)
	return along, kept
}

// The pictures of the saw show the blade and the wood as the setting says, for every way it swings, tilts and keeps.
func TestSawPictures(t *testing.T) {
	hands := []miter.Hand{miter.LeftHand, miter.RightHand}
	for _, swing := range hands {
		for _, tilt := range hands {
			for _, keep := range hands {
				s := miter.Saw{Miter: 31 * geom.Degree, Bevel: 34 * geom.Degree, Swing: swing, Tilt: tilt, Keep: keep}
				var k sidesKept
				k.note(s, 0)
				d1, d2 := bladeVectors(miter.Saw{Miter: s.Miter, Swing: swing, Bevel: s.Bevel, Tilt: tilt})
				along, kept := bladeOf(t, sawFromAbove(s, k, "waste", 55, 48))
				require.InDelta(t, d1[0], along.X, 1e-9)
				require.InDelta(t, d1[1], along.Y, 1e-9)
				// Looking along the blade from the fence to the operator, the operator's right is on the left hand.
				require.Equal(t, keep == miter.RightHand, along.Cross(kept) > 0, "%v", s)
				along, kept = bladeOf(t, sawFromFront(s, k, 33, 56))
				require.Equal(t, d2[0] < 0, along.X < 0)
				require.InDelta(t, s.Bevel.Sin(), math.Abs(along.X), 1e-9)
				require.Equal(t, keep == miter.RightHand, along.Cross(kept) < 0, "%v", s)
			}
		}
	}
}

// What a picture of the saw shows as kept is what the result says, square cuts too: the left end of a standing piece keeps the wood right of
// the blade, and a picture that serves both ends says so on either side.
func TestPicturesKeepTheRightSide(t *testing.T) {
	side := map[miter.Hand]float64{miter.LeftHand: -1, miter.RightHand: 1}
	for name, r := range cutCases(t) {
		var book settingBook
		for _, m := range r.Moldings {
			book.next()
			for _, p := range m.Pieces {
				for i := range p.Ends {
					book.add(p, i)
				}
			}
			for _, p := range m.Pieces {
				for i, e := range p.Ends {
					set := book.add(p, i)
					requireKept(t, set.standing, set.keeps[0], side[e.Standing.Keep], i, name+" "+p.Mark)
					if e.Flat != nil {
						requireKept(t, *set.flat, set.keeps[1], side[e.Flat.Keep], i, name+" flat "+p.Mark)
					}
				}
			}
		}
	}
}

// requireKept fails unless both pictures of a setting show the wood on that side, -1 for the left, as kept for end i; a picture that keeps wood
// on both sides must name the end.
func requireKept(t *testing.T, s miter.Saw, k sidesKept, side float64, i int, name string) {
	t.Helper()
	if !straight(s) { // TestSawPictures looks at these
		require.False(t, k.both(), name)
		return
	}
	for _, d := range []sheet.Drawing{sawFromAbove(s, k, "waste", 55, 48), sawFromFront(s, k, 33, 56)} {
		blade := 0.0
		var kept []float64
		said := map[float64]string{}
		for _, m := range d {
			switch m := m.(type) {
			case sheet.Stroke:
				if m.Pen == bladePen {
					blade = m.Bounds().Center().X
				}
			case sheet.Fill:
				if m.Gray == keptGray {
					kept = append(kept, m.Bounds().Center().X)
				}
			}
		}
		for _, m := range d {
			if w, ok := m.(sheet.Text); ok {
				said[math.Copysign(1, w.At.X-blade)] += w.S
			}
		}
		shown := false
		for _, x := range kept {
			shown = shown || math.Copysign(1, x-blade) == side
		}
		require.True(t, shown, "%s end %d: kept %v, blade %v", name, i, kept, blade)
		if len(kept) > 1 {
			require.Contains(t, said[side], [2]string{"left", "right"}[i], name)
		}
	}
}

// A sprung molding stands upside down against a fence that reaches to where it touches it, and against a stop; the sheet gives both.
func TestNestedMoldingTouchesFenceAndStop(t *testing.T) {
	section, err := testSection("sprung")
	require.NoError(t, err)
	s := miter.Saw{Table: miter.TopFace, Fence: miter.BackFace}
	d := sawFromLeft(s, section, 46, 50)
	var wood geom.Rect
	var boxes []geom.Rect
	for _, m := range d {
		switch m := m.(type) {
		case sheet.Fill:
			boxes = append(boxes, m.Bounds())
		case sheet.Stroke:
			if m.Pen == sheet.PenOutline {
				wood = m.Path.Bounds()
			}
		}
	}
	require.GreaterOrEqual(t, len(boxes), 3)
	fence, stop := boxes[0], boxes[len(boxes)-1]
	require.GreaterOrEqual(t, fence.Max.Y, wood.Max.Y, "the foot of the molding, now its upper end, must bear on the fence")
	require.InDelta(t, wood.Min.X, fence.Max.X, 1e-9)
	require.InDelta(t, wood.Max.X, stop.Min.X, 1e-9)
	require.LessOrEqual(t, stop.Max.X, 46-sawFence+1e-9)
	b := section.Outline.Bounds()
	st := Style{Lengths: measure.Format{Units: measure.Millimeters}}
	require.Contains(t, nestWords(st, s, section), st.Lengths.Drawing(b.Max.Y))
	require.Contains(t, nestWords(st, s, section), st.Lengths.Drawing(b.Max.X))
	require.Empty(t, nestWords(st, miter.Saw{Table: miter.BackFace, Fence: miter.FootFace}, section))
}
