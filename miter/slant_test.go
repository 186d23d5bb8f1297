package miter

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
	"listel/profile"
	"listel/profile/geom"
)

// crown is a sprung section whose foot and top are level, so that lying on its back it is nearly a parallelogram.
func crown(deg, thick, high float64) profile.Section {
	a := geom.Angle(deg) * geom.Degree
	reach := high * a.Tan()
	return profile.Section{Name: "crown", Outline: geom.Polygon(geom.Pt(0, 0), geom.Pt(thick, 0), geom.Pt(reach+thick, high), geom.Pt(reach, high)),
		Height: high, Projection: reach + thick, Spring: &profile.SizedSpring{Angle: a, Top: thick}}
}

// A parallelogram stands with its foot and top level. On its back its length along the slope is high / cos a, the foot reaches thick x sin a
// further, and rips along the foot lean by tan a, so that the range between them is high / cos a alone.
func TestSlantByHand(t *testing.T) {
	s := crown(45, 20, 60)
	blank := s.Blank()
	b := Blank{Section: s, Width: blank.Width, Thickness: blank.Thickness}
	require.InDelta(t, (60+20.0/2)*math.Sqrt2, b.Width, 1e-9) // 60 x 1.41421 and 20 x 0.70711
	require.InDelta(t, 20*math.Sqrt2/2, b.Thickness, 1e-9)
	slant := newSlant(b, 1, 2, 3)
	require.InDelta(t, 60*math.Sqrt2, slant.Range, 1e-9)
	require.InDelta(t, (60+5)*math.Sqrt2, slant.Pitch, 1e-9)
	require.InDelta(t, 45, slant.Bevel.Degrees(), 1e-9)
	require.InDelta(t, b.Width+2+2*slant.Pitch, slant.Width(3), 1e-9)
}

// Without kerf or jointing the best slant of the parallelogram is that of its foot.
func TestBestSlantFollowsTheFoot(t *testing.T) {
	for _, deg := range []float64{20, 38, 44} {
		p := purchaseOf(crown(deg, 20, 60), stock.Shop{}, 152)
		require.InDelta(t, math.Tan(deg*math.Pi/180), p.leastSlant(0).Slope, 1e-4)
	}
}

func purchaseOf(s profile.Section, shop stock.Shop, widths ...float64) *Purchase {
	p := &Purchase{}
	p.Job.Shop = shop
	for _, w := range widths {
		p.Job.Stock = append(p.Job.Stock, stock.Item{Length: 2438, Width: w, Thickness: 50.8, Price: 10, Have: stock.Unlimited})
	}
	b := s.Blank()
	p.Blanks = []Blank{{Key: "crown", Section: s, Width: b.Width, Thickness: b.Thickness}}
	p.Job.Profiles = []stock.Profile{{Key: "crown", Width: b.Width, Thickness: b.Thickness, Turn: true}}
	return p
}

// A board 6 in wide gives one strip of this crown ripped square, and two on the slant.
func TestSlantYieldsMore(t *testing.T) {
	p := purchaseOf(crown(45, 24, 44), stock.Shop{Kerf: 1.5, Joint: 0}, 144)
	require.InDelta(t, 56*math.Sqrt2, p.Blanks[0].Width, 1e-9) // 79.2: two and a kerf are 159.9
	p.slants()
	require.NotNil(t, p.Blanks[0].Slant)
	require.Less(t, p.Blanks[0].Slant.Width(2), 144.0) // 79.2 + 62.2 + 1.5 x 1.414 = 143.5
	require.Equal(t, 2, stock.Strips(144, p.Job.Profiles[0].Width, 1.5, 0))
}

// A board that is too thin for the blank, here 3/4 in rough for one of 17 mm, is not ripped for it and takes nothing from the slant.
func TestSlantBesideAThinBoard(t *testing.T) {
	p := purchaseOf(crown(45, 24, 44), stock.Shop{Kerf: 1.5}, 144, 200)
	p.Job.Stock[1].Thickness = 19.05
	width, layers := p.Job.Takes(p.Job.Profiles[0], 1)
	require.Equal(t, 2, layers)
	require.InDelta(t, p.Blanks[0].Width, width, 1e-9)
	p.slants()
	require.NotNil(t, p.Blanks[0].Slant)
}

// fitsOn tells by the sections themselves whether n strips fit a board: each lies on its back, shifted by so much that a beveled cut and what
// is jointed off beside it pass between it and the one before, at every height.
func fitsOn(b Blank, m float64, n int, shop stock.Shop, width float64) bool {
	pts := b.back().Flatten(0.01)
	at := shop.Joint/2 - b.back().Bounds().Min.Y
	most := 0.0
	for i := range n {
		if i > 0 {
			gap := (shop.Kerf + shop.Joint) * math.Sqrt(1+m*m)
			need := math.Inf(-1)
			for _, p := range pts {
				for _, q := range pts {
					need = math.Max(need, (p.Y-m*p.X)-(q.Y-m*q.X))
				}
			}
			at += need + gap
		}
		for _, p := range pts {
			most = math.Max(most, p.Y+at)
		}
	}
	return most+shop.Joint/2 <= width+1e-6
}

// Whatever else is ripped from a board, the strips that the job counts fit it on the slant: drawn one beside the other with their cuts. Seeded.
func TestSlantNeverCountsTooMany(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	slanted := 0
	for range 3000 {
		shop := stock.Shop{Kerf: 1 + 3*rng.Float64(), Joint: 3 * rng.Float64()}
		p := purchaseOf(crown(20+24*rng.Float64(), 10+20*rng.Float64(), 30+50*rng.Float64()), shop, 90+210*rng.Float64(), 90+210*rng.Float64())
		for range rng.IntN(3) {
			w := 60 + 100*rng.Float64()
			p.Blanks = append(p.Blanks, Blank{Key: "other", Section: profile.Section{}, Width: w, Thickness: 20})
			p.Job.Profiles = append(p.Job.Profiles, stock.Profile{Key: "other", Width: w, Thickness: 20, Turn: true})
		}
		p.slants()
		s := p.Blanks[0].Slant
		if s == nil {
			continue
		}
		slanted++
		for k, it := range p.Job.Stock {
			rooms, _ := p.rooms(0, k)
			for _, room := range rooms {
				n := stock.Strips(room-shop.Kerf, p.Job.Profiles[0].Width, shop.Kerf, shop.Joint)
				if n > 0 {
					require.LessOrEqual(t, s.Width(n), room-shop.Kerf+1e-6)
					require.True(t, fitsOn(p.Blanks[0], s.Slope, n, shop, room-shop.Kerf), "%d strips on %g of %g", n, room-shop.Kerf, it.Width)
				}
			}
		}
	}
	require.Greater(t, slanted, 100)
}

// What the other blanks take of a board is what the job counts for them: a thin one, molded on the edge of a board and never turned, its greater side,
// with jointing and kerf. A board of 150 mm and a kerf hold six of 20.
func TestRoomsBesideAThinBlank(t *testing.T) {
	p := purchaseOf(crown(45, 24, 44), stock.Shop{Kerf: 3, Joint: 2}, 150)
	p.Blanks = append(p.Blanks, Blank{Key: "bead", Width: 20, Thickness: 10})
	p.Job.Profiles = append(p.Job.Profiles, stock.Profile{Key: "bead", Width: 20, Thickness: 10})
	rooms, ok := p.rooms(0, 0)
	require.True(t, ok)
	require.Len(t, rooms, 7)
	for n, room := range rooms {
		require.InDelta(t, 153-25*float64(n), room, 1e-9)
	}
}
