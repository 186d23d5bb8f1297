package serve_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"listel/cmd/listel/serve"
)

// A tab is the page of one folder in a real browser.
type tab struct {
	t   *testing.T
	ctx context.Context
	dir string
	url string
}

const ctrl = kb.ModifierCtrl

// A look is how a tab is seen.
type look struct {
	width, height int64
	dark, touch   bool
}

var desk = look{width: 1280, height: 800}

// openTab serves a folder that holds the files and opens the page on it, in the one tab of all tests: what a test opened before is left. The test
// is skipped, and says so, where there is no Chromium.
func openTab(t *testing.T, files map[string]string, l look) *tab {
	t.Helper()
	if _, err := chromium(); err != nil {
		require.Empty(t, os.Getenv("LISTEL_REQUIRE_TOOLS"), err)
		t.Skipf("the page was not tried: %v", err)
	}
	root, err := browser.tab()
	require.NoError(t, err)
	dir := t.TempDir()
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666))
	}
	s, err := serve.New(serve.Options{Folder: dir})
	require.NoError(t, err)
	serving, stop := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		_ = s.Run(serving)
	}()
	ctx, leave := context.WithCancel(root) // what listens to the tab ends with it
	b := &tab{t: t, ctx: ctx, dir: dir, url: s.URL()}
	require.NoError(t, chromedp.Listen(ctx, b.watch))
	t.Cleanup(func() {
		_ = chromedp.Do(ctx, chromedp.Navigate("about:blank")) // a page with unsaved work asks, and watch answers
		leave()
		stop()
		<-ended
	})
	b.fresh(l)
	b.do(chromedp.Navigate(b.url))
	b.until(`document.documentElement.dataset.ready === "yes"`)
	return b
}

// fresh leaves nothing in the tab of what it was before: the page is kept by its folder, which is another, but cookies, the pointer and how it is
// looked at belong to the tab.
func (b *tab) fresh(l look) {
	b.t.Helper()
	b.do(chromedp.Navigate("about:blank"), chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, 0, 0))
	_, err := chromedp.Call(b.ctx, network.ClearBrowserCookies, cdp.Empty{})
	require.NoError(b.t, err)
	b.look(l)
}

// watch fails the test on an exception in the page, and answers its question before leaving.
func (b *tab) watch(event any) {
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		words := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			words += " " + e.ExceptionDetails.Exception.Description
		}
		b.t.Errorf("the page: %s", words)
	case *page.EventJavascriptDialogOpening:
		go func() {
			_, _ = chromedp.Call(b.ctx, page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{Accept: true})
		}()
	}
}

func (b *tab) look(l look) {
	b.t.Helper()
	var more []chromedp.EmulateViewportOption
	if l.touch {
		more = append(more, chromedp.EmulateTouch)
	}
	b.do(chromedp.EmulateViewport(l.width, l.height, more...))
	scheme := "light"
	if l.dark {
		scheme = "dark"
	}
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	require.NoError(b.t, err)
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, steps...))
}

// value is what a JavaScript expression comes to, awaited.
func value[T any](b *tab, expression string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, expression)
	return v
}

// until waits for an expression to be true. The page itself looks, so that it waits no longer than need be; one that is being loaded is asked anew.
func (b *tab) until(expression string) {
	b.t.Helper()
	const patience = time.Minute // long only for a fault, or on a machine that does something else besides
	wait := fmt.Sprintf(`new Promise((done) => {
		const until = performance.now() + 2000;
		const look = () => {
			let is = false;
			try { is = Boolean(%s); } catch {}
			if (is || performance.now() > until) done(is);
			else setTimeout(look, 8);
		};
		look();
	})`, expression)
	for start := time.Now(); time.Since(start) < patience; {
		ok, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool](wait, chromedp.EvalAwaitPromise))
		if err == nil && ok {
			return
		}
		if err != nil {
			time.Sleep(10 * time.Millisecond)
		}
	}
	text, _ := chromedp.Run(b.ctx, chromedp.Evaluate[string]("document.body.innerText"))
	require.Fail(b.t, "the page does not come to it", "%s\nIt says:\n%s", expression, text)
}

// all returns the trimmed texts of what a selector finds.
func (b *tab) all(selector string) []string {
	b.t.Helper()
	return value[[]string](b, fmt.Sprintf(`[...document.querySelectorAll(%s)].map((n) => n.textContent.trim())`, js(selector)))
}

// click presses what a selector finds first, once it is there and can be pressed.
func (b *tab) click(selector string) {
	b.t.Helper()
	b.until(fmt.Sprintf(`(() => { const n = document.querySelector(%s); return n && !n.disabled && n.getClientRects().length; })()`, js(selector)))
	x, y := b.middle(selector)
	b.do(chromedp.MouseClickXY(x, y))
}

// middle returns where the middle of something is, after bringing it into view.
func (b *tab) middle(selector string) (x, y float64) {
	b.t.Helper()
	at := value[[]float64](b, fmt.Sprintf(`(() => { const n = document.querySelector(%s); n.scrollIntoView({ block: "nearest" });
		const r = n.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`, js(selector)))
	return at[0], at[1]
}

// enter types a text into a field in place of what stands there.
func (b *tab) enter(selector, text string) {
	b.t.Helper()
	b.until(fmt.Sprintf(`document.querySelector(%s)`, js(selector)))
	value[bool](b, fmt.Sprintf(`(() => { const n = document.querySelector(%s); n.focus(); n.select(); return true; })()`, js(selector)))
	if text == "" {
		b.key(kb.Delete)
	}
	b.do(chromedp.KeyEvent(text + kb.Enter))
}

// option chooses an option of a list.
func (b *tab) option(id, option string) {
	b.t.Helper()
	value[bool](b, fmt.Sprintf(`(() => { const s = document.getElementById(%s); s.value = %s; s.dispatchEvent(new Event("change")); return true; })()`, js(id), js(option)))
}

func (b *tab) key(keys string, with ...kb.Modifier) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(keys, chromedp.KeyModifiers(with...)))
}

// drag holds the pointer down at a place, moves it in steps, and lets go after held has looked.
func (b *tab) drag(x, y, dx, dy float64, held func()) {
	b.t.Helper()
	left := chromedp.ButtonType(input.MouseButtonLeft)
	b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x, y),
		chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, x, y, left, chromedp.ClickCount(1)))
	const steps = 12
	for i := 1.0; i <= steps; i++ {
		b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x+dx*i/steps, y+dy*i/steps, left))
	}
	if held != nil {
		held()
	}
	b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, x+dx, y+dy, left, chromedp.ClickCount(1)))
}

// state waits until the head says that of the file: not saved yet, changed, saved.
func (b *tab) state(words string) {
	b.t.Helper()
	b.until(fmt.Sprintf(`document.getElementById("file-state").textContent === %s`, js(words)))
}

// printing brings the page to what is printed of it.
func (b *tab) printing() {
	b.t.Helper()
	value[bool](b, `(() => { window.dispatchEvent(new Event("beforeprint")); return true; })()`)
}

// reload loads the page anew.
func (b *tab) reload() {
	b.t.Helper()
	value[bool](b, `(() => { document.documentElement.dataset.ready = ""; return true; })()`)
	b.do(chromedp.Reload())
	b.until(`document.documentElement.dataset.ready === "yes"`)
}

func (b *tab) read(name string) string {
	b.t.Helper()
	text, err := os.ReadFile(filepath.Join(b.dir, name))
	require.NoError(b.t, err)
	return string(text)
}

func (b *tab) write(name, text string) {
	b.t.Helper()
	require.NoError(b.t, os.WriteFile(filepath.Join(b.dir, name), []byte(text), 0o666))
}

// picture is what the tab shows, as PNG.
func (b *tab) picture() []byte {
	b.t.Helper()
	png, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	require.NoError(b.t, err)
	return png
}

// js writes a text as JavaScript does.
func js(text string) string {
	out, _ := json.Marshal(text)
	return string(out)
}

// typed presses the keys of a text on what has the focus.
func typed(text string) chromedp.Action[chromedp.Void] { return chromedp.KeyEvent(text) }

// clickAt presses at a place of the page.
func clickAt(x, y float64) chromedp.Action[chromedp.Void] { return chromedp.MouseClickXY(x, y) }
