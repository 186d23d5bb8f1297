package geom

import (
	"math"
	"testing"
)

// fuzzPath builds a path from bytes: every four give a kind, a corner on a coarse grid, where degenerate cases are common, and
// a bulge. Corners repeat, sides fold back and overlap.
func fuzzPath(data []byte, closed bool) Path {
	var p Path
	from := Pt(0, 0)
	for i := 0; i+3 < len(data) && len(p) < 24; i += 4 {
		to := Pt(float64(data[i+1]%16), float64(data[i+2]%16))
		p = append(p, fuzzSegment(from, to, data[i], float64(int8(data[i+3]))/64)...)
		from = to
	}
	if closed && len(p) > 0 {
		p = append(p, Line{from, Pt(0, 0)})
	}
	return p
}

func fuzzSegment(from, to Point, kind byte, bulge float64) Path {
	half, mid := to.Sub(from).Mul(0.5), from.Lerp(to, 0.5)
	switch {
	case kind%3 == 1:
		if s, err := ArcThrough(from, mid.Add(half.Left().Mul(bulge)), to); err == nil {
			return Path{s}
		}
	case kind%3 == 2 && bulge != 0 && half != Point{}:
		k := half.Left().Mul(bulge)
		m := Affine{half.X, half.Y, k.X, k.Y, mid.X, mid.Y}
		return Path{Arc{Radius: 1, From: 180 * Degree, Sweep: -180 * Degree}.Transform(m).Transform(Identity())}
	}
	return Path{Line{from, to}}
}

func finite(t *testing.T, what string, p Path) {
	t.Helper()
	for _, s := range p {
		for _, u := range []float64{0, 0.3, 1} {
			if v := s.At(u); math.IsNaN(v.X+v.Y) || math.IsInf(v.X+v.Y, 0) {
				t.Fatalf("%s: %#v", what, p)
			}
		}
	}
	if v := p.Area() + p.Length() + p.Centroid().X; math.IsNaN(v) {
		t.Fatalf("%s: area, length or centroid of %#v", what, p)
	}
}

// FuzzPath looks for panics, endless loops and numbers that are none.
func FuzzPath(f *testing.F) {
	f.Add([]byte{0, 5, 0, 0, 1, 5, 5, 30, 2, 0, 5, 20}, 1.5, true)
	f.Add([]byte{0, 5, 0, 0, 0, 5, 0, 0, 0, 0, 0, 0, 0, 5, 0, 0}, -1.0, true)
	f.Add([]byte{1, 8, 0, 64, 1, 0, 0, 192, 2, 4, 4, 64, 2, 4, 4, 7}, 2.0, false)
	f.Add([]byte{0, 10, 0, 0, 0, 10, 10, 0, 0, 0, 10, 0}, 5.0, true)
	f.Fuzz(func(t *testing.T, data []byte, d float64, closed bool) {
		p := fuzzPath(data, closed)
		if !(math.Abs(d) < 1e4) {
			return
		}
		finite(t, "path", p)
		finite(t, "simplified", p.Simplify(1e-6))
		finite(t, "mirrored", p.MirrorX().Rotate(Angle(d)))
		for _, join := range []Join{Round, Miter} {
			out, err := p.Offset(d, join)
			if err != nil && p.Length() > joined {
				t.Fatal(err)
			}
			for _, q := range out {
				finite(t, "offset", q)
			}
		}
		a, b := p.SplitAtHeight(math.Round(d))
		for _, q := range append(a, b...) {
			finite(t, "part", q)
			if !q.Closed(1e-5) {
				t.Fatalf("open part %#v", q)
			}
		}
		for _, c := range p.SelfCrossings(1e-6) {
			if !p.At(c.S0).Near(p.At(c.S1), 1e-8) {
				t.Fatalf("crossing %v of %#v", c, p)
			}
		}
		p.Contains(Pt(d, 3))
		if s, at, dist := p.Nearest(Pt(d, 3)); len(p) > 0 && (math.IsNaN(s+dist) || !p.At(s).Near(at, 1e-9)) {
			t.Fatalf("nearest %v %v %v", s, at, dist)
		}
	})
}
