package trace_test

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// known returns the scale of a page as its maker would measure it: a length across and one up.
func (p *page) known() trace.Scale {
	k := p.weight * p.scan.scale
	return trace.Scale{Name: "s", Lengths: []trace.Length{
		{From: geom.Pt(10, 10), To: geom.Pt(10+50*k*(1+p.stretch), 10), MM: 50},
		{From: geom.Pt(10, 10), To: geom.Pt(10, 10+50*k), MM: 50},
	}}
}

// A subject is a section of known truth.
type subject struct {
	name    string
	units   measure.Units
	section profile.Section
}

// librarySubjects returns the sections of the library.
func librarySubjects(t testing.TB) []subject {
	lib := library.Open("", "")
	var out []subject
	for _, l := range lib.List(library.KindProfile) {
		p, _, err := lib.Profile(l.Name)
		require.NoError(t, err)
		s, err := p.Section(lib.Lookup)
		require.NoError(t, err)
		out = append(out, subject{l.Name, p.Units, s})
	}
	return out
}

// randomSubjects returns n sections of members by chance, from a seed.
func randomSubjects(n int, seed uint64) []subject {
	rng := rand.New(rand.NewPCG(seed, 1))
	var out []subject
	for len(out) < n {
		p := randomProfile(rng)
		if s, err := p.Section(nil); err == nil {
			p.Name = fmt.Sprintf("random-%d", len(out)+1)
			out = append(out, subject{p.Name, p.Units, s})
		}
	}
	return out
}

// randomProfile returns a molding of three to six members, in sixteenths of an inch; its section may be none.
func randomProfile(rng *rand.Rand) profile.Profile {
	sixteenths := func(lo, hi int) profile.Size { return profile.MM(float64(lo+rng.IntN(hi-lo+1)) * 25.4 / 16) }
	p := profile.Profile{Units: measure.Inches, Ground: sixteenths(6, 14)}
	kinds := []profile.Kind{profile.KindOvolo, profile.KindCove, profile.KindCymaRecta, profile.KindCymaReversa, profile.KindTorus, profile.KindChamfer}
	p.Elements = append(p.Elements, profile.Entry{Kind: profile.KindFillet, Height: sixteenths(2, 5)})
	for range 1 + rng.IntN(3) {
		e := profile.Entry{Kind: kinds[rng.IntN(len(kinds))], Height: sixteenths(4, 12)}
		if rng.IntN(2) == 0 {
			e.Set = sixteenths(2, 3)
		}
		p.Elements = append(p.Elements, e, profile.Entry{Kind: profile.KindFillet, Height: sixteenths(2, 5), Set: sixteenths(1, 3)})
	}
	return p
}

// A wear is a state of a scan.
type wear int

const (
	clean       wear = iota // blur, some noise, a paper of uneven tone
	worn                    // more of both, 2 degrees of turn, 1 % of stretch, breaks in the line, JPEG
	dimensioned             // worn, with dimension lines that touch the section and a leader that crosses it
	inky                    // worn, with a pen of 0.8 mm and ink that has run by 0.06 mm
)

func (w wear) String() string { return [...]string{"clean", "worn", "dimensioned", "inky"}[w] }

// in returns the scan in a state of wear.
func (s scan) in(w wear) scan {
	s.blur, s.noise, s.tone = 0.7*s.dpi/300+0.2, 3, 15
	if w >= worn {
		s.noise, s.tone, s.quality = 5, 30, 80
		s.turn, s.stretch = 2*geom.Degree, 0.01
		if s.style != filled {
			s.breaks, s.gap = 2, 3*s.dpi/300
		}
	}
	s.dims = w == dimensioned
	if w == inky {
		s.pen, s.spread = 0.8, 0.06
	}
	return s
}

// A score counts what became of scans.
type score struct {
	n, found, members, right int
	size, away               []float64 // mm
	claims, held             int       // sizes, and those whose truth lies within what they may be off by
	took, slowest            time.Duration
}

// A result is what became of one scan.
type result struct {
	found bool
	verdict
	right   bool
	outline float64 // mm, the greatest distance of its report
	why     string  // what is wrong
	took    time.Duration
}

// read traces a subject's scan; the bounds of sizes and distance are those of full size times the factor.
func read(t testing.TB, who subject, s scan, times float64) result {
	img, p := s.render(t, who.section.Outline)
	at := time.Now()
	got, err := trace.Trace(context.Background(), img, trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: who.name, Units: who.units, Face: p.face()}}}, trace.Options{})
	out := result{took: time.Since(at)}
	if dir := os.Getenv("TRACE_PICTURES"); dir != "" {
		overlay(t, fmt.Sprintf("%s/%s-%v-%v-%v-%v.png", dir, who.name, s.style, s.dpi, s.scale, s.dims), img, got)
	}
	if err != nil {
		out.why = err.Error()
		return out
	}
	out.found, out.verdict, out.outline = true, judge(got[0].Section, who.section, times), got[0].Truth.Greatest
	out.right = out.verdict.right(times)
	if out.members {
		out.claims = claims(got[0].Truth.Sizes, got[0].Section, who.section)
	}
	switch {
	case !out.members:
		out.why = fmt.Sprintf("members (%s):\n      true%s\n      read%s\n     ", out.verdict.why, told(traits(who.section)), told(traits(got[0].Section)))
	case !out.right:
		out.why = fmt.Sprintf("size off %.3f (%s), distance %.3f; truth %.3f mm\n      true%s\n      read%s\n     ", out.size, out.verdict.why, out.away, out.outline, told(traits(who.section)), told(traits(got[0].Section)))
	}
	if out.why != "" {
		out.why += "; " + strings.Join(got[0].Notes, "; ")
	}
	return out
}

// add counts a result.
func (c *score) add(r result) {
	c.n++
	c.slowest = max(c.slowest, r.took)
	c.took += r.took
	if !r.found {
		return
	}
	c.found++
	if r.members {
		c.members++
		c.size, c.away = append(c.size, r.size), append(c.away, r.away)
		for _, k := range r.claims {
			c.claims++
			if k.holds() {
				c.held++
			}
		}
	}
	if r.right {
		c.right++
	}
}

// face returns the side that the face of the drawn section is on.
func (p *page) face() trace.Side {
	if p.left {
		return trace.FaceLeft
	}
	return trace.FaceRight
}

// String returns the row of the table.
func (c *score) String() string {
	share := func(v []float64, limit float64) float64 {
		n := 0
		for _, x := range v {
			if x <= limit {
				n++
			}
		}
		return 100 * float64(n) / math.Max(1, float64(c.n))
	}
	return fmt.Sprintf("n %d found %d members %d right %d (%.0f %%) | away<.15 %.0f %% <.3 %.0f %% | size<.2 %.0f %% <.4 %.0f %% | within their +- %d of %d (%.0f %%) | mean %v, slowest %v", c.n, c.found, c.members, c.right,
		100*float64(c.right)/float64(c.n), share(c.away, 0.15), share(c.away, 0.3), share(c.size, 0.2), share(c.size, 0.4),
		c.held, c.claims, 100*float64(c.held)/math.Max(1, float64(c.claims)), (c.took / time.Duration(c.n)).Round(time.Millisecond), c.slowest.Round(time.Millisecond))
}

// overlay writes the scan twice as large with the traced outline in red.
func overlay(t testing.TB, path string, img image.Image, got []trace.Traced) {
	over := image.NewRGBA(image.Rect(0, 0, 2*img.Bounds().Dx(), 2*img.Bounds().Dy()))
	for y := range over.Rect.Max.Y {
		for x := range over.Rect.Max.X {
			over.Set(x, y, img.At(x/2, y/2))
		}
	}
	for _, g := range got {
		for k, path := range []geom.Path{g.Section.Outline, g.Outline} {
			for _, seg := range path {
				n := 1 + int(seg.Length()*40)
				for i := range n {
					q := g.Pixels.Apply(seg.At(float64(i) / float64(n)))
					over.Set(int(q.X*2), int(q.Y*2), []color.Color{color.RGBA{0, 0, 255, 255}, color.RGBA{255, 0, 0, 255}}[k])
				}
			}
		}
	}
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, over))
}

// TestTraceKnownTruth reads back a seventh of what BenchmarkTraceKnownTruth does at full scale and 300 dots an inch, the kinds of drawing and the
// states of the scan by turns: 95 of 100 must have all members in order, sizes within 0.2 mm and the section within 0.15 mm.
func TestTraceKnownTruth(t *testing.T) {
	var of []sample
	for i, who := range append(librarySubjects(t), randomSubjects(100, 8)...) {
		if i%7 == 0 {
			of = append(of, sample{who, scan{dpi: 300, scale: 1, style: style(i % 3), seed: uint64(i), left: i%2 == 1}.in(wear(i / 7 % 3))})
		}
	}
	c := scored(t, of, 1, true)
	t.Log(c.String())
	require.GreaterOrEqual(t, float64(c.right), 0.95*float64(c.n))
}

// envInt returns the number that a variable of the environment holds, and another where it holds none.
func envInt(name string, or int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return or
}

// BenchmarkTraceKnownTruth scans every profile of the library and a hundred by chance, and prints how they are read back: a row a resolution,
// scale, kind of drawing and state of the scan. TRACE_EVERY=10 takes a tenth of them, TRACE_OFFSET=3 another tenth, TRACE_ONLY=cove those of that
// name, TRACE_SEED=1 a hundred others, all with other noise and broken elsewhere, TRACE_WORKERS=1 has one core do it, and TRACE_WHY=1 says what was wrong with
// which.
func BenchmarkTraceKnownTruth(b *testing.B) {
	seed := uint64(envInt("TRACE_SEED", 0))
	all := append(librarySubjects(b), randomSubjects(100, 8+seed)...)
	every := max(1, envInt("TRACE_EVERY", 1))
	for _, dpi := range []float64{300, 150, 600} {
		for _, scale := range []float64{1, 0.5} {
			for state := clean; state <= inky; state++ {
				for s := outlined; s <= filled; s++ {
					name := fmt.Sprintf("%.0f dpi, 1:%.0f, %v, %v", dpi, 1/scale, s, state)
					b.Run(name, func(b *testing.B) {
						for b.Loop() {
							var of []sample
							for i := (int(s) + envInt("TRACE_OFFSET", 0)) % every; i < len(all); i += every {
								if strings.Contains(all[i].name, os.Getenv("TRACE_ONLY")) {
									of = append(of, sample{all[i], scan{dpi: dpi, scale: scale, style: s, seed: uint64(i) + 1000*seed, left: i%2 == 1}.in(state)})
								}
							}
							fmt.Printf("%s: %s\n", name, scored(b, of, 1/scale, os.Getenv("TRACE_WHY") != "").String()) // b.Log leaves rows out
						}
					})
				}
			}
		}
	}
}

// A sample is a subject and how it is scanned.
type sample struct {
	subject
	scan scan
}

// scored traces the samples, a worker a core, and counts them; it tells what was wrong if asked to.
func scored(t testing.TB, of []sample, times float64, tell bool) *score {
	results := make([]result, len(of))
	var next atomic.Int64
	var all sync.WaitGroup
	for range max(1, envInt("TRACE_WORKERS", runtime.NumCPU())) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(of); i = int(next.Add(1)) - 1 {
				results[i] = read(t, of[i].subject, of[i].scan, times)
			}
		})
	}
	all.Wait()
	c := &score{}
	for i, r := range results {
		c.add(r)
		if tell && r.why != "" {
			fmt.Printf("%s, %v: %s\n", of[i].name, of[i].scan.style, r.why)
		}
	}
	return c
}
