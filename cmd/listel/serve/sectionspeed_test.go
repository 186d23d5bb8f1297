package serve_test

import (
	"fmt"
	"math"
	"os"
	"runtime"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"listel/library"
)

// editTimes types a step up and a step down by turns and measures, in the browser, from each key to the new drawing on the screen, in ms.
const editTimes = `async (selector, n) => {
	const input = document.querySelector(selector);
	const sheet = document.querySelector(".board .sheet");
	const times = [];
	for (let i = 0; i < n; i++) {
		const drawn = new Promise((done) => {
			const before = sheet.querySelector(".outline").getAttribute("d");
			const look = new MutationObserver(() => {
				if (sheet.querySelector(".outline")?.getAttribute("d") === before) return;
				look.disconnect();
				done();
			});
			look.observe(sheet, { childList: true, attributes: true, subtree: true });
		});
		const from = performance.now();
		input.dispatchEvent(new KeyboardEvent("keydown", { key: i % 2 ? "ArrowDown" : "ArrowUp", bubbles: true }));
		await drawn;
		await new Promise((r) => requestAnimationFrame(() => setTimeout(r)));
		times.push(performance.now() - from);
	}
	return times;
}`

// TestEditToDrawing measures what the page is to reach: 95 of 100 edits drawn within 50 ms of the key. It is a reading of the machine as much as of
// the page, so it is taken with LISTEL_FIGURES=1 alone; the best of three counts, and a machine that has more to do than it has processors tells nothing.
func TestEditToDrawing(t *testing.T) {
	if os.Getenv("LISTEL_FIGURES") == "" {
		t.Skip("LISTEL_FIGURES=1 takes the figure")
	}
	lib := library.Open("", "")
	text, _, err := lib.Text(library.KindProfile, "press-cornice")
	require.NoError(t, err)
	b := openTab(t, map[string]string{"press-cornice.yaml": string(text)}, desk)
	b.open("press-cornice.yaml")
	b.choose(0)
	const (
		figure = 50.0 // ms from the key to the drawing
		work   = 20.0 // ms that the page itself may work on an edit: it leaves as much for the server and the screen
		n      = 100
	)
	_, err = chromedp.Call(b.ctx, performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks})
	require.NoError(t, err)
	best := math.Inf(1)
	for range 3 {
		before := b.worked()
		times := value[[]float64](b, fmt.Sprintf("(%s)(%s, %d)", editTimes, js(rise), n))
		own := (b.worked() - before) / n
		slices.Sort(times)
		t.Logf("from a key to the drawing: half under %.1f ms, 95 of 100 under %.1f ms; of it the page works %.1f ms", times[n/2-1], times[n*95/100-1], own)
		if best = min(best, times[n*95/100-1]); best < figure && own < work {
			return
		}
	}
	if load, busy := busyMachine(); busy {
		t.Skipf("%.1f ms is not under %.0f ms, but the machine has other work: its load is %.1f", best, figure, load)
	}
	require.Less(t, best, figure)
}

// worked returns how long the page's thread has worked, in ms of its processor: other work on the machine does not count.
func (b *tab) worked() float64 {
	b.t.Helper()
	r, err := chromedp.Call(b.ctx, performance.GetMetrics, cdp.Empty{})
	require.NoError(b.t, err)
	for _, m := range r.Metrics {
		if m.Name == "TaskDuration" {
			return m.Value * 1000
		}
	}
	require.Fail(b.t, "the browser does not tell how long it worked")
	return 0
}

// busyMachine returns the work that waited over the last minute, and whether it is more than this machine and its browser make of it. Where
// nothing tells the load it is 0.
func busyMachine() (load float64, busy bool) {
	data, err := os.ReadFile("/proc/loadavg")
	if err == nil {
		_, err = fmt.Sscan(string(data), &load)
	}
	return load, err == nil && load > float64(runtime.NumCPU())+1
}
