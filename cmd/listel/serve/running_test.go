package serve_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/cmd/listel/serve"
)

// A running is a server of a folder of its own, asked over the network as a browser asks.
type running struct {
	t     testing.TB
	url   string // without the last slash
	token string
	dir   string
	http  *http.Client
}

// run starts a server of a folder that holds the files.
func run(t testing.TB, files map[string]string) *running {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	s, err := serve.New(serve.Options{Folder: dir})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	r := &running{t: t, url: strings.TrimSuffix(s.URL(), "/"), dir: dir, http: &http.Client{Timeout: 30 * time.Second}}
	t.Cleanup(func() {
		r.http.CloseIdleConnections()
		stop()
		require.NoError(t, <-ended)
	})
	w := r.ask(http.MethodGet, "/", "", nil)
	require.Equal(t, http.StatusOK, w.status)
	m := regexp.MustCompile(`name="token" content="([^"]+)"`).FindStringSubmatch(w.body)
	require.Len(t, m, 2)
	r.token = m[1]
	return r
}

// A reply is what the server said.
type reply struct {
	status int
	body   string
	head   http.Header
}

// json returns the reply's JSON.
func (r reply) json(t testing.TB) map[string]any {
	t.Helper()
	var v map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.body), &v), r.body)
	return v
}

// ask sends a request with the token, which change may alter first.
func (r *running) ask(method, path, body string, change func(*http.Request)) reply {
	r.t.Helper()
	q, err := http.NewRequest(method, r.url+path, strings.NewReader(body))
	require.NoError(r.t, err)
	q.Header.Set("X-Token", r.token)
	if change != nil {
		change(q)
	}
	w, err := r.http.Do(q)
	require.NoError(r.t, err)
	defer w.Body.Close()
	data, err := io.ReadAll(w.Body)
	require.NoError(r.t, err)
	return reply{w.StatusCode, string(data), w.Header}
}

// post sends v as JSON.
func (r *running) post(path string, v any) reply {
	r.t.Helper()
	data, err := json.Marshal(v)
	require.NoError(r.t, err)
	return r.ask(http.MethodPost, path, string(data), nil)
}

// put saves a text.
func (r *running) put(path, text, base string) reply {
	r.t.Helper()
	data, err := json.Marshal(map[string]string{"path": path, "text": text, "base": base})
	require.NoError(r.t, err)
	return r.ask(http.MethodPut, "/api/file", string(data), nil)
}

// tree returns every file below a folder with its bytes, links by where they lead.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if d.Type()&os.ModeSymlink != 0 {
			to, err := os.Readlink(p)
			out[p] = "-> " + to
			return err
		}
		data, err := os.ReadFile(p)
		out[p] = string(bytes.Clone(data))
		return err
	}))
	return out
}
