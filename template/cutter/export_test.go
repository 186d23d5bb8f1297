package cutter

// For the tests from outside.
var (
	MetricSet = metricSet
	InchSet   = inchSet
	Planned   = planned
	Holds     = holds
	Breaks    = breaks
	Shakes    = shakes
	Show      = show
	Weak      = func(r Result) int { return r.weak }
)
