package stock_test

import (
	"context"
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

// assignModel writes the job as one would by hand, in the LP format: for each piece, how many of it are cut from each strip of each
// stick or board, as many of which as would hold everything on their own; one is bought before the next of its kind.
func assignModel(j stock.Job) string {
	sixteenths := func(mm float64) int { return int(math.Round(mm / in * 16)) }
	kerf := sixteenths(j.Shop.Kerf)
	var obj, rows, binary, general []string
	cover := make([][]string, len(j.Pieces))
	for i, it := range j.Stock {
		strips := 1
		if it.Width > 0 {
			strips = int((it.Width + j.Shop.Kerf + 1e-6) / (2*in + j.Shop.Kerf))
		}
		room := sixteenths(it.Length) + kerf
		for k := range boardsFor(j, it, strips, room, sixteenths) {
			y := fmt.Sprintf("y%d_%d", i, k)
			obj, binary = append(obj, fmt.Sprintf("%g %s", it.Price, y)), append(binary, y)
			if k > 0 {
				rows = append(rows, fmt.Sprintf("y%d_%d - %s >= 0", i, k-1, y))
			}
			for s := range strips {
				row := []string{}
				for q, p := range j.Pieces {
					if size := sixteenths(p.Length) + kerf; size <= room {
						x := fmt.Sprintf("x%d_%d_%d_%d", q, i, k, s)
						general = append(general, x)
						row = append(row, fmt.Sprintf("%d %s", size, x))
						cover[q] = append(cover[q], x)
					}
				}
				if len(row) > 0 {
					rows = append(rows, fmt.Sprintf("%s - %d %s <= 0", strings.Join(row, "\n + "), room, y))
				}
			}
		}
	}
	for q, c := range cover {
		rows = append(rows, fmt.Sprintf("%s >= %d", strings.Join(c, "\n + "), j.Pieces[q].Count))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n obj: %s\nSubject To\n", strings.Join(obj, "\n + "))
	for i, r := range rows {
		fmt.Fprintf(&b, " r%d: %s\n", i, r)
	}
	fmt.Fprintf(&b, "General\n %s\nBinary\n %s\nEnd\n", strings.Join(general, "\n "), strings.Join(binary, "\n "))
	return b.String()
}

// boardsFor returns how many of an item hold all the pieces that fit it, the longest first and each on the first strip with room,
// or how many there are.
func boardsFor(j stock.Job, it stock.Item, strips, room int, units func(float64) int) int {
	var sizes, left []int
	for _, p := range j.Pieces {
		for range p.Count {
			if size := units(p.Length) + units(j.Shop.Kerf); size <= room {
				sizes = append(sizes, size)
			}
		}
	}
	slices.SortFunc(sizes, func(a, b int) int { return b - a })
	for _, s := range sizes {
		k := slices.IndexFunc(left, func(l int) bool { return l >= s })
		if k < 0 {
			k, left = len(left), append(left, room)
		}
		left[k] -= s
	}
	n := (len(left) + strips - 1) / strips
	if it.Have != stock.Unlimited {
		n = min(n, it.Have)
	}
	return n
}

// besideLimit is how many seconds glpsol is given for a job, by its own clock; where it is stopped, what it took until then counts as its
// time, which is less than it needs. All 60 jobs take it at most five minutes.
const besideLimit = 5

// BenchmarkBesideGlpsol solves 60 jobs side by side with GLPK's solver, which is given the model one would write by hand and
// besideLimit, and reports the time of both by the processor, how many times longer glpsol took in all and on the job where it did best, on
// how many jobs this package was the slower of the two, and how many glpsol settled. It runs for minutes: -benchtime 1x.
func BenchmarkBesideGlpsol(b *testing.B) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		missing(b, "glpsol (glpk-utils)")
	}
	dir := b.TempDir()
	for b.Loop() {
		var ours, theirs time.Duration
		slower, settled := 0, 0
		worst := math.Inf(1)
		for seed := range uint64(60) {
			j := furnitureJob(seed)
			took := time.Duration(math.MaxInt64)
			for range 3 { // the garbage of the model before is collected in one of them
				before := cpuTime()
				p, err := stock.Solve(context.Background(), j)
				took = min(took, cpuTime()-before)
				require.NoError(b, err)
				require.True(b, p.Proven, "seed %d", seed)
			}
			p, err := stock.Solve(context.Background(), j)
			require.NoError(b, err)
			o := glpsol(b, dir, assignModel(j), besideLimit)
			if o.agrees(b, p, seed) {
				settled++
			}
			if took > o.cpu {
				slower++
			}
			worst = min(worst, o.cpu.Seconds()/took.Seconds())
			b.Logf("job %d: %v, glpsol %v %s, %.1f times", seed, took, o.cpu, o.status, o.cpu.Seconds()/took.Seconds())
			ours, theirs = ours+took, theirs+o.cpu
		}
		b.ReportMetric(ours.Seconds(), "ours-s")
		b.ReportMetric(theirs.Seconds(), "glpsol-s")
		b.ReportMetric(theirs.Seconds()/ours.Seconds(), "times")
		b.ReportMetric(worst, "times-at-worst")
		b.ReportMetric(float64(slower), "slower")
		b.ReportMetric(float64(settled), "settled")
	}
}
