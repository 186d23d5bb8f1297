package job

import (
	"errors"
	"maps"
	"slices"

	"listel/library"
	"listel/miter"
	"listel/profile"
)

// A Case is a case that was read and fitted, with the profiles of its moldings by their names.
type Case struct {
	Job
	Case     miter.Case
	Result   miter.Result
	Profiles map[string]Profile
}

// ReadCase returns the case in the file at path, seen from lib, with its moldings fitted. What is wrong in it and in its profiles is
// library.Mistakes.
func ReadCase(lib *library.Library, path string) (Case, error) {
	c := Case{Job: fileJob(lib, path)}
	var err error
	c.Case, c.Source, err = library.ReadCase(path)
	return c.fitted(err)
}

// LoadCase is ReadCase for what text says, as if it stood in the file at path.
func LoadCase(lib *library.Library, path, text string) (Case, error) {
	c := Case{Job: fileJob(lib, path)}
	var err error
	c.Case, c.Source, err = library.LoadCase(path, []byte(text))
	return c.fitted(err)
}

// FindCase is ReadCase for the case of that name in lib. The error is a *library.NotFoundError when there is none.
func FindCase(lib *library.Library, name string) (Case, error) {
	c := Case{Job: Job{Arg: name, Lib: lib}}
	var err error
	c.Case, c.Source, c.Origin, err = lib.CaseSource(name)
	return c.fitted(err)
}

// Example returns the case that stands where none is given. It is the same wherever one stands.
func Example() (Case, error) {
	return FindCase(library.Open("", ""), library.ExampleName)
}

// fitted fits the case that was read with an error.
func (c Case) fitted(err error) (Case, error) {
	c.Profiles = map[string]Profile{}
	var mistakes library.Mistakes
	if errors.As(err, &mistakes) {
		return c, mistakes.With(c.Lib.Missing(c.Case, c.Source))
	}
	if err != nil {
		return c, err
	}
	return c, c.fit()
}

// fit builds the sections of the case's moldings and fits them to it. Mistakes in the profiles and in the case come out together.
func (c *Case) fit() error {
	var all library.Mistakes
	section := func(name string) (profile.Section, error) {
		p, err := FindProfile(c.Lib, name)
		if err == nil {
			p, err = p.Built()
		}
		var mistakes library.Mistakes
		if errors.As(err, &mistakes) {
			if _, seen := c.Profiles[name]; !seen {
				all = append(all, mistakes...)
			}
		}
		c.Profiles[name] = p
		return p.Section, err
	}
	var err error
	c.Result, err = miter.Fit(c.Case, section, c.Lib.Wood)
	if err == nil {
		return nil
	}
	var mistakes library.Mistakes
	if err = c.Source.Mistakes(err); !errors.As(err, &mistakes) {
		return err
	}
	return append(all, mistakes...)
}

// Names returns the names of the case's profiles, sorted.
func (c Case) Names() []string { return slices.Sorted(maps.Keys(c.Profiles)) }

// Title returns what the case is called on a sheet.
func (c Case) Title() string { return c.Case.Heading() }
