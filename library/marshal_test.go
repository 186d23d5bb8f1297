package library_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// TestMarshalEmbedded: every embedded profile is saved and loaded the same, and saved again to the same bytes.
func TestMarshalEmbedded(t *testing.T) {
	l := library.Open("", "")
	for _, e := range l.List(library.KindProfile) {
		p, _, err := l.Profile(e.Name)
		require.NoError(t, err)
		text, err := library.MarshalProfile(p)
		require.NoError(t, err, e.Name)
		q, _, err := library.LoadProfile("x.yaml", text)
		require.NoError(t, err)
		require.Equal(t, p, q)
		again, err := library.MarshalProfile(q)
		require.NoError(t, err)
		require.Equal(t, string(text), string(again))
	}
}

// TestMarshalRandom: so is any profile, of both units, with sizes of every form. The seed is printed.
func TestMarshalRandom(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	for range 500 {
		p := randomProfile(r)
		text, err := library.MarshalProfile(p)
		require.NoError(t, err, "%#v", p)
		q, _, err := library.LoadProfile(p.Name+".yaml", text)
		require.NoError(t, err)
		require.Equal(t, p, q, string(text))
	}
}

// Any angle is written, to its last bits.
func TestMarshalAnyAngle(t *testing.T) {
	for i := 1; i < 900; i++ {
		p := profile.Profile{Name: "a", Ground: profile.MM(5), Elements: []profile.Entry{{Kind: profile.KindFillet, Height: profile.MM(3)}},
			Back: profile.Back{Spring: &profile.Spring{Angle: geom.Angle(float64(i)/10.07) * geom.Degree, Top: profile.MM(4)}}}
		text, err := library.MarshalProfile(p)
		require.NoError(t, err)
		q, _, err := library.LoadProfile("a.yaml", text)
		require.NoError(t, err)
		require.InDelta(t, float64(p.Back.Spring.Angle), float64(q.Back.Spring.Angle), 1e-15)
	}
}

// A profile that no file can say is an error, never a file that says something else.
func TestMarshalRefuses(t *testing.T) {
	good := profile.Profile{Name: "a", Ground: profile.MM(5), Elements: []profile.Entry{{Kind: profile.KindFillet, Height: profile.MM(3)}}}
	_, err := library.MarshalProfile(good)
	require.NoError(t, err)
	for name, change := range map[string]func(*profile.Profile){
		"no elements":   func(p *profile.Profile) { p.Elements = nil },
		"no ground":     func(p *profile.Profile) { p.Ground = profile.Size{} },
		"a path":        func(p *profile.Profile) { p.Name = "a/b" },
		"a huge height": func(p *profile.Profile) { p.Height = 1e300 },
		"a stray key":   func(p *profile.Profile) { p.Elements[0].Flush = true },
		"no such kind":  func(p *profile.Profile) { p.Elements[0].Kind = "gadroon" },
		"blank title":   func(p *profile.Profile) { p.Title = "  " },
	} {
		p := good
		p.Elements = append([]profile.Entry{}, good.Elements...)
		change(&p)
		_, err := library.MarshalProfile(p)
		require.ErrorContains(t, err, "the profile cannot be written", name)
	}
}

// randomProfile returns a profile with every key now and then. Its elements need not be buildable.
func randomProfile(r *rand.Rand) profile.Profile {
	titles := []string{"", "Base", "yes", "null", "3/4", "# no comment", "A: b", "it's \"so\"", " lead", "näher ⅝", "two\nlines", "- x", "[a]", "{b}", "&a", "0x10", "tab\there", "trailing ", "'", "\\n"}
	p := profile.Profile{
		Name: fmt.Sprintf("p%d", r.IntN(1000)), Title: titles[r.IntN(len(titles))], Source: titles[r.IntN(len(titles))],
		Units: measure.Units(r.IntN(2)), Ground: randomSize(r, false),
	}
	if r.IntN(2) == 0 {
		p.Height = randomLength(r)
		p.Parts = float64(1+r.IntN(100)) / float64(1+r.IntN(4))
	}
	if r.IntN(2) == 0 {
		p.Projection = randomLength(r)
	}
	for range 1 + r.IntN(6) {
		p.Elements = append(p.Elements, randomEntry(r))
	}
	switch r.IntN(4) {
	case 0:
		p.Back.Rabbet = &profile.Rabbet{At: profile.RabbetPlace(r.IntN(2)), Width: randomSize(r, false), Depth: randomSize(r, false)}
	case 1:
		angle, _ := measure.ParseAngle(fmt.Sprintf("%d.%02ddeg", r.IntN(90), 1+r.IntN(99)))
		p.Back.Spring = &profile.Spring{Angle: angle, Wall: randomSize(r, false)}
	}
	return p
}

func randomEntry(r *rand.Rand) profile.Entry {
	kinds := profile.Kinds()
	e := profile.Entry{Kind: kinds[r.IntN(len(kinds))], Height: randomSize(r, true)}
	for _, key := range e.Kind.Keys() {
		always := r.IntN(2) == 0
		switch key {
		case "set":
			if always {
				e.Set = negated(r, randomSize(r, false))
			}
		case "projection":
			if always {
				e.Projection = negated(r, randomSize(r, true))
			}
		case "curve":
			if of := e.Kind.Constructions(); always {
				e.Curve = of[r.IntN(len(of))]
			}
		case "radius":
			if always {
				e.Radius = randomSize(r, false)
			}
		case "drip":
			if always {
				e.Drip = &profile.Drip{Width: randomSize(r, false), Depth: randomSize(r, false), Inset: randomSize(r, false)}
			}
		case "quirk":
			if always {
				e.Quirk = &profile.BeadQuirk{Width: randomSize(r, false), Depth: randomSize(r, false), Sides: profile.Sides(r.IntN(3))}
			}
		case "flush":
			e.Flush = always
		case "fillet":
			if always {
				e.Fillet = randomSize(r, false)
			}
		case "gap":
			if always || e.Kind == profile.KindDentils {
				e.Gap = randomSize(r, false)
			}
		case "depth":
			e.Depth = randomSize(r, false)
		case "block":
			e.Block = randomSize(r, false)
		case "count":
			e.Count = 1 + r.IntN(9)
		case "profile":
			e.Profile = "other"
		case "points":
			for range 1 + r.IntN(3) {
				c := profile.CurvePoint{X: randomSize(r, false), Y: negated(r, randomSize(r, false))}
				if r.IntN(2) == 0 {
					c.Through = &[2]profile.Size{randomSize(r, false), randomSize(r, false)}
				}
				e.Points = append(e.Points, c)
			}
		}
	}
	return e
}

// randomSize returns a size above 0.
func randomSize(r *rand.Rand, rest bool) profile.Size {
	switch r.IntN(5) {
	case 0:
		return profile.Parts(float64(1+r.IntN(200)) / float64(1+r.IntN(12)))
	case 1:
		if rest {
			return profile.Rest()
		}
	}
	return profile.MM(randomLength(r))
}

// randomLength returns a length as files give them, or any at all.
func randomLength(r *rand.Rand) float64 {
	switch r.IntN(4) {
	case 0:
		mm, _ := measure.ParseLength(fmt.Sprintf("%d/%din", 1+r.IntN(300), 1<<r.IntN(7)), measure.Inches)
		return mm
	case 1:
		return float64(1+r.IntN(5000)) / 10
	case 2:
		mm, _ := measure.ParseLength(fmt.Sprintf("%d.%03din", r.IntN(9), 1+r.IntN(999)), measure.Inches)
		return mm
	}
	return r.Float64()*100 + 1e-6
}

func negated(r *rand.Rand, s profile.Size) profile.Size {
	switch {
	case s.IsRest() || r.IntN(2) == 0:
		return s
	case s.IsParts():
		return profile.Parts(-s.In(1))
	}
	return profile.MM(-s.In(0))
}

func ExampleMarshalProfile() {
	text, err := library.MarshalProfile(profile.Profile{
		Name: "shelf-edge", Title: "Edge of a shelf", Source: "invented", Units: measure.Inches, Ground: profile.MM(6.35),
		Elements: []profile.Entry{
			{Kind: profile.KindFillet, Height: profile.MM(3.175)},
			{Kind: profile.KindCove, Height: profile.MM(15.875), Set: profile.MM(1.5875), Curve: profile.CurveArc},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(string(text))
	// Output:
	// kind: profile
	// name: shelf-edge
	// title: Edge of a shelf
	// source: invented
	// units: in
	// ground: 1/4
	// elements:
	//   - fillet: {height: 1/8}
	//   - cove: {height: 5/8, set: 1/16, curve: arc}
}
