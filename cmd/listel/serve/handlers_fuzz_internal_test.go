package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// A fuzzedRequest is one that the page may send, to be spoiled.
type fuzzedRequest struct{ method, url, body string }

// fuzzedRequests returns a sound request to each handler that takes a body or a query, in an order that is kept: the corpus counts by it.
func fuzzedRequests(f *testing.F) []fuzzedRequest {
	text := func(v any) string {
		data, err := json.Marshal(v)
		require.NoError(f, err)
		return string(data)
	}
	type m = map[string]any
	profile, press := cornice, exampleText(f, library.ExampleName)
	scan := string(withPicture(f, plateRequest(), library.StarterPlate()))
	return []fuzzedRequest{
		{"POST", "/api/section", text(m{"name": "a.yaml", "text": profile, "units": "in", "fraction": 16})},
		{"POST", "/api/edit", text(m{"name": "a.yaml", "text": profile, "change": m{"op": "set", "path": "elements[1].height", "value": "3/4"}})},
		{"POST", "/api/edit", text(m{"name": "a.yaml", "text": profile, "change": m{"op": "drag", "at": 1, "corner": "top", "x": 30, "y": 40, "snap": "1/16"}})},
		{"POST", "/api/case", text(m{"name": "a.yaml", "text": press, "change": m{"path": "stages[0].height", "value": "31", "follow": true}})},
		{"POST", "/api/setups", text(m{"name": "a.yaml", "text": profile, "effort": "quick", "work": "machine"})},
		{"POST", "/api/sheets", text(m{"what": "section", "name": "a.yaml", "text": profile, "paper": "A4"})},
		{"POST", "/api/sheets", text(m{"what": "packet", "name": "a.yaml", "text": press})},
		{"POST", "/api/packet?format=svg", text(m{"what": "template", "name": "a.yaml", "text": profile})},
		{"POST", "/api/packet?format=files", text(m{"what": "packet", "name": "a.yaml", "text": press})},
		{"POST", "/api/scan/trace", scan},
		{"POST", "/api/scan/picture", scan},
		{"PUT", "/api/file", text(m{"path": "b.yaml", "text": profile, "base": ""})},
		{"GET", "/api/file?path=a.yaml", ""},
		{"GET", "/api/library/text?kind=profile&name=press-cornice", ""},
		{"GET", "/page/app.js", ""},
	}
}

// FuzzHandlers: no request makes a handler panic or fail by its own fault, none is worked on after the page has left, and none leaves anything in
// the folder but files with the ending of ours. What is put into a request goes into its body or, from the end, into its address.
func FuzzHandlers(f *testing.F) {
	sound := fuzzedRequests(f)
	for i := range sound {
		f.Add(uint8(i), uint32(0), uint16(0), []byte{}, "")
		f.Add(uint8(i), uint32(25), uint16(3), []byte(`{"`), "%2e%2e/x")
		f.Add(uint8(i), uint32(60), uint16(1), []byte("-9e99"), "\x00")
	}
	f.Fuzz(func(t *testing.T, which uint8, at uint32, cut uint16, put []byte, query string) {
		q := sound[int(which)%len(sound)]
		body := []byte(q.body)
		if i := int(at); i > 0 && i < len(body) {
			body = bytes.Join([][]byte{body[:i], put, body[min(len(body), i+int(cut)):]}, nil)
		}
		s := serving(t)
		require.NoError(t, s.folder.root.MkdirAll("sub", 0o777))
		ctx, leave := context.WithTimeout(t.Context(), time.Second) // the page leaves
		defer leave()
		r := httptest.NewRequest(q.method, q.url, bytes.NewReader(body)).WithContext(ctx)
		if query != "" {
			r.URL.RawQuery += query
			r.URL.Path += query
		}
		r.Host = s.guard.hosts[0]
		r.Header.Set("X-Token", s.guard.token)
		w := httptest.NewRecorder()
		start := time.Now()
		s.http.Handler.ServeHTTP(w, r)
		require.NotEqual(t, http.StatusInternalServerError, w.Code, w.Body.String())
		require.Less(t, time.Since(start), 10*time.Second)
		require.NoError(t, fs.WalkDir(s.folder.root.FS(), ".", func(path string, e fs.DirEntry, err error) error {
			require.True(t, e.IsDir() || hasEnd(path, yamlEnds) && !strings.HasPrefix(e.Name(), "."), path)
			return err
		}))
	})
}
