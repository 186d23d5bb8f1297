package miter

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"listel/miter/stock"
	"listel/profile/measure"
)

// Solve returns the plan of least cost for the purchase, with the search nodes that effort allows, 0 for as many as usual. What the job
// makes impossible is Errors, each with the path of its file key; a canceled context is an error too.
func (p Purchase) Solve(ctx context.Context, effort int64) (stock.Plan, error) {
	p.Job.Effort = effort
	plan, err := stock.Solve(ctx, p.Job)
	return plan, p.faults(err)
}

// faults returns what package stock finds wrong with the job as faults of the case.
func (p Purchase) faults(err error) error {
	if err == nil || errors.Is(err, context.Canceled) {
		return err
	}
	var out faults
	for _, e := range apart(err) {
		p.fault(&out, e)
	}
	slices.SortStableFunc(out.list, func(a, b *Error) int { return strings.Compare(a.Path, b.Path) })
	out.list = slices.CompactFunc(out.list, func(a, b *Error) bool { return a.Path == b.Path && a.Reason == b.Reason })
	return out.err()
}

// apart returns the errors that err joins, each by itself.
func apart(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error }) // the joint itself, nothing it wraps
	if !ok {
		return []error{err}
	}
	var out []error
	for _, e := range joined.Unwrap() {
		out = append(out, apart(e)...)
	}
	return out
}

// fault notes one fault of the job in the words of the case.
func (p Purchase) fault(out *faults, err error) {
	var (
		long   *stock.TooLongError
		short  *stock.SafeError
		kerf   *stock.KerfError
		none   *stock.NoStockError
		price  *stock.PriceError
		scarce *stock.ScarceError
		size   *stock.SizeError
		limit  *stock.LimitError
		wrap   *stock.WrapError
	)
	mm := p.format.Length
	switch {
	case errors.As(err, &long):
		out.add(p.pathOf(long.Mark, long.Profile), "piece %s is %s long, and the longest stick for it (%s) gives %s, %s too little; longer stock would do, or a shorter run",
			long.Mark, mm(long.Length), long.Item, mm(long.Usable), mm(long.Over))
	case errors.As(err, &short):
		out.add("shop.safe", "piece %s is %s long, under the safe length of %s, and the longest stick for it gives only %s; longer stock would do",
			short.Mark, mm(short.Length), mm(short.Safe), mm(short.Longest))
	case errors.As(err, &kerf):
		out.add("shop.kerf", "the kerf of %s is more than piece %s is long, %s", mm(kerf.Kerf), kerf.Mark, mm(kerf.Length))
	case errors.As(err, &none):
		p.noStock(out, none)
	case errors.As(err, &price):
		for i, it := range p.Job.Stock {
			if slices.Contains(price.Items, it.Name) && it.Price == stock.NoPrice {
				out.add(fmt.Sprintf("stock[%d].price", i), "%s has no price, while other stock has one; give all or none, or say with have how many lie on the rack", it.Name)
			}
		}
	case errors.As(err, &scarce):
		out.add("stock", "the stock that can be had is not enough for %s: the pieces take %s with their kerfs, all strips that can be had give %s; raise have, or drop it for as many as wanted",
			cmp.Or(strings.Join(scarce.Profiles, ", "), "the pieces"), mm(scarce.Needed), mm(scarce.Rack))
	case errors.As(err, &size):
		out.add(p.sizePath(size), "%s is out of range; it must be %s", size.Field, size.Want)
	case errors.As(err, &limit):
		out.add("", "there are %d %s; at most %d are planned", limit.Got, limit.What, limit.Limit)
	case errors.As(err, &wrap):
		out.add("pieces", "wrap %s: %s", wrap.Wrap, wrap.Why)
	case errors.Is(err, stock.ErrNoPlan):
		out.add("stock", "no plan was found in the time given; more of it would do, or more stock")
	default:
		out.cause("stock", err)
	}
}

// noStock says what stock is missing for a blank.
func (p Purchase) noStock(out *faults, e *stock.NoStockError) {
	b, _ := p.Blank(e.Profile)
	mm := p.format.Length
	switch e.Why {
	case "wood":
		out.add(b.path, "no stock is of %s, the wood of the case; add some, or name its wood so", p.c.Wood)
	case "width":
		why := fmt.Sprintf("its blank is %s by %s, and jointing takes %s", mm(b.Width), mm(b.Thickness), mm(p.Job.Shop.Joint))
		wide, board := p.leastWidth(e.Profile)
		if board {
			why += "; it is molded on the edge of a board, which is counted"
		}
		out.add(b.path, "no stock is wide enough for %s: %s; %s or wider would do", b.Title, why, mm(p.format.NoLess(wide)))
	default:
		want := ""
		if t := stock.RoughFor(min(b.Thickness, b.Width)); t > 0 {
			want = fmt.Sprintf("; %s would do (%s surfaced)", p.sold(t), mm(stock.Surfaced(t)))
		}
		out.add(b.path, "no stock is thick enough for %s, nor wide enough to glue its blank up: it is %s by %s%s", b.Title, mm(b.Width), mm(b.Thickness), want)
	}
}

// leastWidth returns how wide stock that is thick enough must be for a strip of the profile, in mm, and whether that is for the board behind it.
func (p Purchase) leastWidth(key string) (mm float64, board bool) {
	for _, q := range p.Job.Profiles {
		if q.Key != key {
			continue
		}
		mm = q.Width
		for i := range p.Job.Stock {
			if wide, layers := p.Job.Takes(q, i); layers == 1 {
				mm = min(mm, wide)
			}
		}
		mm += p.Job.Shop.Joint
		return max(mm, q.Board), q.Board > mm
	}
	return 0, false
}

// sold returns a rough thickness as it is sold: 8/4, or in a case in millimeters the least whole one.
func (p Purchase) sold(mm float64) string {
	if p.format.Units == measure.Inches {
		return fmt.Sprintf("%.3g/4", mm/(25.4/4))
	}
	return fmt.Sprintf("%.0f mm", math.Ceil(mm))
}

// pathOf returns the file key behind a piece.
func (p Purchase) pathOf(mark, profile string) string {
	if path, ok := p.owner[mark]; ok {
		return path
	}
	if mark == stock.TestMark {
		return "shop.test"
	}
	b, _ := p.Blank(profile)
	return b.path
}

// sizePath returns the file key behind a number that is out of its range.
func (p Purchase) sizePath(e *stock.SizeError) string {
	for i, it := range p.Job.Stock {
		if e.What == "stock "+it.Name {
			return fmt.Sprintf("stock[%d].%s", i, e.Field)
		}
	}
	for mark, path := range p.owner {
		if e.What == "piece "+mark {
			return path
		}
	}
	return "shop"
}
