package library

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"listel/profile/measure"
)

// A decoder reads one file by the keys that are expected in it, and collects every mistake.
type decoder struct {
	file     string
	units    measure.Units
	unitless bool // the file names no units
	metric   bool // it names millimeters
	mistakes Mistakes
	source   *Source
	visits   int
}

// A value is a node of the file with what leads to it.
type value struct {
	d    *decoder
	node *yaml.Node
	path string // "" for the whole file
	name string // as a message calls it: height of cove
	at   Place  // where messages about it point
}

// A field is one key that a mapping may hold, and what reads its value.
type field struct {
	key  string
	must bool
	read func(value)
	hint string // what a missing one could look like
}

func required(key, hint string, read func(value)) field { return field{key, true, read, hint} }
func optional(key string, read func(value)) field       { return field{key: key, read: read} }

// open parses data and returns the value of the whole document. Without an error reading may go on: the kind is the one asked for, or missing or
// misspelled, which is a mistake already noted.
func open(file string, data []byte, kind string) (value, error) {
	root, err := parseDocument(file, data)
	if err != nil {
		return value{}, err
	}
	d := &decoder{file: file, source: newSource(file), unitless: true}
	v := value{d: d, node: root, name: kind, at: Place{root.Line, root.Column}}
	if !d.checkKind(v, kind) {
		return value{}, d.err()
	}
	if n := v.child("units"); n != nil {
		d.unitless = false
		u, err := measure.ParseUnits(n.Value)
		if n.Kind != yaml.ScalarNode || err != nil {
			d.add(Place{n.Line, n.Column}, "units", "units is "+kindWords(n), "units: in or units: mm")
		}
		d.units, d.metric = u, err == nil && u == measure.Millimeters
	}
	return v, nil
}

// fileKinds are the kinds of files that are read.
var fileKinds = []string{"profile", "case", "woods", "papers", "lumber", "tools", "printers", "pieces", "trace"}

// checkKind notes a kind that is not the one asked for, and reports whether the file may be read as that kind anyway.
func (d *decoder) checkKind(v value, kind string) bool {
	n := v.child("kind")
	switch {
	case n == nil:
		d.add(v.at, "kind", "the file does not say what kind it is", "its first line should be kind: "+kind)
		return true
	case n.Kind != yaml.ScalarNode:
		d.add(Place{n.Line, n.Column}, "kind", "kind is "+kindWords(n), "kind: "+kind+" is needed here")
		return true
	case n.Value == kind:
		return true
	}
	near := Near(n.Value, fileKinds)
	at := Place{n.Line, n.Column}
	if near == kind {
		d.add(at, "kind", "unknown kind "+quoted(n.Value), kind+"?")
		return true
	}
	if slices.Contains(fileKinds, n.Value) {
		d.add(at, "kind", "the file is of kind "+n.Value, "a "+kind+" is needed here (kind: "+kind+")")
		return false
	}
	want := "one of " + strings.Join(fileKinds, ", ")
	if near != "" {
		want = "kind: " + kind + " is needed here"
	}
	d.add(at, "kind", "unknown kind "+quoted(n.Value), want)
	return false
}

// child returns the value node of a key, nil when there is none. It notes nothing.
func (v value) child(key string) *yaml.Node {
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		if v.node.Content[i].Value == key {
			n := v.node.Content[i+1]
			if n.Kind == yaml.AliasNode {
				n = n.Alias
			}
			return n
		}
	}
	return nil
}

// add notes a mistake.
func (d *decoder) add(at Place, key, found, want string) {
	if len(d.mistakes) < maxMistakes {
		d.mistakes = append(d.mistakes, Mistake{d.file, at.Line, at.Column, key, found, want})
	}
}

// full reports whether no more is read: there are mistakes enough, or the file asks for too much.
func (d *decoder) full() bool { return len(d.mistakes) >= maxMistakes || d.visits > maxVisits }

// err returns the mistakes in the order of the file, nil when there are none.
func (d *decoder) err() error {
	if len(d.mistakes) == 0 {
		return nil
	}
	return d.mistakes.sorted()
}

// fault notes a mistake about v: what was found and what would do.
func (v value) fault(found, want string) { v.d.add(v.at, v.path, found, want) }

// wrong notes that v is not what was wanted, saying what it is.
func (v value) wrong(want string) { v.fault(v.name+" is "+kindWords(v.node), want) }

// sub returns the value of a node below v. It resolves aliases; ok is false once the file has asked for too much.
func (v value) sub(n *yaml.Node, path, name string) (value, bool) {
	at := Place{n.Line, n.Column}
	if n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	v.d.visits++
	if v.d.visits > maxVisits {
		if v.d.visits == maxVisits+1 {
			v.d.add(at, path, "the file refers to itself too often", fmt.Sprintf("at most %d values are read", maxVisits))
		}
		return value{}, false
	}
	v.d.source.places[path], v.d.source.labels[path] = at, name
	return value{d: v.d, node: n, path: path, name: name, at: at}, true
}

// mapping reads v as a group of keys: each of fields at most once, the required ones at least once, and no others.
// It reports whether v is a group of keys at all.
func (v value) mapping(name string, fields ...field) bool {
	if v.node.Kind != yaml.MappingNode {
		v.wrong("a group of keys is needed: " + strings.Join(keysOf(fields), ", "))
		return false
	}
	seen := map[string]int{}
	for i := 0; i+1 < len(v.node.Content) && !v.d.full(); i += 2 {
		v.entry(name, v.node.Content[i], v.node.Content[i+1], fields, seen)
	}
	if v.d.full() {
		return true
	}
	for _, f := range fields {
		if _, ok := seen[f.key]; f.must && !ok { // one that is there misspelled is in seen
			v.d.add(v.at, join(v.path, f.key), f.key+" is missing"+in(name, v), "write "+v.d.example(f.key+": "+f.hint))
		}
	}
	return true
}

// kinded reads what is written as a single key, its kind, with its sizes as the value of that: an element or a tool. want says so with an
// example in inches. kind is "" when it is none of kinds, and ok is false when there are no sizes to read; they stand where the kind does, so that a missing one is
// shown there.
func (v value) kinded(what string, kinds []string, want string) (kind string, sizes value, ok bool) {
	want = v.d.example(want)
	n := v.node
	switch {
	case n.Kind == yaml.ScalarNode && slices.Contains(kinds, n.Value):
		v.fault(v.name+", "+n.Value+", has no sizes", want)
		return n.Value, value{}, false
	case n.Kind != yaml.MappingNode || len(n.Content) == 0:
		v.wrong(want)
		return "", value{}, false
	case len(n.Content) > 2:
		var keys []string
		for i := 0; i < len(n.Content); i += 2 {
			keys = append(keys, n.Content[i].Value)
		}
		v.fault(v.name+" has the keys "+strings.Join(keys, ", "), want)
		return "", value{}, false
	}
	kind, isText := keyText(n.Content[0])
	if !isText || !slices.Contains(kinds, kind) {
		v.fault("unknown "+what+" "+quoted(kind), nearOr(kind, kinds, "one of"))
		return "", value{}, false
	}
	if sizes, ok = v.sub(n.Content[1], v.path, v.name+", "+kind+","); !ok {
		return "", value{}, false
	}
	v.d.source.places[v.path] = v.at
	if isNull(sizes.node) {
		v.fault(v.name+", "+kind+", has no sizes", want)
		return kind, value{}, false
	}
	sizes.at = v.at
	return kind, sizes, true
}

// entry reads one key of a mapping.
func (v value) entry(name string, k, n *yaml.Node, fields []field, seen map[string]int) {
	at := Place{k.Line, k.Column}
	key, ok := keyText(k)
	if !ok {
		v.d.add(at, v.path, "a key"+in(name, v)+" is "+kindWords(k), "a key is a word")
		return
	}
	path := join(v.path, key)
	if first, dup := seen[key]; dup {
		v.d.add(at, path, key+" is given twice"+in(name, v), fmt.Sprintf("the first is on line %d", first))
		return
	}
	seen[key] = k.Line
	i := slices.IndexFunc(fields, func(f field) bool { return f.key == key })
	if i < 0 {
		if what, ok := notYet[key]; ok {
			v.d.add(at, path, what+" are not built yet", "")
			return
		}
		v.d.add(at, path, "unknown key "+quoted(key)+in(name, v), keyWant(key, fields))
		for _, f := range fields { // what the key stands for is not missing as well
			if key == "<<" || f.key == Near(key, keysOf(fields)) && v.child(f.key) == nil {
				seen[f.key] = k.Line
			}
		}
		return
	}
	label := key
	if v.path != "" {
		label = key + " of " + name
	}
	if c, ok := v.sub(n, path, label); ok {
		if isNull(c.node) {
			c.at = at
			c.fault(label+" has no value", "give it one, or drop the key")
			return
		}
		fields[i].read(c)
	}
}

// in returns " in NAME", or nothing for the whole file.
func in(name string, v value) string {
	if v.path == "" {
		return " in this " + name
	}
	return " in " + name
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// put appends x to list as the entry i of the file, with nothing for the entries before that could not be read.
func put[T any](list *[]T, i int, x T) {
	*list = append(*list, make([]T, max(0, i-len(*list)))...)
	*list = append(*list, x)
}

// keyText returns the text of a key node.
func keyText(k *yaml.Node) (string, bool) {
	if k.Kind == yaml.AliasNode {
		k = k.Alias
	}
	return k.Value, k.Kind == yaml.ScalarNode
}

func keysOf(fields []field) []string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	return keys
}

// keyWant returns what would do for an unknown key.
func keyWant(key string, fields []field) string {
	if key == "<<" {
		return "merge keys are not read; write the keys out"
	}
	if len(fields) == 1 {
		return nearOr(key, keysOf(fields), "its key is")
	}
	return nearOr(key, keysOf(fields), "its keys are")
}

// list reads v as a list, each item with the name that item gives it, and returns how many it has; -1 when it is none.
func (v value) list(most int, name func(i int) string, read func(i int, item value)) int {
	if v.node.Kind != yaml.SequenceNode {
		v.wrong("a list is needed")
		return -1
	}
	if n := len(v.node.Content); n > most {
		v.fault(fmt.Sprintf("%s has %d entries", v.name, n), fmt.Sprintf("the limit is %d", most))
		return -1
	}
	for i, n := range v.node.Content {
		if v.d.full() {
			return -1
		}
		c, ok := v.sub(n, fmt.Sprintf("%s[%d]", v.path, i), name(i))
		if !ok {
			return -1
		}
		if isNull(c.node) {
			c.fault(c.name+" is empty", "give it a value, or drop it")
			continue
		}
		read(i, c)
	}
	return len(v.node.Content)
}
