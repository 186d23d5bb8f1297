package main

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The command prints where the page is, serves it, and ends with nothing wrong when it is stopped.
func TestServe(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine.yaml"), []byte("kind: profile\n"), 0o600))
	out, printed := io.Pipe()
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan int, 1)
	go func() {
		app := App{Out: printed, Err: io.Discard, Now: func() time.Time { return time.Time{} }, Context: ctx}
		ended <- Main([]string{"serve", dir, "--json"}, app)
	}()
	var served servedJSON
	require.NoError(t, json.NewDecoder(out).Decode(&served))
	go io.Copy(io.Discard, out)
	require.Equal(t, dir, served.Folder)
	w, err := http.Get(served.URL)
	require.NoError(t, err)
	page, err := io.ReadAll(w.Body)
	w.Body.Close()
	require.NoError(t, err)
	require.Contains(t, string(page), "<title>listel</title>")
	stop()
	require.Equal(t, exitDone, <-ended)
	_, err = http.Get(served.URL)
	require.Error(t, err, "nothing listens any more")
}

// A folder that is not there, and a port that cannot be, are told.
func TestServeWrong(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file.yaml")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	for _, args := range [][]string{{"serve", filepath.Join(t.TempDir(), "nowhere")}, {"serve", "--port", "70000"}, {"serve", "a", "b"}, {"serve", "--port", "x"}} {
		r := listel(t, "", args...)
		require.Equal(t, exitUsage, r.code, "%v: %s", args, r.err)
	}
	r := listel(t, "", "serve", file)
	require.NotEqual(t, exitDone, r.code)
	require.Contains(t, r.err, "is no folder")
}
