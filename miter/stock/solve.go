package stock

import (
	"cmp"
	"context"
	"errors"
)

// Solve returns the plan of least cost for a job, and among those of equal cost one with the longest single leftover.
// Plan.Proven says whether nothing can cost less; otherwise Plan.Cost - Plan.LowerBound is the gap, left by the effort or
// by the context's deadline (see Plan.Stopped). A context that was canceled is an error. Faults of the job are returned all
// at once, joined: those of Validate, *TooLongError, *SafeError, *NoStockError, *ScarceError; or ErrNoPlan.
func Solve(ctx context.Context, job Job) (Plan, error) {
	return job.solve(ctx, tuning{})
}

func (j Job) solve(ctx context.Context, tune tuning) (Plan, error) {
	classes, err := j.ready()
	if err != nil {
		return Plan{}, err
	}
	limit := j.Effort
	if limit == 0 {
		limit = DefaultEffort
	}
	eff := newEffort(ctx, limit)
	costs, m := j.costs()
	var done []*solved
	var errs []error
	for _, group := range components(classes) {
		s, err := j.solveGroup(group, costs, eff, tune)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		done = append(done, s)
	}
	if eff.look(); eff.stopped == "canceled" {
		return Plan{}, ctx.Err()
	}
	if len(errs) > 0 {
		return Plan{}, errors.Join(errs...)
	}
	return j.plan(classes, done, m, eff), nil
}

// ready checks the job and returns its classes with their stock and allowances.
func (j Job) ready() ([]*class, error) {
	err := j.Validate()
	var size *SizeError
	if errors.As(err, &size) {
		return nil, err
	}
	errs := []error{err}
	classes := j.classes()
	for _, c := range classes {
		if err := j.match(c); err != nil {
			errs = append(errs, err)
			continue
		}
		errs = append(errs, j.tooLong(c)...)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	for _, c := range classes {
		j.allow(c)
	}
	total := 0
	for _, c := range classes {
		total += len(c.pieces)
	}
	if total > MaxPieces {
		return nil, &LimitError{"pieces with tests and spares", total, MaxPieces}
	}
	return classes, nil
}

// tooLong returns an error for each piece, and for the test length, that no stick of the class can hold.
func (j Job) tooLong(c *class) []error {
	var errs []error
	u := c.longest()
	name := j.Stock[u.item].label()
	said := map[cut]bool{}
	try := func(p cut) {
		switch {
		case said[p]:
			return
		case p.units > u.usable:
			errs = append(errs, &TooLongError{p.mark, c.Key, p.length, name, toMM(u.usable), toMM(p.units - u.usable)})
		case p.length < j.Shop.Safe && roundUp(j.Shop.Safe) > u.usable:
			errs = append(errs, &SafeError{p.mark, p.length, j.Shop.Safe, toMM(u.usable)})
		}
		said[p] = true
	}
	for _, p := range c.pieces {
		try(p)
	}
	for _, w := range c.wraps {
		for _, p := range w.cuts {
			try(p)
		}
	}
	test := j.Shop.Test
	if c.Test > 0 {
		test = c.Test
	}
	if test > 0 && !c.NoTest {
		try(cut{mark: TestMark, length: test, units: roundUp(test)})
	}
	return errs
}

// A solved is the best answer to a component.
type solved struct {
	*component
	choice choice
	answer
}

// choiceCap bounds the ways to divide wraps that are tried.
const choiceCap = 200

// solveGroup solves classes that share stock. Wraps are divided as little as possible: only when there is no plan with so many
// runs is one more allowed; of the ways to divide them the cheapest is taken.
func (j *Job) solveGroup(classes []*class, costs []int64, eff *effort, tune tuning) (*solved, error) {
	kerf := roundUp(j.Shop.Kerf)
	sure := true
	for extra := 0; extra <= mostExtra(classes, kerf); extra++ {
		ways, whole := choices(classes, extra, kerf, choiceCap)
		best, none := j.cheapest(classes, ways, costs, eff, tune)
		if best != nil {
			if !whole || !sure {
				best.proven = false
			}
			if !whole {
				best.bound = min(best.bound, j.looseBound(classes, costs, eff, tune))
			}
			return best, nil
		}
		sure = sure && none && whole
		if eff.over() {
			break
		}
	}
	if !sure {
		return nil, ErrNoPlan
	}
	return nil, j.scarce(classes)
}

// cheapest solves each way to divide the wraps and returns the best, nil if none has a plan; none tells whether that is
// certain.
func (j *Job) cheapest(classes []*class, ways []choice, costs []int64, eff *effort, tune tuning) (best *solved, none bool) {
	none = true
	bound := int64(1) << 62
	for i, ch := range ways {
		s := &solved{component: newComponent(j, classes, ch, costs, tune), choice: ch}
		share := (eff.limit - eff.nodes) / int64(len(ways)-i)
		eff.within(max(share, 1), func() {
			s.ripPlanks(eff, tune)
			s.answer = s.prob.optimum(eff, tune)
		})
		if len(s.planks) > 0 {
			s.answer.none, s.bound, s.leftProven = false, s.low, false // there are ways to rip that were not asked
		}
		none = none && s.answer.none
		if !s.answer.none {
			bound = min(bound, s.bound)
		}
		if s.answer.plan != nil && (best == nil || s.better(best)) {
			best = s
		}
	}
	if best != nil {
		cost := best.answer.plan.cost
		best.bound = min(newReach(best.prob.items, cost).up(bound), cost)
		best.proven = best.bound == cost
	}
	return best, none
}

// better tells whether s costs less than t, or as much and leaves more.
func (s *solved) better(t *solved) bool {
	return cmp.Or(cmp.Compare(s.answer.plan.cost, t.answer.plan.cost), cmp.Compare(t.left, s.left)) < 0
}

// looseBound returns a cost that no plan goes below however wraps are divided: that of all pieces on their own.
func (j *Job) looseBound(classes []*class, costs []int64, eff *effort, tune tuning) int64 {
	ch := make(choice, len(classes))
	for i, c := range classes {
		for _, w := range c.wraps {
			one := make(cutting, len(w.cuts))
			for k := range one {
				one[k] = 1
			}
			copies := make([]cutting, w.count)
			for k := range copies {
				copies[k] = one
			}
			ch[i] = append(ch[i], copies)
		}
	}
	c := newComponent(j, classes, ch, costs, tune)
	if c.ripPlanks(eff, tune); len(c.planks) > 0 {
		return c.low
	}
	s := c.prob.start(0)
	return newMaster(c.prob, s, eff, tune).solve(s).bound(c.prob, s)
}

// scarce returns the error for a rack that is too small.
func (j *Job) scarce(classes []*class) error {
	e := &ScarceError{}
	kerf := roundUp(j.Shop.Kerf)
	seen := map[int]bool{}
	for _, c := range classes {
		if c.Key != "" {
			e.Profiles = append(e.Profiles, c.Key)
		}
		sum, _ := c.sum()
		n := len(c.pieces)
		for _, w := range c.wraps {
			n += w.count * len(w.cuts)
		}
		e.Needed += toMM(sum + int64(n)*kerf)
		for _, u := range c.uses {
			if !seen[u.item] {
				seen[u.item] = true
				strips := int64(1)
				if u.width > 0 {
					strips = (j.board(u.item) - u.rest) / u.width
				}
				e.Rack += toMM((u.usable + kerf) * strips * int64(j.Stock[u.item].Have))
			}
		}
	}
	return e
}
