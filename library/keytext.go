package library

import (
	"bytes"
	"errors"
	"fmt"

	"gopkg.in/yaml.v3"
)

// byteOrderMark is what some editors put before a text.
const byteOrderMark = "\ufeff"

// A Keyed is the text of a YAML file whose values can be looked up as they are written. The zero value has no keys.
type Keyed struct {
	root   *yaml.Node
	editor editor
}

// ReadKeyed returns the keys of a text; it reads any YAML that can be read, whatever the keys mean. The error is Mistakes.
func ReadKeyed(data []byte) (Keyed, error) {
	root, err := parseDocument("", data)
	if err != nil {
		return Keyed{}, err
	}
	e := newEditor(data)
	e.starts = lineStarts(e.text)
	return Keyed{root, e}, nil
}

// node returns what the path of a key leads to, nil when there is none.
func (k Keyed) node(path string) *yaml.Node {
	steps, err := splitPath(path)
	if err != nil {
		return nil
	}
	n, _ := walk(k.root, steps)
	return n
}

// Text returns the value of a key as the file says it, quotes taken off; ok is false for a key that is not there, and for a value that
// SetKey could not replace.
func (k Keyed) Text(path string) (text string, ok bool) {
	n := k.node(path)
	if n == nil {
		return "", false
	}
	if n.Kind == yaml.ScalarNode {
		_, err := k.editor.end(n)
		return n.Value, err == nil
	}
	from := k.editor.offset(n.Line, n.Column)
	to, err := k.editor.end(n)
	if err != nil || bytes.ContainsAny(k.editor.text[from:to], "\r\n") {
		return "", false
	}
	return string(k.editor.text[from:to]), true
}

// Has reports whether the file gives the key.
func (k Keyed) Has(path string) bool { return k.node(path) != nil }

// Len returns how many entries the list of a key has, 0 when it is no list.
func (k Keyed) Len(path string) int {
	n := k.node(path)
	if n == nil || n.Kind != yaml.SequenceNode {
		return 0
	}
	return len(n.Content)
}

// UnsetKey returns the text of a YAML file without one key, everything else as it was: path is as in SetKey. A key that is not there is
// no error. One that is the only one of its group, or that opens an entry of a list on the line of its dash with none after it, cannot
// be taken out: the error says so.
func UnsetKey(data []byte, path string) ([]byte, error) {
	k, err := ReadKeyed(data)
	if err != nil {
		return nil, err
	}
	steps, err := splitPath(path)
	if err != nil {
		return nil, err
	}
	last := steps[len(steps)-1]
	if last.key == "" {
		return nil, fmt.Errorf("%s is an entry of a list, no key", path)
	}
	group, _ := walk(k.root, steps[:len(steps)-1])
	if group == nil || group.Kind != yaml.MappingNode {
		return data, nil
	}
	for i := 0; i+1 < len(group.Content); i += 2 {
		if group.Content[i].Value != last.key {
			continue
		}
		e := k.editor
		if err := e.remove(group, i); err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		if _, err := parseDocument("", e.text); err != nil {
			return nil, fmt.Errorf("%s: the text cannot be changed there", path)
		}
		return e.file(), nil
	}
	return data, nil
}

// remove takes the pair at index i out of a group.
func (e *editor) remove(group *yaml.Node, i int) error {
	key, n := group.Content[i], len(group.Content)
	from := e.offset(key.Line, key.Column)
	to, err := e.end(group.Content[i+1])
	if err != nil {
		return err
	}
	start := func(j int) int { return e.offset(group.Content[j].Line, group.Content[j].Column) }
	switch {
	case group.Style&yaml.FlowStyle != 0 && i+2 < n:
		e.splice(from, start(i+2), "")
	case group.Style&yaml.FlowStyle != 0 && i > 0:
		before, err := e.end(group.Content[i-1])
		if err != nil {
			return err
		}
		e.splice(before, to, "")
	case group.Style&yaml.FlowStyle != 0:
		e.splice(from, to, "")
	case n == 2:
		return errors.New("it is the only one of its group")
	case len(bytes.TrimSpace(e.text[e.lineStart(from):from])) == 0:
		e.splice(e.lineStart(from), e.lineEnd(to), "")
	case i+2 < n: // on the line of a dash: the next key takes its place
		e.splice(from, start(i+2), "")
	default:
		return errors.New("it stands on a line with something else")
	}
	return nil
}

// lineStart returns the first byte of the line of a byte.
func (e *editor) lineStart(at int) int {
	return bytes.LastIndexAny(e.text[:at], "\r\n") + 1
}

// lineEnd returns the byte after the line of a byte, its end included.
func (e *editor) lineEnd(at int) int {
	i := bytes.IndexByte(e.text[at:], '\n')
	if i < 0 {
		return len(e.text)
	}
	return at + i + 1
}

// ElementKind returns the kind of a profile's element as the file says it, "" when there is no such element or it says none.
func (k Keyed) ElementKind(index int) string {
	list := k.node(elementsKey)
	if list == nil || list.Kind != yaml.SequenceNode || index >= len(list.Content) {
		return ""
	}
	switch n := list.Content[index]; {
	case n.Kind == yaml.MappingNode && len(n.Content) >= 2:
		return n.Content[0].Value
	case n.Kind == yaml.ScalarNode:
		return n.Value
	}
	return ""
}
