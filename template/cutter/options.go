package cutter

// An Effort is how many nodes a search may visit. The zero value is Usual.
type Effort int

// The efforts.
const (
	Usual Effort = iota
	Quick
	Long
)

// String returns "usual", "quick" or "long".
func (e Effort) String() string {
	switch e {
	case Quick:
		return "quick"
	case Long:
		return "long"
	}
	return "usual"
}

// ParseEffort returns the effort of that name; ok is false when there is none.
func ParseEffort(name string) (e Effort, ok bool) {
	for _, e := range []Effort{Quick, Usual, Long} {
		if e.String() == name {
			return e, true
		}
	}
	return Usual, false
}

// Options are the choices of a plan. The zero value plans for saw and router with an allowance of 0.5 mm.
type Options struct {
	Works     []Work  // that may be used; none means saw and router
	Allowance float64 // mm that may stay on the face for scraper and paper, 0 means 0.5; at least 0.3
	Effort    Effort
	Progress  func(Progress) // called now and then from the planning goroutine, may be nil
}

// A Progress says how far a plan has come.
type Progress struct {
	Stage string // "candidates", "cover", "order", ...
	Done  int    // nodes visited or cuts made so far
}
