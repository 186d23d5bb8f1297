package cutter_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/template/cutter"
	"listel/template/cutter/replay"
)

// More effort makes no plan longer that leaves as much margin for a fence that is off: these became longer, before a longer search kept the shorter
// one's plan where that was better. LONG=1 takes them at all efforts, and a crown with them.
func TestMoreEffortIsNoLonger(t *testing.T) {
	lib := library.Open("", "")
	names, efforts := []string{"nicholson-cavetto", "nicholson-scotia", "base-cap"}, []cutter.Effort{cutter.Quick, cutter.Usual}
	if os.Getenv("LONG") != "" {
		names, efforts = append(names, "ionic-base", "double-ogee-crown"), append(efforts, cutter.Long)
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			s, err := lib.SectionOf(name)
			require.NoError(t, err)
			before, weak := 0, 0
			for _, e := range efforts {
				r, p := cutter.Planned(t, cutter.FromSection(s), cutter.InchSet(), cutter.Options{Effort: e})
				require.Equal(t, e.String(), r.Effort)
				cutter.Holds(t, p, replay.Options{})
				require.True(t, before == 0 || len(r.Setups) <= before || cutter.Weak(r) < weak, "%d set-ups at %s effort, %d before", len(r.Setups), e, before)
				before, weak = len(r.Setups), cutter.Weak(r)
			}
		})
	}
}
