package job

import (
	"context"
	"errors"
	"time"

	"listel/library"
	"listel/miter"
	"listel/miter/stock"
	"listel/template"
)

// Cutting returns the plan of least cost for what is to be bought, found within so many search nodes, 0 for as many as usual, and so much
// time. A mistake in the file comes as library.Mistakes. The error of ctx comes back when it ends the search.
func Cutting(ctx context.Context, p miter.Purchase, source *library.Source, nodes int64, limit time.Duration) (template.Cutting, error) {
	within, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	plan, err := p.Solve(within, nodes)
	if ctx.Err() != nil {
		return template.Cutting{}, ctx.Err() // stopped from outside: what was found by then is not wanted
	}
	return template.Cutting{Purchase: p, Plan: plan}, source.Mistakes(err)
}

// Stock is Cutting for the case, within the usual time.
func (c Case) Stock(ctx context.Context, nodes int64) (template.Cutting, error) {
	p, err := miter.Buy(c.Case, c.Result)
	if err != nil {
		return template.Cutting{}, c.Source.Mistakes(err)
	}
	return Cutting(ctx, p, c.Source, nodes, stock.DefaultTime)
}

// buyable returns the plan of a case for its packet. It is nil when the case says nothing of stock, or when its stock will not do, which the
// mistakes tell: the other sheets are of use all the same.
func (c Case) buyable(ctx context.Context) (*template.Cutting, library.Mistakes, error) {
	cutting, err := c.Stock(ctx, 0)
	var mistakes library.Mistakes
	switch {
	case errors.As(err, &mistakes):
		return nil, mistakes, nil
	case err != nil:
		return nil, nil, err
	}
	return &cutting, nil, nil
}

// StockNotes returns what is odd in the stock of a case, and what is wrong with it, for which package stock would make no plan, as far as a short
// search tells. A case without stock has neither.
func (c Case) StockNotes(ctx context.Context) ([]Note, library.Mistakes) {
	if len(c.Case.Stock) == 0 {
		return nil, nil
	}
	_, err := c.Stock(ctx, stock.DefaultEffort/100)
	var mistakes library.Mistakes
	errors.As(err, &mistakes)
	return append(told(c.strangeWoods()), c.blankNotes()...), mistakes
}
