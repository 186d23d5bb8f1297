package cutter

import (
	"context"
	"errors"
)

// shorter returns the effort next under a longer one; ok is false for the shortest.
func (e Effort) shorter() (s Effort, ok bool) {
	switch e {
	case Long:
		return Usual, true
	case Usual:
		return Quick, true
	}
	return Quick, false
}

// A beside is what is found on another processor while a plan is looked for: the plan at the next shorter effort, which more effort only betters, and
// of a sprung molding what an upright blank would take.
type beside struct {
	found bool // false at the shortest effort
	less  Result
	up    *upright
	err   error
}

// An upright is what a sprung molding takes from an upright blank, found at quick effort.
type upright struct {
	setups    int
	unreached float64 // mm2 of waste over the allowance that stays
}

// lookBeside starts what is found beside a plan; nothing at the shortest effort.
func lookBeside(ctx context.Context, piece Piece, tools []Tool, opts Options) <-chan beside {
	out := make(chan beside, 1)
	effort, ok := opts.Effort.shorter()
	if !ok {
		out <- beside{}
		return out
	}
	opts.Effort, opts.Progress = effort, nil
	go func() {
		b := beside{found: true}
		b.less, b.up, b.err = planFor(ctx, piece, tools, opts)
		if b.err == nil && effort == Quick && piece.Sprung && len(b.less.Setups) >= 6 {
			b.up, b.err = planUpright(ctx, piece, tools, opts, b.less)
		}
		out <- b
	}()
	return out
}

// errMany ends a search that cannot come to few enough set-ups.
var errMany = errors.New("no fewer set-ups")

// planUpright returns what a sprung molding takes from an upright blank; nil when that plan is not safe, or has as many set-ups as one that is.
func planUpright(ctx context.Context, piece Piece, tools []Tool, opts Options, lying Result) (*upright, error) {
	s, err := newSearch(ctx, piece.Upright(), tools, opts)
	if err != nil {
		return nil, err
	}
	if lying.unsafe == 0 {
		s.most = len(lying.Setups) - 1
	}
	r, _, err := s.find()
	if errors.Is(err, errMany) || err == nil && r.unsafe > 0 {
		return nil, nil
	}
	return &upright{len(r.Setups), unreachedArea(r)}, err
}
