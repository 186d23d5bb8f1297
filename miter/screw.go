package miter

import (
	"math"

	"listel/profile/measure"
)

// ScrewShank is the width in mm of the slots: the hole for the shank of a No. 8 screw. It is common practice, no source.
const ScrewShank = 4.5

// ScrewGauge names the screw that the slots are made for.
const ScrewGauge = "No. 8"

// Where a screw goes that holds a molding from inside the case: all common practice, no source.
const (
	screwCover     = 25.4 / 8     // mm, between the end of a screw and the molded face, at least
	screwToEdge    = 3 * 25.4 / 8 // mm, from a screw to the upper and the lower edge of the back, where there is as much
	screwToMortise = 25.4 / 2     // mm, from a slot to a mortise
	leastScrew     = 25.4 / 4     // mm in the wood: less holds nothing
)

// A Screw is where the screws that hold a molding across the grain enter it, the same on both sides of a case.
type Screw struct {
	Up     bool    `json:"up"`        // from below into the foot of a molding that lies on the case; else from inside into its back
	At     float64 `json:"at_mm"`     // its height over the foot; of one from below its distance from the back edge of the molding
	Enters float64 `json:"enters_mm"` // the most that it may enter: its end then lies 3 mm (1/8 in) inside the molded face
	Long   float64 `json:"long_mm"`   // the most that it may be long, with what it goes through of the case side; 0 where that is not known
}

// screw returns where screws find the most wood in the narrowest section of the sides: toward the middle of the back, or of the bearing under a
// molding that lies on the case.
func (m *fitting) screw() Screw {
	up := m.out.OnTop
	lo, hi := 0.0, m.Inset
	if !up {
		lo, hi = m.backFlat()
	}
	s := Screw{Up: up, At: (lo + hi) / 2, Enters: math.Inf(-1)}
	if hi-lo <= ScrewShank {
		return Screw{Up: up, At: s.At}
	}
	if edge := math.Min(screwToEdge, (hi-lo)/3); up && hi-lo > 2*edge || !up {
		lo, hi = lo+edge, hi-edge
	}
	step := ruleStep(m.Units)
	first := math.Ceil(lo/step-1e-9) * step
	if up { // measured from the face of the case
		first = lo + math.Mod(m.Inset-lo+1e-9, step)
	}
	for at := first; at <= hi+1e-9; at += step {
		enters := math.Floor((m.behind(up, at)-screwCover)/step+1e-9) * step
		if enters > s.Enters || enters == s.Enters && math.Abs(at-(lo+hi)/2) < math.Abs(s.At-(lo+hi)/2)-1e-9 {
			s.At, s.Enters = at, enters
		}
	}
	s.At, s.Enters = tidy(s.At), tidy(math.Max(0, s.Enters))
	if thick := m.Side.Thickness; !up && thick > 0 {
		s.Long = thick - m.out.LetIn + s.Enters
	}
	return s
}

// backFlat returns from where to where over the foot wood of the case lies behind the molding's back, or behind the strip of a sprung one.
func (m *fitting) backFlat() (lo, hi float64) {
	lo, hi = m.profile.BackSpan()
	if n := m.out.Nesting; n != nil {
		lo, hi = n.Wall, n.Wall+n.StripWall
	}
	return math.Max(lo, m.stage.Floor-m.At), math.Min(hi, m.stage.Top-m.At)
}

// behind returns how much wood lies before a screw, over its whole thickness, on the side that has the least: out from the back, or up from the
// foot.
func (m *fitting) behind(up bool, at float64) float64 {
	least := math.Inf(1)
	for _, r := range m.runs {
		if r.ret || r.rail || m.stage.sideways(r.edge) == 0 {
			continue
		}
		if !up {
			least = math.Min(least, faceFrom(r.section, at-ScrewShank/2, at+ScrewShank/2))
			continue
		}
		least = math.Min(least, r.section.roof(at-ScrewShank/2, at+ScrewShank/2))
	}
	return least
}

// roof returns the least height over the foot of what closes the section above it between two places out from the back, 0 where it has no foot
// there to stand on.
func (u *used) roof(x0, x1 float64) float64 {
	const foot = 0.05 // mm, what is no higher counts as the foot
	least, stands := u.Height, math.Inf(-1)
	pts := u.Outline.Flatten(0.005)
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		if math.Max(p.X, q.X) < x0 || math.Min(p.X, q.X) > x1 {
			continue
		}
		if math.Max(p.Y, q.Y) <= foot {
			stands = math.Max(stands, math.Max(p.X, q.X))
			continue
		}
		for _, x := range []float64{math.Max(math.Min(p.X, q.X), x0), math.Min(math.Max(p.X, q.X), x1)} {
			y := math.Min(p.Y, q.Y)
			if p.X != q.X {
				y = p.Lerp(q, (x-p.X)/(q.X-p.X)).Y
			}
			if y > foot {
				least = math.Min(least, y)
			}
		}
	}
	if stands < x1-foot {
		return 0
	}
	return least
}

// ruleStep is the step of a rule that places are marked with: 1/16 in, or 1 mm in a case in millimeters.
func ruleStep(u measure.Units) float64 {
	if u == measure.Inches {
		return 25.4 / 16
	}
	return 1
}
