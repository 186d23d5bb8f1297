package library_test

import (
	"fmt"
	"image"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// TestLoadTrace reads a plate with every key, and one with as few as will do.
func TestLoadTrace(t *testing.T) {
	p, src, err := library.LoadTrace("plates/press.yaml", []byte(`kind: trace
name: press
title: Moldings of a low press
source: drawn for this test
units: in
image: scans/press.png
scales:
  - name: plan
    lengths:
      - {from: [100, 900], to: [700.5, 901], length: 2ft}
      - {from: [100, 900], to: [100, 300], length: 24}
    level: {from: [100, 900], to: [1000, 902]}
    plumb: {from: [100, 900], to: [98, 0]}
  - {name: detail, from: [100, 1200], to: [700, 1200], length: 4}
  - {name: bar, bar: {from: [100, 1400], to: [700, 1400], length: 12, divisions: 12}}
  - name: aslant
    points:
      - {pixel: [10, 20], true: [0, 0]}
      - {pixel: [900, 25], true: [3 1/2, 0]}
      - {pixel: [880, 700], true: [3 1/2, 2]}
      - {pixel: [15, 690], true: [0, 2]}
sections:
  - name: cornice
    title: Cornice
    scale: detail
    crop: [400, 200, 900, 800]
    face: left
    drawn: filled
    tolerance: 1/64
    units: mm
    fraction: 2
  - {name: bead, scale: aslant, points: [[1, 2], [3, 4], [5.5, 6]]}
`))
	require.NoError(t, err)
	require.Equal(t, library.TracePlate{
		Title: "Moldings of a low press", From: "drawn for this test", Image: filepath.Join("plates", "scans", "press.png"), Units: measure.Inches,
		Plate: trace.Plate{
			Name: "press",
			Scales: []trace.Scale{
				{Name: "plan", Lengths: []trace.Length{{From: geom.Pt(100, 900), To: geom.Pt(700.5, 901), MM: 609.6}, {From: geom.Pt(100, 900), To: geom.Pt(100, 300), MM: 609.6}},
					Level: &trace.Line{From: geom.Pt(100, 900), To: geom.Pt(1000, 902)}, Plumb: &trace.Line{From: geom.Pt(100, 900), To: geom.Pt(98, 0)}},
				{Name: "detail", Lengths: []trace.Length{{From: geom.Pt(100, 1200), To: geom.Pt(700, 1200), MM: 101.6}}},
				{Name: "bar", Bar: &trace.Bar{From: geom.Pt(100, 1400), To: geom.Pt(700, 1400), MM: 304.8, Divisions: 12}},
				{Name: "aslant", Points: []trace.Fixed{{Pixel: geom.Pt(10, 20)}, {Pixel: geom.Pt(900, 25), True: geom.Pt(88.9, 0)},
					{Pixel: geom.Pt(880, 700), True: geom.Pt(88.9, 50.8)}, {Pixel: geom.Pt(15, 690), True: geom.Pt(0, 50.8)}}},
			},
			Sections: []trace.Wanted{
				{Name: "cornice", Title: "Cornice", Scale: "detail", Crop: image.Rect(400, 200, 900, 800), Face: trace.FaceLeft, Ink: trace.Filled,
					Tolerance: 25.4 / 64, Units: measure.Millimeters, Fraction: 2},
				{Name: "bead", Scale: "aslant", Units: measure.Inches, Points: []geom.Point{geom.Pt(1, 2), geom.Pt(3, 4), geom.Pt(5.5, 6)}},
			},
		},
	}, p)
	require.Equal(t, 26, src.Place("sections[0].crop").Line)

	p, _, err = library.LoadTrace("bead.yaml", []byte("kind: trace\nimage: /scans/bead.tif\nscales: [{from: [0, 0], to: [0, 100], length: 20mm}]\nsections: [{}]\n"))
	require.NoError(t, err)
	require.Equal(t, "/scans/bead.tif", p.Image)
	require.Equal(t, trace.Plate{Name: "bead", Scales: []trace.Scale{{Name: "1", Lengths: []trace.Length{{To: geom.Pt(0, 100), MM: 20}}}}, Sections: []trace.Wanted{{Name: "bead"}}}, p.Plate)
}

// TestTraceFaultsHavePlaces: what is found wrong with a plate once its picture is there stands at its scale or its section, all at once.
func TestTraceFaultsHavePlaces(t *testing.T) {
	text := "kind: trace\nimage: a.png\nunits: mm\nscales:\n  - {from: [0, 0], to: [0, 100], length: 20}\nsections:\n  - {name: one}\n  - name: two\n    crop: [0, 0, 10, 10]\n"
	_, src, err := library.LoadTrace("a.yaml", []byte(text))
	require.NoError(t, err)
	err = src.Mistakes(fmt.Errorf("tracing: %w", trace.Faults{
		{Section: "two", Index: 1, Key: "crop", Err: fmt.Errorf("%w: it is 5 x 5 px; give one inside", trace.ErrCrop)},
		{Scale: "1", Index: 0, Key: "lengths", Err: trace.ErrCoincide},
	}))
	require.EqualError(t, err, "a.yaml, column 5 of line 5: scale 1: points that coincide\n"+
		"a.yaml, column 11 of line 9: section two: crop outside the image: it is 5 x 5 px; give one inside")
}

func TestTraceFileKind(t *testing.T) {
	for _, kind := range []string{"trace", "trcae"} {
		k, err := library.FileKind(write(t, t.TempDir(), "x.yaml", "kind: "+kind+"\n"))
		require.NoError(t, err)
		require.Equal(t, library.KindTrace, k)
	}
}
