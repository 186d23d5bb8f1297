package scraper

import (
	"errors"
	"fmt"
	"math"

	"listel/profile/geom"
)

// Limits of what may be asked for.
const (
	MaxLean         = 60 * geom.Degree // a blade leaning so far or farther slides over the wood
	LeastWidth      = 3.0              // mm, of a blade's steel: less breaks
	StandardWidth   = 50.8             // mm, the greatest width of a blade unless asked otherwise: 2 in
	GreatestWidth   = 300.0            // mm
	SafeWall        = 5 * geom.Degree  // a wall nearer to the plunge than this rubs and is not scraped
	StandardHook    = 15 * geom.Degree // of a rotating knife, for soft and hard wood both
	greatestHook    = 45 * geom.Degree
	greatestRadius  = 500.0 // mm
	greatestPlunge  = 90 * geom.Degree
	BodyClearance   = 6.35 // mm, from the highest point of a knife's edge to its head's body: 1/4 in, J. Rose, Mechanical Drawing Self-Taught, figs 290-292
	wallSlack       = 1e-7 * geom.Degree
	smallestFeature = 1e-6 // mm, of sections: shorter is rounding
)

// Options are how blades are to be held and how large they may be. The zero value asks for upright blades of at most StandardWidth with
// the plunge found for each.
type Options struct {
	Lean     geom.Angle  // along the travel, in [0, 60) degrees
	Plunge   *geom.Angle // of the main blades, within 90 degrees of level; nil to have it found
	MaxWidth float64     // mm, of a blade's steel; 0 is StandardWidth
	Head     *Head       // for rotating knives in place of scrapers, else nil
}

// A Head is a shaper's or molder's head that knives turn in.
type Head struct {
	Radius float64    // mm, of the circle that the deepest cutting point runs on
	Hook   geom.Angle // at that point: between the knife's face and the radius; 0 to 45 degrees
}

// ErrHidden says that a plunge meets no part of the face that could be scraped.
var ErrHidden = errors.New("no part of the face can be scraped along this plunge: all of it is hidden or runs along it")

// An OptionError says why an option will not do.
type OptionError struct {
	Option string // "lean", "plunge", "width", "head", "hook"
	Reason string
}

// Error returns "lean: 65 degrees; it must be ...".
func (e *OptionError) Error() string { return e.Option + ": " + e.Reason }

// Validate returns the first option that is out of range, as *OptionError.
func (o Options) Validate() error {
	bad := func(option, format string, a ...any) error {
		return &OptionError{Option: option, Reason: fmt.Sprintf(format, a...)}
	}
	if !(o.Lean >= 0 && o.Lean < MaxLean) {
		return bad("lean", "%.4g degrees; it must be 0 or more and less than 60, since a blade that leans farther slides over the wood", o.Lean.Degrees())
	}
	if p := o.Plunge; p != nil && !(p.Abs() <= greatestPlunge) {
		return bad("plunge", "%.4g degrees; it must lie from -90 (straight up) through 0 (level) to 90 (straight down)", p.Degrees())
	}
	if w := o.MaxWidth; w != 0 && !(w >= LeastWidth && w <= GreatestWidth) {
		return bad("width", "%.4g mm; a blade is at least %g mm wide, since a narrower one breaks, and at most %g mm", w, LeastWidth, GreatestWidth)
	}
	if h := o.Head; h != nil {
		if !(h.Radius > 0 && h.Radius <= greatestRadius) {
			return bad("head", "%.4g mm; the radius of the cutting circle must be more than 0 and at most %g mm", h.Radius, greatestRadius)
		}
		if !(h.Hook >= 0 && h.Hook <= greatestHook) {
			return bad("hook", "%.4g degrees; it must lie from 0 to 45", h.Hook.Degrees())
		}
		if o.Lean != 0 {
			return bad("lean", "%.4g degrees; a rotating knife has a hook angle in place of a lean", o.Lean.Degrees())
		}
	}
	return nil
}

// width returns the greatest width of a blade, in mm.
func (o Options) width() float64 {
	if o.MaxWidth == 0 {
		return StandardWidth
	}
	return o.MaxWidth
}

// overlap returns how far a blade reaches past the part of the face that it scrapes, mm.
func (o Options) overlap() float64 { return math.Min(3, o.width()/10) }

// depth returns the factor by which depth is filed greater than it cuts.
func (o Options) depth() float64 { return 1 / o.Lean.Cos() }
