package cutter

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"testing"
	"time"

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

// breaks checks that the replay flags each bottom-contact step that is 0.3 mm deeper and each step that is dropped. A raster of 0.1 mm will do for
// that where it finds nothing against the whole plan.
func breaks(t testing.TB, p replay.Plan) {
	t.Helper()
	o := replay.Options{Cell: 0.1, First: true}
	if !replay.Replay(p, o).OK() {
		o.Cell = 0.05
	}
	for i, s := range p.Setups {
		if s.Contact {
			if replay.Replay(p.Deepened(i, 0.3), o).OK() {
				t.Errorf("%s: step %d 0.3 mm deeper is not flagged", p.Profile, i+1)
			}
		}
		if s.Removed < 0.05 {
			continue // it takes nothing where all is set true: it stands for the margin of its neighbors, and its loss leaves no trace
		}
		if replay.Replay(p.Without(i), o).OK() {
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
	start := time.Now()
	holds(t, p, replay.Options{})
	t.Log(time.Since(start))
	breaks(t, p)
	shakes(t, p, 100)
	t.Log(time.Since(start))
}
