package library_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
)

// A printed assembly: heights of its members from the foot up and its whole projection beyond the naked face, in parts.
type printed struct {
	name       string
	heights    []float64
	total      float64
	projection float64
}

// printedAssemblies are member lists as published: Cyclopedia of Architecture, Carpentry and Building (American School of Correspondence,
// 1907-12), after F. Laureys, Analysis of the Five Orders (1870), paragraph by the name; and Vitruvius, De architectura III.5.2,
// with the base 12 parts high (half a column's diameter). A scotia of Vitruvius is given with its fillets.
var printedAssemblies = []printed{
	{"ionic-base", []float64{8, 6, 1.5, 3, 1, 4}, 23.5, 8},                                                           // para. 77
	{"ionic-pedestal-cap", []float64{1.5, 2.5, 0.5, 5.5, 2, 2}, 14, 9},                                               // para. 78
	{"ionic-pedestal-base", []float64{25, 10, 3.5, 1, 4, 1.5}, 45, 8},                                                // para. 78
	{"ionic-impost", []float64{3, 6.5, 1, 2.5, 6, 2, 2}, 23, 8},                                                      // para. 79
	{"ionic-archivolt", []float64{7, 2, 9, 1.5, 3, 2.5}, 25, 5},                                                      // para. 79
	{"corinthian-architrave", []float64{5.5, 1, 6.5, 2, 7.5, 1.5, 3.5, 2.5}, 30, 5.5},                                // para. 92
	{"corinthian-cornice", []float64{3, 1 + 5.5, 1.5, 3.5, 7, 1.5, 7, 1.5, 1, 5, 2.5}, 40, 4 + 4 + 5 + 18 + 1*2 + 7}, // para. 94
	{"tuscan-base", []float64{14, 12}, 26, 9},                                                                        // para. 40-41
	{"tuscan-base-with-listel", []float64{14, 12, 3, 3}, 32, 9},                                                      // para. 40-41; the conge is a quarter circle of 3
	{"attic-base", []float64{4, 3, 3, 2}, 12, 4},                                                                     // Vitruvius; projection a third: Chippendale, Director (1754), pl. VI
	{"attic-base-modern", []float64{6, 4.5, 0.5, 3, 0.5, 3.5}, 18, 6},                                                // a maker's drawing notes, lmst.online; projection as before
	{"attic-base-sevenths", []float64{4, 3, 3, 2}, 12, 4},                                                            // Vitruvius and Chippendale, as attic-base
	{"doric-denticular-cornice", []float64{4, 3, 6, 11, 1.8, 1.2, 10}, 37, 40},                                       // para. 57, a damaged copy; the crown is the rest
	{"doric-architrave", []float64{23, 4}, 27, 2},                                                                    // para. 55; the projection is ours
	{"tuscan-base-palladio", []float64{15, 12.5, 2.5}, 30, 10},                                                       // a drawing book, damaged copy; the last is the rest of half a diameter, the projection ours
	{"tuscan-base-vignola", []float64{6, 5, 1}, 12, 4},                                                               // from memory; the projection is ours
	{"tuscan-capital", []float64{4, 1, 3, 3, 1}, 12, 4.5},                                                            // from memory; the projection is ours
	{"tuscan-architrave", []float64{10, 2}, 12, 2},                                                                   // from memory; the projection is ours
	{"tuscan-pedestal-cap", []float64{4, 2}, 6, 4},                                                                   // from memory; the projection is ours
	{"tuscan-pedestal-base", []float64{5, 1}, 6, 0.5},                                                                // from memory; the projection is ours
	{"tuscan-cornice", []float64{4, 0.5, 6, 0.5, 1, 4}, 16, 18},                                                      // from memory
	// W. R. Ware, The American Vignola (1920 printing), in 24ths of the column's diameter.
	{"tuscan-base-ware", []float64{6, 6}, 12, 4},                           // p. 9: D/2, cut in two; the projection is ours
	{"tuscan-capital-ware", []float64{4, 4, 4}, 12, 4},                     // p. 9: D/2, cut in three; abacus 7/6 D over a shaft of 5/6 D (from memory)
	{"tuscan-cornice-ware", []float64{4.5, 9, 4.5}, 18, 18},                // p. 9: 3/4 D, cut in four; the projection is ours
	{"doric-base-ware", []float64{6, 6}, 12, 4},                            // p. 14: D/2, plinth D/4 high and D/6 out
	{"doric-capital-ware", []float64{4, 4, 4}, 12, 4},                      // p. 14: D/2, D/6 each; abacus D/6 out
	{"doric-architrave-ware", []float64{4, 6, 2}, 12, 2.5},                 // p. 14: D/2, lower band D/6, taenia D/12
	{"doric-cornice-ware", []float64{3, 3, 0.5, 5, 6.5}, 18, 23.25},        // p. 14: 3/4 D, dentils D/8 high; the rest is ours
	{"ionic-dentil-band-ware", []float64{3, 1, 6, 1.5, 3.5}, 15, 6 + 3.75}, // p. 16 gives the dentils' widths alone; heights are ours
}

// joined are members of ours that one printed member holds: the element counts that make it up.
var joined = map[string][]int{
	"corinthian-cornice": {1, 2, 1, 1, 1, 1, 1, 1, 1, 1, 1}, // the dentil band: its fillet and the dentils
	"attic-base":         {1, 1, 3, 1},                      // the scotia with its two fillets

	"attic-base-sevenths":      {1, 1, 3, 1},
	"doric-denticular-cornice": {1, 1, 2, 1, 1, 1, 2}, // the dentil band; the crown
	"tuscan-base-ware":         {1, 2},
	"tuscan-capital-ware":      {1, 2, 1},
	"tuscan-cornice-ware":      {2, 2, 1},
	"doric-base-ware":          {1, 3},
	"doric-capital-ware":       {1, 2, 1},
	"doric-cornice-ware":       {2, 1, 1, 1, 4},
}

func TestPublishedMembers(t *testing.T) {
	l := library.Open("", "")
	for _, want := range printedAssemblies {
		t.Run(want.name, func(t *testing.T) {
			s, o, err := l.Section(want.name)
			require.NoError(t, err)
			require.Equal(t, library.Embedded, o.Where)
			part := s.Height / want.total
			var heights []float64
			at := 0
			for i := range want.heights {
				n := 1
				if j, ok := joined[want.name]; ok {
					n = j[i]
				}
				h := 0.0
				for _, m := range s.Members[at : at+n] {
					h += m.Height
				}
				heights, at = append(heights, h/part), at+n
			}
			require.Equal(t, at, len(s.Members))
			require.InDeltaSlice(t, want.heights, heights, 1e-9)
			sum := 0.0
			for _, h := range want.heights {
				sum += h
			}
			require.InDelta(t, want.total, sum, 1e-12, "the printed heights make the printed total")
			require.InDelta(t, want.projection, (s.Projection-naked(t, s, want))/part, 1e-9)
		})
	}
}

// naked returns x of the face that the projection is printed from: the foot of what stands out upward, and for a base the wood that
// its comment states.
func naked(t *testing.T, s profile.Section, want printed) float64 {
	t.Helper()
	if s.Ground < s.Projection-1e-9 {
		return s.Ground
	}
	return woodBehind(want.name) * s.Height / want.total
}

// woodBehind returns the parts of wood behind the naked face of a profile, which its comment states.
func woodBehind(name string) float64 {
	wood, ok := map[string]float64{
		"attic-base": 3, "attic-base-modern": 4.5, "attic-base-sevenths": 4, "tuscan-cornice": 4, "tuscan-base-palladio": 15,
		"tuscan-pedestal-cap": 3, "tuscan-pedestal-base": 2,
	}[name]
	if !ok {
		wood = 6
	}
	return wood
}

// TestPublishedGroups holds the projections of groups of members that are printed, in parts from the naked face: x after each
// group.
func TestPublishedGroups(t *testing.T) {
	cases := []struct {
		name   string
		parts  float64
		member int // index from 1
		x      float64
	}{
		{"ionic-pedestal-cap", 14, 3, 3.5},                  // para. 78: the rest of 9
		{"ionic-pedestal-cap", 14, 4, 3.5 + 3.5},            // corona 3 1/2
		{"ionic-pedestal-cap", 14, 6, 3.5 + 3.5 + 2},        // cyma and listel 2
		{"ionic-pedestal-base", 45, 6, 1},                   // para. 78: the conge
		{"ionic-pedestal-base", 45, 2, 1 + 4 + 2},           // cyma 4, torus 2
		{"ionic-pedestal-base", 45, 1, 1 + 4 + 2 + 1},       // plinth 1
		{"ionic-impost", 23, 4, 3},                          // para. 79: 2 + 3 + 3
		{"ionic-impost", 23, 5, 3 + 3},                      //
		{"corinthian-cornice", 40, 1, 4},                    // para. 94: cyma
		{"corinthian-cornice", 40, 3, 4 + 4},                // dentils
		{"corinthian-cornice", 40, 6, 8 + 5},                // astragal, quarter round, band
		{"corinthian-cornice", 40, 7, 13 + 18 + 1},          // modillion, cyma reversa
		{"corinthian-cornice", 40, 8, 32 + 1},               // corona
		{"corinthian-cornice", 40, 10, 33 + 2},              // cyma and listel
		{"corinthian-cornice", 40, 12, 35 + 5},              // cyma recta
		{"tuscan-base-with-listel", 32, 3, 3},               // para. 41: the listel projects 3
		{"tuscan-base-with-listel", 32, 4, 0},               // its conge a quarter circle of 3
		{"attic-base", 12, 1, 4},                            //
		{"attic-base-modern", 18, 1, 18.0 / 3},              //
		{"ionic-base", 23.5, 6, 2},                          // para. 77: 2 for the conge above
		{"corinthian-architrave", 30, 8, 5.5},               // para. 92
		{"ionic-archivolt", 25, 6, 5},                       // para. 79
		{"tuscan-base", 26, 2, 9 - 6},                       // para. 40: the torus projects 6
		{"tuscan-cornice", 16, 6, 18},                       // from memory
		{"doric-denticular-cornice", 37, 1, 1},              // para. 57: band 1
		{"doric-denticular-cornice", 37, 2, 1 + 2.5},        // cyma 2 1/2
		{"doric-denticular-cornice", 37, 5, 40 - 7.5 - 2.2}, // the corona, 2 1/5 of cyma and fillet and the crown before its 40
		{"doric-denticular-cornice", 37, 7, 40 - 7.5},       // the fillet over the cyma
		{"doric-cornice-ware", 18, 5, 18},                   // Ware, p. 14: the corona's face 3/4 D out
		{"doric-base-ware", 12, 1, 4},                       // the plinth D/6
		{"doric-architrave-ware", 12, 3, 0.5 + 2},           // the taenia D/12 beyond the upper band
		{"ionic-pedestal-cap", 14, 2, 3.5 - 0.5},            // ours: the fillet stands 1/2 before it
		{"corinthian-cornice", 40, 2, 4},                    //
		{"corinthian-cornice", 40, 11, 40},                  //
		{"ionic-pedestal-base", 45, 3, 1 + 4 + 2 - 1.75},    // the torus is half round: it springs half its height behind its crest
	}
	l := library.Open("", "")
	for _, c := range cases {
		s, _, err := l.Section(c.name)
		require.NoError(t, err)
		part := s.Height / c.parts
		m := s.Members[c.member-1]
		require.InDelta(t, c.x, (m.Start+m.Projection)/part-woodBehind(c.name), 1e-9, "%s, member %d", c.name, c.member)
	}
}

// TestEveryEmbeddedProfile builds each, scales it, and asks that it says where it comes from and gives no cause for a warning but
// those expected.
func TestEveryEmbeddedProfile(t *testing.T) {
	l := library.Open("", "")
	list := l.List(library.KindProfile)
	require.GreaterOrEqual(t, len(list), 50)
	seen, titles := map[string]bool{}, map[string]bool{}
	for _, e := range list {
		require.Empty(t, e.Fault, e.Name)
		require.False(t, seen[e.Name], e.Name)
		seen[e.Name] = true
		require.NotEmpty(t, e.Source, e.Name)
		require.NotEmpty(t, e.Title, e.Name)
		require.False(t, titles[e.Title], "%s: %s", e.Name, e.Title)
		titles[e.Title] = true
		p, _, err := l.Profile(e.Name)
		require.NoError(t, err)
		require.Equal(t, e.Name, p.Name)
		require.NotEmpty(t, p.Family, e.Name)
		s, err := p.Section(l.Lookup)
		require.NoError(t, err)
		require.InDelta(t, e.Height, s.Height, 1e-9)
		require.InDelta(t, e.Projection, s.Projection, 1e-9)
		require.GreaterOrEqual(t, s.Thinnest().Thickness, 2.0, "%s is no furniture-size section", e.Name)
		require.True(t, s.Height >= 4 && s.Height <= 130 && s.Projection <= 100, "%s is no furniture-size section", e.Name)
		if e.Name != "bolection" { // it falls back over the panel
			require.Empty(t, p.Warnings(s), e.Name)
		}
		for _, k := range []float64{0.5, 3} {
			big, err := p.Scaled(k).Section(l.Lookup)
			require.NoError(t, err, "%s at %g", e.Name, k)
			require.InEpsilon(t, k*k, big.Area()/s.Area(), 1e-9, "%s at %g", e.Name, k)
		}
		require.False(t, math.IsNaN(s.Area()))
	}
}
