package stock_test

import (
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

// requireTools is the variable that makes a missing outside check (data, glpsol) a failure instead of a skip.
const requireTools = "LISTEL_REQUIRE_TOOLS"

// missing skips the test, or fails it where all outside checks are required.
func missing(tb testing.TB, what string) {
	tb.Helper()
	if os.Getenv(requireTools) != "" {
		tb.Fatalf("%s is missing, and %s is set", what, requireTools)
	}
	tb.Skipf("%s is missing: skipped", what)
}

// An instance is a bin packing problem with its proven optimum.
type instance struct {
	name     string
	capacity float64
	items    []float64
	optimum  int
}

// binpackDir holds the instances, beside the repository; they are not part of it.
const binpackDir = "../../../shared/data/binpack"

// instances reads the published instances u120, u250 (Falkenauer 1996, OR-Library) and t120, with the optima of BPPLIB
// (Delorme, Iori, Martello). The counts printed in the instance files are those of 1994, four of them too high.
func instances(tb testing.TB) []instance {
	tb.Helper()
	f, err := os.Open(filepath.Join(binpackDir, "bounds.csv"))
	if err != nil {
		missing(tb, binpackDir)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(tb, err)
	best := map[string]int{}
	for _, r := range rows[1:] {
		require.Equal(tb, r[1], r[2])
		best[r[0]], err = strconv.Atoi(r[2])
		require.NoError(tb, err)
	}
	var out []instance
	for _, name := range []string{"binpack1.txt", "binpack2.txt"} {
		w := readWords(tb, name)
		for range int(w.number()) {
			id := w.word()
			capacity, n, _ := w.number(), int(w.number()), w.number()
			out = append(out, instance{id, capacity, w.numbers(n), best["Falkenauer_"+id]})
		}
	}
	for i := range 5 {
		id := fmt.Sprintf("Falkenauer_t120_%02d", i)
		w := readWords(tb, id+".txt")
		n, capacity := int(w.number()), w.number()
		out = append(out, instance{id, capacity, w.numbers(n), best[id]})
	}
	return out
}

// words hands out the words of a file one by one.
type words struct {
	tb   testing.TB
	left []string
}

func readWords(tb testing.TB, name string) *words {
	b, err := os.ReadFile(filepath.Join(binpackDir, name))
	require.NoError(tb, err)
	return &words{tb, strings.Fields(string(b))}
}

func (w *words) word() string {
	require.NotEmpty(w.tb, w.left)
	s := w.left[0]
	w.left = w.left[1:]
	return s
}

func (w *words) number() float64 {
	v, err := strconv.ParseFloat(w.word(), 64)
	require.NoError(w.tb, err)
	return v
}

func (w *words) numbers(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = w.number()
	}
	return out
}

// job is the instance as a job with a kerf: pieces shorter by the kerf from sticks shorter by the kerf are the same problem.
func (in instance) job(kerf float64) stock.Job {
	j := stock.Job{Shop: stock.Shop{Kerf: kerf},
		Stock: []stock.Item{{Name: "stick", Length: in.capacity - kerf, Price: 1, Have: stock.Unlimited}}}
	for i, l := range in.items {
		j.Pieces = append(j.Pieces, stock.Piece{Mark: strconv.Itoa(i), Length: l - kerf})
	}
	return j
}

func TestPublishedInstances(t *testing.T) {
	for _, in := range instances(t) {
		for _, kerf := range []float64{0, 0.4} {
			p, err := stock.Solve(context.Background(), in.job(kerf))
			require.NoError(t, err)
			require.True(t, p.Proven, in.name)
			require.Len(t, p.Sticks, in.optimum, in.name)
			checkPlan(t, in.job(kerf), p)
		}
	}
}
