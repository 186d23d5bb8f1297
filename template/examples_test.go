package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/miter"
	"listel/profile"
	"listel/template"
)

// examples is the library that the sheets' tests draw from: the embedded one alone.
func examples() *library.Library { return library.Open("", "") }

// changedExample returns an embedded case that change has altered, fitted.
func changedExample(t testing.TB, name string, change func(*miter.Case)) (miter.Case, miter.Result) {
	t.Helper()
	lib := examples()
	c, _, err := lib.Case(name)
	require.NoError(t, err)
	change(&c)
	r, err := miter.Fit(c, lib.SectionOf, lib.Wood)
	require.NoError(t, err)
	return c, r
}

// exampleNamed returns an embedded case, fitted.
func exampleNamed(t testing.TB, name string) (miter.Case, miter.Result) {
	t.Helper()
	return changedExample(t, name, func(*miter.Case) {})
}

// example returns the example that is drawn with no file, fitted.
func example(t testing.TB) (miter.Case, miter.Result) {
	t.Helper()
	return exampleNamed(t, library.ExampleName)
}

// jobOf returns a case as a packet is drawn from it, with the profiles of its moldings and beads.
func jobOf(t testing.TB, c miter.Case, r miter.Result) template.Job {
	t.Helper()
	lib := examples()
	job := template.Job{Case: c, Result: r, Profiles: map[string]profile.Profile{}}
	names := []string{}
	for _, m := range c.Moldings {
		names = append(names, m.Profile)
	}
	if c.Beads != nil {
		names = append(names, c.Beads.Profile)
	}
	for _, name := range names {
		p, _, err := lib.Profile(name)
		require.NoError(t, err)
		job.Profiles[name] = p
	}
	return job
}
