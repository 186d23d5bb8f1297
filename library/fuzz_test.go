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

// FuzzLoadCase: nothing panics, and every error is Mistakes.
func FuzzLoadCase(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, _, err := library.LoadCase("x.yaml", data); err != nil {
			mistakesOf(t, err)
		}
	})
}

// FuzzTables: nor do the files of woods, papers and lumber.
func FuzzTables(f *testing.F) {
	seeds(f)
	for _, file := range []string{"woods", "papers", "lumber"} {
		data, err := os.ReadFile("data/" + file + ".yaml")
		require.NoError(f, err)
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, _, err := library.LoadWoods("x.yaml", data); err != nil {
			mistakesOf(t, err)
		}
		if _, _, err := library.LoadPapers("x.yaml", data); err != nil {
			mistakesOf(t, err)
		}
		if _, _, err := library.LoadLumber("x.yaml", data); err != nil {
			mistakesOf(t, err)
		}
	})
}
