package trace_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// brushed returns the outline with its corners, outer and inner, rounded as a brush of that radius leaves them; it fills cusps that no
// brush enters.
func brushed(outline geom.Path, r float64) geom.Path {
	for _, d := range []float64{r, -2 * r, r} {
		all, err := outline.Offset(d, geom.Round)
		if err != nil {
			panic(err)
		}
		for i, q := range all {
			if i == 0 || math.Abs(q.Area()) > math.Abs(outline.Area()) {
				outline = q
			}
		}
	}
	return outline
}

// drawnAs samples the outline a pixel apart, its corners rounded by 0.1 mm, and adds noise across it that goes together from pixel to pixel.
func drawnAs(outline geom.Path, pixel, sigma float64, rng *rand.Rand) trace.Drawn {
	d := trace.Drawn{Noise: sigma, Pixel: pixel}
	const keep = 0.6 // what a pixel's error has of its neighbor's
	wave, left := rng.NormFloat64(), 0.0
	for _, seg := range brushed(outline, 0.1) {
		n := int(math.Ceil(seg.Length() / pixel * 8))
		for i := range n {
			if left += seg.Length() / float64(n); left < pixel {
				continue
			}
			left -= pixel
			t := float64(i) / float64(n)
			wave = keep*wave + math.Sqrt(1-keep*keep)*rng.NormFloat64()
			d.Points = append(d.Points, seg.At(t).Add(seg.Tangent(t).Left().Mul(sigma*wave)))
		}
	}
	return d
}

// A tally counts readings.
type tally struct {
	n, right, members int
	size, away        float64
	took, slowest     time.Duration
}

// read traces one section and counts it.
func (c *tally) read(t testing.TB, name string, units measure.Units, want profile.Section, seed uint64) {
	d := drawnAs(want.Outline, 25.4/300, 0.05, rand.New(rand.NewPCG(seed, 8)))
	at := time.Now()
	got, err := trace.Compose(t.Context(), d, trace.Wanted{Name: name, Units: units})
	took := time.Since(at)
	c.n++
	c.took += took
	c.slowest = max(c.slowest, took)
	if err != nil {
		t.Logf("%s: %v\n   true%s", name, err, told(traits(want)))
		return
	}
	v := judge(got.Section, want, 1)
	if v.members {
		c.members++
		c.size, c.away = math.Max(c.size, v.size), math.Max(c.away, v.away)
	}
	if v.right(1) {
		c.right++
	}
	if !v.right(1) || os.Getenv("LOOK") != "" {
		t.Logf("%s: members right %v, greatest error of a size %.3f mm (%s), distance %.3f mm, %v\n   true%s\n   read%s", name, v.members, v.size, v.why, v.away, took, told(traits(want)), told(traits(got.Section)))
	}
}

func (c *tally) String() string {
	return fmt.Sprintf("%d of %d right, members %d; of these sizes within %.3f mm, distance within %.3f mm; mean %v, slowest %v",
		c.right, c.n, c.members, c.size, c.away, c.took/time.Duration(c.n), c.slowest)
}

// composeLibrary reads back profiles of the library drawn with 0.05 mm of noise: every so manieth, or the one that the environment's LOOK names.
func composeLibrary(t testing.TB, every int) tally {
	lib := library.Open("", "")
	var c tally
	for i, l := range lib.List(library.KindProfile) {
		if name := os.Getenv("LOOK"); name != "" && name != l.Name || name == "" && i%every != 0 {
			continue
		}
		p, _, err := lib.Profile(l.Name)
		require.NoError(t, err)
		want, err := p.Section(lib.Lookup)
		require.NoError(t, err)
		c.read(t, l.Name, p.Units, want, uint64(i))
	}
	return c
}

// Half of the library's profiles are read back, nine of ten at least right; BenchmarkCompose reads them all, of which it is 95 of 100.
func TestComposeLibrary(t *testing.T) {
	c := composeLibrary(t, 2)
	t.Log(c.String())
	require.NotZero(t, c.n)
	require.GreaterOrEqual(t, float64(c.right), 0.9*float64(c.n))
}

// BenchmarkCompose reads back every profile of the library and a hundred made at random, and prints how.
func BenchmarkCompose(b *testing.B) {
	for b.Loop() {
		l, r := composeLibrary(b, 1), composeRandom(b, 1)
		fmt.Printf("library: %s\nat random: %s\n", l.String(), r.String()) // b.Log leaves rows out
	}
}
