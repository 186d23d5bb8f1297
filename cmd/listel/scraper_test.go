package main

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The JSON of the blades is as promised, and its outlines, projected back through lean and plunge, are the section that section --json prints.
func TestScraperJSON(t *testing.T) {
	var sec struct {
		Outline [][2]float64 `json:"outline"`
		Height  float64      `json:"height_mm"`
	}
	r := listel(t, "", "section", "press-waist", "--json")
	require.NoError(t, json.Unmarshal([]byte(r.out), &sec))

	r = listel(t, "", "scraper", "press-waist", "--lean", "25", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var got struct {
		Name   string `json:"name"`
		Blades []struct {
			Mark    string       `json:"mark"`
			Covers  [2]float64   `json:"covers"`
			Lean    float64      `json:"lean_deg"`
			Plunge  float64      `json:"plunge_deg"`
			Outline [][2]float64 `json:"outline"`
			Edge    [][2]float64 `json:"edge"`
			Steel   struct {
				Width  float64 `json:"width_mm"`
				Height float64 `json:"height_mm"`
			} `json:"steel"`
			Transform [6]float64 `json:"transform"`
		} `json:"blades"`
	}
	require.NoError(t, json.Unmarshal([]byte(r.out), &got))
	require.Equal(t, "press-waist", got.Name)
	require.NotEmpty(t, got.Blades)
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range got.Blades {
		require.InDelta(t, 25, b.Lean, 1e-9)
		require.LessOrEqual(t, b.Steel.Width, 50.8+1e-6)
		low, high = math.Min(low, b.Covers[0]), math.Max(high, b.Covers[1])
		sin, cos := math.Sincos(b.Plunge * math.Pi / 180)
		on := 0
		for _, p := range b.Edge {
			v := p[1] * math.Cos(25*math.Pi/180)
			q := [2]float64{p[0]*sin + v*cos, -p[0]*cos + v*sin}
			m := b.Transform
			require.InDelta(t, q[0], m[0]*p[0]+m[2]*p[1]+m[4], 1e-9)
			require.InDelta(t, q[1], m[1]*p[0]+m[3]*p[1]+m[5], 1e-9)
			if toPolygon(q, sec.Outline) <= 0.01 { // both are flattened at 0.005 mm
				on++
			}
		}
		require.GreaterOrEqual(t, on, len(b.Edge)-2, "all but the ends that stand free in the air")
	}
	require.InDelta(t, 0, low, 1e-9)
	require.InDelta(t, sec.Height, high, 1e-9)
}

// toPolygon returns the distance of a point from a closed polygon.
func toPolygon(q [2]float64, poly [][2]float64) float64 {
	least := math.Inf(1)
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = math.Max(0, math.Min(1, ((q[0]-a[0])*dx+(q[1]-a[1])*dy)/l))
		}
		least = math.Min(least, math.Hypot(q[0]-a[0]-t*dx, q[1]-a[1]-t*dy))
	}
	return least
}

func TestScraperFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	r := listel(t, "", "scraper", "press-waist", "--lean", "20", "--format", "svg")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "45.0°")
	svg, err := os.ReadFile("press-waist-blades.svg")
	require.NoError(t, err)
	require.Equal(t, 2, strings.Count(string(svg), "<path"), "one path a blade")
	require.NotContains(t, string(svg), "<rect")
	require.Equal(t, exitDone, listel(t, "", "scraper", "press-waist", "--format", "svg", "--gauges").code)
	require.FileExists(t, "press-waist-gauges.svg")
	require.Equal(t, exitDone, listel(t, "", "scraper", "edge-bead", "--out", "bead.pdf", "--hand", "right").code)
	require.FileExists(t, "bead.pdf")
	r = listel(t, "", "scraper", "base-cap", "--head", "2 1/2in", "--hook", "20", "--out", ".")
	require.Equal(t, exitDone, r.code, r.err)
	require.Contains(t, r.out, "pairs of the same weight")
	require.FileExists(t, "base-cap-scraper.pdf")
}

func TestScraperWrongUse(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--lean", "60"}, "--lean: 60 degrees"},
		{[]string{"--lean", "potato"}, "potato"},
		{[]string{"--plunge", "100"}, "--plunge: 100 degrees"},
		{[]string{"--width", "1/16in"}, "--width: 1.587 mm"},
		{[]string{"--width", "-1"}, "--width"},
		{[]string{"--head", "1/4in"}, "--head: a cutting circle of 6.35 mm radius is too small"},
		{[]string{"--hook", "20"}, "--head"},
		{[]string{"--head", "3in", "--hook", "60"}, "--hook: 60"},
		{[]string{"--hand", "both"}, "left or right"},
		{[]string{"--gauges", "--out", "x.pdf"}, "--format svg"},
	} {
		r := listel(t, "", append([]string{"scraper", "press-waist"}, c.args...)...)
		require.Equal(t, exitUsage, r.code, "%v: %s", c.args, r.err)
		require.Contains(t, r.err, c.want)
	}
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("flat.yaml", []byte("kind: profile\nname: flat\nunits: mm\nground: 20\nelements:\n  - fascia: {height: 20}\n"), 0o666))
	r := listel(t, "", "scraper", "flat.yaml", "--plunge", "90")
	require.Equal(t, exitUsage, r.code, r.err)
	require.Contains(t, r.err, "hidden")
}
