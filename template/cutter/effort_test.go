package cutter_test

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/template/cutter"
	"listel/template/cutter/replay"
)

// More effort makes no plan worse by what plans are told apart by, the number of its set-ups before the margin that it leaves. These were worse before
// a longer search kept the shorter one's plan where that was better. LONG=1 takes the whole library at all efforts.
func TestMoreEffortIsNoWorse(t *testing.T) {
	lib := library.Open("", "")
	names, efforts := []string{"nicholson-cavetto", "nicholson-scotia", "base-cap"}, []cutter.Effort{cutter.Quick, cutter.Usual}
	if os.Getenv("LONG") != "" {
		names, efforts = nil, append(efforts, cutter.Long)
		for _, l := range lib.List(library.KindProfile) {
			names = append(names, l.Name)
		}
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			s, err := lib.SectionOf(name)
			require.NoError(t, err)
			var before []float64
			for _, e := range efforts {
				start := used()
				r, p := cutter.Planned(t, cutter.FromSection(s.From(profile.BlankFlat)), cutter.InchSet(), cutter.Options{Effort: e})
				t.Logf("%s at %s effort took %v", name, e, used()-start)
				require.Equal(t, e.String(), r.Effort)
				cutter.Holds(t, p, replay.Options{})
				now := cutter.Merit(r)
				require.True(t, before == nil || slices.Compare(now, before) <= 0, "%v at %s effort, %v before", now, e, before)
				before = now
			}
		})
	}
}
