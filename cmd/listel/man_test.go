package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestMan: every command has its page with its options, the same bytes each time; a page of one's own is not replaced. Where man's formatter is there, it
// has nothing to say against them.
func TestMan(t *testing.T) {
	t.Chdir(t.TempDir())
	r := listel(t, "", "man", "--out", "pages/man1")
	require.Equal(t, exitDone, r.code, r.err)
	require.Empty(t, r.out)
	pages, err := filepath.Glob("pages/man1/*.1")
	require.NoError(t, err)
	first := map[string]string{}
	for _, p := range pages {
		text, err := os.ReadFile(p)
		require.NoError(t, err)
		first[filepath.Base(p)] = string(text)
	}
	for _, name := range []string{"listel.1", "listel-section.1", "listel-packet.1", "listel-library-show.1", "listel-new.1", "listel-printer-record.1", "listel-man.1"} {
		require.NotEmpty(t, first[name], name)
	}
	packet := first["listel-packet.1"]
	require.Regexp(t, `(?m)^\.TH "LISTEL-PACKET" "1" "" "listel" "Moldings for case furniture"$`, strings.ReplaceAll(packet, `\-`, "-"))
	for _, want := range []string{".SH NAME", ".SH SYNOPSIS", "no-setups", "paper", ".SH EXAMPLE", "listel packet press.yaml"} {
		require.Contains(t, strings.ReplaceAll(packet, `\-`, "-"), want)
	}
	require.Equal(t, exitDone, listel(t, "", "man", "--out", "pages/man1").code, "pages of its own are replaced")
	for name, was := range first {
		text, err := os.ReadFile(filepath.Join("pages/man1", name))
		require.NoError(t, err)
		require.Equal(t, was, string(text), name)
	}
	r = listel(t, "", "man", "--json")
	require.Equal(t, exitDone, r.code, r.err)
	var out struct{ Pages []string }
	require.NoError(t, json.Unmarshal([]byte(r.out), &out))
	require.Len(t, out.Pages, len(pages))
	require.FileExists(t, out.Pages[0])
	require.NoError(t, os.WriteFile("pages/man1/listel.1", []byte("mine\n"), 0o666))
	r = listel(t, "", "man", "--out", "pages/man1")
	require.Equal(t, exitUsage, r.code)
	require.Contains(t, r.err, "was not written by listel")
	require.Equal(t, exitUsage, listel(t, "", "man", "section").code)

	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Skip("no groff here: the pages are not formatted")
	}
	for _, p := range pages {
		out, err := exec.Command(groff, "-man", "-Tutf8", "-ww", "-z", p).CombinedOutput()
		require.NoError(t, err, p)
		require.Empty(t, string(out), p)
	}
}

// TestCompletionScripts: the shells that are here read the completions without a fault.
func TestCompletionScripts(t *testing.T) {
	tried := 0
	for _, shell := range []string{"bash", "zsh", "fish"} {
		r := listel(t, "", "completion", shell)
		require.Equal(t, exitDone, r.code, r.err)
		require.Contains(t, r.out, "listel")
		path, err := exec.LookPath(shell)
		if err != nil {
			continue
		}
		tried++
		file := filepath.Join(t.TempDir(), "listel."+shell)
		require.NoError(t, os.WriteFile(file, []byte(r.out), 0o666))
		out, err := exec.Command(path, "-n", file).CombinedOutput()
		require.NoError(t, err, "%s: %s", shell, out)
	}
	if tried == 0 {
		t.Skip("none of the shells is here: their completions are not read")
	}
}
