package main

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"listel/library"
	"listel/miter"
	"listel/profile"
)

// A job is a file that a command was given, and the library seen from it.
type job struct {
	arg    string // as it was named
	lib    *library.Library
	origin library.Origin
	source *library.Source
}

// A loadedProfile is a profile that was read and built.
type loadedProfile struct {
	job
	profile profile.Profile
	section profile.Section
}

// A loadedCase is a case that was read and fitted, with the profiles of its moldings.
type loadedCase struct {
	job
	c        miter.Case
	result   miter.Result
	profiles map[string]loadedProfile
}

// isPath reports whether arg names a file rather than an entry of the library.
func isPath(arg string) bool {
	if strings.ContainsRune(arg, '/') || strings.ContainsRune(arg, filepath.Separator) {
		return true
	}
	ext := strings.ToLower(filepath.Ext(arg))
	if ext == ".yaml" || ext == ".yml" {
		return true
	}
	info, err := os.Stat(arg)
	return err == nil && info.Mode().IsRegular()
}

// folderOf returns the project's folder for an argument: that of the file, else the one at hand.
func folderOf(arg string) string {
	if isPath(arg) {
		return filepath.Dir(arg)
	}
	return "."
}

// open returns the job of an argument.
func (app App) open(arg string) job {
	return job{arg: arg, lib: library.Open(folderOf(arg), app.UserFolder)}
}

// readProfile reads the profile that arg names, without building it.
func (app App) readProfile(arg string) (loadedProfile, error) {
	l := loadedProfile{job: app.open(arg)}
	var err error
	if isPath(arg) {
		l.origin = library.Origin{Where: library.Project, File: arg}
		l.profile, l.source, err = library.ReadProfile(arg)
		return l, err
	}
	l.profile, l.source, l.origin, err = l.lib.ProfileSource(arg)
	return l, asUse(err)
}

// build builds the section of l.
func (l loadedProfile) build() (loadedProfile, error) {
	s, err := l.profile.Section(l.lib.Lookup)
	if err != nil {
		return l, l.source.Mistakes(err)
	}
	l.section = s
	return l, nil
}

// loadProfile reads and builds the profile that arg names.
func (app App) loadProfile(arg string) (loadedProfile, error) {
	l, err := app.readProfile(arg)
	if err != nil {
		return l, err
	}
	return l.build()
}

// asUse makes a name that the library does not know a wrong use of the command.
func asUse(err error) error {
	var missing *library.NotFoundError
	if errors.As(err, &missing) {
		return usageError{err}
	}
	return err
}

// loadCase reads the case that arg names and fits its moldings. An empty arg is the example.
func (app App) loadCase(arg string) (loadedCase, error) {
	l := loadedCase{job: app.open(arg), profiles: map[string]loadedProfile{}}
	if arg == "" {
		l.job = job{arg: library.ExampleName, lib: library.Open("", "")} // the example is the same wherever one stands
	}
	var err error
	if arg != "" && isPath(arg) {
		l.origin = library.Origin{Where: library.Project, File: arg}
		l.c, l.source, err = library.ReadCase(arg)
	} else {
		l.c, l.source, l.origin, err = l.lib.CaseSource(l.arg)
	}
	var mistakes library.Mistakes
	if errors.As(err, &mistakes) {
		return l, mistakes.With(l.lib.Missing(l.c, l.source))
	}
	if err != nil {
		return l, asUse(err)
	}
	return l, l.fit()
}

// kindOf returns what arg names: a profile, or a case.
func (app App) kindOf(arg string) (library.Kind, error) {
	if isPath(arg) {
		return library.FileKind(arg)
	}
	kind, err := app.open(arg).lib.KindOf(arg)
	return kind, asUse(err)
}

// fit builds the sections of the case's moldings and fits them to it. Mistakes in the profiles and in the case come out together.
func (l *loadedCase) fit() error {
	var all library.Mistakes
	section := func(name string) (profile.Section, error) {
		p := loadedProfile{job: job{arg: name, lib: l.lib}}
		var err error
		if p.profile, p.source, p.origin, err = l.lib.ProfileSource(name); err == nil {
			p, err = p.build()
		}
		var mistakes library.Mistakes
		if errors.As(err, &mistakes) {
			if _, seen := l.profiles[name]; !seen {
				all = append(all, mistakes...)
			}
		}
		l.profiles[name] = p
		return p.section, err
	}
	var err error
	l.result, err = miter.Fit(l.c, section, l.lib.Wood)
	if err == nil {
		return nil
	}
	var mistakes library.Mistakes
	if err = l.source.Mistakes(err); !errors.As(err, &mistakes) {
		return err
	}
	return append(all, mistakes...)
}

// names returns the names of the case's profiles, sorted.
func (l loadedCase) names() []string { return slices.Sorted(maps.Keys(l.profiles)) }

// from says where the file at hand came from, for outputs.
func (j job) from() string {
	if j.origin.Where == library.Embedded {
		return fmt.Sprintf("%s (%s)", j.arg, j.origin)
	}
	return j.origin.File
}
