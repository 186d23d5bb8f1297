package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// built returns the path of listel, built as its users build it.
func built(tb testing.TB) string {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), "listel")
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	require.NoError(tb, err, "%s", out)
	return path
}

// A use is what a process took.
type use struct {
	wall, cpu time.Duration // cpu is that of all its threads, in the program itself
	mb        float64       // the most memory that it held, 0 where the machine does not tell
	out, errs string
	code      int
}

// String returns the processor's time and the memory: "0.42 s, 30 MB".
func (u use) String() string { return fmt.Sprintf("%s, %.0f MB", seconds(u.cpu), u.mb) }

// seconds returns a time with two digits that count.
func seconds(d time.Duration) string {
	switch s := d.Seconds(); {
	case s < 0.0995:
		return fmt.Sprintf("%.3f s", s)
	case s < 9.95:
		return fmt.Sprintf("%.2f s", s)
	default:
		return fmt.Sprintf("%.1f s", s)
	}
}

// runs runs a program in dir with a library and a cache of its own, which stay in home.
func runs(tb testing.TB, program, dir, home string, args ...string) use {
	tb.Helper()
	cmd := exec.Command(program, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "HOME="+home, "XDG_CACHE_HOME="+home, "XDG_DATA_HOME="+home)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	start := time.Now()
	err := cmd.Run()
	u := use{wall: time.Since(start), out: out.String(), errs: errs.String()}
	require.NotNil(tb, cmd.ProcessState, "%v", err)
	u.code, u.cpu, u.mb = cmd.ProcessState.ExitCode(), cmd.ProcessState.UserTime(), peak(cmd.ProcessState)
	return u
}
