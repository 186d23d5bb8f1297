package serve

import (
	"bufio"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/cmd/listel/job"
	"listel/library"
)

// setupLines asks for set-ups and returns what came, a map a line.
func setupLines(t testing.TB, s *Server, q map[string]any) []map[string]any {
	t.Helper()
	w := asked(t, s.postSetups, "/api/setups", q)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	var out []map[string]any
	for lines := bufio.NewScanner(strings.NewReader(w.Body.String())); lines.Scan(); {
		var v map[string]any
		require.NoError(t, json.Unmarshal(lines.Bytes(), &v), lines.Text())
		out = append(out, v)
	}
	return out
}

// A plan comes with its progress, is kept where the command keeps its own, and is the command's own plan; a kept one comes at once, and in
// other units says the same lengths.
func TestSetupsPlan(t *testing.T) {
	s := serving(t)
	folder := t.TempDir()
	cache := library.OpenCache(folder)
	s.cache = cache
	kept := func() int {
		entries, err := os.ReadDir(folder)
		require.NoError(t, err)
		return len(entries)
	}
	q := map[string]any{"name": "cornice.yaml", "text": cornice, "effort": "quick", "kept": true}
	require.Equal(t, []map[string]any{{"none": true}}, setupLines(t, s, q))

	q["kept"] = false
	lines := setupLines(t, s, q)
	require.Equal(t, "waiting", lines[0]["stage"])
	require.Contains(t, lines[1], "done")
	plan := lines[len(lines)-1]["plan"].(map[string]any)
	require.Equal(t, 1, kept())
	steps, wood := plan["steps"].([]any), plan["wood"].([]any)
	require.Len(t, wood, len(steps)+1)
	require.Equal(t, true, plan["good"])

	lib := library.Open("", "")
	p, err := job.LoadProfile(lib, "cornice.yaml", cornice)
	require.NoError(t, err)
	p, err = p.Built()
	require.NoError(t, err)
	want := job.ToPlan{Section: p.Section}
	want.Options, err = job.Shop{Work: "machine", Effort: "quick"}.Options(p.Profile.Units)
	require.NoError(t, err)
	want.Tools, err = job.Tools(lib, "", p.Profile.Units)
	require.NoError(t, err)
	command, ok := want.Kept(cache)
	require.True(t, ok, "the command finds it under the same key")
	require.Len(t, command.Setups, len(steps))
	for i, u := range command.Setups {
		step := steps[i].(map[string]any)
		require.InDelta(t, u.Height, step["height"], 1e-3)
		require.True(t, strings.EqualFold(u.Tool, step["tool"].(string)))
	}

	q["kept"], q["units"] = true, "mm"
	lines = setupLines(t, s, q)
	require.Len(t, lines, 1, "a kept plan is not searched for")
	again := lines[0]["plan"].(map[string]any)
	require.Equal(t, "mm", again["units"])
	require.Contains(t, again["summary"], "mm")
	require.NotEqual(t, plan["steps"].([]any)[0].(map[string]any)["over"], again["steps"].([]any)[0].(map[string]any)["over"])
	require.Equal(t, 1, kept())
}

// What cannot be planned is said: mistakes of the text with their places, choices that are none.
func TestSetupsRefused(t *testing.T) {
	s := serving(t)
	lines := setupLines(t, s, map[string]any{"name": "cornice.yaml", "text": strings.Replace(cornice, "5/8", "5/0", 1)})
	require.Len(t, lines, 1)
	m := lines[0]["mistakes"].([]any)[0].(map[string]any)
	require.Equal(t, "elements[1].height", m["key"])
	for _, q := range []map[string]any{{"work": "chisel"}, {"effort": "much"}, {"tools": "no-such-tools"}, {"units": "ells"}} {
		q["name"], q["text"] = "cornice.yaml", cornice
		lines := setupLines(t, s, q)
		require.Len(t, lines, 1, q)
		require.NotEmpty(t, lines[0]["error"], q)
	}
}

// A page that leaves stops its search: its place is free at once, long before the search would be done.
func TestSetupsLeaving(t *testing.T) {
	s := serving(t)
	ctx, leave := context.WithCancel(t.Context())
	body, err := json.Marshal(map[string]any{"name": "press-cornice.yaml", "text": LongMolding, "effort": "long"})
	require.NoError(t, err)
	r := httptest.NewRequestWithContext(ctx, http.MethodPost, "/api/setups", strings.NewReader(string(body)))
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		_ = s.postSetups(httptest.NewRecorder(), r)
	}()
	require.Eventually(t, func() bool { return len(s.slots) == 1 }, 5*time.Second, time.Millisecond)
	time.Sleep(100 * time.Millisecond)
	select {
	case <-ended:
		require.Fail(t, "the search was over before it could be left")
	default:
	}
	leave()
	start := time.Now()
	<-ended
	require.Less(t, time.Since(start), 20*time.Second)
	require.Empty(t, s.slots)
}

// LongMolding is a molding that takes long to plan: it has many members. Its sizes are invented.
const LongMolding = `kind: profile
name: press-cornice
units: in
ground: 5/8
elements:
  - fillet: {height: 1/8}
  - bead: {height: 1/4}
  - fillet: {height: 1/8}
  - cove: {height: 3/8}
  - fillet: {height: 1/8, set: 1/16}
  - cyma-reversa: {height: 1/2}
  - fillet: {height: 1/8, set: 1/16}
  - ovolo: {height: 3/8}
  - fillet: {height: 1/8, set: 1/16}
  - cyma-recta: {height: 5/8}
  - fillet: {height: 1/4}
`
