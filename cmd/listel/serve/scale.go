package serve

import (
	"fmt"
	"strings"

	"listel/library"
	"listel/profile/measure"
)

// scaled returns the text of a profile with every length in it enlarged or reduced so that the whole comes to the height that is typed.
// Lengths in parts stay as they are, since a part grows with the height. A height that the file gives but the members do not come to is
// what it was before, for the measure of how much.
func (s *Server) scaled(q sectionRequest, value string) ([]byte, error) {
	units := unitsOf(q.Text)
	height, err := measure.ParsePositive(value, units)
	if err != nil {
		return nil, err
	}
	now, err := s.ownHeight(q)
	if err != nil {
		return nil, err
	}
	keys, err := library.ReadKeyed([]byte(q.Text))
	if err != nil {
		return nil, err
	}
	entry := measure.Format{Units: units}
	var all []library.KeyValue
	for _, path := range lengthPaths(keys) {
		text, _ := keys.Text(path)
		size, err := measure.ParseSize(text, units)
		if err != nil || size.IsParts() || size.Sign() == 0 {
			continue // rest, or what is not there
		}
		to := entry.Entry(size.MM() * height / now)
		if path == "height" {
			to = library.Scalar(value)
		}
		all = append(all, library.KeyValue{Path: path, Value: to})
	}
	return keys.Set(all...)
}

// ownHeight returns the height in mm that the members of a profile come to, whatever height the file gives.
func (s *Server) ownHeight(q sectionRequest) (float64, error) {
	p, err := s.load(q)
	if err == nil {
		return p.Section.Height, nil
	}
	without, err := library.UnsetKey([]byte(q.Text), "height")
	if err != nil {
		return 0, errUndrawn
	}
	q.Text = string(without)
	if p, err = s.load(q); err != nil {
		return 0, errUndrawn
	}
	return p.Section.Height, nil
}

// lengthPaths returns the paths of the lengths that a profile file gives, what is a number of anything else left out.
func lengthPaths(keys library.Keyed) []string {
	var out []string
	add := func(paths ...string) {
		for _, p := range paths {
			if _, ok := keys.Text(p); ok {
				out = append(out, p)
			}
		}
	}
	add("height", "projection", "ground", "back.rabbet.width", "back.rabbet.depth", "back.spring.wall", "back.spring.top")
	for i := range min(keys.Len("elements"), library.MaxElements) {
		at := fmt.Sprintf("elements[%d]", i)
		for _, key := range strings.Fields("height projection set radius fillet depth block gap drip.width drip.depth drip.inset quirk.width quirk.depth") {
			add(at + "." + key)
		}
		for j := range keys.Len(at + ".points") {
			p := fmt.Sprintf("%s.points[%d]", at, j)
			add(p+".x", p+".y", p+".through[0]", p+".through[1]")
		}
	}
	return out
}

// setParts gives a profile its number of parts. Parts divide the height: where the file gives none, the height that it has now is written
// down in the same step, and told.
func (s *Server) setParts(q sectionRequest, c change) (data []byte, told string, err error) {
	data, err = setValue([]byte(q.Text), c)
	if err != nil {
		return nil, "", err
	}
	keys, err := library.ReadKeyed(data)
	if err != nil || keys.Has("height") || !keys.Has("parts") {
		return data, "", nil
	}
	p, err := s.load(q)
	if err != nil {
		return data, "", nil // what is wrong is told by check
	}
	f := measure.Format{Units: unitsOf(q.Text)}
	data, err = library.SetKey(data, "height", f.Entry(p.Section.Height))
	return data, fmt.Sprintf("Parts divide the height, so it is given now: %s, as it stands.", f.Length(p.Section.Height)), err
}

// unset takes a key out of a profile. Parts are nothing without the height that they divide: where no size is in them they go with it, and that is told.
func unset(data []byte, path string) (out []byte, told string, err error) {
	keys, err := library.ReadKeyed(data)
	if err != nil {
		return nil, "", err
	}
	if path == "height" && keys.Has("parts") {
		for _, p := range lengthPaths(keys) {
			text, _ := keys.Text(p)
			if size, err := measure.ParseSize(text, measure.Inches); err == nil && size.IsParts() {
				return nil, "", fmt.Errorf("the height is divided into parts, and a size is %s; give it as a length first", text)
			}
		}
		if data, err = library.UnsetKey(data, "parts"); err != nil {
			return nil, "", err
		}
		told = "The height follows its members, and the parts are left out with it: no size used them."
	}
	data, err = library.UnsetKey(data, path)
	return data, told, err
}
