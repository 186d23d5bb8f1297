package library

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"listel/profile"
	"listel/profile/measure"
)

// StartingSizes returns the sizes with which an element of a kind can start, in braces, in a file in units. A stack's names an embedded
// profile. It is "" for a kind that does not exist.
func StartingSizes(kind profile.Kind, units measure.Units) string {
	in, mm := startingSizes(kind)
	if units == measure.Inches {
		return in
	}
	return mm
}

func startingSizes(kind profile.Kind) (in, mm string) {
	switch kind {
	case profile.KindFillet:
		return "{height: 1/8}", "{height: 3}"
	case profile.KindFascia:
		return "{height: 1}", "{height: 25}"
	case profile.KindCorona:
		return "{height: 1/2, set: 3/8}", "{height: 12, set: 10}"
	case profile.KindChamfer:
		return "{height: 1/4, projection: 1/4}", "{height: 6, projection: 6}"
	case profile.KindOvolo, profile.KindCove:
		return "{height: 3/8}", "{height: 10}"
	case profile.KindConge:
		return "{height: 1/8}", "{height: 3}"
	case profile.KindCymaRecta, profile.KindCymaReversa:
		return "{height: 1/2, projection: 1/2}", "{height: 12, projection: 12}"
	case profile.KindScotia:
		return "{height: 3/8}", "{height: 9}"
	case profile.KindTorus:
		return "{height: 1/2}", "{height: 12}"
	case profile.KindAstragal:
		return "{height: 1/4}", "{height: 6}"
	case profile.KindBead:
		return "{height: 1/4}", "{height: 6}"
	case profile.KindThumb:
		return "{height: 1/2, projection: -3/8, fillet: 1/8}", "{height: 12, projection: -10, fillet: 3}"
	case profile.KindQuirk:
		return "{height: 1/16, depth: 1/8}", "{height: 2, depth: 3}"
	case profile.KindReeds:
		return "{height: 1, count: 3, gap: 1/16}", "{height: 24, count: 3, gap: 2}"
	case profile.KindFlutes:
		return "{height: 1, count: 3, gap: 1/8}", "{height: 24, count: 3, gap: 3}"
	case profile.KindDentils:
		return "{height: 1/2, set: 3/8, block: 3/8, gap: 3/16, depth: 1/4}", "{height: 12, set: 10, block: 9, gap: 5, depth: 6}"
	case profile.KindCurve:
		return "{points: [{x: 3/8, y: 5/16, through: [1/4, 1/8]}, {x: 3/8, y: 1/2}]}", "{points: [{x: 10, y: 8, through: [6, 3]}, {x: 10, y: 12}]}"
	case profile.KindStack:
		return "{profile: bed-mold, height: 3/4}", "{profile: bed-mold, height: 20}"
	}
	return "", ""
}

// SetElementKind returns the text of a profile file with the element at the index at made one of another kind: the sizes that the kind takes
// stay, others go, and those that it cannot do without start as StartingSizes has them. Everything else stays as it was.
func SetElementKind(data []byte, at int, kind profile.Kind, units measure.Units) ([]byte, error) {
	want := StartingSizes(kind, units)
	if want == "" {
		return nil, fmt.Errorf("there is no element %s", quoted(string(kind)))
	}
	k, err := ReadKeyed(data)
	if err != nil {
		return nil, err
	}
	list := k.node(elementsKey)
	if list == nil || list.Kind != yaml.SequenceNode || at < 0 || at >= len(list.Content) {
		return nil, fmt.Errorf("there is no element %d", at+1)
	}
	entry := list.Content[at]
	if entry.Kind != yaml.MappingNode || len(entry.Content) != 2 || entry.Content[1].Kind != yaml.MappingNode {
		return nil, fmt.Errorf("element %d is not written as its kind with its sizes; change it by hand", at+1)
	}
	e := k.editor
	c, err := e.replacing(entry.Content[0], string(kind))
	if err != nil {
		return nil, fmt.Errorf("element %d: %w", at+1, err)
	}
	e.splice(c.from, c.to, c.with)
	return fitKeys(e.file(), at, kind, want)
}

// fitKeys gives an element the keys that its kind cannot do without, and takes those from it that the kind does not take.
func fitKeys(data []byte, at int, kind profile.Kind, want string) ([]byte, error) {
	k, err := ReadKeyed(data)
	if err != nil {
		return nil, err
	}
	path := elementPath(at+1, "")
	sizes := k.node(path)
	var start yaml.Node
	if err := yaml.Unmarshal([]byte(want), &start); err != nil {
		return nil, err
	}
	needed := requiredKeys(kind)
	given := start.Content[0]
	for i := 0; i+1 < len(given.Content); i += 2 {
		key := given.Content[i].Value
		if !slices.Contains(needed, key) || k.Has(path+"."+key) {
			continue
		}
		value := (Keyed{given, editor{text: []byte(want)}}).written(given.Content[i+1])
		if data, err = SetKey(data, path+"."+key, value); err != nil {
			return nil, err
		}
	}
	for i := 0; i+1 < len(sizes.Content); i += 2 {
		key := sizes.Content[i].Value
		keep := slices.Contains(kind.Keys(), key)
		if key == "curve" && keep {
			keep = slices.Contains(kind.Constructions(), profile.Construction(sizes.Content[i+1].Value))
		}
		if keep {
			continue
		}
		if data, err = UnsetKey(data, path+"."+key); err != nil {
			return nil, err
		}
	}
	return data, nil
}

// written returns a value as the text has it.
func (k Keyed) written(n *yaml.Node) string {
	from := k.editor.offset(n.Line, n.Column)
	to, err := k.editor.end(n)
	if err != nil {
		return n.Value
	}
	return string(k.editor.text[from:to])
}

// requiredKeys returns the keys that an element of a kind cannot do without.
func requiredKeys(kind profile.Kind) []string {
	var out []string
	for _, f := range elementFields(&profile.Entry{Kind: kind}) {
		if f.must {
			out = append(out, f.key)
		}
	}
	return out
}
