package template

import (
	"cmp"
	"slices"
)

// sortedBy returns a copy of s in rising order of key; equal ones keep their order.
func sortedBy[T any](s []T, key func(T) float64) []T {
	out := slices.Clone(s)
	slices.SortStableFunc(out, func(a, b T) int { return cmp.Compare(key(a), key(b)) })
	return out
}
