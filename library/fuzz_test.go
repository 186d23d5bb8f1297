package library_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// seeds adds the files of the tests and of the library.
func seeds(f *testing.F) {
	f.Helper()
	for _, pattern := range []string{"testdata/*/*.yaml", "profiles/*.yaml", "examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		require.NotEmpty(f, files)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(data)
		}
	}
}

// mistakesOf asks that an error is Mistakes, each with a place and words.
func mistakesOf(t *testing.T, err error) {
	var ms library.Mistakes
	require.ErrorAs(t, err, &ms)
	require.NotEmpty(t, ms)
	for i, m := range ms {
		require.GreaterOrEqual(t, m.Line, 1, m.Message())
		require.GreaterOrEqual(t, m.Column, 1, m.Message())
		require.NotEmpty(t, m.Found)
		require.Equal(t, "x.yaml", m.File)
		if i > 0 {
			require.GreaterOrEqual(t, m.Line, ms[i-1].Line)
		}
	}
}

// FuzzLoadProfile: nothing panics, and what loads saves and loads the same.
func FuzzLoadProfile(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		p, _, err := library.LoadProfile("x.yaml", data)
		if err != nil {
			mistakesOf(t, err)
			return
		}
		text, err := library.MarshalProfile(p)
		require.NoError(t, err)
		q, src, err := library.LoadProfile("x.yaml", text)
		require.NoError(t, err)
		if p.Back.Spring != nil { // to the last bits of the angle
			require.InDelta(t, float64(p.Back.Spring.Angle), float64(q.Back.Spring.Angle), 1e-15)
			q.Back.Spring.Angle = p.Back.Spring.Angle
		}
		require.Equal(t, p, q)
		if len(p.Elements) <= 20 {
			if _, err := p.Section(nil); err != nil {
				mistakesOf(t, src.Mistakes(err))
			}
		}
	})
}

// readers read what a file is of; each gives Mistakes or none.
var readers = []struct {
	kind string
	read func(data []byte) error
}{
	{"profile", func(data []byte) error { _, _, err := library.LoadProfile("x.yaml", data); return err }},
	{"case", func(data []byte) error { _, _, err := library.LoadCase("x.yaml", data); return err }},
	{"trace", func(data []byte) error { _, _, err := library.LoadTrace("x.yaml", data); return err }},
	{"pieces", func(data []byte) error { _, _, err := library.LoadPieces("x.yaml", data); return err }},
	{"tools", func(data []byte) error { _, _, err := library.LoadTools("x.yaml", data); return err }},
	{"printers", func(data []byte) error { _, _, err := library.LoadPrinters("x.yaml", data); return err }},
	{"woods", func(data []byte) error { _, _, err := library.LoadWoods("x.yaml", data); return err }},
	{"papers", func(data []byte) error { _, _, err := library.LoadPapers("x.yaml", data); return err }},
	{"lumber", func(data []byte) error { _, _, err := library.LoadLumber("x.yaml", data); return err }},
}

// listed are small files of the kinds that the library and its tests hold none of.
var listed = map[string]string{
	"pieces":   "kind: pieces\nname: doors\nunits: in\nshop: {kerf: 3/32, spare: 10%}\nstock:\n  - {wood: ash, thickness: 4/4, width: 2, length: 8ft, price: 6.50, have: 5}\npieces:\n  - {mark: stile, length: 30 1/2, count: 4, wrap: round}\n",
	"printers": "kind: printers\nprinters:\n  - {name: shop, across: 0.994, up: 0.998}\n",
}

// FuzzLoad: a file of any kind, read as any kind, makes no reader panic, and every error is Mistakes, each with its place.
func FuzzLoad(f *testing.F) {
	seed := func(data []byte) {
		for i, r := range readers {
			if library.HeadOf(data).Kind == r.kind {
				f.Add(uint8(i), data)
				return
			}
		}
		f.Add(uint8(0), data)
	}
	for _, pattern := range []string{"testdata/*/*.yaml", "profiles/*.yaml", "examples/*.yaml", "starters/*.yaml", "tools/*.yaml", "data/*.yaml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		require.NotEmpty(f, files)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(f, err)
			seed(data)
		}
	}
	for _, text := range listed {
		seed([]byte(text))
	}
	f.Fuzz(func(t *testing.T, kind uint8, data []byte) {
		if err := readers[int(kind)%len(readers)].read(data); err != nil {
			mistakesOf(t, err)
		}
	})
}
