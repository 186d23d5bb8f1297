package library

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// SetKey returns the text of a YAML file with the value of one key changed, everything else - comments, blank lines, the order
// of keys, quotes - as it was. path is a key path as Source has it, such as height, elements[2].height or
// moldings[0].reach.left; value is the new value as the file is to say it, on one line: 5/8, [left, front], {height: 1/4}. A key that the
// group around it does not have yet is added at its end. The error says what keeps the text from being changed: it does not
// read, there is no such group or entry, or it is written over several lines.
func SetKey(data []byte, path, value string) ([]byte, error) {
	k, err := ReadKeyed(data)
	if err != nil {
		return nil, err
	}
	return k.Set(KeyValue{path, value})
}

// A KeyValue is a key by its path, and the value that it is to have, both as SetKey takes them.
type KeyValue struct{ Path, Value string }

// Set returns the text with the values of keys changed, as SetKey changes one, in one go. A key may be given once, and none within the value of
// another. Without any the text comes back as it was. The error is as SetKey's.
func (k Keyed) Set(all ...KeyValue) ([]byte, error) {
	cuts := make([]cut, 0, len(all))
	for _, kv := range all {
		c, err := k.setting(kv)
		if err != nil {
			return nil, err
		}
		cuts = append(cuts, c)
	}
	slices.SortStableFunc(cuts, func(a, b cut) int { return cmp.Compare(a.from, b.from) })
	out := []byte(byteOrderMark[:k.editor.start])
	at := 0
	for _, c := range cuts {
		if c.from < at {
			return nil, errors.New("a key is changed twice")
		}
		out = append(append(out, k.editor.text[at:c.from]...), c.with...)
		at = c.to
	}
	out = append(out, k.editor.text[at:]...)
	if _, err := parseDocument("", out); err != nil && len(all) > 0 {
		return nil, fmt.Errorf("%s: the text cannot be changed there", all[0].Path)
	}
	return out, nil
}

// setting returns the cut that gives a key its value.
func (k Keyed) setting(kv KeyValue) (cut, error) {
	if err := oneLine(kv.Value); err != nil {
		return cut{}, err
	}
	steps, err := splitPath(kv.Path)
	if err != nil {
		return cut{}, err
	}
	group, missing := walk(k.root, steps[:len(steps)-1])
	if group == nil {
		return cut{}, fmt.Errorf("%s: there is no %s", kv.Path, missing)
	}
	var c cut
	last := steps[len(steps)-1]
	if old, _ := walk(k.root, steps); old != nil {
		c, err = k.editor.replacing(old, kv.Value)
	} else if err = errors.New("there is no " + last.String()); last.key != "" && group.Kind == yaml.MappingNode {
		c, err = k.editor.inserting(group, last.key, kv.Value)
	}
	if err != nil {
		return cut{}, fmt.Errorf("%s: %w", kv.Path, err)
	}
	return c, nil
}

// oneLine returns an error unless value is one YAML value on one line, in brackets, in braces and behind a key alike: what ends one of them
// early, or begins a comment, reads otherwise in another.
func oneLine(value string) error {
	var first *yaml.Node
	for _, around := range [][2]string{{"[", "]"}, {"{k: ", "}"}, {"k: ", ""}} {
		var doc yaml.Node
		if strings.ContainsAny(value, "\r\n") || yaml.Unmarshal([]byte(around[0]+value+around[1]), &doc) != nil || len(doc.Content) != 1 {
			return fmt.Errorf("%s is not one value on one line", quoted(value))
		}
		all := doc.Content[0].Content
		want := 2
		if around[0] == "[" {
			want = 1
		}
		if len(all) != want || first != nil && !sameNode(first, all[want-1]) {
			return fmt.Errorf("%s is not one value on one line", quoted(value))
		}
		first = all[want-1]
	}
	return nil
}

// Scalar returns a text as a file is to say it on one line: bare where it reads as itself, else in quotes. Line breaks become blanks.
func Scalar(text string) string {
	text = strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' }), " ")
	var n yaml.Node
	if oneLine(text) == nil && yaml.Unmarshal([]byte("["+text+"]"), &n) == nil {
		if v := n.Content[0].Content[0]; v.Kind == yaml.ScalarNode && v.Style == 0 && v.Value == text && !isNull(v) {
			return text
		}
	}
	return "'" + strings.ReplaceAll(text, "'", "''") + "'"
}

// A pathStep is one step of a key path: a key, or a place in a list.
type pathStep struct {
	key   string
	index int
}

func (s pathStep) String() string {
	if s.key == "" {
		return fmt.Sprintf("entry [%d]", s.index)
	}
	return "key " + s.key
}

// splitPath splits a path such as moldings[0].reach.left.
func splitPath(path string) ([]pathStep, error) {
	var steps []pathStep
	for _, part := range strings.Split(path, ".") {
		key, rest, _ := strings.Cut(part, "[")
		if key == "" {
			return nil, fmt.Errorf("%s is no path of a key", quoted(path))
		}
		steps = append(steps, pathStep{key: key})
		for rest != "" {
			number, more, ok := strings.Cut(rest, "]")
			i, err := strconv.Atoi(number)
			if !ok || err != nil || i < 0 {
				return nil, fmt.Errorf("%s is no path of a key", quoted(path))
			}
			steps = append(steps, pathStep{index: i})
			rest = strings.TrimPrefix(more, "[")
		}
	}
	return steps, nil
}

// walk returns the node that steps lead to, nil when there is none, and then the step that leads nowhere. An element of a profile is left out with its kind.
func walk(n *yaml.Node, steps []pathStep) (to *yaml.Node, missing pathStep) {
	for i, s := range steps {
		if n != nil {
			n = step(n, s, i == 1 && steps[0].key == elementsKey)
		}
		if n == nil {
			return nil, s
		}
	}
	return n, pathStep{}
}

// step returns the node that a step leads to, nil when there is none. An element leads on to its sizes, past its kind.
func step(n *yaml.Node, s pathStep, element bool) *yaml.Node {
	var to *yaml.Node
	switch {
	case s.key != "" && n.Kind == yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == s.key {
				to = n.Content[i+1]
			}
		}
	case s.key == "" && n.Kind == yaml.SequenceNode && s.index < len(n.Content):
		to = n.Content[s.index]
	}
	if element && to != nil && to.Kind == yaml.MappingNode && len(to.Content) == 2 {
		to = to.Content[1]
	}
	return to
}

// An editor changes a text at the places of its nodes.
type editor struct {
	text   []byte
	start  int   // bytes before the text: a byte order mark
	starts []int // bytes at which its lines start, nil when they are not known yet
}

// newEditor returns an editor of the text of a file.
func newEditor(data []byte) editor {
	text := bytes.TrimPrefix(data, []byte(byteOrderMark))
	return editor{text: text, start: len(data) - len(text)}
}

// file returns the file as the text is now, with what stands before it.
func (e *editor) file() []byte { return append([]byte(byteOrderMark[:e.start]), e.text...) }

// A cut is a part of a text, and what takes its place.
type cut struct {
	from, to int // bytes
	with     string
}

// replacing returns the cut that puts value in the place of a node.
func (e *editor) replacing(n *yaml.Node, value string) (cut, error) {
	from := e.offset(n.Line, n.Column)
	to, err := e.end(n)
	if isNull(n) && n.Value == "" {
		value = " " + value
	}
	return cut{from, to, value}, err
}

// inserting returns the cut that adds a key at the end of a mapping.
func (e *editor) inserting(n *yaml.Node, key, value string) (cut, error) {
	pair := key + ": " + value
	if len(n.Content) == 0 {
		at := e.offset(n.Line, n.Column) + 1
		return cut{at, at, pair}, nil
	}
	at, err := e.end(n.Content[len(n.Content)-1])
	if err != nil {
		return cut{}, err
	}
	if n.Style&yaml.FlowStyle != 0 {
		return cut{at, at, ", " + pair}, nil
	}
	for at < len(e.text) && e.text[at] != '\n' && e.text[at] != '\r' {
		at++
	}
	brk := "\n"
	if bytes.HasPrefix(e.text[at:], []byte("\r\n")) {
		brk = "\r\n"
	}
	return cut{at, at, brk + strings.Repeat(" ", n.Content[0].Column-1) + pair}, nil
}

func (e *editor) splice(from, to int, with string) {
	e.text, e.starts = []byte(string(e.text[:from])+with+string(e.text[to:])), nil
}

// offset returns the byte at a line and a column in characters.
func (e *editor) offset(line, column int) int {
	if e.starts == nil {
		e.starts = lineStarts(e.text)
	}
	at := e.starts[min(line-1, len(e.starts)-1)]
	for i := range string(e.text[at:e.starts[min(line, len(e.starts)-1)]]) {
		if column--; column == 0 {
			return at + i
		}
	}
	return e.starts[min(line, len(e.starts)-1)]
}

// lineStarts returns the first byte of each line of a text, and the byte after its last.
func lineStarts(text []byte) []int {
	starts := []int{0}
	for _, l := range splitLines(text) {
		starts = append(starts, starts[len(starts)-1]+len(l))
	}
	return starts
}

// end returns the byte after a node.
func (e *editor) end(n *yaml.Node) (int, error) {
	at := e.offset(n.Line, n.Column)
	switch {
	case n.Kind == yaml.AliasNode:
		return at + 1 + len(n.Value), nil
	case n.Kind == yaml.ScalarNode:
		return e.scalarEnd(n, at)
	case len(n.Content) > 0:
		last, err := e.end(n.Content[len(n.Content)-1])
		if err != nil || n.Style&yaml.FlowStyle == 0 {
			return last, err
		}
		at = last
	default:
		at++
	}
	for at < len(e.text) { // to the bracket that closes it
		switch c := e.text[at]; c {
		case '}', ']':
			return at + 1, nil
		case '#':
			for at < len(e.text) && e.text[at] != '\n' && e.text[at] != '\r' {
				at++
			}
		default:
			at++
		}
	}
	return 0, errors.New("its end is not found")
}

// scalarEnd returns the byte after a scalar that starts at a byte.
func (e *editor) scalarEnd(n *yaml.Node, at int) (int, error) {
	rest := e.text[at:]
	switch {
	case n.Style&yaml.SingleQuotedStyle != 0 && bytes.HasPrefix(rest, []byte("'")):
		for i := 1; i < len(rest); i++ {
			if rest[i] != '\'' {
				continue
			}
			if i+1 < len(rest) && rest[i+1] == '\'' {
				i++
				continue
			}
			return at + i + 1, nil
		}
	case n.Style&yaml.DoubleQuotedStyle != 0 && bytes.HasPrefix(rest, []byte(`"`)):
		for i := 1; i < len(rest); i++ {
			switch rest[i] {
			case '\\':
				i++
			case '"':
				return at + i + 1, nil
			}
		}
	case n.Style&^yaml.FlowStyle == 0 && bytes.HasPrefix(rest, []byte(n.Value)):
		return at + len(n.Value), nil
	}
	return 0, errors.New("it is written over several lines, or has a mark of its own; change it by hand")
}
