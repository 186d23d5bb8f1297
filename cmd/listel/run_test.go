package main

import (
	"bytes"
	"testing"
	"time"
)

// A ran is what a command printed and how it ended.
type ran struct {
	code     int
	out, err string
}

// listel runs a command line in a new App whose user folder is user.
func listel(t *testing.T, user string, args ...string) ran {
	t.Helper()
	var out, errs bytes.Buffer
	app := App{Out: &out, Err: &errs, UserFolder: user, Now: func() time.Time { return time.Time{} }}
	code := Main(args, app)
	return ran{code, out.String(), errs.String()}
}
