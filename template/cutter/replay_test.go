package cutter

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/template/cutter/replay"
)

// planned returns a plan and its JSON as the replay reads it.
func planned(t testing.TB, p Piece, tools []Tool, o Options) (Result, replay.Plan) {
	t.Helper()
	r, err := Plan(context.Background(), p, tools, o)
	require.NoError(t, err)
	data, err := json.Marshal(r)
	require.NoError(t, err)
	q, err := replay.Decode(data)
	require.NoError(t, err)
	return r, q
}

// holds replays a plan and reports its faults.
func holds(t testing.TB, p replay.Plan, o replay.Options) bool {
	t.Helper()
	rep := replay.Replay(p, o)
	for _, f := range rep.Faults {
		t.Errorf("%s: step %d: %s: %s", p.Profile, f.Step, f.Kind, f.Text)
	}
	return rep.OK()
}

// breaks checks that the replay flags each bottom-contact step that is 0.3 mm deeper and each step that is dropped. What a raster of 0.1 mm
// flags that passes the whole plan needs no finer one.
func breaks(t testing.TB, p replay.Plan) {
	t.Helper()
	quick, full := replay.Options{Cell: 0.1, First: true}, replay.Options{First: true}
	sound := replay.Replay(p, quick).OK()
	flagged := func(q replay.Plan) bool {
		return sound && !replay.Replay(q, quick).OK() || !replay.Replay(q, full).OK()
	}
	for i, s := range p.Setups {
		if s.Contact {
			if !flagged(p.Deepened(i, 0.3)) {
				t.Errorf("%s: step %d 0.3 mm deeper is not flagged", p.Profile, i+1)
			}
		}
		if !flagged(p.Without(i)) {
			t.Errorf("%s: dropping step %d (%s) is not flagged", p.Profile, i+1, s.Tool)
		}
	}
}

// shakes replays a plan with fence and height off by up to 0.1 mm at random.
func shakes(t testing.TB, p replay.Plan, trials int) {
	t.Helper()
	rng := rand.New(rand.NewPCG(11, 11))
	for n := range trials {
		q := p.Shaken(func() (float64, float64) { return 0.2*rng.Float64() - 0.1, 0.2*rng.Float64() - 0.1 })
		rep := replay.Replay(q, replay.Options{Cell: 0.1, Gouge: 0.15, OnlyShape: true})
		for _, f := range rep.Faults {
			t.Errorf("%s: trial %d: step %d: %s: %s", p.Profile, n, f.Step, f.Kind, f.Text)
		}
	}
}

func TestReplayOfTheFilletCoveOvolo(t *testing.T) {
	_, p := planned(t, pieceOf(t, filletCoveOvolo()), metricSet(), Options{})
	holds(t, p, replay.Options{})
	breaks(t, p)
	shakes(t, p, 100)
}

// A step that takes nothing is flagged: here each is done twice.
func TestReplayFlagsAnIdleStep(t *testing.T) {
	_, p := planned(t, pieceOf(t, filletCoveOvolo()), metricSet(), Options{Effort: Quick})
	for i := range p.Setups {
		q := p
		q.Setups = slices.Insert(slices.Clone(p.Setups), i+1, p.Setups[i])
		idle := slices.ContainsFunc(replay.Replay(q, replay.Options{Cell: 0.1}).Faults, func(f replay.Fault) bool { return f.Kind == "takes" && f.Step == i+2 })
		require.True(t, idle, "step %d, done twice", i+1)
	}
}
