package cutter

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

// fits reports whether a tool of the set cuts an arc of that radius within 0.1 mm: a round nose or cove bit a hollow, a round-over a round.
func fits(tools []Tool, radius float64, hollow bool) bool {
	for _, t := range tools {
		kind := t.Kind == RoundOver
		if hollow {
			kind = t.Kind == RoundNose || t.Kind == CoveBit
		}
		if kind && math.Abs(t.Radius-radius) <= 0.1+1e-9 {
			return true
		}
	}
	return false
}

// fromOne returns the greatest part of a face that a single set-up of the plan passes with no more than tol of wood left on it; all, the part that
// they leave so together. It reads the silhouettes of the result and nothing else.
func fromOne(r Result, f FaceState, tol float64) (one, all float64) {
	var at []geom.Point
	for i := 1; i < len(f.Points); i++ {
		a, b := geom.Pt(f.Points[i-1][0], f.Points[i-1][1]), geom.Pt(f.Points[i][0], f.Points[i][1])
		out := b.Sub(a).Unit().Left().Mul(-tol)
		n := int(a.Dist(b)/0.05) + 1
		for k := range n {
			at = append(at, a.Lerp(b, (float64(k)+0.5)/float64(n)).Add(out))
		}
	}
	passed, best := make([]bool, len(at)), 0
	for _, s := range r.Setups {
		poly, n := polygonOf(s.Silhouette), 0
		for i, p := range at {
			if poly.contains(p) {
				passed[i] = true
				n++
			}
		}
		best = max(best, n)
	}
	n := 0
	for _, p := range passed {
		if p {
			n++
		}
	}
	return float64(best) / float64(len(at)), float64(n) / float64(len(at))
}

func polygonOf(ps [][2]float64) polygon {
	pts := make([]geom.Point, len(ps))
	for i, p := range ps {
		pts[i] = geom.Pt(p[0], p[1])
	}
	return newPolygon(pts)
}

// isHollow reports whether a face, drawn with the wood on its left, bends into the wood.
func isHollow(f FaceState) bool {
	p := func(i int) geom.Point { return geom.Pt(f.Points[i][0], f.Points[i][1]) }
	n := len(f.Points)
	return p(n/2).Sub(p(0)).Cross(p(n-1).Sub(p(n/2))) < 0
}

// meets asserts how clean a plan leaves what the tools fit and reach: an arc whose radius is in the set within 0.1 mm is 95 parts in 100 clean to
// 0.1 mm from one set-up (half a cyma is an arc of its own), a straight face 95 parts in 100 clean to 0.06 mm. It returns how many arcs it held to
// that.
func meets(t *testing.T, r Result, tools []Tool) int {
	t.Helper()
	arcs := 0
	for _, f := range r.Faces {
		switch f.Kind {
		case "arc":
			if !fits(tools, f.Radius, isHollow(f)) {
				continue
			}
			arcs++
			one, _ := fromOne(r, f, 0.1)
			if one < 0.95 {
				t.Errorf("%s: element %d: %.1f%% of its arc of %.2f mm radius comes clean from one set-up", r.Profile, f.Element, 100*one, f.Radius)
			}
		case "line":
			if _, all := fromOne(r, f, 0.06); all < 0.95 {
				t.Errorf("%s: element %d: %.1f%% of a straight face comes clean", r.Profile, f.Element, 100*all)
			}
		}
	}
	return arcs
}

// Hollows and rounds between fillets, open to the bits that fit them: of a radius in the set, and a tenth of a millimeter to either side.
func TestMatchedArcsComeCleanFromOneSetup(t *testing.T) {
	mm, tools := profile.MM, metricSet()
	for _, radius := range []float64{4, 6, 10} {
		for _, off := range []float64{-0.1, 0, 0.1} {
			for _, kind := range []profile.Kind{profile.KindCove, profile.KindOvolo} {
				size := radius + off
				p := profile.Profile{Name: fmt.Sprintf("%s-%g", kind, size), Ground: mm(8), Elements: []profile.Entry{
					{Kind: profile.KindFillet, Height: mm(5)},
					{Kind: kind, Height: mm(size)},
					{Kind: profile.KindFillet, Height: mm(4)},
				}}
				r, _ := planned(t, pieceOf(t, p), tools, Options{Effort: Quick})
				require.Equal(t, 1, meets(t, r, tools), p.Name)
			}
		}
	}
}
