package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A canted press with one corner a degree off and a sprung cornice: invented. The numbers beside each check were worked out with pencil and a table
// of tangents from the sizes below.
var pencilFiles = map[string]string{
	"press.yaml": `kind: case
name: press
units: in
stages:
  - {name: lower, plan: {width: 44, depth: 20, canted: {setback: 3}}, height: 31}
corners: {front/front-right: 134}
wood: black cherry
side: {build: solid, cut: flat}
room: {humidity: [30, 65], built-at: 45, temperature: 70F}
moldings:
  - {name: base, on: lower, profile: base, at: 0, ends: wall}
  - {name: cornice, on: lower, profile: crown, at: 28, ends: wall}
  - {name: waist, on: lower, profile: waist, at: 31, inset: 1 3/4, ends: wall, frame: {back-rail: {width: 2, tenon: 1}}}
openings:
  area: {left: 1, right: 1, bottom: 5, top: 27}
  divider: 3/4
  graduate: {rows: 3, ratio: 0.88}
shop: {kerf: 1/8, rough: 1, test: 12, spare: 15%, safe: 12}
stock:
  - {wood: black cherry, thickness: 4/4, width: 6, length: 8ft, price: 30}
  - {wood: black cherry, thickness: 6/4, width: 6, length: 8ft, price: 47}
`,
	"base.yaml":  "kind: profile\nname: base\nunits: in\nground: 1 1/8\nelements:\n  - fascia: {height: 3}\n  - fillet: {height: 1/8, set: -1/8}\n",
	"waist.yaml": "kind: profile\nname: waist\nunits: in\nground: 2\nelements:\n  - fillet: {height: 1/8}\n  - ovolo: {height: 3/8}\n  - fillet: {height: 5/8}\n",
	"crown.yaml": `kind: profile
name: crown
units: in
height: 3
ground: 1/2
elements:
  - fillet: {height: 1/4}
  - cove: {height: 1, set: 1/16}
  - fillet: {height: 1/4, set: 1/16}
  - cyma-recta: {height: rest, projection: 7/8}
  - fillet: {height: 1/4}
back:
  spring: {angle: 40deg, wall: 3/8}
`,
}

// pencil holds what of the commands' JSON is checked.
type pencil struct {
	Moldings []struct {
		Name   string
		Pieces []struct {
			Run               string
			Back, Long, Rough float64
			Ends              []struct {
				Standing struct{ Miter float64 }
				Flat     *struct{ Miter, Bevel float64 }
			}
		}
		Movement struct {
			Seasonal float64
			Slots    []struct{ From, Length float64 }
		}
	}
	Drawers []struct{ Height float64 }
}

// TestPencil checks numbers of every kind against pencil arithmetic.
func TestPencil(t *testing.T) {
	dir := t.TempDir()
	for name, text := range pencilFiles {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	ask := func(args ...string) string {
		r := listel(t, t.TempDir(), args...)
		require.Zero(t, r.code, r.err)
		// Field names with their units read as the names alone.
		return strings.NewReplacer(`from_front_mm"`, `from"`, `_mm"`, `"`, `_deg"`, `"`).Replace(r.out)
	}
	file := filepath.Join(dir, "press.yaml")
	var p pencil
	require.NoError(t, json.Unmarshal([]byte(ask("miter", file, "--json")), &p))
	const in, tight = 25.4, 0.01
	piece := func(m int, run string) int {
		for i, q := range p.Moldings[m].Pieces {
			if q.Run == run {
				return i
			}
		}
		require.Fail(t, "no piece", run)
		return 0
	}
	base, crown, waist := p.Moldings[0], p.Moldings[1], p.Moldings[2]

	// 1. The front of the base: 44 less twice 3, and at each end the tangent of half the turn, 45 and 46 degrees: 38 + 1.125 (0.4142 + 0.4245) = 38.9435.
	require.InDelta(t, 38.9435*in, base.Pieces[piece(0, "front")].Long, tight)
	// 2. The miters of its right end halve the corner of 134: 23 degrees.
	require.InDelta(t, 23, base.Pieces[piece(0, "front")].Ends[1].Standing.Miter, 1e-6)
	// 3. The crown lying on its back, spring 40: tan 15.26 = tan 23 sin 40, 0.4245 x 0.6428 = 0.2729; sin 17.42 = sin 23 cos 40, 0.3907 x 0.7660 =
	// 0.2993 (the compound miter's formulas, tan M = sin(spring) tan(half), sin B = cos(spring) sin(half), with half the turn of the corner).
	flat := crown.Pieces[piece(1, "front")].Ends[1].Flat
	require.InDelta(t, 15.26, flat.Miter, 0.01)
	require.InDelta(t, 17.42, flat.Bevel, 0.01)
	// 4. Its rough length: projection 1/2 + 1/16 + 1 + 1/16 + 7/8 = 2.5; 38 + 2.5 x 0.8387 + 2 = 42.0967.
	require.InDelta(t, 42.0967*in, crown.Pieces[piece(1, "front")].Rough, tight)
	// 5. The waist lies 1 3/4 in from the edge: its left back, to the wall from the corner of the backs, is 17 - 1.75 x 0.4142 = 16.2751.
	require.InDelta(t, 16.2751*in, waist.Pieces[piece(2, "left")].Back, tight)
	// 6. The board feet of what is bought: thickness x width in inches x length in feet / 12 each.
	var buy struct {
		Buy []struct {
			Count                    int
			Thickness, Width, Length float64
			BoardFeet                float64 `json:"board_feet"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(ask("stock", file, "--json")), &buy))
	require.NotEmpty(t, buy.Buy)
	for _, b := range buy.Buy {
		// 4/4 by 6 in by 8 ft is 1 x 6 x 8 / 12 = 4; 6/4 is 6.
		each := map[float64]float64{4: 4, 6: 6}[math.Round(b.Thickness/in*4)]
		require.InDelta(t, each*float64(b.Count), b.BoardFeet, 1e-6)
	}
	// 7. Drawers: 22 less two dividers is 20.5, over 1 + 0.88 + 0.7744 = 2.6544: 7.723, 6.796, 5.981. They come out in sixty-fourths or coarser, and
	// their sum is the whole.
	sum := 0.0
	for i, want := range []float64{7.723, 6.796, 5.981} {
		require.InDelta(t, want, p.Drawers[i].Height/in, 3./64)
		sum += p.Drawers[i].Height
	}
	require.InDelta(t, 20.5*in, sum, 1e-6)
	// 8. The side, 17 in behind the cant, at 30 and 65 per cent and 70 F: wood at 6.17 and 11.96 per cent (the equilibrium of the Wood Handbook, chapter 4),
	// flat sawn cherry 0.00248 a per cent: 17 x 0.00248 x 5.79 = 0.244 in.
	require.InDelta(t, 0.244*in, base.Movement.Seasonal, 0.0005*in)
	// 9. The last of its slots: twice what the wood there moves the further way from 8.46 per cent as built, 3.50 per cent, and the screw's 0.177 in.
	last := base.Movement.Slots[len(base.Movement.Slots)-1]
	require.InDelta(t, 2*last.From*0.00248*3.50+0.177*in, last.Length, 0.002*in)
	// 10. A scraper for the waist leaned 20 degrees, pressed in at 45: the fillet's corner (2, 1/8) stands 1.875 x 0.7071 / 0.9397 = 1.4109 out from the origin
	// along the plunge, the foot (2, 0) 2 x 0.7071 / 0.9397 = 1.5050.
	var s struct {
		Blades []struct {
			Plunge  float64
			Outline [][2]float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(ask("scraper", filepath.Join(dir, "waist.yaml"), "--lean", "20", "--plunge=-45", "--json")), &s))
	has := func(v float64) bool {
		for _, b := range s.Blades {
			for _, q := range b.Outline {
				if math.Abs(math.Abs(q[1])-v*in) < tight {
					return true
				}
			}
		}
		return false
	}
	require.True(t, has(1.5050), "the foot: %v", s.Blades)
	require.True(t, has(1.4109), "the corner: %v", s.Blades)
}
