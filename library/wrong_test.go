package library_test

import (
	"cmp"
	"errors"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
)

// TestWrongFiles reads files with every kind of mistake and compares what is said of them with what was said before. Each is read
// as what it means to be, built, and fitted. UPDATE_GOLDEN=1 writes what is said now.
func TestWrongFiles(t *testing.T) {
	files, err := filepath.Glob("testdata/wrong/*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 20)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			err := judge(t, file)
			require.Error(t, err)
			require.ErrorAs(t, err, &library.Mistakes{})
			got := strings.ReplaceAll(err.Error(), filepath.ToSlash(file), filepath.Base(file)) + "\n"
			golden := strings.TrimSuffix(file, ".yaml") + ".txt"
			if os.Getenv("UPDATE_GOLDEN") != "" {
				require.NoError(t, os.WriteFile(golden, []byte(got), 0o666))
			}
			want, err := os.ReadFile(golden)
			require.NoError(t, err)
			require.Equal(t, string(want), got)
		})
	}
}

// judge returns what is wrong with a file.
func judge(t *testing.T, file string) error {
	t.Helper()
	l := library.Open("testdata/wrong", "")
	if strings.HasPrefix(filepath.Base(file), "case-") {
		c, src, err := library.ReadCase(file)
		var mistakes library.Mistakes
		if errors.As(err, &mistakes) {
			return mistakes.With(l.Missing(c, src))
		}
		if err == nil {
			_, err = miter.Fit(c, l.SectionOf, l.Wood)
			err = src.Mistakes(err)
		}
		return err
	}
	if strings.HasPrefix(filepath.Base(file), "pieces-") {
		_, _, err := library.ReadPieces(file)
		return err
	}
	if strings.HasPrefix(filepath.Base(file), "trace-") {
		p, src, err := library.ReadTrace(file)
		told := src.Mistakes(p.Validate(image.Rect(0, 0, 1386, 1165)))
		var mistakes, others library.Mistakes
		if errors.As(err, &mistakes) && errors.As(told, &others) {
			return mistakes.Beside(others, src)
		}
		return cmp.Or(err, told)
	}
	p, src, err := library.ReadProfile(file)
	if err == nil {
		_, err = p.Section(l.Lookup)
		err = src.Mistakes(err)
	}
	return err
}
