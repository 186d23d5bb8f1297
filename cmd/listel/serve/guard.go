package serve

import (
	"crypto/subtle"
	"fmt"
	"net/http"
	"slices"
	"strings"
)

// A guard lets through only what the page itself asks: requests to the very address that was printed, from no other page, and to the
// interface only with the token that the page holds. A name that is made to lead to this machine, or a page from elsewhere, gets nothing.
type guard struct {
	hosts []string // as a browser writes them
	token string
}

func newGuard(port int, token string) guard {
	return guard{hosts: []string{fmt.Sprintf("127.0.0.1:%d", port), fmt.Sprintf("localhost:%d", port)}, token: token}
}

// policy is the content security policy of every answer: what the page needs comes from here, and nothing is written into it.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// around returns h behind the guard.
func (g guard) around(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer recovered(w)
		head := w.Header()
		head.Set("Content-Security-Policy", policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "no-referrer")
		head.Set("Cross-Origin-Opener-Policy", "same-origin")
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		head.Set("X-Frame-Options", "DENY")
		if err := g.refuses(r); err != nil {
			answerError(w, err)
			return
		}
		h.ServeHTTP(w, r)
	})
}

// recovered answers for a handler that panicked: the fault is ours, and the next request is served all the same.
func recovered(w http.ResponseWriter) {
	switch fault := recover(); fault {
	case nil:
	case http.ErrAbortHandler:
		panic(fault)
	default:
		answerError(w, &refusal{status: http.StatusInternalServerError, words: "this is a fault of listel; what you have is kept"})
	}
}

// refuses returns why a request is not let through, nil when it is.
func (g guard) refuses(r *http.Request) error {
	switch {
	case !slices.Contains(g.hosts, r.Host):
		return refused(http.StatusForbidden, "this address is not the one that listel printed")
	case !g.ownOrigin(r.Header.Values("Origin"), r.Host):
		return refused(http.StatusForbidden, "requests of other pages are refused")
	}
	if !strings.HasPrefix(r.URL.Path, "/api/") {
		return nil
	}
	site := r.Header.Get("Sec-Fetch-Site")
	if site != "" && site != "same-origin" {
		return refused(http.StatusForbidden, "requests of other pages are refused")
	}
	token := r.Header.Get("X-Token")
	if token == "" && r.Method == http.MethodGet && r.URL.Path == "/api/events" { // a browser's event source sends no headers
		token = r.URL.Query().Get("token")
	}
	if subtle.ConstantTimeCompare([]byte(token), []byte(g.token)) != 1 {
		return refused(http.StatusForbidden, "this page is from an earlier run of listel; load it again")
	}
	return nil
}

// ownOrigin reports whether a request says that it comes from the page at host, or says nothing.
func (g guard) ownOrigin(origins []string, host string) bool {
	return len(origins) == 0 || len(origins) == 1 && origins[0] == "http://"+host
}
