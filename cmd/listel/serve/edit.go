package serve

import (
	"bytes"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

// A change is what is to become of a profile's text.
type change struct {
	Op     string  `json:"op"` // set, unset, insert, remove, move, kind, join, point, back, scale, drag
	Path   string  `json:"path"`
	Value  string  `json:"value"`
	Words  bool    `json:"words"` // the value is text, quoted as need be
	At     int     `json:"at"`
	To     int     `json:"to"`
	Kind   string  `json:"kind"`   // of a member; of a point (its index is To): add, remove, line, arc
	Corner string  `json:"corner"` // of a drag: top or foot, of a curve's points (from 1) "point 1" or "bend 1"
	X      float64 `json:"x"`      // mm, where the hand is
	Y      float64 `json:"y"`
	Snap   string  `json:"snap"` // 1/16, 0.5mm, or "" for none
}

// postEdit answers with a text changed, and what it draws. A change that makes the profile impossible is made all the same; only one that the
// text does not take is refused.
func (s *Server) postEdit(w http.ResponseWriter, r *http.Request) error {
	var q struct {
		sectionRequest
		Change change `json:"change"`
	}
	if err := read(w, r, &q); err != nil {
		return err
	}
	if err := q.check(); err != nil {
		return err
	}
	text, told, err := s.edited(q.sectionRequest, q.Change)
	if err != nil {
		return err
	}
	q.Text = text
	view, err := s.section(q.sectionRequest)
	if err != nil {
		return err
	}
	out := map[string]any{"text": text, "section": view, "told": told}
	if selected := q.Change.selects(); selected >= 0 {
		out["selected"] = selected
	}
	return answer(w, out)
}

// selects returns the index of the member that the hand is on after a change, -1 for none.
func (c change) selects() int {
	switch c.Op {
	case "set", "unset":
		return indexOf(c.Path)
	case "remove":
		return max(0, c.At-1)
	case "move":
		return c.To
	case "insert", "kind", "join", "point", "drag":
		return c.At
	}
	return -1
}

// edited returns the text of a request changed, and in words what became of it besides, "" for nothing.
func (s *Server) edited(q sectionRequest, c change) (text, told string, err error) {
	data := []byte(q.Text)
	switch c.Op {
	case "set":
		if c.Path == "parts" {
			data, told, err = s.setParts(q, c)
		} else {
			data, err = setValue(data, c)
		}
	case "scale":
		data, err = s.scaled(q, c.Value)
	case "unset":
		data, told, err = unset(data, c.Path)
	case "insert":
		data, err = s.insert(q, c)
	case "remove":
		data, err = library.RemoveElement(data, c.At)
	case "move":
		data, err = library.MoveElement(data, c.At, c.To)
	case "kind":
		data, err = s.setKind(q, c)
	case "join":
		data, told, err = s.join(q, c.At)
	case "back":
		data, err = setBack(data, c.Kind)
	case "point":
		data, err = s.setPoint(q, c)
	case "drag":
		data, err = s.drag(q, c)
	default:
		return "", "", refused(http.StatusBadRequest, "there is no change %q", c.Op)
	}
	if err != nil {
		return "", "", refused(http.StatusUnprocessableEntity, "%s", err)
	}
	return string(data), told, nil
}

// setValue gives a key a value, after which the file says what was typed: what YAML would read otherwise is put in quotes, and a key of a
// group that is not there begins the group.
func setValue(data []byte, c change) ([]byte, error) {
	value := strings.TrimSpace(c.Value)
	if value == "" {
		return library.UnsetKey(data, c.Path)
	}
	if !strings.HasPrefix(value, "{") && !strings.HasPrefix(value, "[") || c.Words {
		value = library.Scalar(value)
	}
	keys, err := library.ReadKeyed(data)
	if err != nil {
		return nil, err
	}
	if at := strings.LastIndexByte(c.Path, '.'); at > 0 && !keys.Has(c.Path[:at]) {
		group, key := c.Path[:at], c.Path[at+1:]
		start, ok := startingGroup(group, key, value, unitsOf(string(data)))
		if !ok {
			return nil, fmt.Errorf("%s: there is no %s", c.Path, group)
		}
		return keys.Set(library.KeyValue{Path: group, Value: start})
	}
	return keys.Set(library.KeyValue{Path: c.Path, Value: value})
}

// startingGroup returns the value of a group of sizes that a file does not have yet, one of them given.
func startingGroup(group, key, value string, units measure.Units) (string, bool) {
	name := group[strings.LastIndexByte(group, '.')+1:]
	small, deep := "1/16", "1/8"
	if units != measure.Inches {
		small, deep = "2", "3"
	}
	var keys, values []string
	switch name {
	case "quirk":
		keys, values = []string{"width", "depth"}, []string{small, deep}
	case "drip":
		keys, values = []string{"width", "depth", "inset"}, []string{deep, deep, deep}
	default:
		return "", false
	}
	var parts []string
	for i, k := range keys {
		if k == key {
			values[i] = value
		}
		parts = append(parts, k+": "+values[i])
	}
	if !strings.Contains(strings.Join(keys, " "), key) {
		parts = append(parts, key+": "+value)
	}
	return "{" + strings.Join(parts, ", ") + "}", true
}

// insert puts a new member into the text, leaning as its neighbors do.
func (s *Server) insert(q sectionRequest, c change) ([]byte, error) {
	kind := profile.Kind(c.Kind)
	sizes := library.StartingSizes(kind, unitsOf(q.Text))
	if sizes == "" {
		return nil, fmt.Errorf("there is no member %q", c.Kind)
	}
	p, _, err := library.LoadProfile(fileName(q.Name), []byte(q.Text))
	if err == nil && leansBack(p.Elements, c.At) {
		sizes = leaning(kind, sizes)
	}
	if kind == profile.KindBead { // it is chosen by its grooves
		sizes = strings.TrimSuffix(sizes, "}") + ", quirk: {width: 1/16, depth: 1/8}}"
		if unitsOf(q.Text) == measure.Millimeters {
			sizes = strings.NewReplacer("1/16", "2", "1/8", "3").Replace(sizes)
		}
	}
	return library.InsertElement([]byte(q.Text), c.At, c.Kind+": "+sizes)
}

// leansBack reports whether the members beside a place run back going up, as those of a base do.
func leansBack(all []profile.Entry, at int) bool {
	for d := range len(all) {
		for _, i := range []int{at - 1 - d, at + d} {
			if i < 0 || i >= len(all) {
				continue
			}
			if run := all[i].Projection.In(1); run != 0 {
				return run < 0
			}
		}
	}
	return false
}

// leaning returns the starting sizes of a kind with its run turned back.
func leaning(kind profile.Kind, sizes string) string {
	switch kind {
	case profile.KindChamfer, profile.KindCymaRecta, profile.KindCymaReversa:
		return strings.Replace(sizes, "projection: ", "projection: -", 1)
	case profile.KindOvolo, profile.KindCove, profile.KindConge:
		height := strings.TrimSuffix(strings.TrimPrefix(sizes, "{height: "), "}")
		return "{height: " + height + ", projection: -" + height + "}"
	}
	return sizes
}

// setKind makes a member one of another kind. Where its sizes do not suit the kind's usual construction, one is taken that they suit.
func (s *Server) setKind(q sectionRequest, c change) ([]byte, error) {
	kind := profile.Kind(c.Kind)
	data, err := library.SetElementKind([]byte(q.Text), c.At, kind, unitsOf(q.Text))
	if err != nil {
		return nil, err
	}
	at := fmt.Sprintf("elements[%d]", c.At)
	for _, text := range slices.CompactFunc([][]byte{s.sameSize(q, data, c), data}, bytes.Equal) {
		if s.suits(q, text, c.At) {
			return text, nil
		}
		for _, curve := range kind.Constructions() {
			if other, err := library.SetKey(text, at+".curve", string(curve)); err == nil && s.suits(q, other, c.At) {
				return other, nil
			}
		}
	}
	if other, err := library.UnsetKey(data, at+".projection"); err == nil && s.suits(q, other, c.At) {
		return other, nil
	}
	return data, nil
}

// sameSize returns the text of a profile in which a curve through points has become a member of another kind, with the height and the run that it came
// to, as far as the kind takes them: it had none of its own to keep. Any other text comes back as it is.
func (s *Server) sameSize(q sectionRequest, data []byte, c change) []byte {
	p, err := s.load(q)
	if err != nil || c.At >= len(p.Section.Members) || p.Profile.Elements[c.At].Kind != profile.KindCurve {
		return data
	}
	m, f := p.Section.Members[c.At], measure.Format{Units: p.Profile.Units}
	var all []library.KeyValue
	for i, key := range []string{"height", "projection"} {
		if slices.Contains(profile.Kind(c.Kind).Keys(), key) {
			all = append(all, library.KeyValue{Path: fmt.Sprintf("elements[%d].%s", c.At, key), Value: f.Entry([]float64{m.Height, m.Projection}[i])})
		}
	}
	keys, err := library.ReadKeyed(data)
	if err != nil {
		return data
	}
	if same, err := keys.Set(all...); err == nil {
		return same
	}
	return data
}

// suits reports whether a text has no mistake in the member at an index.
func (s *Server) suits(q sectionRequest, data []byte, at int) bool {
	q.Text = string(data)
	_, err := s.load(q)
	for _, m := range mistakeViews(err) {
		if m.Index == at {
			return false
		}
	}
	return true
}

// setBack takes what is done to the back out, or puts a rabbet or a spring in its place.
func setBack(data []byte, kind string) ([]byte, error) {
	value := ""
	inches := unitsOf(string(data)) == measure.Inches
	switch {
	case kind == "none":
		return library.UnsetKey(data, "back")
	case kind == "rabbet" && inches:
		value = "{rabbet: {at: top, width: 1/4, depth: 1/4}}"
	case kind == "rabbet":
		value = "{rabbet: {at: top, width: 6, depth: 6}}"
	case kind == "spring" && inches:
		value = "{spring: {angle: 38, wall: 1/4}}"
	case kind == "spring":
		value = "{spring: {angle: 38, wall: 6}}"
	default:
		return nil, fmt.Errorf("there is no back %q", kind)
	}
	keys, err := library.ReadKeyed(data)
	if err == nil && keys.Has("back") {
		if data, err = library.UnsetKey(data, "back"); err != nil {
			return nil, err
		}
	}
	return library.SetKey(data, "back", value)
}
