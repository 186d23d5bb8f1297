package cutter_test

import (
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"listel/library"
	"listel/template/cutter"
	"listel/template/cutter/replay"
)

// Every profile of the library is planned and replayed; LONG=1 plans at the usual effort and breaks each plan, too. ONLY=part-of-a-name picks
// some.
func TestLibrary(t *testing.T) {
	long := os.Getenv("LONG") != ""
	o := cutter.Options{Effort: cutter.Quick}
	if long {
		o.Effort = cutter.Usual
	}
	lib := library.Open("", "")
	for _, l := range lib.List(library.KindProfile) {
		if only := os.Getenv("ONLY"); only != "" && !strings.Contains(l.Name, only) {
			continue
		}
		t.Run(l.Name, func(t *testing.T) {
			s, err := lib.SectionOf(l.Name)
			if err != nil {
				t.Fatal(err)
			}
			start := used()
			r, p := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), o)
			took := used() - start
			cutter.Show(t, r)
			t.Log(l.Name, "took", took)
			if cutter.Holds(t, p, replay.Options{}) && long {
				cutter.Breaks(t, p)
			}
		})
	}
}

// used returns the processor time that the process has used, by itself and for its collector: it does not hang on how busy the machine is.
func used() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano())
}
