package stock_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

// yardJob returns a random job of n pieces from a yard with eight lengths, dearer by the foot the longer they are, and six
// offcuts on the rack. Invented, to measure by.
func yardJob(n int, seed uint64) stock.Job {
	rng := rand.New(rand.NewPCG(seed, uint64(n)))
	j := stock.Job{Shop: stock.Shop{Kerf: in / 8, Trim: in / 2}}
	perFoot := 2 + 2*rng.Float64()
	for i := range 8 {
		feet := float64(4 + 2*i)
		if i > 5 {
			feet = float64(5 + 2*(i-5))
		}
		j.Stock = append(j.Stock, stock.Item{Name: fmt.Sprintf("%.0f ft", feet), Length: feet * ft,
			Price: math.Round(feet*perFoot*(1+feet/80)*4) / 4, Have: stock.Unlimited})
	}
	for i := range 6 {
		inches := float64(18 + rng.IntN(50))
		j.Stock = append(j.Stock, stock.Item{Name: fmt.Sprint("offcut", i), Length: inches * in,
			Price: math.Round(inches/12*perFoot/2*4) / 4, Have: 1, Offcut: true})
	}
	for i := 0; i < n; {
		count := min(1+rng.IntN(3), n-i)
		j.Pieces = append(j.Pieces, stock.Piece{Mark: fmt.Sprint(i), Length: float64(6*16+rng.IntN(42*16)) / 16 * in, Count: count})
		i += count
	}
	return j
}

// tripletJob plants sticks of three pieces that fill them exactly: the optimum is the number of sticks, by construction.
func tripletJob(sticks int, seed uint64) stock.Job {
	rng := rand.New(rand.NewPCG(seed, 3))
	j := stock.Job{Stock: []stock.Item{{Name: "stick", Length: 1000, Price: 1, Have: stock.Unlimited}}}
	for i := range sticks {
		a := 380 + rng.IntN(120)
		b := 250 + rng.IntN((1000-a)/2-250+1)
		for k, l := range []int{a, b, 1000 - a - b} {
			j.Pieces = append(j.Pieces, stock.Piece{Mark: fmt.Sprint(i, k), Length: float64(l)})
		}
	}
	rng.Shuffle(len(j.Pieces), func(a, b int) { j.Pieces[a], j.Pieces[b] = j.Pieces[b], j.Pieces[a] })
	return j
}

func TestPlantedTriplets(t *testing.T) {
	for seed := range uint64(20) {
		j := tripletJob(20, seed)
		p, err := stock.Solve(context.Background(), j)
		require.NoError(t, err)
		require.True(t, p.Proven, "seed %d", seed)
		require.Len(t, p.Sticks, 20, "seed %d", seed)
		checkPlan(t, j, p)
	}
}

// Two instances of Scholl, Klein and Juergens (1997) with their optima from BPPLIB (Delorme, Iori, Martello); first fit with
// the longest first needs one stick more for each.
func TestScholl(t *testing.T) {
	for _, in := range []instance{
		{"N1C1W1_C", 100, []float64{92, 89, 87, 84, 82, 82, 81, 75, 73, 71, 67, 67, 63, 59, 57, 56, 52, 49, 48, 47, 46, 41, 39, 38, 36,
			35, 34, 34, 30, 29, 26, 21, 20, 19, 18, 15, 15, 13, 11, 10, 10, 10, 9, 8, 8, 7, 6, 6, 6, 3}, 20},
		{"N1C1W1_N", 100, []float64{99, 98, 95, 95, 95, 94, 94, 91, 88, 87, 86, 85, 76, 74, 73, 71, 68, 60, 55, 54, 51, 45, 42, 40, 39, 39,
			36, 34, 33, 32, 32, 31, 31, 30, 29, 26, 26, 23, 21, 21, 21, 19, 18, 18, 16, 15, 5, 5, 4, 1}, 25},
	} {
		require.Len(t, in.items, 50)
		p, err := stock.Solve(context.Background(), in.job(0))
		require.NoError(t, err)
		require.True(t, p.Proven)
		require.Len(t, p.Sticks, in.optimum, in.name)
	}
}

func TestYardJobsAreProven(t *testing.T) {
	for seed := range uint64(8) {
		j := yardJob(60, seed)
		p, err := stock.Solve(context.Background(), j)
		require.NoError(t, err)
		require.True(t, p.Proven, "seed %d", seed)
		checkPlan(t, j, p)
	}
}

func TestSamePlanTwice(t *testing.T) {
	for seed := range uint64(4) {
		a, err := stock.Solve(context.Background(), yardJob(40, seed))
		require.NoError(t, err)
		b, err := stock.Solve(context.Background(), yardJob(40, seed))
		require.NoError(t, err)
		require.Equal(t, a, b)
	}
}

// spread solves jobs one by one and reports the slowest and the 95th of 100, by processor time and by the clock, the part that
// is proven, also to leave the longest leftover, and the memory taken from the system.
func spread(b *testing.B, jobs []stock.Job) {
	var cpu, wall []time.Duration
	proven, longest := 0, 0
	var m runtime.MemStats
	for b.Loop() {
		for _, j := range jobs {
			start, before := time.Now(), cpuTime()
			ctx, cancel := context.WithTimeout(context.Background(), stock.DefaultTime)
			p, err := stock.Solve(ctx, j)
			cancel()
			if err != nil {
				b.Fatal(err)
			}
			cpu, wall = append(cpu, cpuTime()-before), append(wall, time.Since(start))
			if p.Proven {
				proven++
			}
			if p.LeftProven {
				longest++
			}
		}
	}
	runtime.ReadMemStats(&m)
	for name, all := range map[string][]time.Duration{"cpu": cpu, "wall": wall} {
		slices.Sort(all)
		b.ReportMetric(all[len(all)/2].Seconds()*1000, name+"-p50-ms")
		b.ReportMetric(all[(len(all)*95-1)/100].Seconds()*1000, name+"-p95-ms")
		b.ReportMetric(all[len(all)-1].Seconds()*1000, name+"-max-ms")
	}
	b.ReportMetric(float64(proven)/float64(len(cpu)), "proven")
	b.ReportMetric(float64(longest)/float64(len(cpu)), "longest-left-proven")
	b.ReportMetric(float64(m.Sys)/(1<<20), "MB")
}

func yardJobs(n, count int) (out []stock.Job) {
	for seed := range uint64(count) {
		out = append(out, yardJob(n, seed))
	}
	return out
}

func BenchmarkU120(b *testing.B) {
	var jobs []stock.Job
	for _, in := range instances(b)[:20] {
		jobs = append(jobs, in.job(0))
	}
	spread(b, jobs)
}

func BenchmarkTriplets60(b *testing.B) {
	var jobs []stock.Job
	for seed := range uint64(20) {
		jobs = append(jobs, tripletJob(20, seed))
	}
	spread(b, jobs)
}

func BenchmarkYard30(b *testing.B) { spread(b, yardJobs(30, 40)) }
func BenchmarkYard60(b *testing.B) { spread(b, yardJobs(60, 40)) }
func BenchmarkYard90(b *testing.B) { spread(b, yardJobs(90, 40)) }
