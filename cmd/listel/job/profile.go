package job

import (
	"fmt"

	"listel/library"
	"listel/profile"
)

// A Job is a file or an entry of the library, and the library seen from it.
type Job struct {
	Arg    string // as it was named
	Lib    *library.Library
	Origin library.Origin
	Source *library.Source // where its keys stand, nil when it could not be read
}

// From says where the job's file came from, for outputs.
func (j Job) From() string {
	if j.Origin.Where == library.Embedded {
		return fmt.Sprintf("%s (%s)", j.Arg, j.Origin)
	}
	return j.Origin.File
}

// A Profile is a profile that was read, and its section once it is built.
type Profile struct {
	Job
	Profile profile.Profile
	Section profile.Section
}

// ReadProfile returns the profile in the file at path, seen from lib, without building it.
func ReadProfile(lib *library.Library, path string) (Profile, error) {
	p := Profile{Job: fileJob(lib, path)}
	var err error
	p.Profile, p.Source, err = library.ReadProfile(path)
	return p, err
}

// LoadProfile returns the profile that text says, as if it stood in the file at path, without building it.
func LoadProfile(lib *library.Library, path, text string) (Profile, error) {
	p := Profile{Job: fileJob(lib, path)}
	var err error
	p.Profile, p.Source, err = library.LoadProfile(path, []byte(text))
	return p, err
}

// FindProfile returns the profile of that name in lib, without building it. The error is a *library.NotFoundError when there is none.
func FindProfile(lib *library.Library, name string) (Profile, error) {
	p := Profile{Job: Job{Arg: name, Lib: lib}}
	var err error
	p.Profile, p.Source, p.Origin, err = lib.ProfileSource(name)
	return p, err
}

// fileJob returns the job of a file of the project.
func fileJob(lib *library.Library, path string) Job {
	return Job{Arg: path, Lib: lib, Origin: library.Origin{Where: library.Project, File: path}}
}

// Built returns p with its section. What cannot be built is library.Mistakes.
func (p Profile) Built() (Profile, error) {
	s, err := p.Profile.Section(p.Lib.Lookup)
	if err != nil {
		return p, p.Source.Mistakes(err)
	}
	p.Section = s
	return p, nil
}

// Title returns the profile's title, or its name when it has none.
func (p Profile) Title() string {
	if p.Profile.Title != "" {
		return p.Profile.Title
	}
	return p.Profile.Name
}
