package cutter

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter/replay"
)

// grooved is a piece 40 mm high and 30 deep with a groove up from its foot, 6 mm wide and 16 deep, that leaves a wall so thick at its front: invented.
func grooved(wall float64) Piece {
	p := Piece{Name: "grooved"}
	p.Outline = geom.Polygon(geom.Pt(0, 0), geom.Pt(24-wall, 0), geom.Pt(24-wall, 16), geom.Pt(30-wall, 16), geom.Pt(30-wall, 0), geom.Pt(30, 0), geom.Pt(30, 40), geom.Pt(0, 40))
	p.Blank = [4]geom.Point{geom.Pt(0, 0), geom.Pt(30, 0), geom.Pt(30, 40), geom.Pt(0, 40)}
	return p
}

// stripOn cuts the groove out of the blank and returns the thickness of the strip on the side of that name.
func stripOn(t *testing.T, p Piece, name Face) float64 {
	t.Helper()
	s, err := newSearch(context.Background(), p, metricSet(), Options{Effort: Quick, Allowance: 0.5})
	require.NoError(t, err)
	wood := newBlock(s.t.blank)
	g := p.Outline.Flatten(0.01)
	wood.cut(newPolygon([]geom.Point{g[1].Sub(geom.Pt(0, 1)), g[4].Sub(geom.Pt(0, 1)), g[3], g[2]}))
	for i, f := range s.t.sides {
		if f.name == name {
			return s.strip(wood, i)
		}
	}
	t.Fatal("no such face")
	return 0
}

// A wall 1/16 in thick and 5/8 in high beside a groove is a strip; one of 1/8 in is stout, and so is the other wall; square to the foot all is stout. Worked by hand.
func TestAStripThatMayBreak(t *testing.T) {
	require.InDelta(t, 25.4/16, stripOn(t, grooved(25.4/16), Front), 0.1)
	require.Zero(t, stripOn(t, grooved(25.4/8), Front))
	require.Zero(t, stripOn(t, grooved(25.4/16), Back))
	require.Zero(t, stripOn(t, grooved(25.4/16), Foot))
}

// A plan says of its steps that a strip bears, in words that a replay takes for no more than they are.
func TestAPlanWarnsOfAStrip(t *testing.T) {
	in, mm := measure.Format{Units: measure.Inches}, measure.Format{}
	require.Equal(t, "a strip only 1/16 in thick lies on the fence and may break: back it with a slip of wood, or leave the blank thicker there until last",
		stripWords(Setup{Work: Router, FenceStrip: 25.4 / 16}, in))
	require.Contains(t, stripWords(Setup{Work: Saw, FenceStrip: 2, TableStrip: 1.6}, mm), "1.6 mm thick lies on the table and on the fence")
	require.Contains(t, stripWords(Setup{Work: Plane, FenceStrip: 1, TableStrip: 1.6}, in), "1/16 in thick lies on the bench")
	require.Empty(t, stripWords(Setup{Work: Plane, FenceStrip: 1}, mm))
	require.Empty(t, stripWords(Setup{}, mm))
	r, p := planned(t, grooved(25.4/16), metricSet(), Options{Effort: Quick})
	holds(t, p, replay.Options{})
	for _, u := range r.Setups {
		if u.FenceStrip > 0 || u.TableStrip > 0 {
			require.Contains(t, u.Warning, "may break", u.N)
		} else {
			require.NotContains(t, u.Warning, "may break", u.N)
		}
	}
}

// A bit that comes up into whole wood cuts with all that stands over the table; where a saw has opened the lower half, with the rest. Worked by hand.
func TestCuttingLengthThatAStepNeeds(t *testing.T) {
	p := grooved(8)
	s, err := newSearch(context.Background(), p, metricSet(), Options{Effort: Quick, Allowance: 0.5})
	require.NoError(t, err)
	box := func(x0, y0, x1, y1 float64) polygon {
		return newPolygon([]geom.Point{geom.Pt(x0, y0), geom.Pt(x1, y0), geom.Pt(x1, y1), geom.Pt(x0, y1)})
	}
	foot := stance{}
	for i, f := range s.t.sides {
		switch f.name {
		case Foot:
			foot.table = i
		case Back:
			foot.fence = i
		}
	}
	bit := Tool{Kind: Straight, Diameter: 6, Length: 12, Reach: 30}
	need := func(opened float64) float64 {
		before := newBlock(s.t.blank)
		before.cut(box(16, -1, 22, opened))
		after := before.clone()
		after.cut(box(16, -1, 22, 16))
		return s.engages(before, after, foot, bit, 16)
	}
	require.InDelta(t, 16, need(0), 1e-6)
	require.InDelta(t, 9, need(7), 1e-6)
	require.Zero(t, need(16))
	u := Setup{Engages: 16, Short: shortOf(16, bit)}
	require.Contains(t, shortWords(u, measure.Format{Units: measure.Inches}), "takes 5/8 in where only 15/32 in of the bit cuts")
	require.Contains(t, shortWords(u, measure.Format{}), "takes 16.0 mm where only 12.0 mm of the bit cuts")
	require.Zero(t, shortOf(12, bit))
	bit.Length = 0 // it cuts over its whole reach
	require.Zero(t, shortOf(16, bit))
	require.Empty(t, shortWords(Setup{Engages: 16}, measure.Format{}))
}

// What to watch comes in the reader's units, with round numbers in either; what the JSON says in words is what its fields tell.
func TestWhatToWatchInTheReadersUnits(t *testing.T) {
	u := Setup{Work: Router, Watch: (comesLoose | narrowFence).names(), FenceStrip: 2}
	mm := u.Words(measure.Format{})
	require.Contains(t, mm, "stop feeding 25 mm before the end")
	require.Contains(t, mm, "a strip only 2.0 mm thick")
	require.NotContains(t, mm, " in ")
	in := u.Words(measure.Format{Units: measure.Inches})
	require.Contains(t, in, "stop feeding 1 in before the end")
	require.NotContains(t, in, "mm")
	for bit := note(1); bit <= idle; bit <<= 1 {
		require.Equal(t, bit, notesOf(bit.names()))
	}
	r, _ := planned(t, pieceOf(t, filletCoveOvolo()), metricSet(), Options{Effort: Quick})
	for _, u := range r.Setups {
		require.Equal(t, u.Words(measure.Format{}), u.Warning, u.N)
	}
	saw := Result{Setups: []Setup{{Work: Saw}}}
	require.Contains(t, saw.CautionWords(measure.Format{}, 0)[1], "nothing shorter than 300 mm without a fixture, hands 300 mm from the cutter")
	require.Contains(t, saw.CautionWords(measure.Format{}, 450)[1], "nothing shorter than 450 mm without a fixture, hands 300 mm")
	require.Contains(t, saw.CautionWords(measure.Format{Units: measure.Inches}, 15*25.4)[1], "nothing shorter than 15 in without a fixture, hands 12 in")
}
