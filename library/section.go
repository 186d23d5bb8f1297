package library

import (
	"slices"

	"listel/miter"
	"listel/profile"
)

// Profiles returns the look-up that Profile.Section takes for stacks.
func (l *Library) Profiles() profile.Lookup {
	return func(name string) (profile.Profile, error) {
		p, _, err := l.Profile(name)
		return p, err
	}
}

// Section returns the section of the named profile and where the profile was found. Elements that cannot be built are Mistakes
// with their place in the file.
func (l *Library) Section(name string) (profile.Section, Origin, error) {
	p, src, o, err := l.profile(name)
	if err != nil {
		return profile.Section{}, o, err
	}
	s, err := p.Section(l.Profiles())
	if err != nil {
		return profile.Section{}, o, src.Mistakes(err)
	}
	return s, o, nil
}

// Sections returns the look-up that the miter engine takes.
func (l *Library) Sections() miter.Lookup {
	return func(name string) (profile.Section, error) {
		s, _, err := l.Section(name)
		return s, err
	}
}

// Case reads the case file at path.
func (l *Library) Case(path string) (miter.Case, *Source, error) {
	data, err := ReadFile(path)
	if err != nil {
		return miter.Case{}, nil, err
	}
	return LoadCase(path, data)
}

// Example returns an embedded example case. Its profiles are in the embedded library.
func (l *Library) Example(name string) (miter.Case, *Source, error) {
	data, err := ExampleText(name)
	if err != nil {
		return miter.Case{}, nil, err
	}
	return LoadCase(name+".yaml", data)
}

// ExampleText returns the file of an embedded example as it is written, for a copy of one's own.
func ExampleText(name string) ([]byte, error) {
	if slices.Contains(exampleFiles(), name) {
		return embedded.ReadFile("examples/" + name + ".yaml")
	}
	return nil, &NotFoundError{"example", name, Near(name, exampleFiles())}
}
