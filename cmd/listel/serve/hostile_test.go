package serve_test

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

const edge = `kind: profile
name: edge
units: in
ground: 1/2
elements:
  - fillet: {height: 1/4} # the foot
  - cove: {height: 5/8}
  - fillet: {height: 1/8}
`

// header returns a change that sets a header.
func header(key, value string) func(*http.Request) {
	return func(q *http.Request) { q.Header.Set(key, value) }
}

// Requests of those who wish the maker ill, or of a browser that they have led astray: each is refused in words, and neither a file inside
// the folder nor one beside it is another afterwards.
func TestHostileRequests(t *testing.T) {
	r := run(t, map[string]string{"edge.yaml": edge, "cases/press.yaml": "kind: case\n"})
	beside := filepath.Join(filepath.Dir(r.dir), "beside")
	require.NoError(t, os.MkdirAll(beside, 0o755))
	secret := filepath.Join(beside, "secret.yaml")
	require.NoError(t, os.WriteFile(secret, []byte("kind: profile\nname: secret\n"), 0o600))
	require.NoError(t, os.Symlink(secret, filepath.Join(r.dir, "link.yaml")))
	require.NoError(t, os.Symlink(beside, filepath.Join(r.dir, "out")))
	require.NoError(t, os.Symlink("edge.yaml", filepath.Join(r.dir, "inner.yaml")))
	before := tree(t, filepath.Dir(r.dir))

	save := fmt.Sprintf(`{"path":"edge.yaml","text":"gone","base":%q}`, hashOf(t, r, "edge.yaml"))
	section := `{"name":"edge.yaml","text":"kind: profile"}`
	type request struct {
		name, method, path, body string
		change                   func(*http.Request)
		want                     int
	}
	all := []request{
		{"another host", "PUT", "/api/file", save, func(q *http.Request) { q.Host = "evil.example" }, 403},
		{"this machine by a name that was made to lead here", "GET", "/", "", func(q *http.Request) { q.Host = "evil.example:80" }, 403},
		{"another port", "PUT", "/api/file", save, func(q *http.Request) { q.Host = "127.0.0.1:1" }, 403},
		{"another origin", "PUT", "/api/file", save, header("Origin", "https://evil.example"), 403},
		{"no origin of its own", "PUT", "/api/file", save, header("Origin", "null"), 403},
		{"an origin of another port", "PUT", "/api/file", save, header("Origin", "http://127.0.0.1:1"), 403},
		{"two origins", "PUT", "/api/file", save, func(q *http.Request) {
			q.Header["Origin"] = []string{"http://" + q.URL.Host, "https://evil.example"}
		}, 403},
		{"from another site, as the browser says", "PUT", "/api/file", save, header("Sec-Fetch-Site", "cross-site"), 403},
		{"no token", "PUT", "/api/file", save, func(q *http.Request) { q.Header.Del("X-Token") }, 403},
		{"another token", "PUT", "/api/file", save, header("X-Token", strings.Repeat("A", 26)), 403},
		{"the token where it does not count", "PUT", "/api/file?token=" + r.token, save, func(q *http.Request) { q.Header.Del("X-Token") }, 403},
		{"no token to listen with", "GET", "/api/events", "", func(q *http.Request) { q.Header.Del("X-Token") }, 403},
		{"no token to read with", "GET", "/api/file?path=edge.yaml", "", func(q *http.Request) { q.Header.Del("X-Token") }, 403},
		{"a link out of the folder", "GET", "/api/file?path=link.yaml", "", nil, 403},
		{"a folder that is a link out", "GET", "/api/file?path=out/secret.yaml", "", nil, 403},
		{"writing through a link", "PUT", "/api/file", `{"path":"link.yaml","text":"gone"}`, nil, 403},
		{"writing through a link within", "PUT", "/api/file", `{"path":"inner.yaml","text":"gone"}`, nil, 403},
		{"writing into a folder that is a link out", "PUT", "/api/file", `{"path":"out/new.yaml","text":"gone"}`, nil, 403},
		{"no name", "PUT", "/api/file", `{"path":"","text":"gone"}`, nil, 400},
		{"a hidden file", "PUT", "/api/file", `{"path":".profile.yaml","text":"gone"}`, nil, 403},
		{"a program", "PUT", "/api/file", `{"path":"run.sh","text":"gone"}`, nil, 403},
		{"a folder that is not there", "PUT", "/api/file", `{"path":"no/new.yaml","text":"gone"}`, nil, 404},
		{"a folder as a file", "PUT", "/api/file", `{"path":"cases","text":"gone"}`, nil, 403},
		{"a name without end", "PUT", "/api/file", `{"path":"` + strings.Repeat("x", 5000) + `.yaml","text":"gone"}`, nil, 400},
		{"over what is there", "PUT", "/api/file", `{"path":"edge.yaml","text":"gone","base":""}`, nil, 409},
		{"on top of another text", "PUT", "/api/file", `{"path":"edge.yaml","text":"gone","base":"00000000000000000000000000000000"}`, nil, 409},
		{"no JSON", "PUT", "/api/file", "path=edge.yaml&text=gone", nil, 400},
		{"JSON cut off", "PUT", "/api/file", save[:20], nil, 400},
		{"a body without end", "POST", "/api/section", `{"text":"` + strings.Repeat("x", 9<<20), nil, 413},
		{"a text over the limit", "PUT", "/api/file", `{"path":"new.yaml","text":"` + strings.Repeat("x", 4<<20) + `"}`, nil, 413},
		{"a molding without end", "POST", "/api/section", `{"text":"` + strings.Repeat("x", 600<<10) + `"}`, nil, 413},
		{"another method", "DELETE", "/api/file?path=edge.yaml", "", nil, 405},
		{"a method that does not exist", "BREW", "/api/file?path=edge.yaml", "", nil, 405},
		{"another way in", "GET", "/api/../api/file?path=edge.yaml", "", func(q *http.Request) { q.Header.Del("X-Token") }, 403},
		{"a file of the program", "GET", "/page/../server.go", "", nil, 404},
		{"the page without its token", "GET", "/page/index.html", "", nil, 404},
		{"no such change", "POST", "/api/edit", `{"text":"a: 1","change":{"op":"run"}}`, nil, 400},
		{"a member far away", "POST", "/api/edit", `{"text":"a: 1","change":{"op":"remove","at":1000000000}}`, nil, 422},
		{"a fraction of nothing", "POST", "/api/section", `{"text":"kind: profile","fraction":-1}`, nil, 400},
		{"units of its own", "POST", "/api/section", `{"text":"kind: profile","units":"furlong"}`, nil, 400},
	}
	for _, p := range []string{"../beside/secret.yaml", "..%2fbeside%2fsecret.yaml", "%2e%2e/beside/secret.yaml", "..%5cbeside%5csecret.yaml", secret, "//" + secret,
		"cases/../../beside/secret.yaml", "./edge.yaml", "edge.yaml%00.png", "C:secret.yaml", "cases//press.yaml", "edge.yaml/", "file:///etc/passwd", "/proc/self/environ", "con%0d%0a.yaml"} {
		all = append(all, request{"reading " + p, "GET", "/api/file?path=" + p, "", nil, 403},
			request{"writing " + p, "PUT", "/api/file", fmt.Sprintf(`{"path":%q,"text":"gone"}`, p), nil, 403})
	}
	for _, q := range all {
		t.Run(q.name, func(t *testing.T) {
			got := r.ask(q.method, q.path, q.body, q.change)
			require.Equal(t, q.want, got.status, got.body)
			require.NotContains(t, got.body, "name: secret")
			if q.want != 405 && q.want != 404 {
				require.NotEmpty(t, got.json(t)["error"])
			}
			require.Contains(t, got.head.Get("Content-Security-Policy"), "default-src 'none'")
		})
	}
	require.Equal(t, before, tree(t, filepath.Dir(r.dir)))
	require.Equal(t, 200, r.ask("POST", "/api/section", section, nil).status, "it is still there")
	require.Equal(t, 200, r.ask("GET", "/api/file?path=inner.yaml", "", nil).status, "a link within the folder can be read")
}

// hashOf returns the hash that the server has of a file.
func hashOf(t testing.TB, r *running, path string) string {
	t.Helper()
	w := r.ask(http.MethodGet, "/api/file?path="+path, "", nil)
	require.Equal(t, 200, w.status, w.body)
	return w.json(t)["hash"].(string)
}

// Texts made to exhaust a reader come back with their mistakes, soon.
func TestHostileTexts(t *testing.T) {
	r := run(t, nil)
	bombs := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for c := 'b'; c < 'i'; c++ {
		bombs += fmt.Sprintf("%c: &%c [*%c, *%c, *%c, *%c, *%c, *%c, *%c, *%c]\n", c, c, c-1, c-1, c-1, c-1, c-1, c-1, c-1, c-1)
	}
	for name, text := range map[string]string{
		"broken": "kind: profile\nelements: [", "deep": strings.Repeat("[", 60_000), "deep keys": "kind: profile\n" + strings.Repeat("a: {", 20_000), "aliases": bombs,
		"nothing": "", "many lines": strings.Repeat("x\n", 50_000), "many members": "kind: profile\nunits: in\nground: 1\nelements:\n" + strings.Repeat("  - fillet: {height: 1}\n", 5_000),
		"a stack of itself": "kind: profile\nname: edge\nunits: in\nground: 1\nelements:\n  - stack: {profile: edge}\n", "bytes": "kind: \x00\xff profile", "huge sizes": strings.ReplaceAll(edge, "5/8", "9e99"),
		"huge fraction": strings.ReplaceAll(edge, "5/8", strings.Repeat("9", 60_000)+"/7"),
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			w := r.post("/api/section", map[string]any{"name": "x.yaml", "text": text})
			require.Equal(t, 200, w.status, w.body)
			got := w.json(t)
			require.Equal(t, false, got["ok"])
			require.NotEmpty(t, got["mistakes"])
			for _, op := range []string{"insert", "remove", "move", "kind", "drag", "set", "unset", "back"} {
				w := r.post("/api/edit", map[string]any{"name": "x.yaml", "text": text, "change": map[string]any{"op": op, "kind": "cove", "path": "elements[0].height", "value": "1", "corner": "top"}})
				require.Contains(t, []int{200, 422}, w.status, w.body)
			}
			require.Less(t, time.Since(start), 30*time.Second)
		})
	}
}

// A client that sends nothing, or sends a byte now and then, holds up nobody, and is dropped.
func TestSlowClient(t *testing.T) {
	r := run(t, map[string]string{"edge.yaml": edge})
	host := strings.TrimPrefix(r.url, "http://")
	var lazy []net.Conn
	for range 50 {
		c, err := net.Dial("tcp", host)
		require.NoError(t, err)
		defer c.Close()
		_, err = io.WriteString(c, "POST /api/section HTTP/1.1\r\nHost: "+host+"\r\n")
		require.NoError(t, err)
		lazy = append(lazy, c)
	}
	start := time.Now()
	require.Equal(t, 200, r.ask("GET", "/api/files", "", nil).status)
	require.Less(t, time.Since(start), 3*time.Second)
	require.NoError(t, lazy[0].SetReadDeadline(time.Now().Add(20*time.Second)))
	_, err := io.ReadAll(lazy[0])
	require.NoError(t, err, "the server hangs up by itself")
}

// Ten pages at once that change and save ten files leave each with its own last text, whole.
func TestManyAtOnce(t *testing.T) {
	r := run(t, nil)
	var pages sync.WaitGroup
	for n := range 10 {
		pages.Go(func() {
			path, base := fmt.Sprintf("p%d.yaml", n), ""
			for i := range 10 {
				text := strings.ReplaceAll(edge, "5/8", fmt.Sprintf("%d/16", i+8))
				w := r.put(path, text, base)
				if w.status != 200 {
					t.Error(w.body)
					return
				}
				base = w.json(t)["hash"].(string)
			}
		})
	}
	pages.Wait()
	require.Len(t, tree(t, r.dir), 10)
	for _, text := range tree(t, r.dir) {
		require.Equal(t, strings.ReplaceAll(edge, "5/8", "17/16"), text)
	}
}
