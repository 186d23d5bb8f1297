package library

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"listel/profile"
)

// The limits of a file.
const (
	MaxFileBytes = 4 << 20
	MaxElements  = profile.MaxElements // of any list that is as long as a profile's elements may be
	maxMistakes  = 100                 // reported of one file
	maxVisits    = 200_000             // values read of one file, each alias counting again
)

// parseDocument returns the root of the one YAML document in data. What keeps it from being read at all is a Mistake.
func parseDocument(file string, data []byte) (*yaml.Node, error) {
	fault := func(line, column int, found, want string) error {
		return Mistakes{{File: file, Line: line, Column: column, Found: found, Want: want}}
	}
	if len(data) > MaxFileBytes {
		return nil, fault(1, 1, "the file is over 4 MiB", "it must be smaller")
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return nil, fault(1, 1, "the file is in UTF-16", "save it as UTF-8")
	}
	data = bytes.TrimPrefix(data, []byte(byteOrderMark))
	if p, what, bad := badCharacter(data); bad {
		return nil, fault(p.Line, p.Column, what, "save the file as plain UTF-8 text")
	}
	docs, err := decodeAll(data)
	if err != nil {
		p, found, want := syntaxFault(data, err)
		return nil, fault(p.Line, p.Column, found, want)
	}
	if len(docs) == 0 || isNull(docs[0]) {
		return nil, fault(1, 1, "the file is empty", "its first line says what it is, such as kind: profile")
	}
	if len(docs) > 1 {
		return nil, fault(docs[1].Line, docs[1].Column, "a second document starts here", "one file holds one document: drop the --- line")
	}
	root := docs[0]
	if root.Kind != yaml.MappingNode {
		return nil, fault(root.Line, root.Column, "the file holds "+kindWords(root), "it is made of keys, such as kind: profile")
	}
	return root, nil
}

// decodeAll returns the root nodes of the documents in data, at most two. A panic of the YAML reader becomes an error.
func decodeAll(data []byte) (docs []*yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("yaml: %v", r)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(data))
	for len(docs) < 2 {
		var doc yaml.Node
		switch err := dec.Decode(&doc); {
		case errors.Is(err, io.EOF):
			return docs, nil
		case err != nil:
			return nil, err
		}
		if len(doc.Content) == 1 {
			docs = append(docs, doc.Content[0])
		}
	}
	return docs, nil
}

func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// kindWords returns what a node is, in words.
func kindWords(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "a group of keys"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case isNull(n):
		return "nothing"
	}
	return quoted(n.Value)
}

// quoted returns text in quotes, cut when long, control characters escaped.
func quoted(text string) string {
	const most = 60
	if utf8.RuneCountInString(text) > most {
		text = string([]rune(text)[:most]) + "..."
	}
	if strings.Contains(text, `"`) && !strings.ContainsAny(text, "`\n\r\t") {
		return "`" + text + "`"
	}
	return fmt.Sprintf("%q", text)
}

// badCharacter returns the place of the first character that no text file should hold.
func badCharacter(data []byte) (Place, string, bool) {
	p := Place{1, 1}
	for len(data) > 0 {
		r, n := utf8.DecodeRune(data)
		switch {
		case r == utf8.RuneError && n == 1:
			return p, fmt.Sprintf("the byte %#02x is no UTF-8 text", data[0]), true
		case r == '\n':
			p = Place{p.Line + 1, 0}
		case r == '\r' && !bytes.HasPrefix(data[n:], []byte("\n")):
			p = Place{p.Line + 1, 0}
		case r < ' ' && r != '\t' && r != '\r' || r == 0x7f:
			return p, fmt.Sprintf("there is a control character, %U", r), true
		}
		p.Column++
		data = data[n:]
	}
	return p, "", false
}

// syntaxWords turn what the YAML reader says into words about the file.
var syntaxWords = []struct{ says, found, want string }{
	{"mapping values are not allowed", `there is a ":" where none can stand`, "put quotes around a text that holds one, and check that the line before is complete"},
	{"did not find expected key", "no key stands where one should", "check how far the line is indented, and that brackets and quotes are closed"},
	{"did not find expected '-' indicator", "the list breaks off here", "start each entry with - at the same depth"},
	{"did not find expected ',' or '}'", "the braces that hold this are not closed, or a comma is missing", "write {height: 1/4, set: 1/8}"},
	{"did not find expected ',' or ']'", "the brackets that hold this are not closed, or a comma is missing", "write [left, front, right]"},
	{"could not find expected ':'", "a key has no colon", "write it like height: 1/4"},
	{"found unexpected end of stream", "a quote is opened here and not closed", "close it on the same line"},
	{"found character that cannot start any token", "a value cannot start with this character", "put quotes around the value"},
	{"found unknown escape character", "a backslash in double quotes is not understood", "use single quotes"},
	{"block sequence entries are not allowed", "a - stands where no list can", "put it on a line of its own below its key"},
	{"exceeded max", "groups lie in one another too deep", "no file of ours needs more than ten levels"},
	{"unknown anchor", "an alias (*name) has no anchor (&name) before it", "write the value out"},
}

var yamlPrefix = regexp.MustCompile(`^yaml: (line (\d+): )?`)

// syntaxFault returns where data stops being YAML, and what to say of it.
func syntaxFault(data []byte, err error) (Place, string, string) {
	lines := splitLines(data)
	n := brokenLine(lines, len(data), err)
	line := lines[n]
	indent := len(line) - len(bytes.TrimLeft(line, " \t"))
	if i := bytes.IndexByte(line[:indent], '\t'); i >= 0 {
		return Place{n + 1, i + 1}, "the line is indented with a tab", "use spaces"
	}
	text := yamlPrefix.ReplaceAllString(err.Error(), "")
	for _, w := range syntaxWords {
		if strings.Contains(text, w.says) {
			return Place{n + 1, indent + 1}, w.found, w.want
		}
	}
	return Place{n + 1, indent + 1}, "the file is no longer YAML here (" + text + ")", "check quotes, colons and how far lines are indented"
}

// splitLines returns the lines of data with their ends.
func splitLines(data []byte) [][]byte {
	var lines [][]byte
	for len(data) > 0 {
		i := bytes.IndexAny(data, "\r\n") + 1
		switch {
		case i == 0:
			i = len(data)
		case data[i-1] == '\r' && i < len(data) && data[i] == '\n':
			i++
		}
		lines = append(lines, data[:i])
		data = data[i:]
	}
	if len(lines) == 0 {
		lines = [][]byte{nil}
	}
	return lines
}

// brokenLine returns the index of the line after the longest beginning of a broken file that can be read by itself. Of a long
// file it is the line after some such beginning, and of a very long one the line that the YAML reader names.
func brokenLine(lines [][]byte, size int, err error) int {
	const (
		fewBytes  = 512 << 10 // read in all, trying line by line
		someBytes = 256 << 10 // of a file whose lines are searched
	)
	reads := func(n int) bool {
		_, err := decodeAll(bytes.Join(lines[:n], nil))
		return err == nil
	}
	if size*len(lines) <= fewBytes {
		for n := len(lines) - 1; n > 0; n-- {
			if reads(n) {
				return n
			}
		}
		return 0
	}
	if size > someBytes {
		n := 1
		if m := yamlPrefix.FindStringSubmatch(err.Error()); m != nil && m[2] != "" {
			n, _ = strconv.Atoi(m[2])
		}
		return min(max(n, 1), len(lines)) - 1
	}
	good, bad := 0, len(lines)
	for bad-good > 1 {
		if mid := (good + bad) / 2; reads(mid) {
			good = mid
		} else {
			bad = mid
		}
	}
	return good
}
