package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
)

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

// library returns the library seen from an argument.
func (app App) library(arg string) *library.Library {
	return library.Open(folderOf(arg), app.UserFolder)
}

// readProfile reads the profile that arg names, without building it.
func (app App) readProfile(arg string) (job.Profile, error) {
	if isPath(arg) {
		return job.ReadProfile(app.library(arg), arg)
	}
	p, err := job.FindProfile(app.library(arg), arg)
	return p, asUse(err)
}

// loadProfile reads and builds the profile that arg names.
func (app App) loadProfile(arg string) (job.Profile, error) {
	p, err := app.readProfile(arg)
	if err != nil {
		return p, err
	}
	return p.Built()
}

// loadCase reads the case that arg names and fits its moldings. An empty arg is the example.
func (app App) loadCase(arg string) (job.Case, error) {
	switch {
	case arg == "":
		return job.Example()
	case isPath(arg):
		return job.ReadCase(app.library(arg), arg)
	}
	c, err := job.FindCase(app.library(arg), arg)
	return c, asUse(err)
}

// kindOf returns what arg names: a profile, or a case.
func (app App) kindOf(arg string) (library.Kind, error) {
	if isPath(arg) {
		return library.FileKind(arg)
	}
	kind, err := app.library(arg).KindOf(arg)
	return kind, asUse(err)
}

// asUse makes a name that the library does not know, or a choice that cannot be, a wrong use of the command.
func asUse(err error) error {
	var choice *job.ChoiceError
	if errors.As(err, &choice) {
		return wrongUse("--%w", choice)
	}
	var missing *library.NotFoundError
	if errors.As(err, &missing) {
		return usageError{err}
	}
	return err
}
