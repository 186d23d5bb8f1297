package main

import (
	"bytes"
	"testing"
	"time"

	"listel/library"
)

// A ran is what a command printed and how it ended.
type ran struct {
	code     int
	out, err string
}

// listel runs a command line in a new App whose user folder is user.
func listel(t *testing.T, user string, args ...string) ran {
	t.Helper()
	return keeping(testPlans, user, args...)
}

// testPlans keeps the plans of set-ups of one run of the tests, so that each is searched for once: see TestMain.
var testPlans library.Cache

// keeping runs a command line in a new App that keeps its plans there.
func keeping(plans library.Cache, user string, args ...string) ran {
	var out, errs bytes.Buffer
	app := App{Out: &out, Err: &errs, UserFolder: user, Now: func() time.Time { return time.Time{} }, Plans: plans}
	code := Main(args, app)
	return ran{code, out.String(), errs.String()}
}
