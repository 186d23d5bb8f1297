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

// Every profile of the library is planned, replayed and its plan broken.
func TestLibrary(t *testing.T) {
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
			r, p := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), cutter.Options{})
			took := time.Since(start)
			cutter.Show(t, r)
			t.Log(l.Name, "took", took)
			if cutter.Holds(t, p, replay.Options{}) && os.Getenv("BREAK") != "" {
				cutter.Breaks(t, p)
			}
		})
	}
}
