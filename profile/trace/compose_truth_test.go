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

// A trait is what an outline shows of a member. Members that draw the same are the same trait: fillet, fascia, corona and the blocks of dentils
// are flats, one over the other with no step between is one; torus, astragal and bead are half rounds; a bead's quirks and a thumb's fillet are
// flats; reeds and flutes are half rounds and half hollows with flats between; a conge is a cove.
type trait struct {
	family    string
	set, h, p float64
	from      geom.Point
	path      geom.Path
	drip      profile.SizedDrip
}

func family(k profile.Kind) string {
	switch k {
	case profile.KindConge:
		return "cove"
	case profile.KindThumb:
		return "ovolo"
	}
	return string(k)
}

// traits returns what the section's members draw, from the foot upward.
func traits(s profile.Section) []trait {
	var out []trait
	at := geom.Pt(s.Ground, 0)
	add := func(f string, path geom.Path) {
		from, to := path.Start(), path.End()
		st := trait{family: f, from: from, set: math.Round((from.X-at.X)*1e6) / 1e6, h: to.Y - from.Y, p: to.X - from.X, path: path}
		if n := len(out); n > 0 && f == "flat" && out[n-1].family == "flat" && math.Abs(st.set) < 0.1 {
			out[n-1].h += st.h
			out[n-1].path = geom.Path{geom.Line{A: out[n-1].from, B: to}}
		} else {
			out = append(out, st)
		}
		at = to
	}
	for _, m := range s.Members {
		switch m.Kind {
		case profile.KindOvolo, profile.KindCove, profile.KindConge, profile.KindChamfer, profile.KindCymaRecta, profile.KindCymaReversa, profile.KindScotia, profile.KindCurve:
			add(family(m.Kind), m.Path)
			continue
		}
		for _, seg := range m.Path {
			switch a := seg.(type) {
			case geom.Line:
				switch {
				case math.Abs(a.A.X-a.B.X) < 1e-6:
					add("flat", geom.Path{seg})
				case math.Abs(a.A.Y-a.B.Y) > 1e-6:
					add("chamfer", geom.Path{seg})
				}
			case geom.Arc:
				if math.Abs(math.Abs(float64(a.Sweep))-math.Pi) < 1e-6 {
					add(map[bool]string{true: "half round", false: "half hollow"}[a.Sweep > 0], geom.Path{seg})
					continue
				}
				add(family(m.Kind), geom.Path{seg})
			default:
				add(family(m.Kind), geom.Path{seg})
			}
		}
		if m.Drip != nil {
			out[len(out)-1].drip = *m.Drip
		}
	}
	if len(out) > 0 {
		out[0].set = 0 // along the foot: it is part of the ground
	}
	return out
}

func told(ss []trait) string {
	out := ""
	for _, s := range ss {
		out += fmt.Sprintf(" %s(%.2f,%.2f,%.2f)", s.family, s.set, s.h, s.p)
	}
	return out
}

// A verdict is how well a section was read: the members' order, the greatest error of a size and the distance.
type verdict struct {
	members    bool
	size, away float64
	why        string
}

func (v verdict) right() bool { return v.members && v.size <= 0.2 && v.away < 0.15 }

// judge compares a section as read with the true one. Traits of different families count as the same when they lie within 0.1 mm of each other.
func judge(got, want profile.Section) verdict {
	v := verdict{away: geom.Hausdorff(brushed(got.Outline, 0.1), brushed(want.Outline, 0.1), 0.2)}
	a, b := traits(got), traits(want)
	a = joined(a, b)
	v.members = len(a) == len(b)
	size := func(what string, x, y float64) {
		if d := math.Abs(x - y); d > v.size {
			v.size, v.why = d, what
		}
	}
	for i := range min(len(a), len(b)) {
		if a[i].family != b[i].family && geom.Hausdorff(a[i].path, b[i].path, 0.2) > 0.1 {
			v.members = false
		}
		what := fmt.Sprintf("%s %d", b[i].family, i)
		size(what+" set", a[i].set, b[i].set)
		size(what+" height", a[i].h, b[i].h)
		size(what+" run", a[i].p, b[i].p)
		size(what+" drip", a[i].drip.Width, b[i].drip.Width)
		size(what+" drip", a[i].drip.Depth, b[i].drip.Depth)
		size(what+" drip", a[i].drip.Inset, b[i].drip.Inset)
	}
	if len(a) > 0 && len(b) > 0 {
		size("ground", a[0].from.X, b[0].from.X)
	}
	if want.Rabbet != nil && got.Rabbet != nil {
		size("rabbet width", got.Rabbet.Width, want.Rabbet.Width)
		size("rabbet depth", got.Rabbet.Depth, want.Rabbet.Depth)
	}
	if want.Spring != nil && got.Spring != nil {
		size("spring wall", got.Spring.Wall, want.Spring.Wall)
		size("spring top", got.Spring.Top, want.Spring.Top)
	}
	if (got.Rabbet == nil) != (want.Rabbet == nil) || (got.Spring == nil) != (want.Spring == nil) {
		v.members, v.why = false, "back"
	}
	return v
}

// joined returns what was read with two neighbors made one where they draw what is one curve in truth: where a curve is cut makes no difference to
// its shape.
func joined(read, truth []trait) []trait {
	var out []trait
	for i := 0; i < len(read); i++ {
		t := read[i]
		if k := len(out); k < len(truth) && truth[k].family == "curve" && i+1 < len(read) && read[i+1].set == 0 {
			both := append(append(geom.Path{}, t.path...), read[i+1].path...)
			if geom.Hausdorff(both, truth[k].path, 0.2) < 0.1 {
				t.path, t.h, t.p = both, t.h+read[i+1].h, t.p+read[i+1].p
				i++
			}
		}
		out = append(out, t)
	}
	return out
}

// A tally counts readings.
type tally struct {
	n, right, members int
	size, away        float64
	took, slowest     time.Duration
}

// read traces one section and counts it.
func (c *tally) read(t *testing.T, name string, units measure.Units, want profile.Section, seed uint64) {
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
	v := judge(got.Section, want)
	if v.members {
		c.members++
		c.size, c.away = math.Max(c.size, v.size), math.Max(c.away, v.away)
	}
	if v.right() {
		c.right++
	}
	if !v.right() || os.Getenv("LOOK") != "" {
		t.Logf("%s: members right %v, greatest error of a size %.3f mm (%s), distance %.3f mm, %v\n   true%s\n   read%s", name, v.members, v.size, v.why, v.away, took, told(traits(want)), told(traits(got.Section)))
	}
}

func (c *tally) String() string {
	return fmt.Sprintf("%d of %d right, members %d; of these sizes within %.3f mm, distance within %.3f mm; mean %v, slowest %v",
		c.right, c.n, c.members, c.size, c.away, c.took/time.Duration(c.n), c.slowest)
}

// Every profile of the library, drawn with 0.05 mm of noise, is read back.
func TestComposeLibrary(t *testing.T) {
	lib := library.Open("", "")
	var c tally
	for i, l := range lib.List(library.KindProfile) {
		if name := os.Getenv("LOOK"); name != "" && name != l.Name {
			continue
		}
		p, _, err := lib.Profile(l.Name)
		require.NoError(t, err)
		want, err := p.Section(lib.Lookup)
		require.NoError(t, err)
		c.read(t, l.Name, p.Units, want, uint64(i))
	}
	t.Log(c.String())
	require.GreaterOrEqual(t, c.right, c.n*95/100)
}
