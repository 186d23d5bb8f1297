package serve

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
)

// serving returns a server of a folder of its own.
func serving(t testing.TB) *Server {
	t.Helper()
	s, err := New(Options{Folder: t.TempDir()})
	require.NoError(t, err)
	t.Cleanup(s.Close)
	return s
}

// asked returns what h answers to a body.
func asked(t testing.TB, h handler, url string, body any) *httptest.ResponseRecorder {
	t.Helper()
	data, err := json.Marshal(body)
	require.NoError(t, err)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodPost, url, bytes.NewReader(data)))
	return w
}

func exampleText(t testing.TB, name string) string {
	t.Helper()
	text, _, err := library.Open("", "").Text(library.KindCase, name)
	require.NoError(t, err)
	return string(text)
}

func profileText(t testing.TB, name string) string {
	t.Helper()
	text, _, err := library.Open("", "").Text(library.KindProfile, name)
	require.NoError(t, err)
	return string(text)
}

// lines returns the lines of a stream.
func lines(t testing.TB, w *httptest.ResponseRecorder) []map[string]any {
	t.Helper()
	var out []map[string]any
	dec := json.NewDecoder(w.Body)
	for {
		var v map[string]any
		if err := dec.Decode(&v); err == io.EOF {
			return out
		} else {
			require.NoError(t, err)
		}
		out = append(out, v)
	}
}
