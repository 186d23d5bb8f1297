package stock_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/miter/stock"
)

// furnitureJob returns a random job of the size of a case piece's moldings: pieces in 1/16 in, three lengths of stick or board
// with prices, and offcuts on the rack. Invented, for comparison with an outside solver only.
func furnitureJob(seed uint64) stock.Job {
	rng := rand.New(rand.NewPCG(seed, 60))
	j := stock.Job{Shop: stock.Shop{Kerf: in / 8}, Profiles: []stock.Profile{{Key: "a", Width: 2 * in}}}
	boards := seed%2 == 0
	for i, feet := range rng.Perm(7)[:3] {
		it := stock.Item{Name: fmt.Sprint("stick", i), Length: float64(6+feet) * ft, Have: stock.Unlimited}
		perFoot := 2 + rng.Float64()
		if boards {
			strips := 1 + rng.IntN(4)
			it.Width = (float64(strips)*2.125 + 0.5) * in
			perFoot *= 0.9 * float64(strips)
		}
		it.Price = math.Round(perFoot*(6+float64(feet))*4) / 4
		j.Stock = append(j.Stock, it)
	}
	for i := range 2 {
		inches := 20 + rng.IntN(50)
		j.Stock = append(j.Stock, stock.Item{Name: fmt.Sprint("offcut", i), Length: float64(inches) * in,
			Price: math.Round(float64(inches)/12*4) / 4, Have: 1 + rng.IntN(2), Offcut: true})
	}
	for i := range 9 + rng.IntN(4) {
		j.Pieces = append(j.Pieces, stock.Piece{Mark: fmt.Sprint("p", i), Profile: "a",
			Length: float64(10*16+rng.IntN(40*16)) / 16 * in, Count: 1 + rng.IntN(3)})
	}
	return j
}

// glpModel writes the job as an integer program over all maximal patterns, found here by plain enumeration, in the LP format.
func glpModel(j stock.Job) string {
	sixteenths := func(mm float64) int { return int(math.Round(mm / in * 16)) }
	kerf := sixteenths(j.Shop.Kerf)
	var obj, rows, bounds, general []string
	cover := make([][]string, len(j.Pieces))
	for i, it := range j.Stock {
		strips := 1
		if it.Width > 0 {
			strips = int((it.Width + j.Shop.Kerf + 1e-6) / (2*in + j.Shop.Kerf))
		}
		y := fmt.Sprint("y", i)
		obj = append(obj, fmt.Sprintf("%g %s", it.Price, y))
		general = append(general, y)
		if it.Have != stock.Unlimited {
			bounds = append(bounds, fmt.Sprintf("%s <= %d", y, it.Have))
		}
		strip := []string{fmt.Sprintf("%d %s", strips, y)}
		var pat []int
		n := 0
		var fill func(k, left int)
		fill = func(k, left int) {
			if k == len(j.Pieces) {
				for q, c := range pat {
					if c < j.Pieces[q].Count && sixteenths(j.Pieces[q].Length)+kerf <= left {
						return
					}
				}
				x := fmt.Sprintf("x%d_%d", i, n)
				n++
				general = append(general, x)
				strip = append(strip, "- "+x)
				for q, c := range pat {
					if c > 0 {
						cover[q] = append(cover[q], fmt.Sprintf("%d %s", c, x))
					}
				}
				return
			}
			size := sixteenths(j.Pieces[k].Length) + kerf
			for c := 0; c <= j.Pieces[k].Count && c*size <= left; c++ {
				pat = append(pat, c)
				fill(k+1, left-c*size)
				pat = pat[:len(pat)-1]
			}
		}
		fill(0, sixteenths(it.Length)+kerf)
		rows = append(rows, strings.Join(strip, "\n + ")+" >= 0")
	}
	for q, c := range cover {
		rows = append(rows, fmt.Sprintf("%s >= %d", strings.Join(c, "\n + "), j.Pieces[q].Count))
	}
	s := "Minimize\n obj: " + strings.Join(obj, "\n + ") + "\nSubject To\n"
	for i, r := range rows {
		s += fmt.Sprintf(" r%d: %s\n", i, r)
	}
	s = strings.ReplaceAll(s, "+ -", "-")
	return s + "Bounds\n " + strings.Join(bounds, "\n ") + "\nGeneral\n " + strings.Join(general, "\n ") + "\nEnd\n"
}

var glpObjective = regexp.MustCompile(`(?s)Status:\s+INTEGER (\w+).*Objective:\s+obj = ([0-9.e+-]+)`)

// An outside is what glpsol says of a model and how long it took, by the processor and by the clock.
type outside struct {
	status    string // OPTIMAL, NON (-OPTIMAL: stopped with a plan) or UNDEFINED (stopped without one)
	objective float64
	cpu, wall time.Duration
}

// glpsol solves a model within so many seconds.
func glpsol(t testing.TB, dir, model string, seconds int) outside {
	lp, out := filepath.Join(dir, "job.lp"), filepath.Join(dir, "job.out")
	require.NoError(t, os.WriteFile(lp, []byte(model), 0o600))
	start := time.Now()
	cmd := exec.Command("glpsol", "--lp", lp, "-o", out, "--tmlim", strconv.Itoa(seconds), "--cuts")
	text, err := cmd.CombinedOutput()
	o := outside{wall: time.Since(start)}
	require.NoError(t, err, string(text))
	o.cpu = cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	b, err := os.ReadFile(out)
	require.NoError(t, err)
	m := glpObjective.FindStringSubmatch(string(b))
	require.NotNil(t, m, string(b[:min(len(b), 400)]))
	o.status = m[1]
	o.objective, err = strconv.ParseFloat(m[2], 64)
	require.NoError(t, err)
	return o
}

// agrees checks a plan's cost against glpsol's and tells whether that was the optimum.
func (o outside) agrees(t testing.TB, p stock.Plan, seed uint64) bool {
	switch o.status {
	case "OPTIMAL":
		require.InDelta(t, o.objective, p.Cost, 1e-4, "seed %d", seed)
		return true
	case "NON":
		require.LessOrEqual(t, p.Cost, o.objective+1e-4, "seed %d", seed)
	}
	return false
}

// TestAgainstGlpsol compares the cost of 60 jobs with that found by GLPK's solver, an independent program that is given every
// maximal pattern, and logs the time of both. It asks for no ratio: glpsol does not look for the longest leftover, and is
// spared the search for patterns.
func TestAgainstGlpsol(t *testing.T) {
	if testing.Short() {
		t.Skip("runs another program 60 times")
	}
	if _, err := exec.LookPath("glpsol"); err != nil {
		missing(t, "glpsol (glpk-utils)")
	}
	var ours, theirs time.Duration
	settled := 0
	for seed := range uint64(60) {
		j := furnitureJob(seed)
		start := time.Now()
		p, err := stock.Solve(context.Background(), j)
		took := time.Since(start)
		require.NoError(t, err)
		require.True(t, p.Proven, "seed %d", seed)
		checkPlan(t, j, p)
		o := glpsol(t, t.TempDir(), glpModel(j), 20)
		if o.agrees(t, p, seed) {
			settled++
		}
		ours, theirs = ours+took, theirs+o.wall
	}
	t.Logf("ours %v, glpsol %v, %.0f times; %d of 60 settled by glpsol", ours, theirs, theirs.Seconds()/ours.Seconds(), settled)
	require.GreaterOrEqual(t, settled, 55)
}
