package cutter

import (
	"fmt"
	"math"

	"listel/profile"
)

// A HintKind says what a hint is about.
type HintKind string

// The kinds of hint.
const (
	HintOrder     HintKind = "order"     // no order is safe in every set-up
	HintUnreached HintKind = "unreached" // a place that no tool of the set reaches
	HintScraper   HintKind = "scraper"   // a member that does not come clean
	HintUpright   HintKind = "upright"   // a sprung molding is better worked from an upright blank
	HintChosen    HintKind = "chosen"    // it is worked from an upright blank, since from the flat one no order is safe
	HintRadius    HintKind = "radius"    // a tool of another radius would save set-ups
)

// A Hint is what would make a plan shorter or better, in numbers: lengths in mm; what its kind does not tell of is zero.
type Hint struct {
	Kind      HintKind `json:"kind"`
	Element   int      `json:"element,omitempty"`
	Member    string   `json:"member,omitempty"`
	Clean     float64  `json:"clean,omitempty"` // scraper: part of the member that comes clean, 0 to 1
	Y0        float64  `json:"y0_mm,omitempty"` // unreached: from this height
	Y1        float64  `json:"y1_mm,omitempty"` // to this
	Depth     float64  `json:"depth_mm,omitempty"`
	Ball      float64  `json:"ball_mm,omitempty"` // radius of the round nose that would reach it, 0 for none
	Width     float64  `json:"width_mm,omitempty"`
	Thickness float64  `json:"thickness_mm,omitempty"` // upright, chosen: of the other blank
	Wood      float64  `json:"wood,omitempty"`         // likewise: how many times the wood of the flat blank the upright one takes
	Setups    int      `json:"setups,omitempty"`       // likewise: of the plan from the other blank
	Saved     int      `json:"saved,omitempty"`        // set-ups fewer
	Safer     bool     `json:"safer,omitempty"`        // upright: it is safe in every set-up and this plan is not
	Tool      Kind     `json:"tool,omitempty"`         // radius: kind of tool that would fit
	Radius    float64  `json:"radius_mm,omitempty"`    // and its radius
	Nearest   float64  `json:"nearest_mm,omitempty"`   // radius at hand that comes nearest, 0 when none is near
}

// Words returns the hint as sentences, its lengths as length writes them.
func (h Hint) Words(length func(mm float64) string) string {
	switch h.Kind {
	case HintOrder:
		return "No order was found in which the work lies safely in every set-up: see their warnings, and cut those with the work fixed to a carrier board."
	case HintUnreached:
		return fmt.Sprintf("Up to %s stays between heights %s and %s: %s.", length(h.Depth), length(h.Y0), length(h.Y1), because(h.Ball, length))
	case HintScraper:
		return fmt.Sprintf("Member %d, %s: %.0f%% comes clean; the rest is for the scraper.", h.Element, h.Member, 100*h.Clean)
	case HintUpright:
		text := fmt.Sprintf("From an upright blank of %s by %s, which takes %.1f times the wood, %s do", length(h.Width), length(h.Thickness), h.Wood, counted(h.Setups, "set-up"))
		if h.Saved > 0 {
			text += fmt.Sprintf(", %d fewer", h.Saved)
		}
		return text + ", all of them with the work bearing on table and fence; the sloping back is sawn in one of them."
	case HintChosen:
		return fmt.Sprintf("From an upright blank: it takes %.1f times the wood of the flat one, %s by %s. From that %s would do, but some of them only with the work on a carrier board.",
			h.Wood, length(h.Width), length(h.Thickness), counted(h.Setups, "set-up"))
	case HintRadius:
		text := fmt.Sprintf("A %s of %s radius for member %d would save %s", h.Tool, length(h.Radius), h.Element, counted(h.Saved, "set-up"))
		if h.Nearest > 0 {
			text += fmt.Sprintf("; the set has %s, where the radius may be changed", length(h.Nearest))
		}
		return text + "."
	}
	return ""
}

// Other returns the blank that a hint tells of beside that of its plan; ok is false where it tells of none.
func (h Hint) Other() (way profile.BlankWay, ok bool) {
	switch h.Kind {
	case HintUpright:
		return profile.BlankUpright, true
	case HintChosen:
		return profile.BlankFlat, true
	}
	return profile.BlankEither, false
}

// Strong reports whether a hint should be read before the wood is bought: much is saved, what this plan cannot do safely can be done, or the blank is
// not the usual one.
func (h Hint) Strong() bool {
	return h.Kind == HintChosen || h.Kind == HintUpright && (h.Saved >= 3 || h.Safer)
}

// Because says why a place is not reached, its length as length writes it.
func (u Unreached) Because(length func(mm float64) string) string { return because(u.Ball, length) }

func because(ball float64, length func(mm float64) string) string {
	if ball > 0 {
		return fmt.Sprintf("no tool in the set reaches in; a round-nose of %s radius or less would", length(ball))
	}
	return "hidden from every side that a tool could come from; leave it to the scraper"
}

// inMM writes a length as the plan's own words do: millimeters to a tenth.
func inMM(mm float64) string {
	if r := math.Round(mm*100) / 100; math.Abs(r*10-math.Round(r*10)) > 1e-9 {
		return fmt.Sprintf("%.2f mm", r)
	}
	return fmt.Sprintf("%.1f mm", mm)
}
