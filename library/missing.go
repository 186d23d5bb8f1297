package library

import (
	"errors"
	"fmt"

	"listel/miter"
)

// Missing returns what is wrong with the names that a case gives, of its wood, its profiles, its stages with their edges and corners, each placed by src: for a case whose file has
// other mistakes and cannot be fitted, so that all are told at once. A profile with mistakes of its own is no fault of the case.
func (l *Library) Missing(c miter.Case, src *Source) Mistakes {
	var out Mistakes
	look := func(path, name string, err error) {
		if name != "" && errors.As(err, new(*NotFoundError)) {
			out = append(out, src.at(path, err.Error()))
		}
	}
	_, err := l.Wood(c.Wood)
	look("wood", c.Wood, err)
	for i, m := range c.Moldings {
		_, _, _, err := l.ProfileSource(m.Profile)
		look(fmt.Sprintf("moldings[%d].profile", i), m.Profile, err)
	}
	if c.Beads != nil {
		_, _, _, err := l.ProfileSource(c.Beads.Profile)
		look("beads.profile", c.Beads.Profile, err)
	}
	var unknown miter.Errors
	if errors.As(c.Unknown(), &unknown) {
		for _, e := range unknown {
			out = append(out, src.caseMistake(e))
		}
	}
	return out
}

// With returns the mistakes with others of the same file, from its top to its end.
func (ms Mistakes) With(others Mistakes) Mistakes { return append(ms, others...).sorted() }
