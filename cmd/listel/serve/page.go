package serve

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"html/template"
	"io/fs"
	"mime"
	"net/http"
	"path"
)

//go:embed page
var assets embed.FS

// types are the kinds of file that the page is made of; a machine's own table of them may say otherwise.
var types = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml",
}

// getIndex answers with the page, the token and the folder's name in it.
func (s *Server) getIndex(w http.ResponseWriter, _ *http.Request) {
	index, err := template.ParseFS(assets, "page/index.html")
	var b bytes.Buffer
	if err == nil {
		err = index.Execute(&b, map[string]string{"Token": s.guard.token, "Folder": s.folder.dir})
	}
	if err != nil {
		answerError(w, refused(http.StatusInternalServerError, "the page cannot be made: %s", err))
		return
	}
	w.Header().Set("Content-Type", types[".html"])
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(b.Bytes())
}

// asset returns a file of the page as it is sent: lines of comment in a module or a style sheet are for those who read its source. Its lines keep
// their numbers.
func asset(name string) ([]byte, error) {
	data, err := fs.ReadFile(assets, path.Join("page", name))
	if err != nil {
		return nil, err
	}
	var open, end string
	switch path.Ext(name) {
	case ".js":
		open = "//"
	case ".css":
		open, end = "/*", "*/"
	default:
		return data, nil
	}
	lines := bytes.Split(data, []byte("\n"))
	for i, line := range lines {
		if line = bytes.TrimSpace(line); bytes.HasPrefix(line, []byte(open)) && bytes.HasSuffix(line, []byte(end)) {
			lines[i] = nil
		}
	}
	return bytes.Join(lines, []byte("\n")), nil
}

// getAsset answers with one of the page's files; a browser that has it still asks, and is told so.
func (s *Server) getAsset(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	data, err := asset(name)
	if err != nil || name == "index.html" || !fs.ValidPath(name) {
		answerError(w, refused(http.StatusNotFound, "the page has no %q", name))
		return
	}
	kind := types[path.Ext(name)]
	if kind == "" {
		kind = mime.TypeByExtension(path.Ext(name))
	}
	sum := sha256.Sum256(data)
	tag := `"` + hex.EncodeToString(sum[:8]) + `"`
	head := w.Header()
	head.Set("Content-Type", kind)
	head.Set("Cache-Control", "no-cache")
	head.Set("ETag", tag)
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	_, _ = w.Write(data)
}
