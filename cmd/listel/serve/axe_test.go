package serve_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// axePath is where npm puts axe-core, the independent judge of how a page can be used; LISTEL_AXE names another place.
const axePath = "../../../.ci/node_modules/axe-core/axe.min.js"

// axe returns the text of axe-core. Where there is none the test is skipped, and says so; with LISTEL_REQUIRE_TOOLS=1 it fails.
func axe(t *testing.T) string {
	t.Helper()
	path := os.Getenv("LISTEL_AXE")
	if path == "" {
		path = axePath
	}
	data, err := os.ReadFile(path)
	if err != nil {
		if os.Getenv("LISTEL_REQUIRE_TOOLS") == "1" {
			require.NoError(t, err)
		}
		t.Skipf("the page was not judged: %v; npm ci --prefix .ci installs axe-core", err)
	}
	return string(data)
}

// A fault is one that axe-core finds: which rule, how bad, and where.
type fault struct {
	Rule, Impact, Help string
	Where              []string
}

// judge returns the serious faults of the page as it stands. Colors that are changed by the system's dark scheme change nothing but contrast: a tab that
// is dark is judged by that rule alone.
func (b *tab) judge(script string) []fault {
	b.t.Helper()
	value[bool](b, script+";true")
	return value[[]fault](b, `axe.run(document, { resultTypes: ["violations"], preload: false, ...(matchMedia("(prefers-color-scheme: dark)").matches ? { runOnly: ["color-contrast"] } : {}) })
		.then((r) => r.violations.filter((v) => v.impact === "serious" || v.impact === "critical")
		.map((v) => ({ Rule: v.id, Impact: v.impact, Help: v.help, Where: v.nodes.map((n) => n.target.join(" ")) })))`)
}

// TestAxe: on every view, at the desk and on a tablet, light and dark, axe-core finds no serious fault: names for screen readers, contrast,
// roles, the order of headings.
func TestAxe(t *testing.T) {
	script := axe(t)
	for _, l := range []look{desk, {width: 1280, height: 800, dark: true}, {width: 1024, height: 768, touch: true}} {
		t.Run(fmt.Sprintf("%dx%d dark=%v", l.width, l.height, l.dark), func(t *testing.T) {
			b := openTab(t, map[string]string{"shelf-edge.yaml": cove}, l)
			require.Empty(t, b.judge(script), "before anything is open")
			b.open("shelf-edge.yaml")
			views := value[int](b, `document.querySelectorAll("#to-views button").length`)
			require.GreaterOrEqual(t, views, 2)
			for i := range views {
				name := value[string](b, fmt.Sprintf(`(() => { const n = document.querySelectorAll("#to-views button")[%d]; n.click(); return n.textContent.trim(); })()`, i))
				b.settle()
				require.Empty(t, b.judge(script), "in the view %s", name)
			}
		})
	}
}

// TestAxeCatches proves that the judge finds what is wrong: a button without a name, and letters that cannot be read.
func TestAxeCatches(t *testing.T) {
	script := axe(t)
	b := openTab(t, nil, desk)
	value[bool](b, `(() => { const n = document.createElement("button"); document.body.append(n);
		const p = document.createElement("p"); p.textContent = "faint"; p.style.setProperty("color", "#ccc"); p.style.setProperty("background", "#fff"); document.body.append(p); return true; })()`)
	rules := []string{}
	for _, f := range b.judge(script) {
		rules = append(rules, f.Rule)
	}
	require.Contains(t, rules, "button-name")
	require.Contains(t, rules, "color-contrast")
}
