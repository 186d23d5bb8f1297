package job

import (
	"context"
	"encoding/json"
	"fmt"
	"runtime"
	"sync"

	"listel/library"
	"listel/profile"
	"listel/template"
	"listel/template/cutter"
	"listel/template/cutter/replay"
)

// planVersion is part of the key under which finished plans are kept. Raise it whenever the planner may plan otherwise, or the verifier judge
// otherwise, than before.
const planVersion = 21

// A Cache keeps finished plans; library.Cache is one.
type Cache interface {
	Get(key string) (data []byte, ok bool)
	Put(key string, data []byte)
}

// A Plan is a plan of set-ups and what the verifier found, as it is printed and kept.
type Plan struct {
	cutter.Result
	Verified Verified `json:"verified"`
}

// Verified is what a replay of the plan by code of its own found.
type Verified struct {
	Gouge  float64  `json:"worst_gouge_mm"`
	Left   float64  `json:"worst_left_mm"` // where the plan promises clean
	Stays  float64  `json:"stays_mm"`      // the most wood where it says that no tool reaches, straight in
	Faults []string `json:"faults"`        // what speaks against the plan, none when it is good
}

// A ToPlan is one section to plan the set-ups of.
type ToPlan struct {
	Section profile.Section
	Tools   library.ToolSet
	Options cutter.Options
}

// piece returns what is to be cut.
func (t ToPlan) piece() cutter.Piece { return cutter.FromSection(t.Section) }

// key returns the key of the plan in a cache: all that the plan follows from.
func (t ToPlan) key() string {
	o := t.Options
	o.Progress = nil
	return library.CacheKey(
		fmt.Appendf(nil, "plan %d", planVersion),
		fmt.Appendf(nil, "%#v", t.piece()),
		fmt.Appendf(nil, "%#v", t.Tools.Tools),
		fmt.Appendf(nil, "%#v", o))
}

// Kept returns the plan from the cache; ok is false when it is not there, as in a nil cache.
func (t ToPlan) Kept(cache Cache) (p Plan, ok bool) {
	if cache == nil {
		return p, false
	}
	data, ok := cache.Get(t.key())
	if !ok || json.Unmarshal(data, &p) != nil {
		return Plan{}, false
	}
	return p, true
}

// Plan returns the plan from the cache, or finds, verifies and keeps it; a nil cache keeps nothing. The error of ctx comes back when it
// ends the search.
func (t ToPlan) Plan(ctx context.Context, cache Cache) (Plan, error) {
	if p, ok := t.Kept(cache); ok {
		return p, nil
	}
	r, err := cutter.Plan(ctx, t.piece(), t.Tools.Tools, t.Options)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Result: r}
	if p.Verified, err = verify(r); err != nil {
		return Plan{}, err
	}
	if cache != nil {
		data, err := json.Marshal(p)
		if err != nil {
			return Plan{}, err
		}
		cache.Put(t.key(), data)
	}
	return p, nil
}

// BoundWords says how good the number of set-ups is known to be: 7 set-ups, proven least of 913 cuts looked at.
func (p Plan) BoundWords() string {
	s := fmt.Sprintf("%d set-ups", len(p.Setups))
	if len(p.Setups) == 1 {
		s = "1 set-up"
	}
	if p.Proven {
		s += ", proven least"
	} else {
		s += fmt.Sprintf(", at least %d are needed", p.LowerBound)
	}
	return s + fmt.Sprintf(" of %d cuts looked at", p.Candidates)
}

// verify replays a plan, as its JSON tells it.
func verify(r cutter.Result) (Verified, error) {
	data, err := json.Marshal(r)
	if err != nil {
		return Verified{}, err
	}
	report, err := replay.Verify(data, replay.Options{})
	if err != nil {
		return Verified{}, err
	}
	v := Verified{Gouge: report.Gouge, Left: report.Left, Stays: report.Stays, Faults: []string{}}
	for _, u := range r.Unreached { // the plan looks between the cells of the replay: the greater of the two is said
		v.Stays = max(v.Stays, u.Deep)
	}
	for _, f := range report.Faults {
		text := f.Text
		if f.Step > 0 {
			text = fmt.Sprintf("set-up %d: %s", f.Step, text)
		}
		v.Faults = append(v.Faults, text)
	}
	return v, nil
}

// PlanAll returns the plans of all, in their order, as many at once as there are processors. at is told the stage that each comes to, ""
// at its end, from several goroutines; nil is told nothing.
func PlanAll(ctx context.Context, all []ToPlan, cache Cache, at func(i int, stage string)) ([]Plan, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	if at == nil {
		at = func(int, string) {}
	}
	out, errs := make([]Plan, len(all)), make([]error, len(all))
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(len(all), runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := range next {
				t := all[i]
				t.Options.Progress = func(p cutter.Progress) { at(i, p.Stage) }
				if out[i], errs[i] = t.Plan(ctx, cache); errs[i] != nil {
					cancel()
				}
				at(i, "")
			}
		})
	}
	for i := range all {
		next <- i
	}
	close(next)
	workers.Wait()
	for i, err := range errs {
		if err != nil && (ctx.Err() == nil || err != ctx.Err()) {
			return nil, fmt.Errorf("%s: %w", all[i].Section.Name, err)
		}
	}
	for _, err := range errs { // stopped from outside: no plan of its own failed
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// Sheets returns a plan as its sheets are drawn from: of the section as it is made by that.
func (t ToPlan) Sheets(p Plan) template.SetupPlan {
	title := t.Tools.Title
	if title == "" {
		title = t.Tools.Name
	}
	return template.SetupPlan{
		Section: t.Section.From(p.Blank.Way), Plan: p.Result, Tools: t.Tools.Tools, Set: title,
		Gouge: p.Verified.Gouge, Left: p.Verified.Left, Stays: p.Verified.Stays, Faults: p.Verified.Faults,
	}
}
