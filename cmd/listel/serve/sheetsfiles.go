package serve

import (
	"archive/zip"
	"bytes"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/template/sheet"
)

// postPacket answers with the files of what is asked for: format=pdf as the command writes it, svg as one file a sheet in a zip, files as
// the texts that they were made from, in a zip.
func (s *Server) postPacket(w http.ResponseWriter, r *http.Request) error {
	var q sheetsRequest
	if err := read(w, r, &q); err != nil {
		return err
	}
	format := r.URL.Query().Get("format")
	if format != "pdf" && format != "svg" && format != "files" {
		return refused(http.StatusBadRequest, "%q is no kind of file; it is pdf, svg or files", format)
	}
	if format == "files" {
		q.Setups = false // they are not in the texts
	}
	done, err := s.sheets(r.Context(), q, func(string, int, int) {})
	if err != nil {
		return err
	}
	switch format {
	case "pdf":
		var b bytes.Buffer
		if err := sheet.WritePDF(&b, done.doc); err != nil {
			return err
		}
		return download(w, done.stem+".pdf", "application/pdf", b.Bytes())
	case "svg":
		files, err := svgFiles(done)
		if err != nil {
			return err
		}
		return answerZip(w, done.stem+"-svg.zip", files)
	}
	return answerZip(w, done.stem+"-files.zip", done.files)
}

// ownFiles returns files with those of the maker's own that a case takes its woods and the tools of that name from. What comes with the
// program is everywhere, and left out.
func ownFiles(files []library.File, lib *library.Library, c job.Case, tools string) []library.File {
	add := func(kind library.Kind, name string) {
		text, origin, err := lib.Text(kind, name)
		file := filepath.Base(origin.File)
		if err != nil || origin.Where == library.Embedded || slices.ContainsFunc(files, func(f library.File) bool { return f.Path == file }) {
			return
		}
		files = append(files, library.File{Path: file, Data: text})
	}
	woods := []string{c.Case.Wood}
	for _, it := range c.Case.Stock {
		woods = append(woods, it.Wood)
	}
	for _, name := range woods {
		if _, origin, err := lib.WoodSource(name); err == nil && origin.Where != library.Embedded {
			file := filepath.Base(origin.File)
			add("woods", strings.TrimSuffix(file, filepath.Ext(file)))
		}
	}
	if tools != "" {
		add("tools", tools)
	}
	return files
}

// svgFiles returns a document as the files that the command writes.
func svgFiles(done sheetsDone) ([]library.File, error) {
	var out []library.File
	for i, p := range done.doc.Pages {
		var b bytes.Buffer
		if err := sheet.WriteSVG(&b, p); err != nil {
			return nil, err
		}
		out = append(out, library.File{Path: job.PagePath(done.stem+".svg", i, len(done.doc.Pages)), Data: b.Bytes()})
	}
	return out, nil
}

// answerZip answers with files in a zip, the same bytes for the same files.
func answerZip(w http.ResponseWriter, name string, files []library.File) error {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		// A zip says when its files were made; a fixed day keeps the bytes the same.
		to, err := z.CreateHeader(&zip.FileHeader{Name: f.Path, Method: zip.Deflate, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)})
		if err == nil {
			_, err = to.Write(f.Data)
		}
		if err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return err
	}
	return download(w, name, "application/zip", b.Bytes())
}

// A papersAnswer is what sheets can be printed on.
type papersAnswer struct {
	Papers   []string          `json:"papers"`
	Printers []library.Printer `json:"printers"`
}

// commonPaper returns the rank of a paper by how common it is in a shop's printer; those that are in none come last.
func commonPaper(name string) int {
	common := []string{"Letter", "A4", "Legal", "Tabloid", "A3"}
	if i := slices.Index(common, name); i >= 0 {
		return i
	}
	return len(common)
}

// getPapers answers with the papers and the measured printers that there are.
func (s *Server) getPapers(w http.ResponseWriter, _ *http.Request) error {
	out := papersAnswer{Papers: sheet.PaperNames(), Printers: []library.Printer{}}
	slices.SortStableFunc(out.Papers, func(a, b string) int { return commonPaper(a) - commonPaper(b) })
	lib, err := s.libraryOf("x.yaml", nil)
	if err != nil {
		return err
	}
	if own, err := lib.Papers(); err == nil { // a file of papers with mistakes leaves the standard ones
		for _, p := range own {
			if _, known := sheet.PaperNamed(p.Name); known != nil {
				out.Papers = append(out.Papers, p.Name)
			}
		}
	}
	if printers, err := library.Printers(s.user); err == nil {
		out.Printers = append(out.Printers, printers...)
	}
	return answer(w, out)
}
