package library

import (
	"errors"
	"fmt"

	"listel/profile/measure"
)

// A Copied is the text of a library entry, to be written as a file of one's own.
type Copied struct {
	Kind   Kind
	Name   string
	Text   []byte
	Origin Origin // where it was copied from
}

// copyKinds are the kinds of files that can be copied by the name of an entry, in the order in which a name is looked up.
var copyKinds = [...]Kind{KindProfile, KindCase, "tools"}

// dataFiles are the files that hold many entries each, copied whole.
var dataFiles = [...]string{"woods", "papers", "lumber"}

// Copy returns the text of a profile, a case or a set of tools, comments and all, under another name when as is not ""; or, for the names
// woods, papers and lumber, that whole file of what listel brings along. The error is a *NotFoundError when there is none.
func (l *Library) Copy(name, as string) (Copied, error) {
	var missing *NotFoundError
	for _, kind := range copyKinds {
		text, o, err := l.Text(kind, name)
		switch {
		case err == nil && as != "" && as != name:
			if fault := nameFault(as); fault != "" {
				return Copied{}, fmt.Errorf("%s: %s", quoted(as), fault)
			}
			text, err = SetKey(text, "name", Scalar(as))
			return Copied{kind, as, text, o}, err
		case err == nil:
			return Copied{kind, name, text, o}, nil
		case !errors.As(err, new(*NotFoundError)):
			return Copied{}, err
		}
		if missing == nil || missing.Near == "" {
			errors.As(err, &missing)
		}
	}
	for _, file := range dataFiles {
		if file == name {
			path := "data/" + file + ".yaml"
			text, err := embedded.ReadFile(path)
			return Copied{Kind(file), name, text, Origin{Embedded, path}}, err
		}
	}
	return Copied{}, &NotFoundError{"file", name, missing.Near}
}

// WithHeight returns a copied profile with another height, in mm, and all its comments. The error says why the profile cannot be that high:
// nothing in it follows the height, or an element cannot be built then.
func (l *Library) WithHeight(c Copied, mm float64) (Copied, error) {
	if c.Kind != KindProfile {
		return c, errors.New("only a profile has a height to change")
	}
	p, _, err := LoadProfile(c.Name+".yaml", c.Text)
	if err != nil {
		return c, err
	}
	if p, err = p.WithHeight(mm); err != nil {
		return c, err
	}
	if _, err = p.Section(l.Lookup); err != nil {
		return c, err
	}
	c.Text, err = SetKey(c.Text, "height", measure.Format{Units: p.Units}.Entry(mm))
	return c, err
}
