package serve

import (
	"context"
	"net/http"
	"sync"
	"time"

	"listel/cmd/listel/job"
	"listel/profile"
	"listel/template/cutter"
)

// A setupsRequest asks for the set-ups of a profile, as the page holds it.
type setupsRequest struct {
	sectionRequest
	Tools     string `json:"tools"`  // "" for the generic set in the profile's units
	Work      string `json:"work"`   // machine or plane; "" for machine
	Effort    string `json:"effort"` // quick, usual or long; "" for usual
	Allowance string `json:"allowance"`
	Blank     string `json:"blank"` // of what is sprung: flat or upright, "" for the one that comes out better
	Kept      bool   `json:"kept"`  // only a plan that is kept already, none when it would have to be searched for
}

// shop returns the choices of the plan.
func (q setupsRequest) shop() job.Shop {
	s := job.Shop{Work: q.Work, Effort: q.Effort, Allowance: q.Allowance, Blank: profile.BlankWay(q.Blank)}
	if s.Work == "" {
		s.Work = "machine"
	}
	if s.Effort == "" {
		s.Effort = "usual"
	}
	return s
}

// postSetups streams how far the search has come, then the plan; {"none": true} when only a kept one was asked for and there is none.
// Mistakes in the text come as a line of their own. A page that leaves the stream stops the search.
func (s *Server) postSetups(w http.ResponseWriter, r *http.Request) error {
	var q setupsRequest
	if err := read(w, r, &q); err != nil {
		return err
	}
	if err := q.check(); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	lines := &lineWriter{w: w}
	view, err := s.setups(r.Context(), q, lines)
	switch mistakes := mistakeViews(err); {
	case r.Context().Err() != nil:
		return nil
	case err != nil && len(mistakes) > 0 && mistakes[0].File != "":
		return lines.send(map[string]any{"mistakes": mistakes})
	case err != nil:
		return lines.send(map[string]any{"error": err.Error(), "status": statusOf(err)})
	case view == nil:
		return lines.send(map[string]any{"none": true})
	}
	return lines.send(map[string]any{"plan": view})
}

// setups returns the plan that q asks for, nil when it is to be a kept one and none is.
func (s *Server) setups(ctx context.Context, q setupsRequest, lines *lineWriter) (*planView, error) {
	p, err := s.load(q.sectionRequest)
	if err != nil {
		return nil, err
	}
	lengths, err := job.Lengths(q.Units, 64, p.Profile.Units) // as the sheets have them: a fence is set finer than a member is drawn
	if err != nil {
		return nil, err
	}
	tools, err := job.Tools(p.Lib, q.Tools, p.Profile.Units)
	if err != nil {
		return nil, err
	}
	plan, err := q.shop().ToPlan(p.Section, tools, p.Profile.Units)
	if err != nil {
		return nil, err
	}
	found, ok := plan.Kept(s.cache)
	if !ok && q.Kept {
		return nil, nil
	}
	if !ok {
		if found, err = s.search(ctx, plan, lines); err != nil {
			return nil, err
		}
	}
	return newPlanView(p, plan, found, lengths), nil
}

// search finds a plan in one of the places for searches, within their time.
func (s *Server) search(ctx context.Context, plan job.ToPlan, lines *lineWriter) (job.Plan, error) {
	_ = lines.send(map[string]any{"stage": "waiting", "done": 0}) // a reader that is gone ends the context too
	leave, err := s.enterPlan(ctx)
	if err != nil {
		return job.Plan{}, err
	}
	defer leave()
	ctx, cancel := context.WithTimeout(ctx, planTime)
	defer cancel()
	plan.Options.Progress = told(lines)
	found, err := plan.Plan(ctx, s.cache)
	if err != nil {
		return job.Plan{}, timeWords(ctx, err)
	}
	return found, nil
}

// told returns what passes progress on to the page, a few times a second.
func told(lines *lineWriter) func(cutter.Progress) {
	const often = 150 * time.Millisecond
	var mu sync.Mutex
	var last time.Time
	stage := ""
	return func(p cutter.Progress) {
		mu.Lock()
		defer mu.Unlock()
		if p.Stage == stage && time.Since(last) < often {
			return
		}
		stage, last = p.Stage, time.Now()
		_ = lines.send(map[string]any{"stage": p.Stage, "done": p.Done})
	}
}
