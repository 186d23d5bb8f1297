package stock

import (
	"context"
	"errors"
)

// An effort counts the nodes of every search in one Solve. It stops them all when the count is used up or the context is
// done; until then the same input spends the same nodes, so that a plan depends on the clock only when it says so.
type effort struct {
	ctx     context.Context
	nodes   int64
	limit   int64
	sub     int64 // the limit in force, at most limit
	stopped string
}

// checkEvery is how many nodes pass between two looks at the context; a node takes well under a microsecond.
const checkEvery = 1024

func newEffort(ctx context.Context, limit int64) *effort {
	return &effort{ctx: ctx, limit: limit, sub: limit}
}

// spend counts n nodes and tells whether the search may go on.
func (e *effort) spend(n int64) bool {
	before := e.nodes / checkEvery
	e.nodes += n
	if e.nodes/checkEvery != before {
		e.look()
	}
	return e.stopped == "" && e.nodes <= e.sub
}

// look reads the context once.
func (e *effort) look() {
	if e.stopped != "" {
		return
	}
	if err := e.ctx.Err(); err != nil {
		e.stopped = "time"
		if errors.Is(err, context.Canceled) {
			e.stopped = "canceled"
		}
	} else if e.nodes > e.limit {
		e.stopped = "effort"
	}
}

// over tells whether nothing more may be spent at all.
func (e *effort) over() bool {
	e.look()
	return e.stopped != ""
}

// within runs f with at most n nodes more.
func (e *effort) within(n int64, f func()) {
	old := e.sub
	e.sub = min(old, e.nodes+n)
	f()
	e.sub = old
}
