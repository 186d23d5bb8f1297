package serve

import (
	"net/http"
	"unicode/utf8"

	"listel/library"
)

// A listed is a file of the folder as the page lists it.
type listed struct {
	Path  string `json:"path"`
	Kind  string `json:"kind"` // profile, case, tools, ... or image
	Name  string `json:"name"`
	Title string `json:"title"`
	Hash  string `json:"hash"` // "" of an image
}

// getFiles lists the folder.
func (s *Server) getFiles(w http.ResponseWriter, _ *http.Request) error {
	files := []listed{}
	for _, e := range s.folder.entries() {
		if hasEnd(e.path, imageEnds) {
			files = append(files, listed{Path: e.path, Kind: "image"})
			continue
		}
		data, err := s.folder.read(e.path, library.MaxFileBytes)
		if err != nil {
			continue // gone in the meantime, or too large to be one of ours
		}
		h := library.HeadOf(data)
		files = append(files, listed{e.path, h.Kind, h.Name, h.Title, hashOf(data)})
	}
	return answer(w, map[string]any{"folder": s.folder.dir, "files": files})
}

// getFile answers with the text of a file.
func (s *Server) getFile(w http.ResponseWriter, r *http.Request) error {
	p := r.URL.Query().Get("path")
	if err := checkPath(p, yamlEnds); err != nil {
		return err
	}
	data, err := s.folder.read(p, library.MaxFileBytes)
	if err != nil {
		return err
	}
	if !utf8.Valid(data) {
		return refused(http.StatusUnprocessableEntity, "%s is no UTF-8 text", p)
	}
	return answer(w, map[string]string{"path": p, "text": string(data), "hash": hashOf(data)})
}

// putFile writes the text of a file.
func (s *Server) putFile(w http.ResponseWriter, r *http.Request) error {
	var in struct{ Path, Text, Base string }
	if err := read(w, r, &in); err != nil {
		return err
	}
	if err := checkPath(in.Path, yamlEnds); err != nil {
		return err
	}
	if len(in.Text) > library.MaxFileBytes {
		return refused(http.StatusRequestEntityTooLarge, "a file has at most %d MiB", library.MaxFileBytes>>20)
	}
	hash, err := s.folder.write(in.Path, in.Text, in.Base)
	if err != nil {
		return err
	}
	s.news.wrote(in.Path, hash)
	return answer(w, map[string]string{"hash": hash})
}
