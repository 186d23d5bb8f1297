package library

import (
	"errors"
	"fmt"
	"strings"

	"listel/miter"
	"listel/profile"
	"listel/profile/trace"
)

// A Place is where something stands in a file: line and column from 1, the column in characters.
type Place struct{ Line, Column int }

// A Source tells where the keys of a loaded file stand, so that what is found wrong later can be shown there. Keys are
// paths such as height, elements[2].height (an element's kind is left out) or moldings[0].reach.left, lists counting from
// 0. A nil Source knows no places.
type Source struct {
	File   string
	places map[string]Place
	labels map[string]string // what messages call the keys: at of molding crown
}

func newSource(file string) *Source {
	return &Source{File: file, places: map[string]Place{}, labels: map[string]string{}}
}

// Place returns where the value of the key at path stands, or where the nearest key around it does; the top of the file when
// there is none.
func (s *Source) Place(path string) Place {
	if s == nil {
		return Place{1, 1}
	}
	for path != "" {
		if p, ok := s.places[path]; ok {
			return p
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	return Place{1, 1}
}

// Has reports whether the file gives the key at path.
func (s *Source) Has(path string) bool {
	if s == nil {
		return false
	}
	_, ok := s.places[path]
	return ok
}

// Element returns where the key of the element with this index (from 1) stands; an empty key is the element itself,
// and the index 0 is the profile.
func (s *Source) Element(index int, key string) Place { return s.Place(elementPath(index, key)) }

func elementPath(index int, key string) string {
	switch {
	case index <= 0:
		return key
	case key == "":
		return fmt.Sprintf("elements[%d]", index-1)
	}
	return fmt.Sprintf("elements[%d].%s", index-1, key)
}

// Mistakes returns err with each fault in it that speaks of a key or an element given its place in the file, as Mistakes;
// any other error as it is.
func (s *Source) Mistakes(err error) error {
	var out Mistakes
	var elements profile.Errors
	var element *profile.ElementError
	var faults miter.Errors
	var fault *miter.Error
	var traced trace.Faults
	switch {
	case err == nil:
		return nil
	case errors.As(err, &traced):
		for _, f := range traced {
			out = append(out, s.traceMistake(f))
		}
	case errors.As(err, &faults):
		for _, e := range faults {
			out = append(out, s.caseMistake(e))
		}
	case errors.As(err, &fault):
		out = append(out, s.caseMistake(fault))
	case errors.As(err, &elements):
		for _, e := range elements {
			out = append(out, s.elementMistake(e))
		}
	case errors.As(err, &element):
		out = append(out, s.elementMistake(element))
	default:
		return err
	}
	return out.sorted()
}

// caseMistake places a fault of a case and names its key, where the fault does not quote what the key gives. Of a profile that has mistakes of its own it says only
// that, since they stand in another file.
func (s *Source) caseMistake(e *miter.Error) Mistake {
	var inner Mistakes
	if errors.As(e.Cause, &inner) && len(inner) > 0 {
		return s.at(e.Path, fmt.Sprintf("the file %s has mistakes", inner[0].File))
	}
	m := s.named(e.Path, e.Reason, e.Name, e.Names)
	if s != nil && s.labels[e.Path] != "" && e.Name == "" && e.Cause == nil {
		m.Found = s.labels[e.Path] + ": " + m.Found
	}
	return m
}

func (s *Source) elementMistake(e *profile.ElementError) Mistake {
	return s.at(elementPath(e.Index, e.Key), e.Error())
}

// traceMistake places a fault of a plate: at the scale or the section, or at its key.
func (s *Source) traceMistake(f *trace.Fault) Mistake {
	path := fmt.Sprintf("sections[%d]", f.Index)
	if f.Scale != "" {
		path = fmt.Sprintf("scales[%d]", f.Index)
	}
	if f.Key != "" {
		path += "." + f.Key
	}
	return s.named(path, f.Error(), f.Name, f.Names)
}

// named returns the mistake that text tells about the key at path, which wants the one of names near to name where there is one.
func (s *Source) named(path, text, name string, names []string) Mistake {
	m := s.at(path, text)
	if n := Near(name, names); n != "" {
		m.Want = n + "?"
	}
	return m
}

// at returns the mistake that text tells about the key at path.
func (s *Source) at(path, text string) Mistake {
	p := s.Place(path)
	found, want, _ := strings.Cut(text, "; ")
	m := Mistake{Line: p.Line, Column: p.Column, Key: path, Found: found, Want: want}
	if s != nil {
		m.File = s.File
	}
	return m
}
