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
	Kind      HintKind   `json:"kind"`
	Element   int        `json:"element,omitempty"`
	Member    string     `json:"member,omitempty"`
	Clean     float64    `json:"clean,omitempty"`   // scraper: part of the member that comes clean, 0 to 1
	Blocked   bool       `json:"blocked,omitempty"` // scraper: some of it lies where no tool reaches
	Place     *Unreached `json:"place,omitempty"`   // unreached
	Width     float64    `json:"width_mm,omitempty"`
	Thickness float64    `json:"thickness_mm,omitempty"` // upright, chosen: of the other blank
	Wood      float64    `json:"wood,omitempty"`         // likewise: how many times the wood of the flat blank the upright one takes
	Setups    int        `json:"setups,omitempty"`       // likewise: of the plan from the other blank
	Saved     int        `json:"saved,omitempty"`        // set-ups fewer
	Safer     bool       `json:"safer,omitempty"`        // upright: it is safe in every set-up and this plan is not
	Watch     int        `json:"watch,omitempty"`        // upright: set-ups of that plan that say what to watch
	ByHand    bool       `json:"by_hand,omitempty"`      // upright: it is one for planes
	Tool      Kind       `json:"tool,omitempty"`         // radius: kind of tool that would fit
	Radius    float64    `json:"radius_mm,omitempty"`    // and its radius
	Tip       float64    `json:"tip_mm,omitempty"`       // of that tool, where it has no pilot but a flat at its tip
	Deep      float64    `json:"reach_mm,omitempty"`     // that it must reach, where the set has one of its radius that does not; else 0
	Nearest   float64    `json:"nearest_mm,omitempty"`   // radius at hand that comes nearest, 0 when none is near
}

// Words returns the hint as sentences, its lengths as length writes them.
func (h Hint) Words(length func(mm float64) string) string {
	switch h.Kind {
	case HintOrder:
		return "No order was found in which the work lies safely in every set-up: see their warnings, and cut those with the work fixed to a carrier board."
	case HintUnreached:
		return "Not reached: " + h.Place.Words(length) + "."
	case HintScraper:
		rest := "the rest is for the scraper"
		if h.Blocked {
			rest = "the rest is for the scraper, but for what no tool reaches: a chisel first"
		}
		return fmt.Sprintf("Member %d, %s: %.0f%% comes clean; %s.", h.Element, profile.Kind(h.Member).Words(), 100*h.Clean, rest)
	case HintUpright:
		text := fmt.Sprintf("From an upright blank of %s by %s, which takes %.1f times the wood, a quick search found %s", length(h.Width), length(h.Thickness), h.Wood, counted(h.Setups, "set-up"))
		if h.Saved > 0 {
			text += fmt.Sprintf(", %d fewer", h.Saved)
		}
		text += ", none of them on a carrier board"
		if h.Watch > 0 {
			text += fmt.Sprintf(", %d with something to watch", h.Watch)
		}
		return text + "; the sloping back is " + map[bool]string{false: "sawn off in one of them.", true: "sawn off by hand near the line, then planed."}[h.ByHand]
	case HintChosen:
		return fmt.Sprintf("From an upright blank: it takes %.1f times the wood of the flat one, %s by %s. From that %s would do, but some of them only with the work on a carrier board.",
			h.Wood, length(h.Width), length(h.Thickness), counted(h.Setups, "set-up"))
	case HintRadius:
		text := fmt.Sprintf("A %s of %s radius%s for member %d would save about %s", h.Tool, length(h.Radius), h.differs(length), h.Element, counted(h.Saved, "set-up"))
		if h.Nearest > 0 && math.Abs(h.Nearest-h.Radius) >= sameRadius {
			text += fmt.Sprintf("; the set has %s, where the radius may be changed", length(h.Nearest))
		}
		return text + "."
	}
	return ""
}

// differs says in what the tool of a radius hint differs from one of that radius at hand, "" where there is none.
func (h Hint) differs(length func(mm float64) string) string {
	out := ""
	if math.Abs(h.Nearest-h.Radius) < sameRadius && h.Nearest > 0 {
		if h.Tip > 0 {
			out = fmt.Sprintf(" without a pilot, with a flat of %s at its tip,", length(h.Tip))
		}
		if h.Deep > 0 {
			out += fmt.Sprintf(" that cuts %s deep", length(h.Deep))
		}
	}
	return out
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

// Words says where wood stays that no tool reaches, how much, how deep, and what would take it, without a period at the end; its lengths as length
// writes them.
func (u Unreached) Words(length func(mm float64) string) string {
	return fmt.Sprintf("from %s to %s up, wood stays %s deep, down to %s under the %s; %s", length(u.Y0), length(u.Y1), length(u.Deep), length(u.Down), u.From.Words(), u.Because(length))
}

// leastBit is the least radius, mm, of a bit that is commonly to be had: 1/32 in. Common practice, no source.
const leastBit = 0.79

// Because says why a place is not reached and what would take it, its lengths as length writes them.
func (u Unreached) Because(length func(mm float64) string) string {
	switch {
	case u.Tool != "":
		return fmt.Sprintf("reach is what lacks: the %s would take it if it cut %s deep", u.Tool, length(u.Down))
	case u.Ball > 0 && max(u.Ball, u.Flat/2) < leastBit:
		return "too narrow for any common bit; leave it to a chisel and the scraper"
	case u.Flat > 0:
		return fmt.Sprintf("no tool in the set gets in; a straight bit of %s or less that cuts %s deep would", length(u.Flat), length(u.Down))
	case u.Ball > 0:
		return fmt.Sprintf("no tool in the set gets in; a round-nose of %s radius or less that cuts %s deep would", length(u.Ball), length(u.Down))
	case u.ByHand:
		return "no plane in the set gets in; leave it to a chisel and the scraper"
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
