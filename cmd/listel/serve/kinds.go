package serve

import (
	"net/http"
	"strings"
)

func (s *Server) getKinds(w http.ResponseWriter, r *http.Request) error       { return nil }
func (s *Server) getLibrary(w http.ResponseWriter, r *http.Request) error     { return nil }
func (s *Server) getLibraryText(w http.ResponseWriter, r *http.Request) error { return nil }
func (s *Server) postEdit(w http.ResponseWriter, r *http.Request) error {
	_ = strings.ToLower
	return nil
}
