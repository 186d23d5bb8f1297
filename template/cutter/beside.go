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
// of a sprung molding the plan from an upright blank, at quick effort.
type beside struct {
	found bool // false at the shortest effort
	less  Result
	up    *Result // nil where it is not safe, or no shorter than one that is
	err   error
}

// lookBeside starts what is found beside a plan; nothing at the shortest effort. quick is the plan at that, where it is known.
func lookBeside(ctx context.Context, piece Piece, tools []Tool, opts Options, quick *Result) <-chan beside {
	out := make(chan beside, 1)
	effort, ok := opts.Effort.shorter()
	switch {
	case !ok:
		out <- beside{}
		return out
	case effort == Quick && quick != nil:
		out <- beside{found: true, less: *quick}
		return out
	}
	opts.Effort, opts.Progress = effort, nil
	go func() {
		b := beside{found: true}
		b.less, b.up, b.err = planFor(ctx, piece, tools, opts, quick)
		if b.err == nil && effort == Quick && piece.Sprung && len(b.less.Setups) >= 6 {
			b.up, b.err = planUpright(ctx, piece, tools, opts, b.less)
		}
		out <- b
	}()
	return out
}

// errMany ends a search that cannot come to few enough set-ups.
var errMany = errors.New("no fewer set-ups")

// planUpright returns the plan of a sprung molding from an upright blank; nil when that is not safe, or has as many set-ups as the one from the flat
// blank, which is.
func planUpright(ctx context.Context, piece Piece, tools []Tool, opts Options, lying Result) (*Result, error) {
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
	return &r, err
}
