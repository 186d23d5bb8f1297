package serve_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
)

// A chrome is a headless Chromium with one tab, started when it is first asked for.
type chrome struct {
	once sync.Once
	ctx  context.Context
	err  error
}

// browser is the one browser of all tests: to start one, or a window, takes longer than most tests.
var browser chrome

// tab returns the tab, or why there is none.
func (c *chrome) tab() (context.Context, error) {
	c.once.Do(func() {
		var path string
		if path, c.err = chromium(); c.err != nil {
			return
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.WindowSize(1280, 800),
			chromedp.Flag("font-render-hinting", "none"))
		alloc, _ := chromedp.NewExecAllocator(context.Background(), options...) // it ends with the process
		ctx, _ := chromedp.NewContext(alloc)
		if c.err = chromedp.Do(ctx, chromedp.Navigate("about:blank")); c.err == nil {
			c.ctx = ctx
		}
	})
	return c.ctx, c.err
}

func chromium() (string, error) {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", fmt.Errorf("there is no chromium on this machine")
}

func TestMain(m *testing.M) {
	code := m.Run()
	if browser.ctx != nil {
		_ = chromedp.Cancel(browser.ctx)
	}
	os.Exit(code)
}
