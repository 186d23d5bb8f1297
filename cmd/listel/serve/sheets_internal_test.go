package serve

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
	"listel/template/sheet"
)

// The PDF from the page is what the packet of the same file comes to without it, byte for byte; the sheets that are streamed are its pages.
func TestPacketIsTheCommandsOwn(t *testing.T) {
	s := serving(t)
	q := sheetsRequest{What: "packet", Name: "press.yaml", Text: exampleText(t, library.ExampleName), Paper: "A4"}
	require.NoError(t, os.WriteFile(filepath.Join(s.folder.dir, q.Name), []byte(q.Text), 0o600))
	w := asked(t, s.postPacket, "/api/packet?format=pdf", q)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	require.Equal(t, `attachment; filename="herb-press-packet.pdf"`, w.Header().Get("Content-Disposition"))

	lib := library.Open("", "")
	c, err := job.LoadCase(lib, "press.yaml", q.Text)
	require.NoError(t, err)
	style, err := job.Paper{Name: "A4"}.Style(lib, "", measure.Format{Units: measure.Inches, Fraction: 64}, "press.yaml")
	require.NoError(t, err)
	doc, _, err := c.Packet(context.Background(), job.Packet{Style: style})
	require.NoError(t, err)
	var want bytes.Buffer
	require.NoError(t, sheet.WritePDF(&want, doc))
	require.True(t, bytes.Equal(want.Bytes(), w.Body.Bytes()), "%d bytes, not %d", w.Body.Len(), want.Len())

	all := lines(t, asked(t, s.postSheets, "/api/sheets", q))
	require.Len(t, all, len(doc.Pages)+1)
	require.Len(t, all[0]["sheets"], len(doc.Pages))
	var page bytes.Buffer
	require.NoError(t, sheet.WriteSVG(&page, doc.Pages[2]))
	require.Equal(t, page.String(), all[3]["svg"])
	require.NotContains(t, page.String(), "style=", "the page's policy takes no style attribute")
}

// What the sheets lack is told by the fields of the page: a sprung cornice whose blank nobody has chosen, and no stock.
func TestSheetsNotesInPageWords(t *testing.T) {
	s := serving(t)
	text, _, found := strings.Cut(exampleText(t, library.ExampleName), "\nstock:")
	require.True(t, found)
	text = strings.Replace(text, "    blank: upright #", "    #", 1)
	q := sheetsRequest{What: "packet", Name: "press.yaml", Text: text, Paper: "A4"}
	first := lines(t, asked(t, s.postSheets, "/api/sheets", q))[0]
	require.NotNil(t, first["notes"], first)
	notes := fmt.Sprint(first["notes"])
	require.Contains(t, notes, "choose Blank among the molding's fields in Case.")
	require.Contains(t, notes, "Under Wood to buy in Case, add the boards that can be had.")
	require.NotContains(t, notes, "stock: [")
	require.NotContains(t, notes, "blank: flat")
}

// Sheets that are drawn from what is not saved say so where they name their file, and to the page; when it is saved they no longer do.
func TestSheetsSayWhatIsNotSaved(t *testing.T) {
	s := serving(t)
	q := sheetsRequest{What: "packet", Name: "press.yaml", Text: exampleText(t, library.ExampleName), Paper: "A4"}
	source := func() (string, any) {
		done, err := s.sheets(context.Background(), q, func(string, int, int) {})
		require.NoError(t, err)
		for _, p := range done.doc.Pages {
			require.Equal(t, done.doc.Pages[0].Frame.Source, p.Frame.Source)
		}
		return done.doc.Pages[0].Frame.Source, lines(t, asked(t, s.postSheets, "/api/sheets", q))[0]["unsaved"]
	}
	words, names := source()
	require.Equal(t, "press.yaml, not saved", words)
	require.Equal(t, []any{"press"}, names)
	require.NoError(t, os.WriteFile(filepath.Join(s.folder.dir, q.Name), []byte(q.Text), 0o600))
	words, names = source()
	require.Equal(t, "press.yaml", words)
	require.Empty(t, names)
	cornice, _, err := library.Open("", "").Text(library.KindProfile, "press-cornice")
	require.NoError(t, err)
	q.Profiles = map[string]string{"press-cornice": string(cornice), "of-no-use-here": string(cornice)}
	words, names = source()
	require.Equal(t, "press.yaml; press-cornice, not saved", words)
	require.Equal(t, []any{"press-cornice"}, names)
	require.Equal(t, "press.yaml and 3 profiles, not saved", unsaved{"press", []string{"a", "b", "c"}}.source("press.yaml"))

	answer, err := s.caseAnswer(context.Background(), caseRequest{Name: q.Name, Profiles: q.Profiles}, q.Text)
	require.NoError(t, err)
	require.Equal(t, []string{"press-cornice"}, answer.Unsaved)
}

// A profile that stands in another one, and in one that stands in that, is told too when it is not saved.
func TestUnsavedInStacks(t *testing.T) {
	s := serving(t)
	const fillet = "kind: profile\nname: bed\nunits: in\nground: 1/2\nelements: [{fillet: {height: 1/4}}]\n"
	stack := func(name, of string) string {
		return "kind: profile\nname: " + name + "\nunits: in\nground: 1/2\nelements: [{stack: {profile: " + of + "}}, {fillet: {height: 1/8}}]\n"
	}
	drafts := map[string]string{"bed": fillet, "middle": stack("middle", "bed"), "of-no-use-here": fillet}
	text := stack("whole", "middle")
	require.NoError(t, os.WriteFile(filepath.Join(s.folder.dir, "whole.yaml"), []byte(text), 0o600))
	done, err := s.sheets(context.Background(), sheetsRequest{What: "section", Name: "whole.yaml", Text: text, Profiles: drafts}, func(string, int, int) {})
	require.NoError(t, err)
	require.Equal(t, []string{"bed", "middle"}, done.odd.names())
	require.Equal(t, "whole.yaml; bed and middle, not saved", done.doc.Pages[0].Frame.Source)
}

func TestPacketFiles(t *testing.T) {
	s := serving(t)
	q := sheetsRequest{What: "packet", Name: "press.yaml", Text: exampleText(t, library.ExampleName), Units: "mm"}
	read := func(format string) map[string]string {
		w := asked(t, s.postPacket, "/api/packet?format="+format, q)
		require.Equal(t, http.StatusOK, w.Code, w.Body.String())
		z, err := zip.NewReader(bytes.NewReader(w.Body.Bytes()), int64(w.Body.Len()))
		require.NoError(t, err)
		out := map[string]string{}
		for _, f := range z.File {
			r, err := f.Open()
			require.NoError(t, err)
			data, err := io.ReadAll(r)
			require.NoError(t, err)
			out[f.Name] = string(data)
		}
		return out
	}
	texts := read("files")
	require.Equal(t, q.Text, texts["press.yaml"])
	require.Equal(t, profileText(t, "press-waist"), texts["press-waist.yaml"])
	svg := read("svg")
	require.Contains(t, svg["herb-press-packet-01.svg"], "<svg")
	w := asked(t, s.postPacket, "/api/packet?format=exe", q)
	require.Equal(t, http.StatusBadRequest, w.Code)
}

// What is the maker's own and goes into the case is among its files: the wood and the tools; what comes with the program is not.
func TestPacketFilesHoldOwnWoodsAndTools(t *testing.T) {
	s := serving(t)
	woods := "kind: woods\nwoods:\n  - {name: orchard pear, shrinkage: {radial: 4, tangential: 8, table: invented, mark: invented}}\n"
	tools := "kind: tools\nname: mine\nunits: in\ntools:\n  - straight: {diameter: 1/4, length: 3/4, shank: 1/4, reach: 1 1/2, per-pass: 3/16}\n"
	require.NoError(t, os.WriteFile(filepath.Join(s.folder.dir, "pear.yaml"), []byte(woods), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(s.folder.dir, "mine.yaml"), []byte(tools), 0o600))
	text := strings.Replace(exampleText(t, library.ExampleName), "wood: black cherry\n", "wood: orchard pear\n", 1)
	q := sheetsRequest{What: "packet", Name: "press.yaml", Text: text, Tools: "mine"}
	done, err := s.sheets(t.Context(), q, func(string, int, int) {})
	require.NoError(t, err)
	byPath := map[string]string{}
	for _, f := range done.files {
		byPath[f.Path] = string(f.Data)
	}
	require.Equal(t, woods, byPath["pear.yaml"])
	require.Equal(t, tools, byPath["mine.yaml"])
	require.NotContains(t, byPath, "woods.yaml")
	q.Tools = library.InchTools
	done, err = s.sheets(t.Context(), q, func(string, int, int) {})
	require.NoError(t, err)
	for _, f := range done.files {
		require.NotContains(t, f.Path, "tools")
	}
}

// Sheets come with the part of the work that they are for, in its order; the cover is for none.
func TestSheetsTellTheirPart(t *testing.T) {
	all := lines(t, asked(t, serving(t).postSheets, "/api/sheets", sheetsRequest{What: "packet", Name: "press.yaml", Text: exampleText(t, library.ExampleName)}))
	require.Equal(t, "Letter", all[0]["paper"])
	var parts []string
	for _, e := range all[0]["sheets"].([]any) {
		parts = append(parts, e.(map[string]any)["part"].(string))
	}
	require.Equal(t, "", parts[0])
	parts = slices.Compact(parts)
	require.Equal(t, []string{"", "Sections", "What to buy and how to cut it", "Scrapers and gauges"}, parts[:4])
	require.Equal(t, "Printer check", parts[len(parts)-1])
}

// The sheets of a profile, and what is refused: mistakes come as a line of the stream, an unknown paper as an error.
func TestProfileSheets(t *testing.T) {
	s := serving(t)
	for _, what := range []string{"section", "template"} {
		q := sheetsRequest{What: what, Name: "waist", Text: profileText(t, "press-waist")}
		all := lines(t, asked(t, s.postSheets, "/api/sheets", q))
		require.NotEmpty(t, all[0]["sheets"], what)
		require.Contains(t, all[1]["svg"], "<svg", what)
	}
	q := sheetsRequest{What: "section", Name: "waist", Text: "kind: profile\nheight: x\n"}
	require.NotEmpty(t, lines(t, asked(t, s.postSheets, "/api/sheets", q))[0]["mistakes"])
	q = sheetsRequest{What: "section", Name: "waist", Text: profileText(t, "press-waist"), Paper: "Napkin"}
	require.Contains(t, lines(t, asked(t, s.postSheets, "/api/sheets", q))[0]["error"], "Napkin")
}

// A page that has left stops the search for set-ups.
func TestLeavingStopsTheSheets(t *testing.T) {
	s := serving(t)
	ctx, leave := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	var once sync.Once
	begun := make(chan struct{})
	go func() {
		_, err := s.sheets(ctx, sheetsRequest{What: "packet", Name: "press", Text: exampleText(t, library.ExampleName), Setups: true}, func(string, int, int) {
			once.Do(func() { close(begun) })
		})
		ended <- err
	}()
	<-begun
	leave()
	select {
	case err := <-ended:
		require.ErrorIs(t, err, context.Canceled)
	case <-time.After(20 * time.Second):
		t.Fatal("it goes on")
	}
	require.Empty(t, s.slots)
}
