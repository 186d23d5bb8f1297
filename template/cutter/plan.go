package cutter

import (
	"context"
	"errors"
	"fmt"

	"listel/profile/geom"
)

// ErrNothing reports that no tool of the set can be used on the piece.
var ErrNothing = errors.New("no tool that may be used")

// Plan returns the set-ups that bring the piece out of its blank with the tools at hand. A sprung molding of which nobody has said from which
// blank it is made is planned from the flat one, and where that plan is not safe in every set-up while one from the upright blank is, reaches as much
// and is not longer, from that. The same piece, tools and options give the same plan on any machine. The error is a *ToolError for a tool that is no tool, ErrNothing when none of them may be used, the context's when it
// ended, or says what is wrong with the piece.
func Plan(ctx context.Context, piece Piece, tools []Tool, opts Options) (Result, error) {
	if !piece.either() {
		r, _, err := planFor(ctx, piece, tools, opts, nil)
		return r, err
	}
	flat, up, err := planFor(ctx, piece.flat(), tools, opts, nil)
	if err != nil || flat.unsafe == 0 || up == nil && opts.Effort != Quick {
		return flat, err
	}
	r, _, err := planFor(ctx, piece.Upright(), tools, opts, up)
	if err != nil || r.unsafe > 0 || len(r.Setups) > len(flat.Setups) || r.reach() > flat.reach() {
		return flat, err
	}
	r.hint(Hint{
		Kind: HintChosen, Width: flat.Blank.Width, Thickness: flat.Blank.Thickness, Setups: len(flat.Setups),
		Wood: round(r.Blank.Width*r.Blank.Thickness/(flat.Blank.Width*flat.Blank.Thickness), 100),
	})
	return r, nil
}

// hint puts a hint before the others.
func (r *Result) hint(h Hint) {
	r.Hints = append([]Hint{h}, r.Hints...)
	r.Advice = append([]string{h.Words(inMM)}, r.Advice...)
}

// planFor is Plan for a piece with one blank; quick is its plan at quick effort, nil where that is not known. up is that of a sprung molding from an
// upright blank, nil where it is not known or no better.
func planFor(ctx context.Context, piece Piece, tools []Tool, opts Options, quick *Result) (r Result, up *Result, err error) {
	s, err := newSearch(ctx, piece, tools, opts)
	if err != nil {
		return Result{}, nil, err
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	aside := lookBeside(ctx, piece, tools, opts, quick)
	if r, _, err = s.find(); err != nil {
		return Result{}, nil, err
	}
	b := <-aside
	if b.err != nil {
		return Result{}, nil, b.err
	}
	if effort := r.Effort; b.found && b.less.beats(r) {
		r = b.less
		r.Effort, r.Hints, r.Advice = effort, []Hint{}, []string{}
	}
	return r, b.up, s.advise(&r, b.up)
}

// find looks for the plan and writes it out, without advice.
func (s *search) find() (Result, plan, error) {
	if err := s.candidates(); err != nil {
		return Result{}, plan{}, err
	}
	p, bound, stopped, err := s.solve()
	if err != nil {
		return Result{}, p, err
	}
	p = s.arrange(p)
	return s.result(p, bound, stopped), p, nil
}

// newSearch checks the input and prepares the search.
func newSearch(ctx context.Context, piece Piece, tools []Tool, opts Options) (*search, error) {
	if opts.Allowance == 0 {
		opts.Allowance = 0.5
	}
	if !(opts.Allowance >= 0.3 && opts.Allowance <= 5) {
		return nil, fmt.Errorf("allowance is %g mm; it must be from 0.3 to 5 mm", opts.Allowance)
	}
	if !piece.Outline.Closed(1e-6) || !(piece.Outline.Area() > 0) {
		return nil, fmt.Errorf("profile %s: its outline is not closed or runs clockwise", piece.Name)
	}
	if !(geom.Polygon(piece.Blank[:]...).Area() > 0) {
		return nil, fmt.Errorf("profile %s: its blank has no area or runs clockwise", piece.Name)
	}
	for _, p := range piece.Outline.Flatten(0.01) {
		if !piece.contains(p, 1e-3) {
			return nil, fmt.Errorf("profile %s: its outline leaves the blank at (%.3f, %.3f)", piece.Name, p.X, p.Y)
		}
	}
	works := map[Work]bool{}
	for _, w := range opts.Works {
		works[w] = true
	}
	if len(works) == 0 {
		works[Saw], works[Router] = true, true
	}
	s := &search{opts: opts}
	piece, s.rip = piece.onBoard(allowed(tools, works))
	s.t = newTarget(piece, opts.Allowance)
	s.center = piece.Outline.Centroid()
	s.tick = s.ticker(ctx)
	tilt := geom.Angle(0)
	for _, t := range tools {
		if err := t.Validate(); err != nil {
			return nil, err
		}
		if !works[t.Works()] {
			continue
		}
		s.tools = append(s.tools, t)
		s.variants = append(s.variants, variantsOf(t))
		tilt = max(tilt, t.MaxTilt)
	}
	if len(s.tools) == 0 {
		return nil, ErrNothing
	}
	s.views = s.t.views(works, tilt)
	s.rows = rows{facets: len(s.t.facets), samples: len(s.t.samples), hard: len(s.t.hard)}
	s.scratch = newBitset(s.rows.total())
	return s, nil
}

// allowed returns the tools of the works that may be used.
func allowed(tools []Tool, works map[Work]bool) []Tool {
	var out []Tool
	for _, t := range tools {
		if works[t.Works()] {
			out = append(out, t)
		}
	}
	return out
}

func variantsOf(t Tool) []*variant {
	sh := shapeOf(t)
	out := []*variant{{shape: sh, margins: newMargins(sh.cut)}}
	if !sh.symmetric() {
		m := sh.mirrored()
		out = append(out, &variant{shape: m, margins: newMargins(m.cut), mirror: true})
	}
	return out
}

// ticker returns the function that work calls now and then: it ends a search whose context has ended, and tells of progress.
func (s *search) ticker(ctx context.Context) func() error {
	n := 0
	return func() error {
		n++
		if s.opts.Progress != nil && n%8 == 0 {
			s.opts.Progress(Progress{Stage: s.stage, Done: len(s.cuts) + n})
		}
		return ctx.Err()
	}
}

// candidates makes the cuts and what a cover of them needs.
func (s *search) candidates() error {
	s.stage = "candidates"
	if err := s.makeCuts(); err != nil {
		return err
	}
	if err := s.addWedges(); err != nil {
		return err
	}
	s.settle(0)
	s.need()
	return nil
}

// budget is the nodes that an effort may visit in the exact searches of a plan together.
func (s *search) budget() int {
	return map[Effort]int{Quick: 4000, Usual: 40_000, Long: 400_000}[s.opts.Effort]
}

// repairs is how often a cover that is not proven least is taken apart and completed again.
func (s *search) repairs() int {
	return map[Effort]int{Quick: 150, Usual: 800, Long: 8000}[s.opts.Effort]
}

func (s *search) finalBeam() int {
	return map[Effort]int{Quick: 12, Usual: 24, Long: 80}[s.opts.Effort]
}

// again is how often a search may go back when no safe order was found.
func (s *search) again() int {
	return map[Effort]int{Quick: 1, Usual: 2, Long: 6}[s.opts.Effort]
}

// looks is how often a cover is looked over for waste that slipped between the points.
func (s *search) looks() int {
	return map[Effort]int{Quick: 3, Usual: 4, Long: 8}[s.opts.Effort]
}

// solve covers what is needed, looks the cover over for waste that slipped between the points, asks for that too, and so on; then it improves and
// orders the plan, and mends what the improving let slip. bound is the least number of set-ups that any plan of these cuts needs: fewer points
// asked for make it no more than it should be.
func (s *search) solve() (p plan, bound int, stopped bool, err error) {
	if p, bound, stopped, err = s.inSafeOrder(); err == nil {
		bound, err = s.boundOf(p, bound)
	}
	return p, bound, stopped, err
}

// boundOf returns the least number of set-ups that any plan of these cuts needs to clear what p clears. It is less than bound where p does without
// a step: what that was to take falls off, or its neighbors take it with a smaller margin.
func (s *search) boundOf(p plan, bound int) (int, error) {
	m := s.missing(p.picked)
	if m.empty() {
		return bound, nil
	}
	s.needed.andNot(m)
	s.nodes = max(s.nodes, s.budget()/16)
	_, low, _, err := s.leastCover(0)
	return min(bound, low), err
}

// inSafeOrder is solve but for the last word on the bound.
func (s *search) inSafeOrder() (p plan, bound int, stopped bool, err error) {
	s.nodes = s.budget()
	picked, bound, stopped, err := s.coverAll()
	if err != nil {
		return p, bound, stopped, err
	}
	if s.most > 0 && bound > s.most {
		return p, bound, stopped, errMany
	}
	s.effort = map[Effort]int{Quick: 30_000, Usual: 80_000, Long: 800_000}[s.opts.Effort]
	if p, err = s.polish(picked, &bound, &stopped); err != nil {
		return p, bound, stopped, err
	}
	p = s.final(p)
	// No safe order: what stood in its way is not used again, and the search goes back.
	last := p
	for range s.again() {
		if p.violations == 0 || !s.ban(last) {
			break
		}
		low, open := bound, stopped
		s.effort = max(s.effort, 0) + map[Effort]int{Quick: 8_000, Usual: 20_000, Long: 150_000}[s.opts.Effort]
		if picked, _, _, err = s.leastCover(bound); err != nil {
			return p, bound, stopped, err
		}
		q, err := s.polish(s.mend(picked), &low, &open)
		if err != nil {
			return p, bound, stopped, err
		}
		if last = s.final(q); last.better(p) {
			p = last
		}
	}
	return p, bound, stopped, nil
}

// polish improves and orders a cover, and mends what the improving let slip.
func (s *search) polish(picked []int, bound *int, stopped *bool) (p plan, err error) {
	s.stage = "order"
	for range s.looks() {
		if p, err = s.improve(picked, max(s.weightOf(picked), *bound+1)); err != nil {
			return p, err
		}
		more := s.lacking(p.picked)
		if len(more) == 0 {
			break
		}
		s.addPoints(more)
		if picked = s.mend(p.picked); s.weightOf(picked) <= max(p.weight, *bound) {
			continue
		}
		var low int
		if picked, low, *stopped, err = s.leastCover(*bound); err != nil {
			return p, err
		}
		*bound = max(*bound, low)
	}
	return p, nil
}

// coverAll returns a least cover that leaves nothing over the allowance which some cut would clear.
func (s *search) coverAll() (picked []int, bound int, stopped bool, err error) {
	s.stage = "cover"
	for range s.looks() {
		var low int
		if picked, low, stopped, err = s.leastCover(bound); err != nil {
			return nil, bound, stopped, err
		}
		bound = max(bound, low)
		more := s.lacking(picked)
		if len(more) == 0 {
			break
		}
		s.addPoints(more)
	}
	picked = s.mend(picked)
	s.least = s.weightOf(picked)
	return picked, bound, stopped, nil
}

// leastCover returns a cover of the needed rows, the bound, and whether the budget ended before it was proven. No cover is lighter than low.
func (s *search) leastCover(low int) (picked []int, bound int, stopped bool, err error) {
	p := problem{rows: s.rows.total()}
	if s.kept == nil {
		for k := range s.cuts {
			s.kept = append(s.kept, k)
		}
	}
	for _, k := range s.kept {
		c := &s.cuts[k]
		r := c.rows.clone()
		r.and(s.needed)
		if c.banned {
			r = newBitset(s.rows.total())
		}
		p.cols, p.weights, p.cost = append(p.cols, r), append(p.weights, c.weight), append(p.cost, c.cost)
	}
	c, at := p.reduce(), s.kept
	s.kept = make([]int, 0, len(c.full))
	for _, k := range c.full {
		s.kept = append(s.kept, at[k])
	}
	sv := newSolver(c, s.nodes, s.tick)
	cover, bound, err := sv.solve(low)
	s.nodes = max(sv.nodes, s.budget()/16)
	if err != nil {
		return nil, 0, false, err
	}
	if cover == nil {
		stopped = true
		cover = c.destroyAndRepair(c.greedy(), s.repairs()/c.bulk(), bound)
	}
	for _, k := range cover {
		picked = append(picked, at[c.ids[k]])
	}
	return picked, bound, stopped, nil
}
