package serve

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"time"

	"listel/cmd/listel/job"
	"listel/library"
)

// maxBody bounds the bodies of requests but for images: a file of the greatest size, written as JSON, and the profiles beside it.
const maxBody = 4 << 20

// A handler answers a request, or returns why not.
type handler func(http.ResponseWriter, *http.Request) error

// ServeHTTP answers with what h wrote, or with its error.
func (h handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Cache-Control", "no-store")
	if err := h(w, r); err != nil {
		answerError(w, err)
	}
}

// A refusal is an error with its HTTP status, and what else the answer says.
type refusal struct {
	status int
	words  string
	more   map[string]any
}

// Error returns the words.
func (r *refusal) Error() string { return r.words }

func refused(status int, format string, a ...any) error {
	return &refusal{status: status, words: fmt.Sprintf(format, a...)}
}

// statusOf returns the status that an error is answered with.
func statusOf(err error) int {
	var r *refusal
	var choice *job.ChoiceError
	var missing *library.NotFoundError
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &r):
		return r.status
	case errors.As(err, &choice):
		return http.StatusBadRequest
	case errors.As(err, &large):
		return http.StatusRequestEntityTooLarge
	case errors.As(err, &missing), errors.Is(err, fs.ErrNotExist):
		return http.StatusNotFound
	case errors.Is(err, os.ErrDeadlineExceeded):
		return http.StatusRequestTimeout
	}
	return http.StatusUnprocessableEntity
}

// answerError answers with an error, in words.
func answerError(w http.ResponseWriter, err error) {
	body := map[string]any{}
	var r *refusal
	if errors.As(err, &r) {
		for key, v := range r.more {
			body[key] = v
		}
	}
	body["error"] = err.Error()
	status := statusOf(err)
	if status == http.StatusRequestEntityTooLarge || status == http.StatusRequestTimeout {
		w.Header().Set("Connection", "close") // what is left of the body is not read
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(body) // the client may be gone
}

// answer sends v as JSON.
func answer(w http.ResponseWriter, v any) error {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(v) // all of v is ours and encodes; the client may be gone
	return nil
}

// body returns the body of a request, of at most so many bytes, read within the time that a body may take.
func body(w http.ResponseWriter, r *http.Request, most int64) ([]byte, error) {
	control := http.NewResponseController(w)
	_ = control.SetReadDeadline(time.Now().Add(bodyTime)) // a recorder of a test has none
	data, err := io.ReadAll(http.MaxBytesReader(w, r.Body, most))
	if err != nil {
		var large *http.MaxBytesError
		if errors.As(err, &large) {
			return nil, refused(http.StatusRequestEntityTooLarge, "it is over %d MiB", most>>20)
		}
		return nil, err
	}
	_ = control.SetReadDeadline(time.Time{}) // from here on only the end of the connection counts
	return data, nil
}

// read reads the JSON body of a request into v.
func read(w http.ResponseWriter, r *http.Request, v any) error {
	data, err := body(w, r, maxBody)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return refused(http.StatusBadRequest, "the request is not understood: %s", err)
	}
	return nil
}
