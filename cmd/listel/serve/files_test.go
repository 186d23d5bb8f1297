package serve_test

import (
	"bufio"
	"compress/gzip"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The folder is listed with what its files say of themselves, two levels deep, hidden files and others left out.
func TestListing(t *testing.T) {
	r := run(t, map[string]string{"edge.yaml": edge, "cases/press.yaml": "kind: case\nname: press\ntitle: A press\n", ".hidden.yaml": edge, "notes.txt": "x",
		"scans/plate.png": "x", "a/b/deep.yaml": edge, "broken.yaml": "kind: ["})
	got := r.ask(http.MethodGet, "/api/files", "", nil).json(t)
	require.Equal(t, r.dir, got["folder"])
	kinds := map[string]string{}
	for _, f := range got["files"].([]any) {
		f := f.(map[string]any)
		kinds[f["path"].(string)] = f["kind"].(string) + " " + f["name"].(string) + " " + f["title"].(string)
	}
	require.Equal(t, map[string]string{"edge.yaml": "profile edge ", "cases/press.yaml": "case press A press", "scans/plate.png": "image  ", "broken.yaml": "  "}, kinds)
}

// A text is saved as it is, byte for byte, and read again; on top of one that another program wrote it is not, and both are told.
func TestSaving(t *testing.T) {
	r := run(t, nil)
	text := "# of my own\r\n" + edge + "\n\n"
	w := r.put("edge.yaml", text, "")
	require.Equal(t, 200, w.status, w.body)
	first := w.json(t)["hash"].(string)
	data, err := os.ReadFile(filepath.Join(r.dir, "edge.yaml"))
	require.NoError(t, err)
	require.Equal(t, text, string(data))
	read := r.ask(http.MethodGet, "/api/file?path=edge.yaml", "", nil).json(t)
	require.Equal(t, text, read["text"])
	require.Equal(t, first, read["hash"])

	w = r.put("edge.yaml", text+"# more\n", first)
	require.Equal(t, 200, w.status, w.body)
	second := w.json(t)["hash"].(string)
	require.NotEqual(t, first, second)

	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "edge.yaml"), []byte(edge), 0o600))
	w = r.put("edge.yaml", text+"# yet more\n", second)
	require.Equal(t, http.StatusConflict, w.status)
	require.Equal(t, edge, w.json(t)["text"])
	theirs := w.json(t)["hash"].(string)
	data, err = os.ReadFile(filepath.Join(r.dir, "edge.yaml"))
	require.NoError(t, err)
	require.Equal(t, edge, string(data), "nothing is overwritten")
	require.Equal(t, 200, r.put("edge.yaml", text, theirs).status, "with what is there known it may be")
	require.Equal(t, 200, r.put("edge.yaml", text, second).status, "what is there already is no conflict")

	require.NoError(t, os.Remove(filepath.Join(r.dir, "edge.yaml")))
	w = r.put("edge.yaml", text, second)
	require.Equal(t, http.StatusConflict, w.status)
	require.Equal(t, "", w.json(t)["hash"])
	require.Equal(t, 200, r.put("edge.yaml", text, "").status)
	require.Equal(t, map[string]string{filepath.Join(r.dir, "edge.yaml"): text}, tree(t, r.dir), "and nothing is left beside it")
}

// A folder that may not be written to is told of, and the text is not lost: the file is as it was.
func TestSavingFails(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("no folder is closed to root")
	}
	r := run(t, map[string]string{"edge.yaml": edge})
	hash := hashOf(t, r, "edge.yaml")
	require.NoError(t, os.Chmod(r.dir, 0o500))
	defer os.Chmod(r.dir, 0o700)
	w := r.put("edge.yaml", "gone", hash)
	require.Equal(t, http.StatusUnprocessableEntity, w.status)
	require.Contains(t, w.json(t)["error"], "permission")
}

// news returns what the server tells a page.
func (r *running) news() <-chan [2]string {
	r.t.Helper()
	ctx, leave := context.WithCancel(context.Background())
	r.t.Cleanup(leave)
	q, err := http.NewRequestWithContext(ctx, http.MethodGet, r.url+"/api/events?token="+r.token, nil)
	require.NoError(r.t, err)
	w, err := (&http.Client{}).Do(q)
	require.NoError(r.t, err)
	require.Equal(r.t, "text/event-stream", w.Header.Get("Content-Type"))
	out, ready := make(chan [2]string, 100), make(chan bool, 1)
	go func() {
		defer w.Body.Close()
		lines := bufio.NewScanner(w.Body)
		for lines.Scan() {
			if lines.Text() == ": here" {
				select {
				case ready <- true:
				default:
				}
			}
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				var item struct{ Path, Hash string }
				if json.Unmarshal([]byte(data), &item) == nil {
					out <- [2]string{item.Path, item.Hash}
				}
			}
		}
	}()
	<-ready
	return out
}

// next returns the next piece of news.
func next(t *testing.T, news <-chan [2]string) [2]string {
	t.Helper()
	select {
	case item := <-news:
		return item
	case <-time.After(10 * time.Second):
		require.Fail(t, "nothing was told")
		return [2]string{}
	}
}

// What another program does to a file is told to every page once it is done, however it writes: in place, by way of another file, in several
// steps; so is a file's end, and a file in a new folder. What leaves the file as it was is no news.
func TestNews(t *testing.T) {
	r := run(t, map[string]string{"edge.yaml": edge, "cases/press.yaml": "kind: case\n"})
	news, other := r.news(), r.news()
	file := filepath.Join(r.dir, "edge.yaml")
	changed := strings.ReplaceAll(edge, "5/8", "3/4")

	require.NoError(t, os.WriteFile(file, []byte(edge), 0o600)) // the same again
	require.NoError(t, os.WriteFile(file, []byte(changed), 0o600))
	item := next(t, news)
	require.Equal(t, "edge.yaml", item[0])
	require.Equal(t, hashOf(t, r, "edge.yaml"), item[1])
	require.Equal(t, item, next(t, other))

	require.NoError(t, os.Rename(file, file+"~")) // as editors do that keep the old one
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, ".edge.swp"), []byte("x"), 0o600))
	require.NoError(t, os.WriteFile(file+".new", []byte(edge), 0o600))
	require.NoError(t, os.Rename(file+".new", file))
	item = next(t, news)
	require.Equal(t, [2]string{"edge.yaml", hashOf(t, r, "edge.yaml")}, item)

	require.NoError(t, os.Mkdir(filepath.Join(r.dir, "new"), 0o755))
	time.Sleep(300 * time.Millisecond)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "new", "waist.yaml"), []byte(edge), 0o600))
	require.Equal(t, "new/waist.yaml", next(t, news)[0])
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "cases", "press.yaml"), []byte("kind: case\nname: press\n"), 0o600))
	require.Equal(t, "cases/press.yaml", next(t, news)[0])

	require.NoError(t, os.Remove(file))
	require.Equal(t, [2]string{"edge.yaml", ""}, next(t, news))

	w := r.put("edge.yaml", edge, "")
	require.Equal(t, 200, w.status, w.body)
	require.Equal(t, [2]string{"edge.yaml", w.json(t)["hash"].(string)}, next(t, news), "what one page saves the others are told")
	select {
	case item := <-news:
		require.Fail(t, "told twice", item)
	case <-time.After(time.Second):
	}
}

// A file that another program puts back as it was, right after a page has saved it, is told: what the page saved must count as seen,
// though the folder was not looked at in between.
func TestNewsPutBack(t *testing.T) {
	r := run(t, map[string]string{"edge.yaml": edge})
	before := hashOf(t, r, "edge.yaml")
	news := r.news()
	w := r.put("edge.yaml", strings.ReplaceAll(edge, "5/8", "3/4"), before)
	require.Equal(t, 200, w.status, w.body)
	require.NoError(t, os.WriteFile(filepath.Join(r.dir, "edge.yaml"), []byte(edge), 0o600))
	require.Equal(t, [2]string{"edge.yaml", w.json(t)["hash"].(string)}, next(t, news))
	require.Equal(t, [2]string{"edge.yaml", before}, next(t, news))
}

// The page comes with its token, its policy, and parts that a browser keeps until they change.
func TestPage(t *testing.T) {
	r := run(t, nil)
	w := r.ask(http.MethodGet, "/", "", nil)
	require.Equal(t, "no-store", w.head.Get("Cache-Control"))
	require.Contains(t, w.body, r.dir)
	require.NotContains(t, w.head.Get("Content-Security-Policy"), "unsafe")
	part := r.ask(http.MethodGet, "/page/main.js", "", nil)
	require.Equal(t, "text/javascript; charset=utf-8", part.head.Get("Content-Type"))
	tag := part.head.Get("ETag")
	again := r.ask(http.MethodGet, "/page/main.js", "", header("If-None-Match", tag))
	require.Equal(t, http.StatusNotModified, again.status)
	require.Empty(t, again.body)
}

// A part comes packed where the browser takes it so, as many bytes as are said, and unpacks to what comes else; the two have tags of their own.
func TestPartPacked(t *testing.T) {
	r := run(t, nil)
	plain := r.ask(http.MethodGet, "/page/section.js", "", header("Accept-Encoding", "identity"))
	require.Empty(t, plain.head.Get("Content-Encoding"))
	packed := r.ask(http.MethodGet, "/page/section.js", "", header("Accept-Encoding", "gzip, deflate, br"))
	require.Equal(t, "gzip", packed.head.Get("Content-Encoding"))
	require.Less(t, len(packed.body), len(plain.body)/2)
	zip, err := gzip.NewReader(strings.NewReader(packed.body))
	require.NoError(t, err)
	text, err := io.ReadAll(zip)
	require.NoError(t, err)
	require.Equal(t, plain.body, string(text))
	for _, w := range []reply{plain, packed} {
		require.Equal(t, strconv.Itoa(len(w.body)), w.head.Get("Content-Length"))
		require.Equal(t, "Accept-Encoding", w.head.Get("Vary"))
		require.Equal(t, "text/javascript; charset=utf-8", w.head.Get("Content-Type"))
	}
	tag := packed.head.Get("ETag")
	require.NotEqual(t, plain.head.Get("ETag"), tag)
	again := func(coding string) int {
		return r.ask(http.MethodGet, "/page/section.js", "", func(q *http.Request) {
			q.Header.Set("Accept-Encoding", coding)
			q.Header.Set("If-None-Match", tag)
		}).status
	}
	require.Equal(t, http.StatusNotModified, again("gzip"))
	require.Equal(t, http.StatusOK, again("identity"))
}

// maxPage is the most that the page weighs, bytes as they are sent to a browser that takes gzip.
const maxPage = 300_000

// The page with all its parts stays light, as a browser gets it.
func TestPageWeight(t *testing.T) {
	r := run(t, nil)
	parts, err := os.ReadDir("page")
	require.NoError(t, err)
	sum := 0
	for _, p := range parts {
		path := "/page/" + p.Name()
		if p.Name() == "index.html" {
			path = "/"
		}
		part := r.ask(http.MethodGet, path, "", header("Accept-Encoding", "gzip"))
		require.Equal(t, http.StatusOK, part.status, path)
		sum += len(part.body)
	}
	t.Logf("the page weighs %d bytes as it is sent", sum)
	require.Less(t, sum, maxPage)
	require.Greater(t, sum, 1000)
}
