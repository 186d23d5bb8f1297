package library

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Mistake is one thing wrong in a file, and where.
type Mistake struct {
	File   string // as it was named to the reader
	Line   int    // from 1
	Column int    // in characters, from 1
	Key    string // path of the key, as in elements[2].height; "" when it is the whole file
	Found  string // what is there, as a sentence without its end
	Want   string // what would do, "" when that needs no saying
}

// Message returns the mistake without the name of its file: line 9: unknown key "hieght" in cove; height?
func (m Mistake) Message() string {
	s := fmt.Sprintf("line %d: %s", m.Line, m.Found)
	if m.Want != "" {
		s += "; " + m.Want
	}
	return s
}

// Error returns the mistake with its file and column: press.yaml, column 8 of line 9: unknown key ...
func (m Mistake) Error() string {
	if m.File == "" {
		return m.Message()
	}
	return fmt.Sprintf("%s, column %d of %s", m.File, m.Column, m.Message())
}

// Mistakes are all that is wrong in a file, from its top to its end.
type Mistakes []Mistake

// Error returns the mistakes, a line each.
func (ms Mistakes) Error() string {
	lines := make([]string, len(ms))
	for i, m := range ms {
		lines[i] = m.Error()
	}
	return strings.Join(lines, "\n")
}

// sorted returns the mistakes in the order of the file.
func (ms Mistakes) sorted() Mistakes {
	out := slices.Clone(ms)
	slices.SortStableFunc(out, func(a, b Mistake) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return out
}
