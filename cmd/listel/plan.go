package main

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
const planVersion = 2

// A planCache keeps finished plans; library.Cache is one.
type planCache interface {
	Get(key string) (data []byte, ok bool)
	Put(key string, data []byte)
}

// A planned is a plan and what the verifier found, as it is printed and kept.
type planned struct {
	cutter.Result
	Verified verifiedJSON `json:"verified"`
}

// verifiedJSON is what a replay of the plan by code of its own found.
type verifiedJSON struct {
	Gouge  float64  `json:"worst_gouge_mm"`
	Left   float64  `json:"worst_left_mm"`
	Faults []string `json:"faults"` // what speaks against the plan, none when it is good
}

// A planJob is one section to plan.
type planJob struct {
	section profile.Section
	set     library.ToolSet
	options cutter.Options
	upright bool // a sprung molding from an upright blank, its back sawn last
}

// piece returns what is to be cut.
func (j planJob) piece() cutter.Piece {
	p := cutter.FromSection(j.section)
	if j.upright {
		return p.Upright()
	}
	return p
}

// key returns the key of the job's plan in a cache: all that the plan follows from.
func (j planJob) key() string {
	o := j.options
	o.Progress = nil
	return library.CacheKey(
		fmt.Appendf(nil, "plan %d", planVersion),
		fmt.Appendf(nil, "%#v", j.piece()),
		fmt.Appendf(nil, "%#v", j.set.Tools),
		fmt.Appendf(nil, "%#v", o))
}

// plan returns the job's plan from the cache, or finds, verifies and keeps it.
func (j planJob) plan(ctx context.Context, cache planCache) (planned, error) {
	key := ""
	if cache != nil {
		key = j.key()
		if data, ok := cache.Get(key); ok {
			var p planned
			if json.Unmarshal(data, &p) == nil {
				return p, nil
			}
		}
	}
	r, err := cutter.Plan(ctx, j.piece(), j.set.Tools, j.options)
	if err != nil {
		return planned{}, err
	}
	p := planned{Result: r}
	if p.Verified, err = verify(r); err != nil {
		return planned{}, err
	}
	if cache != nil {
		data, err := json.Marshal(p)
		if err != nil {
			return planned{}, err
		}
		cache.Put(key, data)
	}
	return p, nil
}

// verify replays a plan, as its JSON tells it.
func verify(r cutter.Result) (verifiedJSON, error) {
	data, err := json.Marshal(r)
	if err != nil {
		return verifiedJSON{}, err
	}
	report, err := replay.Verify(data, replay.Options{})
	if err != nil {
		return verifiedJSON{}, err
	}
	v := verifiedJSON{Gouge: report.Gouge, Left: report.Left, Faults: []string{}}
	for _, f := range report.Faults {
		text := f.Text
		if f.Step > 0 {
			text = fmt.Sprintf("set-up %d: %s", f.Step, text)
		}
		v.Faults = append(v.Faults, text)
	}
	return v, nil
}

// planAll returns the plans of jobs, as many at once as there are processors, and shows how far they have come.
func (app App) planAll(jobs []planJob, cache planCache) ([]planned, error) {
	bar := app.newProgress("planning set-ups", len(jobs))
	defer bar.end()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	out, errs := make([]planned, len(jobs)), make([]error, len(jobs))
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(len(jobs), runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := range next {
				job := jobs[i]
				job.options.Progress = func(p cutter.Progress) { bar.at(i, p.Stage) }
				if out[i], errs[i] = job.plan(ctx, cache); errs[i] != nil {
					cancel()
				}
				bar.at(i, "")
			}
		})
	}
	for i := range jobs {
		next <- i
	}
	close(next)
	workers.Wait()
	for i, err := range errs {
		if err != nil && (ctx.Err() == nil || err != ctx.Err()) {
			return nil, fmt.Errorf("%s: %w", jobs[i].section.Name, err)
		}
	}
	return out, nil
}

// sheets returns a plan as its sheets are drawn from.
func (j planJob) sheets(p planned) template.SetupPlan {
	title := j.set.Title
	if title == "" {
		title = j.set.Name
	}
	return template.SetupPlan{
		Section: j.section, Plan: p.Result, Tools: j.set.Tools, Set: title,
		Gouge: p.Verified.Gouge, Left: p.Verified.Left, Faults: p.Verified.Faults,
	}
}
