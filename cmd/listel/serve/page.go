package serve

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"
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
