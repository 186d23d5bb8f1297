package library

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// InsertElement returns the text of a profile file with an element more, which stands at the index at (from 0, at most their number)
// then. entry is the element as the file is to say it, on one line: cove: {height: 5/8}. Everything else stays as it was, comments with the
// elements that they stand above. The error says what keeps the text from being changed.
func InsertElement(data []byte, at int, entry string) ([]byte, error) {
	if err := oneLine("{" + entry + "}"); err != nil {
		return nil, err
	}
	return editList(data, elementsKey, func(l *entryList) error {
		if at < 0 || at > l.n() {
			return fmt.Errorf("there is no place %d among %d elements", at+1, l.n())
		}
		l.order = slices.Insert(l.order, at, -1)
		return l.insert(at, entry)
	})
}

// elementsKey is the list that a profile is made of.
const elementsKey = "elements"

// AppendEntry returns the text of a file with an entry more at the end of the list of a key at its top level, moldings, which is added when
// it is not there. entry is the keys of the entry on one line: name: waist, at: 38. The error says what keeps the text from being changed.
func AppendEntry(data []byte, list, entry string) ([]byte, error) {
	entry = "{" + entry + "}"
	if err := oneLine(entry); err != nil {
		return nil, err
	}
	return editList(data, list, func(l *entryList) error {
		l.whole = true
		l.order = append(l.order, -1)
		return l.insert(l.n(), entry)
	})
}

// RemoveEntry returns the text of a file without the entry at the index at of the list of a key at its top level, and without the comments
// that stand above it.
func RemoveEntry(data []byte, list string, at int) ([]byte, error) {
	return editList(data, list, func(l *entryList) error {
		if err := l.has(at); err != nil {
			return err
		}
		l.order = slices.Delete(l.order, at, at+1)
		l.remove(at)
		return nil
	})
}

// RemoveElement returns the text of a profile file without the element at the index at, and without the comments that stand above it.
func RemoveElement(data []byte, at int) ([]byte, error) { return RemoveEntry(data, elementsKey, at) }

// MoveElement returns the text of a profile file with the element at the index from moved so that it stands at the index to; the
// comments that stand above it come along.
func MoveElement(data []byte, from, to int) ([]byte, error) {
	return editList(data, elementsKey, func(l *entryList) error {
		for _, i := range []int{from, to} {
			if err := l.has(i); err != nil {
				return err
			}
		}
		moved := l.order[from]
		l.order = slices.Insert(slices.Delete(l.order, from, from+1), to, moved)
		l.arrange()
		return nil
	})
}

// An entryList is the list of a profile's elements, or of the entries of another key, in its text. An entry's span holds its comments, and ends before its line does; what
// lies between spans stays in its place.
type entryList struct {
	editor
	key   string
	whole bool // a new entry brings its own braces
	list  *yaml.Node
	spans [][2]int // bytes of each entry
	order []int    // which entry is to stand where, -1 for a new one
	flow  bool
	dash  int // columns before the dashes of a list that is not in brackets
}

func (l *entryList) n() int { return len(l.spans) }

// has returns an error unless the list has an entry at an index.
func (l *entryList) has(at int) error {
	switch {
	case at >= 0 && at < l.n():
		return nil
	case l.key == elementsKey:
		return fmt.Errorf("there is no element %d", at+1)
	}
	return fmt.Errorf("there is no entry %d in %s", at+1, l.key)
}

// editList lets change rewrite the list of a key, and returns the new text when it says what it should.
func editList(data []byte, key string, change func(*entryList) error) ([]byte, error) {
	root, err := parseDocument("", data)
	if err != nil {
		return nil, err
	}
	l := &entryList{key: key, editor: newEditor(data)}
	if root.Style&yaml.FlowStyle != 0 {
		return nil, errors.New("the file is written in one pair of braces; change it by hand")
	}
	if err := l.find(root); err != nil {
		return nil, err
	}
	for i := range l.spans {
		l.order = append(l.order, i)
	}
	if err := change(l); err != nil {
		return nil, err
	}
	if err := l.says(root); err != nil {
		return nil, err
	}
	return l.file(), nil
}

// errByHand is what is said of a text whose list is written in a way that is not followed.
var errByHand = errors.New("the list is written in a way that cannot be changed here; change it by hand")

// find finds the list and its entries.
func (l *entryList) find(root *yaml.Node) error {
	line := 0
	for i := 0; i+1 < len(root.Content); i += 2 {
		if root.Content[i].Value == l.key {
			l.list, line = root.Content[i+1], root.Content[i].Line
		}
	}
	switch {
	case l.list == nil:
		return nil
	case isNull(l.list):
		return nil
	case l.list.Kind != yaml.SequenceNode:
		return errByHand
	}
	entries := func() error { return l.findLines(line) }
	if l.flow = l.list.Style&yaml.FlowStyle != 0; l.flow {
		entries = l.findInBrackets
	}
	if err := entries(); err != nil {
		return err
	}
	at := 0
	for _, s := range l.spans { // an end that was taken for another's leaves no order
		if s[0] < at || s[1] < s[0] || s[1] > len(l.text) {
			return errByHand
		}
		at = s[1]
	}
	return nil
}

// findLines finds the entries of a list with dashes; key is the line of its key.
func (l *entryList) findLines(key int) error {
	lines := splitLines(l.text)
	starts := lineStarts(l.text)
	l.dash = l.list.Column - 1
	var dashes []int
	for i, n := 0, key; i < len(l.list.Content); i++ {
		for n < len(lines) && !isDash(lines[n], l.dash) {
			n++
		}
		if n >= len(lines) {
			return errByHand
		}
		dashes = append(dashes, n)
		n++
	}
	last, end := len(lines), key-1
	for n := dashes[len(dashes)-1] + 1; n < last; n++ {
		if text, depth := content(lines[n]); text != "" && !strings.HasPrefix(text, "#") && depth <= l.dash {
			last = n
		}
	}
	for i, d := range dashes {
		from := d
		for from-1 > end && isComment(lines[from-1], -1, l.dash) {
			from--
		}
		next := last
		if i+1 < len(dashes) {
			next = dashes[i+1]
		}
		end = next - 1
		for text, _ := content(lines[end]); end > d && (text == "" || isComment(lines[end], -1, l.dash)); text, _ = content(lines[end]) {
			end--
		}
		l.spans = append(l.spans, [2]int{starts[from], starts[end] + len(bytes.TrimRight(lines[end], "\r\n"))})
	}
	return nil
}

// content returns what stands on a line, and after how many blanks.
func content(line []byte) (string, int) {
	text := strings.TrimRight(string(line), "\r\n")
	rest := strings.TrimLeft(text, " ")
	return strings.TrimRight(rest, " \t"), len(text) - len(rest)
}

func isDash(line []byte, column int) bool {
	text, depth := content(line)
	return depth == column && (text == "-" || strings.HasPrefix(text, "- "))
}

// isComment reports whether a line holds a comment alone, after more than so many blanks and at most so many.
func isComment(line []byte, over, most int) bool {
	text, depth := content(line)
	return strings.HasPrefix(text, "#") && depth > over && depth <= most
}

// findInBrackets finds the entries of a list in brackets.
func (l *entryList) findInBrackets() error {
	for _, n := range l.list.Content {
		from := l.offset(n.Line, n.Column)
		if n.Kind == yaml.MappingNode && len(n.Content) == 2 && (from >= len(l.text) || l.text[from] != '{') {
			n = n.Content[1] // a pair without braces of its own
		}
		to, err := l.end(n)
		if err != nil {
			return errByHand
		}
		l.spans = append(l.spans, [2]int{from, to})
	}
	return nil
}

// lineBreak returns the line break of the text.
func (l *entryList) lineBreak() string {
	if i := bytes.IndexByte(l.text, '\n'); i > 0 && l.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// insert puts an entry into the text.
func (l *entryList) insert(at int, entry string) error {
	line := strings.Repeat(" ", l.dash) + "- " + entry
	braced := entry
	if !l.whole {
		braced = "{" + entry + "}"
	}
	switch {
	case l.list == nil:
		text := l.key + ":" + l.lineBreak() + "  - " + entry + l.lineBreak()
		if n := len(l.text); n > 0 && l.text[n-1] != '\n' {
			text = l.lineBreak() + text
		}
		l.splice(len(l.text), len(l.text), text)
	case l.n() == 0:
		return l.begin(entry)
	case l.flow && at < l.n():
		l.splice(l.spans[at][0], l.spans[at][0], braced+", ")
	case l.flow:
		l.splice(l.spans[at-1][1], l.spans[at-1][1], ", "+braced)
	case at < l.n():
		l.splice(l.spans[at][0], l.spans[at][0], line+l.lineBreak())
	default:
		l.splice(l.spans[at-1][1], l.spans[at-1][1], l.lineBreak()+line)
	}
	return nil
}

// begin puts the first entry into a list that is empty: in place of a pair of brackets on a line of its own, else on a line below its key.
func (l *entryList) begin(entry string) error {
	from := l.offset(l.list.Line, l.list.Column)
	to := from
	if !isNull(l.list) || l.list.Value != "" {
		var err error
		if to, err = l.end(l.list); err != nil {
			return errByHand
		}
		line := l.lineStart(from)
		if depth := from - line; depth > 0 && len(bytes.TrimSpace(l.text[line:from])) == 0 {
			l.splice(from, to, "- "+entry)
			return nil
		}
	}
	end := l.lineEnd(to)
	text := "  - " + entry + l.lineBreak()
	if end > 0 && l.text[end-1] != '\n' {
		text = l.lineBreak() + "  - " + entry
	}
	l.splice(end, end, text)
	l.splice(from, to, "")
	return nil
}

// remove takes the entry at an index out, and what parts it from the next: the last one's, from the one before.
func (l *entryList) remove(at int) {
	switch {
	case l.n() == 1 && l.flow: // a comma may stand after it
		if end, err := l.end(l.list); err == nil {
			l.splice(l.offset(l.list.Line, l.list.Column)+1, end-1, "")
		}
	case l.n() == 1:
		l.splice(l.spans[0][0], l.spans[0][1], strings.Repeat(" ", max(1, l.dash))+"[]")
	case at+1 < l.n():
		l.splice(l.spans[at][0], l.spans[at+1][0], "")
	default:
		l.splice(l.spans[at-1][1], l.spans[at][1], "")
	}
}

// arrange writes the entries in their new order; what parts them stays where it is.
func (l *entryList) arrange() {
	var out []byte
	at := l.spans[0][0]
	for place, i := range l.order {
		out = append(out, l.text[at:l.spans[place][0]]...)
		out = append(out, l.text[l.spans[i][0]:l.spans[i][1]]...)
		at = l.spans[place][1]
	}
	l.splice(l.spans[0][0], at, string(out))
}

// says returns an error unless the new text says what the old one did but for the order of the elements.
func (l *entryList) says(before *yaml.Node) error {
	after, err := parseDocument("", l.text)
	if err != nil {
		return errByHand
	}
	elements := func(root *yaml.Node) (list []*yaml.Node, rest []*yaml.Node) {
		for i := 0; i+1 < len(root.Content); i += 2 {
			if root.Content[i].Value == l.key {
				list = root.Content[i+1].Content
				continue
			}
			rest = append(rest, root.Content[i:i+2]...)
		}
		return list, rest
	}
	old, oldRest := elements(before)
	now, nowRest := elements(after)
	if !slices.EqualFunc(oldRest, nowRest, sameNode) || len(now) != len(l.order) {
		return errByHand
	}
	for place, i := range l.order {
		if i >= 0 && !sameNode(old[i], now[place]) {
			return errByHand
		}
	}
	return nil
}

// sameNode reports whether two nodes say the same.
func sameNode(a, b *yaml.Node) bool {
	if a.Kind == yaml.AliasNode && b.Kind == yaml.AliasNode {
		return a.Value == b.Value
	}
	return a.Kind == b.Kind && a.Tag == b.Tag && a.Value == b.Value && a.Anchor == b.Anchor && slices.EqualFunc(a.Content, b.Content, sameNode)
}
