package profile_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
)

// An assembly is a published list of members, from the bottom up, in parts. Heights and totals are published; where a source gives only the
// sum of several runs they are shared out here so that it comes out.
type assembly struct {
	name       string
	total      float64 // parts
	projection float64 // parts beyond the face it stands on; 0 where the source has none
	ground     float64 // parts, invented
	members    []profile.Entry
}

func member(k profile.Kind, height, set, run float64) profile.Entry {
	e := profile.Entry{Kind: k, Height: profile.Parts(height), Set: profile.Parts(set)}
	if run != 0 {
		e.Projection = profile.Parts(run)
	}
	return e
}

const (
	fillet  = profile.KindFillet
	fascia  = profile.KindFascia
	recta   = profile.KindCymaRecta
	reversa = profile.KindCymaReversa
	ovolo   = profile.KindOvolo
	torus   = profile.KindTorus
	bead    = profile.KindAstragal
	corona  = profile.KindCorona
	scotia  = profile.KindScotia
)

// assemblies are those of F. Laureys after Vignola, as printed in the Cyclopedia of Architecture, Carpentry and Building (American School of
// Correspondence, 1907-12), The Ionic Order, paragraphs 77 to 79, and The Corinthian Order, paragraphs 92 and 94 (all seen).
func assemblies() []assembly {
	return []assembly{
		{"Ionic base", 23.5, 0, 30, []profile.Entry{
			member(fascia, 8, 0, 0), member(torus, 6, -3, 0), member(fillet, 1.5, 0, 0), member(scotia, 3, 0, -1), member(fillet, 1, 0, 0), member(torus, 4, 0, 0),
		}},
		{"Ionic pedestal cap", 14, 9, 20, []profile.Entry{
			member(fillet, 1.5, 0, 0), member(recta, 2.5, 0, 2.5), member(fillet, 0.5, 1, 0), member(corona, 5.5, 3.5, 0), member(reversa, 2, 0, 1.5), member(fillet, 2, 0.5, 0),
		}},
		{"Ionic pedestal base", 45, 0, 28, []profile.Entry{
			member(fascia, 25, 0, 0), member(fascia, 10, -1, 0), member(torus, 3.5, -2, 0), member(fillet, 1, 0, 0), member(reversa, 4, 0, -4), member(fillet, 1.5, 0, 0),
		}},
		{"Ionic impost", 23, 8, 20, []profile.Entry{
			member(bead, 3, 0, 0), member(fascia, 6.5, 0, 0), member(fillet, 1, 0.5, 0), member(ovolo, 2.5, 0, 2.5), member(corona, 6, 3, 0), member(reversa, 2, 0, 1.5), member(fillet, 2, 0.5, 0),
		}},
		{"Ionic archivolt", 25, 5, 20, []profile.Entry{
			member(fascia, 7, 0, 0), member(reversa, 2, 0, 1.5), member(fascia, 9, 0, 0), member(bead, 1.5, 0, 0), member(reversa, 3, 0, 3), member(fillet, 2.5, 0.5, 0),
		}},
		{"Corinthian architrave", 30, 5.5, 20, []profile.Entry{
			member(fascia, 5.5, 0, 0), member(bead, 1, 0, 0), member(fascia, 6.5, 0, 0), member(reversa, 2, 0, 1.5), member(fascia, 7.5, 0, 0),
			member(bead, 1.5, 0, 0), member(reversa, 3.5, 0, 3.5), member(fillet, 2.5, 0.5, 0),
		}},
		// Its projection is 4 cyma + 4 dentils + 5 astragal, quarter round and band + 18 modillion + 1 cyma + 1 corona + 2 cyma and listel + 5
		// cyma recta = 40, which is its height.
		{"Corinthian cornice", 40, 40, 20, []profile.Entry{
			member(reversa, 3, 0, 4), member(fascia, 6.5, 4, 0), member(bead, 1.5, 0, 0), member(ovolo, 3.5, 0, 3.5), member(fascia, 7, 1.5, 0),
			member(reversa, 1.5, 18, 1), member(corona, 7, 1, 0), member(reversa, 1.5, 0, 1.5), member(fillet, 1, 0.5, 0), member(recta, 5, 0, 5), member(fillet, 2.5, 0, 0),
		}},
	}
}

func (a assembly) profile(part float64) profile.Profile {
	return profile.Profile{Name: a.name, Height: a.total * part, Parts: a.total, Ground: profile.Parts(a.ground), Elements: a.members}
}

func TestPublishedAssemblies(t *testing.T) {
	const part = 4.0 // mm
	for _, a := range assemblies() {
		t.Run(a.name, func(t *testing.T) {
			s, err := a.profile(part).Section(nil)
			require.NoError(t, err)
			require.InDelta(t, a.total*part, s.Height, 1e-9)
			at := 0.0
			for i, m := range s.Members {
				require.InDelta(t, at*part, m.Foot, 1e-9, "member %d", i+1)
				at += a.members[i].Height.In(1)
			}
			if a.projection != 0 {
				require.InDelta(t, (a.ground+a.projection)*part, s.Projection, 1e-9)
			}
			p := a.profile(part)
			p.Height += part
			_, err = p.Section(nil)
			require.NoError(t, err, "all is in parts, so all grows")
			p = a.profile(part)
			p.Elements = append([]profile.Entry{}, p.Elements...)
			p.Elements[0].Height = profile.Parts(a.members[0].Height.In(1) + 0.25)
			_, err = p.Section(nil)
			require.ErrorContains(t, err, "which is 1.0 mm more than the height", "a quarter part too much")
		})
	}
}

// The Ionic pedestal base ends 7 parts inside its plinth, and the conge of the die above takes the eighth (the same source).
func TestPedestalBaseLeavesRoomForTheConge(t *testing.T) {
	a := assemblies()[2]
	s, err := a.profile(4).Section(nil)
	require.NoError(t, err)
	last := s.Members[len(s.Members)-1]
	require.InDelta(t, 7*4, s.Ground-last.Start, 1e-9)
}

// Vitruvius III.5.2 (seen in Gwilt's and in Morgan's translation): the part of an Attic base above its plinth is a third of the diameter; a quarter of it is the
// upper torus, and the rest is halved between the lower torus and the scotia with its fillets. That the base is half the diameter high is from Chippendale
// 1754 and Ware 1920 (seen). For D = 24: plinth 4, torus 3, scotia and fillets 3, torus 2.
func TestAtticBase(t *testing.T) {
	const d = 96.0 // mm
	above := d / 3
	upper := above / 4
	lower := (above - upper) / 2
	const listel = d / 48 // invented: how the scotia's part is shared with its fillets is not in the text
	p := profile.Profile{
		Name: "attic-base", Height: d / 2, Ground: profile.MM(80),
		Elements: []profile.Entry{
			{Kind: fascia, Height: profile.Rest()},
			{Kind: torus, Height: profile.MM(lower), Set: profile.MM(-lower / 2)},
			{Kind: fillet, Height: profile.MM(listel)},
			{Kind: scotia, Height: profile.MM(lower - 2*listel)},
			{Kind: fillet, Height: profile.MM(listel)},
			{Kind: torus, Height: profile.MM(upper)},
		},
	}
	s, err := p.Section(nil)
	require.NoError(t, err)
	unit := d / 24
	for i, want := range []float64{0, 4, 7, -1, -1, 10} {
		if want >= 0 {
			require.InDelta(t, want*unit, s.Members[i].Foot, 1e-9, "member %d", i+1)
		}
	}
	require.InDelta(t, 4*unit, s.Members[0].Height, 1e-9, "plinth")
	require.InDelta(t, 80, s.Projection, 1e-9, "the lower torus stands out as far as the plinth")
	for _, u := range s.Undercuts() {
		require.NotEqual(t, profile.FromFront, u.From, "nothing in it is hidden from the front")
	}
}

// Ware, The American Vignola (1920), p. 16 (seen): Ionic dentils stand D/6 on centers, dentil D/9, space D/18.
func TestIonicDentils(t *testing.T) {
	const d = 180.0
	p := profile.Profile{Ground: profile.MM(30), Elements: []profile.Entry{
		{Kind: fillet, Height: profile.MM(5)},
		{Kind: profile.KindDentils, Height: profile.MM(d / 6), Set: profile.MM(20), Block: profile.MM(d / 9), Gap: profile.MM(d / 18), Depth: profile.MM(20)},
		{Kind: fillet, Height: profile.MM(5), Set: profile.MM(3)},
	}}
	s, err := p.Section(nil)
	require.NoError(t, err)
	dent := s.Members[1].Dentils
	require.InDelta(t, d/6, dent.Block+dent.Gap, 1e-9)
	require.InDelta(t, s.Area()-dent.Height*dent.Depth, s.Gap.Area(), 1e-9)
}

// Areas two ways: closed forms worked by hand, over a ground of 20 mm, and the flattened outline.
func TestAreas(t *testing.T) {
	const g, h = 20.0, 12.0
	mm := profile.MM
	top := profile.Entry{Kind: fillet, Height: mm(3)}
	for _, c := range []struct {
		name  string
		entry profile.Entry
		want  float64 // mm2, from the back to the member
		run   float64
	}{
		{"ovolo", profile.Entry{Kind: ovolo, Height: mm(h)}, g*h + math.Pi*h*h/4, h},
		{"cove", profile.Entry{Kind: profile.KindCove, Height: mm(h)}, g*h + h*h - math.Pi*h*h/4, h},
		{"elliptic ovolo", profile.Entry{Kind: ovolo, Height: mm(h), Projection: mm(17), Curve: profile.CurveEllipse}, g*h + math.Pi*h*17/4, 17},
		{"torus", profile.Entry{Kind: torus, Height: mm(h)}, g*h + math.Pi*h*h/8, 0},
		{"cyma recta", profile.Entry{Kind: recta, Height: mm(h), Projection: mm(10)}, g*h + 10*h/2, 10},
		{"cyma reversa", profile.Entry{Kind: reversa, Height: mm(h), Projection: mm(10)}, g*h + 10*h/2, 10},
		{"scotia", profile.Entry{Kind: scotia, Height: mm(h)}, g*2*h/3 + (g-h/3)*h/3 - math.Pi*(4*h*h/9+h*h/9)/4, -h / 3},
		{"chamfer", profile.Entry{Kind: profile.KindChamfer, Height: mm(h), Projection: mm(7)}, g*h + 7*h/2, 7},
		{"flutes", profile.Entry{Kind: profile.KindFlutes, Height: mm(h), Count: 2, Gap: mm(2)}, g*h - 2*math.Pi*25/8, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := profile.Profile{Ground: mm(g), Elements: []profile.Entry{{Kind: fillet, Height: mm(3)}, c.entry, top}}
			s, err := p.Section(nil)
			require.NoError(t, err)
			want := c.want + 3*g + 3*(g+c.run)
			require.InEpsilon(t, want, s.Area(), 1e-9)
			const tol = 0.001
			flat := geomArea(s, tol)
			require.InDelta(t, s.Area(), flat, tol*s.Outline.Length())
		})
	}
}

// Pappus: a section turned once about its back sweeps its area times the way of its centroid. A half round with its back on the
// axis sweeps a sphere (Archimedes), a quarter ellipse half a spheroid.
func TestPappus(t *testing.T) {
	ball, err := profile.Profile{Elements: []profile.Entry{{Kind: torus, Height: profile.MM(30)}}}.Section(nil)
	require.NoError(t, err)
	require.InEpsilon(t, 4.0/3*math.Pi*15*15*15, 2*math.Pi*ball.Centroid().X*ball.Area(), 1e-9)
	dome, err := profile.Profile{Elements: []profile.Entry{{Kind: ovolo, Height: profile.MM(10), Projection: profile.MM(25), Curve: profile.CurveEllipse}}}.Section(nil)
	require.NoError(t, err)
	require.InEpsilon(t, 2.0/3*math.Pi*25*25*10, 2*math.Pi*dome.Centroid().X*dome.Area(), 1e-9)
}
