package miter

import (
	"fmt"
	"strings"
)

// An Error is one fault of a case. Path names the file key it stands under, as in "moldings[2].reach.left" or
// "stages[0].plan.canted"; it is "" for the case as a whole.
type Error struct {
	Path   string
	Reason string
	Cause  error    // what a look-up returned, nil otherwise
	Name   string   // an unknown name that the key gives, "" for any other fault
	Names  []string // those that it could give
}

// Error returns the path and the reason: "moldings[2].reach.left: ...".
func (e *Error) Error() string {
	if e.Path == "" {
		return e.Reason
	}
	return e.Path + ": " + e.Reason
}

// Unwrap returns the cause, nil when there is none.
func (e *Error) Unwrap() error { return e.Cause }

// Errors are all the faults found in a case, in the order of its file keys.
type Errors []*Error

// Error returns the faults, a line each.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, f := range e {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults one by one, for errors.As.
func (e Errors) Unwrap() []error {
	out := make([]error, len(e))
	for i, f := range e {
		out[i] = f
	}
	return out
}

// faults collects what is wrong.
type faults struct{ list Errors }

func (f *faults) add(path, format string, args ...any) {
	f.list = append(f.list, &Error{Path: path, Reason: fmt.Sprintf(format, args...)})
}

// unknown notes that the key at path gives a name that is none of names; reason says of what.
func (f *faults) unknown(path, reason, name string, names []string) {
	f.list = append(f.list, &Error{Path: path, Reason: fmt.Sprintf("%s named %q; it has %s", reason, name, strings.Join(names, ", ")), Name: name, Names: names})
}

func (f *faults) cause(path string, err error) {
	f.list = append(f.list, &Error{Path: path, Reason: err.Error(), Cause: err})
}

// err returns nil when nothing is wrong: an empty Errors in an error would not be nil.
func (f *faults) err() error {
	if len(f.list) == 0 {
		return nil
	}
	return f.list
}
