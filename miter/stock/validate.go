package stock

import (
	"errors"
	"fmt"
	"math"
)

// Validate returns every fault of the job's numbers at once, joined: *SizeError, *KerfError, *PriceError, *WrapError and
// *LimitError. What depends on the stock, pieces too long or a wood not there, is found by Solve.
func (j Job) Validate() error {
	var errs []error
	size := func(what, field string, v float64, ok bool, want string) {
		if !ok {
			errs = append(errs, &SizeError{what, field, v, want})
		}
	}
	length := func(what, field string, v float64) {
		size(what, field, v, v > 0 && v <= maxMM, "more than 0 and at most 20000 mm")
	}
	some := func(what, field string, v float64) {
		size(what, field, v, v >= 0 && v <= maxMM, "at least 0 and at most 20000 mm")
	}
	s := j.Shop
	some("shop", "kerf", s.Kerf)
	some("shop", "trim", s.Trim)
	some("shop", "joint", s.Joint)
	some("shop", "shortest offcut", s.MinOffcut)
	some("shop", "test length", s.Test)
	some("shop", "safe length", s.Safe)
	size("shop", "spare", s.Spare, s.Spare >= 0 && s.Spare <= 10, "a part of the lengths from 0 to 10")
	size("effort", "nodes", float64(j.Effort), j.Effort >= 0, "at least 0")
	total := 0
	for i, p := range j.Pieces {
		what := "piece " + p.label(i)
		length(what, "length", p.Length)
		size(what, "count", float64(p.Count), p.Count >= 0, "at least 1")
		total += min(p.count(), MaxPieces+1)
		if p.Length > 0 && p.Length < s.Kerf {
			errs = append(errs, &KerfError{p.label(i), p.Length, s.Kerf})
		}
	}
	if total > MaxPieces {
		errs = append(errs, &LimitError{"pieces", total, MaxPieces})
	}
	errs = append(errs, j.checkProfiles(some)...)
	for _, it := range j.Stock {
		what := "stock " + it.label()
		length(what, "length", it.Length)
		some(what, "width", it.Width)
		some(what, "thickness", it.Thickness)
		some(what, "surfaced thickness", it.Surfaced)
		size(what, "price", it.Price, it.Price == NoPrice || it.Price >= 0 && it.Price <= 1e6, "at least 0 and at most 1000000")
		size(what, "count at hand", float64(it.Have), it.Have > 0 || it.Have == Unlimited, "at least 1, or left out for as many as wanted")
		if it.Length > 0 && it.Length <= 2*s.Trim {
			size(what, "length", it.Length, false, "more than the trim at both ends, "+number(2*s.Trim)+" mm")
		}
	}
	errs = append(errs, j.checkPrices()...)
	errs = append(errs, j.checkWraps()...)
	return errors.Join(errs...)
}

func (j Job) checkProfiles(some func(what, field string, v float64)) []error {
	var errs []error
	keys := map[string]bool{}
	for _, p := range j.Profiles {
		what := "profile " + p.Key
		some(what, "strip width", p.Width)
		some(what, "thickness", p.Thickness)
		some(what, "board width", p.Board)
		some(what, "test length", p.Test)
		if keys[p.Key] {
			errs = append(errs, fmt.Errorf("profile %s is given twice", p.Key))
		}
		keys[p.Key] = true
	}
	return errs
}

func (j Job) checkPrices() []error {
	var missing []string
	priced := false
	for _, it := range j.Stock {
		switch {
		case it.Offcut && it.Price == NoPrice:
		case it.Price == NoPrice:
			missing = append(missing, it.label())
		default:
			priced = priced || !it.Offcut || it.Price > 0
		}
	}
	if priced && len(missing) > 0 {
		return []error{&PriceError{missing}}
	}
	return nil
}

func (j Job) checkWraps() []error {
	var errs []error
	type key struct{ wrap, profile string }
	count := map[key]int{}
	said := map[key]bool{}
	for _, p := range j.Pieces {
		if p.Wrap == "" {
			continue
		}
		k := key{p.Wrap, p.Profile}
		if n, ok := count[k]; ok && n != p.count() && !said[k] {
			said[k] = true
			errs = append(errs, &WrapError{p.Wrap, fmt.Sprintf("its pieces come %d and %d times; all must have the same count", n, p.count())})
		}
		if _, ok := count[k]; !ok {
			count[k] = p.count()
		}
	}
	return errs
}

func (p Piece) count() int { return max(p.Count, 1) }

// label returns what messages call a piece: its mark, or its place in the list.
func (p Piece) label(i int) string {
	if p.Mark == "" {
		return fmt.Sprintf("%d", i+1)
	}
	return p.Mark
}

// label returns what messages and plans call an item: its name, or its length.
func (it Item) label() string {
	if it.Name == "" {
		return number(it.Length) + " mm"
	}
	return it.Name
}

// surfaced returns the item's thickness after surfacing, 0 when nothing is known of it.
func (it Item) surfaced() float64 {
	if it.Surfaced > 0 {
		return it.Surfaced
	}
	if it.Thickness > 0 {
		return math.Max(0.01, Surfaced(it.Thickness)) // 0 would mean that nothing is known
	}
	return 0
}
