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

// Beside returns the mistakes with those of others, which tell what is wrong with what could be read of the same file, that follow from none of them: those
// about a key that has no mistake in it nor is in one, that the file at src gives or whose entry has no mistake, which may be its misspelling, and that does not
// name an entry of a list whose names are not all known.
func (ms Mistakes) Beside(others Mistakes, src *Source) Mistakes {
	out := slices.Clone(ms)
	for _, o := range others {
		follows := func(m Mistake) bool {
			return within(m.Key, o.Key) || within(o.Key, m.Key) || !src.Has(o.Key) && within(m.Key, entryOf(o.Key)) || o.unnamed(m, src)
		}
		if !slices.ContainsFunc(ms, follows) {
			out = append(out, o)
		}
	}
	return out.sorted()
}

// within reports whether a key is the one at path or lies below it.
func within(key, path string) bool {
	rest, ok := strings.CutPrefix(key, path)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// entryOf returns the path of what holds a key.
func entryOf(key string) string { return key[:max(0, strings.LastIndexByte(key, '.'))] }

// unnamed reports whether m is about a key, such as scale, that names an entry of a list, scales, and other is why the name of an entry there is not known.
func (m Mistake) unnamed(other Mistake, src *Source) bool {
	entry, _, _ := strings.Cut(other.Key, "]")
	list, _, _ := strings.Cut(entry, "[")
	name := entry + "].name"
	return strings.HasSuffix(m.Key, "."+strings.TrimSuffix(list, "s")) && (!src.Has(name) || within(other.Key, name))
}
