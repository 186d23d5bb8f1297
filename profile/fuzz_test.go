package profile_test

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"listel/profile"
	"listel/profile/geom"
)

// reader hands out the bytes of a fuzz input, zeros when it has ended.
type reader struct{ data []byte }

func (r *reader) byte() byte {
	if len(r.data) == 0 {
		return 0
	}
	b := r.data[0]
	r.data = r.data[1:]
	return b
}

// size is a size of any kind: often a likely length, now and then anything a float can be.
func (r *reader) size() profile.Size {
	switch b := r.byte(); {
	case b < 60:
		return profile.Size{}
	case b < 190:
		return profile.MM(float64(int8(r.byte())) / 4)
	case b < 215:
		return profile.Parts(float64(int8(r.byte())) / 4)
	case b < 225:
		return profile.Rest()
	default:
		var raw [8]byte
		for i := range raw {
			raw[i] = r.byte()
		}
		return profile.MM(math.Float64frombits(binary.LittleEndian.Uint64(raw[:])))
	}
}

func (r *reader) entry() profile.Entry {
	kinds := profile.Kinds()
	e := profile.Entry{Kind: kinds[int(r.byte())%len(kinds)], Height: profile.MM(float64(r.byte()) / 8)}
	take := map[string]bool{}
	for _, k := range e.Kind.Keys() {
		take[k] = true
	}
	if r.byte() > 200 {
		e.Height = r.size()
	}
	e.Set = r.size()
	if take["projection"] {
		e.Projection = r.size()
	}
	if c := e.Kind.Constructions(); c != nil {
		e.Curve = c[int(r.byte())%len(c)]
	}
	if take["radius"] && r.byte() > 128 {
		e.Radius = r.size()
		if r.byte() > 64 {
			e.Curve = ""
		}
	}
	if take["drip"] && r.byte() > 128 {
		e.Drip = &profile.Drip{Width: r.size(), Depth: r.size(), Inset: r.size()}
	}
	if take["quirk"] && r.byte() > 128 {
		e.Quirk = &profile.BeadQuirk{Width: r.size(), Depth: r.size(), Sides: profile.Sides(int8(r.byte()) % 4)}
	}
	e.Flush = take["flush"] && r.byte() > 128
	if take["fillet"] {
		e.Fillet = r.size()
	}
	if take["depth"] {
		e.Depth = r.size()
	}
	if take["gap"] {
		e.Gap = r.size()
	}
	if take["block"] {
		e.Block = r.size()
	}
	if take["count"] {
		e.Count = int(int8(r.byte()))
	}
	if take["points"] {
		for range int(r.byte()) % 4 {
			p := profile.CurvePoint{X: r.size(), Y: r.size()}
			if r.byte() > 128 {
				p.Through = &[2]profile.Size{r.size(), r.size()}
			}
			e.Points = append(e.Points, p)
		}
		e.Height = profile.Size{}
	}
	if take["profile"] {
		e.Profile = string(rune('a' + r.byte()%3))
	}
	return e
}

func (r *reader) profile(name string) profile.Profile {
	p := profile.Profile{Name: name, Ground: profile.MM(float64(r.byte()) / 4)}
	if r.byte() > 150 {
		p.Height, p.Parts = float64(r.byte()), float64(r.byte())
	}
	if r.byte() > 150 {
		p.Projection = float64(r.byte())
	}
	switch b := r.byte(); {
	case b > 220:
		p.Back.Rabbet = &profile.Rabbet{At: profile.RabbetPlace(b % 2), Width: r.size(), Depth: r.size()}
	case b > 190:
		p.Back.Spring = &profile.Spring{Angle: geom.Angle(r.byte()) * geom.Degree / 2, Wall: r.size(), Top: r.size()}
	}
	for range 1 + int(r.byte())%6 {
		p.Elements = append(p.Elements, r.entry())
	}
	return p
}

// Whatever a file says, there is no panic, and what is built is a sound shape.
func FuzzSection(f *testing.F) {
	f.Add([]byte{80, 0, 0, 0, 3, 0, 40, 0, 0, 5, 60, 0, 0, 0, 1})
	f.Add([]byte{100, 200, 40, 10, 0, 230, 100, 20, 100, 20, 4, 7, 60, 0, 0, 0, 0, 12, 30, 0, 0})
	f.Add([]byte{120, 0, 0, 200, 76, 100, 40, 0, 2, 9, 90, 0, 0, 100, 200, 1, 11, 50, 0, 0, 12, 44, 0, 0, 200, 100, 8, 100, 20, 1})
	f.Fuzz(func(t *testing.T, data []byte) {
		r := &reader{data}
		p := r.profile("p")
		lookup := func(name string) (profile.Profile, error) {
			if len(r.data) == 0 {
				return profile.Profile{}, errors.New("there is no such profile")
			}
			return r.profile(name), nil
		}
		s, err := p.Section(lookup)
		if err != nil {
			if err.Error() == "" {
				t.Fatal("an error without a word")
			}
			return
		}
		sound := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
		b := s.Outline.Bounds()
		switch {
		case !s.Outline.Closed(1e-5):
			t.Fatalf("open: %+v", p)
		case !(s.Area() > 0) || !sound(s.Area()) || !sound(s.FaceLength()):
			t.Fatalf("area %v, face %v: %+v", s.Area(), s.FaceLength(), p)
		case b.Min.X < -1e-5 || b.Min.Y < -1e-5 || b.Max.Y > s.Height+1e-5 || !(b.Width() > 0):
			t.Fatalf("bounds %v: %+v", b, p)
		}
		if n := s.Outline.SelfCrossings(1e-4); len(n) > 0 && b.Width() < 500 {
			t.Fatalf("crosses itself at %v: %+v", n[0].At, p)
		}
		s.Undercuts()
		s.Blank()
		p.Warnings(s)
		if th := s.Thinnest(); !(th.Thickness > 0.99) {
			t.Fatalf("thin: %+v: %+v", th, p)
		}
	})
}
