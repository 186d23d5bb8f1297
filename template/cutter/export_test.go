package cutter

import "strings"

// For the tests from outside.
var (
	MetricSet = metricSet
	InchSet   = inchSet
	Planned   = planned
	Holds     = holds
	Breaks    = breaks
	Shakes    = shakes
	Show      = show
	Unsafe    = func(r Result) int { return r.unsafe }
	Merit     = func(r Result) []float64 { m := r.merit(); return m[:] }
	Faced     = func(u Setup) bool { return strings.Contains(u.Warning, "wooden facing") }
)
