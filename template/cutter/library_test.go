package cutter_test

import (
	"os"
	"strings"
	"testing"

	"listel/library"
	"listel/template/cutter"
	"listel/template/cutter/replay"
)

// Every profile of the library is planned at the usual effort and replayed; the plan of each seventh is broken, too: its bottom-contact steps 0.3 mm
// deeper one by one, its steps left out one by one. LONG=1 breaks the plan of each third; EFFORT=quick plans at that effort; ONLY=part-of-a-name
// picks some and breaks them all.
func TestLibrary(t *testing.T) {
	o, every := cutter.Options{Effort: cutter.Usual}, 7
	if os.Getenv("LONG") != "" {
		every = 3
	}
	if e, ok := cutter.ParseEffort(os.Getenv("EFFORT")); ok {
		o.Effort = e
	}
	lib := library.Open("", "")
	only := os.Getenv("ONLY")
	for i, l := range lib.List(library.KindProfile) {
		if !strings.Contains(l.Name, only) {
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
			if cutter.Holds(t, p, replay.Options{}) && (i%every == 0 || only != "") {
				cutter.Breaks(t, p)
			}
		})
	}
}
