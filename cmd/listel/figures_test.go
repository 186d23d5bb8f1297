package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// A figures takes the figures and prints each as it comes, a row of a table: what was asked, what was seen now, and whether that is met.
type figures struct {
	b       *testing.B
	out     io.Writer
	program string
	short   bool
}

// BenchmarkFigures takes every figure that listel is to reach and prints it beside what is asked, on the machine at hand. It takes an hour or so of a quiet
// machine; with -short a quarter of an hour, and says what it left out. Times are those of the clock on the wall, the processor's in
// brackets: on a machine with other work the second is the one that tells something.
//
//	go test -run - -bench Figures -benchtime 1x -timeout 3h ./cmd/listel
func BenchmarkFigures(b *testing.B) {
	for b.Loop() {
		f := figures{b: b, out: os.Stdout, program: built(b), short: testing.Short()}
		load, _ := os.ReadFile("/proc/loadavg")
		fmt.Fprintf(f.out, "\nread on %s/%s, %d processors, %s; load before: %.14s\n\n| what | asked | seen | met |\n| --- | --- | --- | --- |\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), runtime.Version(), load)
		f.exactness()
		f.packets()
		f.engines()
		f.stock()
		f.setups()
		f.trace()
		f.page()
	}
}

// row prints a figure.
func (f figures) row(what, asked, seen string, met bool) {
	fmt.Fprintf(f.out, "| %s | %s | %s | %s |\n", what, asked, seen, map[bool]string{true: "yes", false: "no"}[met])
}

// timedRow prints a figure of processes that must take less than limit and, besides, be otherwise good. On a machine that has more to do than it has
// processors their own time counts, which is no less than that on the wall of a machine at rest, and the row says so.
func (f figures) timedRow(what, asked, seen string, wall, cpu, limit time.Duration, good bool) {
	met := "no"
	switch {
	case !good:
	case wall < limit:
		met = "yes"
	case cpu < limit && busy():
		met = "yes, by the processor's time"
	}
	fmt.Fprintf(f.out, "| %s | %s | %s | %s |\n", what, asked, seen, met)
}

// busy reports whether more waits for a processor than there are processors; false where the machine does not tell.
func busy() bool {
	var load float64
	data, err := os.ReadFile("/proc/loadavg")
	if err == nil {
		_, err = fmt.Sscan(string(data), &load)
	}
	return err == nil && load > float64(runtime.NumCPU())
}

// leftOut prints that a figure was not taken.
func (f figures) leftOut(what, asked, why string) {
	fmt.Fprintf(f.out, "| %s | %s | %s | not taken |\n", what, asked, why)
}

// goTest runs the project's tests or benchmarks with these arguments and returns what they printed.
func (f figures) goTest(env []string, args ...string) (out string, passed bool) {
	cmd := exec.Command("go", append([]string{"test", "-count=1", "-timeout", "2h"}, args...)...)
	cmd.Dir = "../.."
	cmd.Env = append(os.Environ(), env...)
	data, err := cmd.CombinedOutput()
	return string(data), err == nil
}

// held prints the row of a figure that a test holds, once it has run.
func (f figures) held(what, asked, pkg, tests string) {
	out, passed := f.goTest(nil, "-v", "-run", "^("+tests+")$", pkg)
	n := strings.Count(out, "\n--- PASS: ") + strings.Count(out, "\n--- SKIP: ")
	seen := "held by " + strings.ReplaceAll(tests, "|", ", ")
	if skipped := strings.Count(out, "\n--- SKIP: "); skipped > 0 {
		seen += fmt.Sprintf("; %d of them skipped", skipped)
		passed = false
	}
	f.row(what, asked, seen, passed && n == strings.Count(tests, "|")+1)
}

// benchLine is a line of a benchmark's result: its name and its measures, each a value and a unit.
var benchLine = regexp.MustCompile(`(?m)^(Benchmark\S+?)(?:-\d+)?\s+\d+\s+(.*)$`)

// measures runs benchmarks of a package and returns, by name, their measures by unit; none where one of them failed.
func (f figures) measures(pkg, bench string, env []string, args ...string) map[string]map[string]float64 {
	out, passed := f.goTest(env, append([]string{"-run", "-", "-benchmem", "-bench", bench, pkg}, args...)...)
	all := map[string]map[string]float64{}
	for _, m := range benchLine.FindAllStringSubmatch(out, -1) {
		words := strings.Fields(m[2])
		values := map[string]float64{}
		for i := 0; i+1 < len(words); i += 2 {
			if v, err := strconv.ParseFloat(words[i], 64); err == nil {
				values[words[i+1]] = v
			}
		}
		all[m[1]] = values
	}
	if !passed || len(all) == 0 {
		fmt.Fprintf(f.out, "\n%s of %s did not run:\n%.2000s\n", bench, pkg, out)
		return nil
	}
	return all
}

// slowestRow prints the figure of the slowest of these benchmarks, which must take less than limit; show words its time and its name. Where none ran, it was not
// taken.
func (f figures) slowestRow(what, asked string, all map[string]map[string]float64, limit time.Duration, show func(time.Duration, string) string) {
	took, name := slowest(all)
	if took <= 0 {
		f.leftOut(what, asked, notRun)
		return
	}
	f.row(what, asked, show(took, name), took < limit)
}

// rightRow prints how many of n came out right, which must be nearly all; of none it was not taken.
func (f figures) rightRow(what, asked string, right, n int) {
	if n == 0 {
		f.leftOut(what, asked, notRun)
		return
	}
	f.row(what, asked, fmt.Sprintf("%d of %d", right, n), float64(right) >= 0.95*float64(n))
}

// notRun is why a figure was not taken.
const notRun = "the benchmark did not run"

// slowest returns the longest time that one of the benchmarks took, and its name; 0 of none.
func slowest(all map[string]map[string]float64) (took time.Duration, name string) {
	for n, m := range all {
		if d := time.Duration(m["ns/op"]); d > took {
			took, name = d, n
		}
	}
	return took, name
}

// millis returns a time in ms with a digit that counts.
func millis(d time.Duration) string { return fmt.Sprintf("%.3g ms", d.Seconds()*1000) }

// exactness: what is drawn and computed is what it should be.
func (f figures) exactness() {
	f.held("any drawn point of a full-size sheet, read back from the PDF", "within 0.01 mm", "./template", "TestFullSizeReadBack|TestSectionSheetReadBack|TestTilesPutTogether")
	f.held("a bar of 100 mm, read back from the PDF", "within 0.01 mm", "./template/sheet", "TestBarsMeasureTrue")
	f.held("circular arc in PDF", "0.001 mm at R 500 mm", "./template/sheet", "TestArcsInPDF")
	f.held("areas, lengths in closed form", "relative error under 1e-9", "./profile/geom", "TestSectionByHand|TestQuarterCircleByHand|TestAreaAndMomentAreTheIntegrals|TestPappusMakesABall")
	f.held("blades projected back through their lean", "within 0.005 mm", "./template/scraper", "TestProjectedBackIsTheSection")
}

// timed runs listel in a new folder, where nothing is kept from before.
func (f figures) timed(args ...string) (use, string) {
	dir := f.b.TempDir()
	u := runs(f.b, f.program, dir, f.b.TempDir(), args...)
	require.Contains(f.b, []int{exitDone, exitFault}, u.code, "%v: %s", args, u.errs)
	return u, dir
}

// both returns the time on the wall and the processor's.
func both(u use) string { return fmt.Sprintf("%s (%s)", seconds(u.wall), seconds(u.cpu)) }

// packets: the whole process, from its start to its end.
func (f figures) packets() {
	size := func(dir string) float64 {
		info, err := os.Stat(filepath.Join(dir, "p.pdf"))
		require.NoError(f.b, err)
		return float64(info.Size()) / 1e6
	}
	u, dir := f.timed("packet", "--no-setups", "--out", "p.pdf")
	f.timedRow("packet of the example without set-ups, whole process", "0.5 s, 1 MB of PDF", fmt.Sprintf("%s, %.0f MB held, %.2f MB of PDF", both(u), u.mb, size(dir)),
		u.wall, u.cpu, 500*time.Millisecond, size(dir) < 1)
	u, dir = f.timed("packet", "--no-cache", "--out", "p.pdf")
	f.timedRow("packet of the example with set-ups, usual effort, nothing kept", "8 s, 200 MB held, 1.5 MB of PDF", fmt.Sprintf("%s, %.0f MB held, %.2f MB of PDF", both(u), u.mb, size(dir)),
		u.wall, u.cpu, 8*time.Second, u.mb < 200 && size(dir) < 1.5)
	u, dir = f.timed("packet", "seed-cabinet", "--no-cache", "--out", "p.pdf")
	f.row("packet of the seed cabinet with set-ups", "200 MB held", fmt.Sprintf("%s, %.0f MB held, %.2f MB of PDF", both(u), u.mb, size(dir)), u.mb < 200)
}

// engines: one section, one case, one set of blades.
func (f figures) engines() {
	plain := func(took time.Duration, _ string) string { return millis(took) }
	f.slowestRow("a section to its SVG sheet (`BenchmarkSectionSVG`)", "2 ms", f.measures("./template", "^BenchmarkSectionSVG$", nil), 2*time.Millisecond, plain)
	f.slowestRow("pieces of a 40-piece case (`BenchmarkFit`)", "2 ms", f.measures("./miter", "^BenchmarkFit$/jointed=false", nil), 2*time.Millisecond, plain)
	f.slowestRow("blades of a profile (`BenchmarkMake`)", "5 ms", f.measures("./template/scraper", "^BenchmarkMake$", nil), 5*time.Millisecond,
		func(took time.Duration, name string) string {
			return millis(took) + ", the slowest of four, " + filepath.Base(name)
		})
}

// stock: the figures of the benchmarks beside the engine. Times are the processor's: the search is one thread.
func (f figures) stock() {
	for _, s := range []struct {
		what, bench, asked, unit string
		limit                    float64 // ms
	}{
		{"stock: u120, 20 instances", "BenchmarkU120", "0.1 s each, all proven", "cpu-max-ms", 100},
		{"stock: planted triplets of 60", "BenchmarkTriplets60", "0.2 s each", "cpu-max-ms", 200},
		{"stock: 30 pieces, 8 lengths and 6 offcuts", "BenchmarkYard30", "0.1 s each", "cpu-max-ms", 100},
		{"stock: 60 pieces", "BenchmarkYard60", "p95 0.5 s, all proven", "cpu-p95-ms", 500},
		{"stock: 90 pieces", "BenchmarkYard90", "p95 2 s, 64 MB", "cpu-p95-ms", 2000},
	} {
		m := f.measures("./miter/stock", "^"+s.bench+"$", nil, "-benchtime", "1x")[s.bench]
		if m == nil {
			f.leftOut(s.what, s.asked, "its data is not here")
			continue
		}
		f.row(s.what, s.asked, fmt.Sprintf("p95 %.0f ms, the worst %.0f ms of the processor, %.0f of 100 proven, %.0f MB", m["cpu-p95-ms"], m["cpu-max-ms"], 100*m["proven"], m["MB"]),
			m[s.unit] < s.limit && (m["proven"] == 1 || !strings.Contains(s.asked, "proven")) && m["MB"] < 64)
	}
	what, asked := "stock: 60 jobs beside glpsol, stopped after 5 s each", "50 times faster in all, none slower"
	if _, err := exec.LookPath("glpsol"); err != nil || f.short {
		f.leftOut(what, asked, "minutes, and glpsol")
		return
	}
	m := f.measures("./miter/stock", "^BenchmarkBesideGlpsol$", nil, "-benchtime", "1x")["BenchmarkBesideGlpsol"]
	if m == nil {
		f.leftOut(what, asked, notRun)
		return
	}
	f.row(what, asked, fmt.Sprintf("%.0f times in all, %.1f times at worst, %.0f slower", m["times"], m["times-at-worst"], m["slower"]), m["times"] >= 50 && m["slower"] == 0)
}

// setups: every profile of the library, each a process of its own, at each effort; long effort only for some with -short.
func (f figures) setups() {
	var names []string
	for _, e := range library.Open("", "").List(library.KindProfile) {
		names = append(names, e.Name)
	}
	gouge, left, unsound := 0.0, 0.0, []string{}
	for _, effort := range []struct {
		name  string
		limit time.Duration
	}{{"quick", time.Second}, {"usual", 3 * time.Second}, {"long", 20 * time.Second}} {
		var worst, cpu use
		var which, whichCPU string
		most := 0.0
		n := 0
		for i, name := range names {
			if f.short && effort.name == "long" && i%9 != 0 {
				continue
			}
			n++
			u, _ := f.timed("setups", name, "--no-cache", "--effort", effort.name, "--json")
			if u.wall > worst.wall {
				worst, which = u, name
			}
			if u.cpu > cpu.cpu {
				cpu, whichCPU = u, name
			}
			most = max(most, u.mb)
			var r struct {
				Left struct {
					Max float64 `json:"max_mm"`
				}
				Verified struct {
					Gouge float64 `json:"worst_gouge_mm"`
				}
				Unreached []any
			}
			require.NoError(f.b, json.Unmarshal([]byte(u.out), &r), name)
			gouge = max(gouge, r.Verified.Gouge)
			if len(r.Unreached) == 0 {
				left = max(left, r.Left.Max)
			}
			if u.code != exitDone {
				unsound = append(unsound, name+" at "+effort.name)
			}
		}
		f.timedRow(fmt.Sprintf("set-ups at %s effort, the slowest of %d library profiles, whole process", effort.name, n), seconds(effort.limit)+", 200 MB held",
			fmt.Sprintf("%s on the wall, %s; %s of the processor, %s; %.0f MB at most", seconds(worst.wall), which, seconds(cpu.cpu), whichCPU, most), worst.wall, cpu.cpu, effort.limit, most < 200)
	}
	f.row("set-ups: worst gouge of all these plans, as the verifier found it", "0.02 mm, every plan sound", fmt.Sprintf("%.3f mm, %d plans not sound %s", gouge, len(unsound), strings.Join(unsound, ", ")),
		gouge <= 0.02 && len(unsound) == 0)
	f.row("set-ups: most left where nothing is declared unreached", "0.5 mm", fmt.Sprintf("%.2f mm", left), left <= 0.5)
	out, passed := f.goTest([]string{"LONG=1"}, "-v", "-run", "^TestFigures$", "./template/cutter")
	within := strings.Count(out, "    --- PASS: TestFigures/")
	f.row("set-ups: four sections, counts and fences off by 0.1 mm at random, 100 trials", "5, 7, 10, 14 set-ups or within 1 of the bound; left in the allowance, gouge under 0.15 mm",
		fmt.Sprintf("%d of 4 within", within), passed && within == 4)
}

// trace: time, memory, and how many scans of known truth are read back right.
func (f figures) trace() {
	f.slowestRow("trace: an A4 page at 300 dpi with one section (`BenchmarkTracePage`)", "2 s", f.measures("./profile/trace", "^BenchmarkTracePage$", nil), 2*time.Second,
		func(took time.Duration, _ string) string { return seconds(took) })
	dir, home := f.b.TempDir(), f.b.TempDir()
	manyPixels(f.b, dir, home, 100)
	u := runs(f.b, f.program, dir, home, "trace", "plate.yaml")
	f.row("trace: 100 megapixels, whole process", "1 GB held", fmt.Sprintf("%s, %.0f MB held", both(u), u.mb), u.code == exitDone && u.mb < 1000)
	every := "1"
	if f.short {
		every = "20"
	}
	out, _ := f.goTest([]string{"TRACE_EVERY=" + every}, "-run", "-", "-bench", "TraceKnownTruth/300_dpi", "-benchtime", "1x", "./profile/trace")
	rows := regexp.MustCompile(`(?m)^(300 dpi, .*?): n (\d+) .*?right (\d+) `).FindAllStringSubmatch(out, -1)
	for _, m := range rows {
		n, _ := strconv.Atoi(m[2])
		right, _ := strconv.Atoi(m[3])
		asked := "95 of 100: members in order, sizes, distance"
		if strings.HasSuffix(m[1], "dimensioned") {
			asked = "survived or named"
		}
		f.rightRow("trace: "+m[1], asked, right, n)
	}
	if len(rows) == 0 {
		f.leftOut("trace: scans of known truth", "95 of 100", notRun)
	}
}

// pageWeights are what the page may weigh, and the tests that hold it.
var pageWeights = []struct{ what, asked, test string }{
	{"as it is sent to a browser that takes gzip", "300 kB", "TestPageWeight"},
	{"before it is packed", "300 kB", "TestPageIsSmall"},
}

// page: the server, and the browser where there is one.
func (f figures) page() {
	for _, name := range []string{"BenchmarkEdit", "BenchmarkDrag"} {
		all := f.measures("./cmd/listel/serve", "^"+name+"$", nil)
		if len(all) == 0 {
			f.leftOut("serve: `"+name+"`", "p95 15 ms", notRun)
		}
		for full, m := range all {
			f.row("serve: a size of 30 members changed, text in, text and drawing out (`"+full+"`)", "p95 15 ms", fmt.Sprintf("p95 %.1f ms", m["p95-ms"]), m["p95-ms"] > 0 && m["p95-ms"] < 15)
		}
	}
	f.held("serve: memory over 10,000 edits", "flat", "./cmd/listel/serve", "TestSoak")
	for _, p := range pageWeights {
		f.held("serve: the whole page, "+p.what, p.asked, "./cmd/listel/serve", p.test)
	}
	out, passed := f.goTest([]string{"LISTEL_FIGURES=1"}, "-v", "-run", "^TestEditToDrawing$", "./cmd/listel/serve")
	seen := regexp.MustCompile(`from a key to the drawing: (.*)`).FindStringSubmatch(out)
	if seen == nil {
		f.leftOut("serve: from a key to the drawing, in the browser", "p95 50 ms", "no browser is here")
		return
	}
	f.row("serve: from a key to the drawing, in the browser", "p95 50 ms", seen[1], passed && !strings.Contains(out, "--- SKIP"))
}
