package cutter_test

import (
	"os"
	"strings"
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
			start := time.Now()
			r, p := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), o)
			took := time.Since(start)
			cutter.Show(t, r)
			t.Log(l.Name, "took", took)
			if cutter.Holds(t, p, replay.Options{}) && long {
				cutter.Breaks(t, p)
			}
		})
	}
}
