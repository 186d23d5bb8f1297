package miter

import (
	"math"
)

// ScrewShank is the width in mm of the slots: the hole for the shank of a No. 8 screw. It is common practice, no source.
const ScrewShank = 4.5

// ScrewGauge names the screw that the slots are made for.
const ScrewGauge = "No. 8"

// ScrewMetric is the diameter of that screw over its thread: 0.164 in (ASME B18.6.1, from memory).
const ScrewMetric = "4.2 mm"

// A Screw is where the screws that hold a molding across the grain enter it, the same on both sides of a case.
type Screw struct {
	Up     bool    `json:"up"`        // from below into the foot of a molding that lies on the case; else from inside into its back
	At     float64 `json:"at_mm"`     // its height over the foot; of one from below its distance from the back edge of the molding
	Enters float64 `json:"enters_mm"` // the most that it may stand out of the case: all round it 3 mm (1/8 in) of wood are left then, to every face of the molding
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
	if edge := math.Min(m.usual.toEdge, (hi-lo)/3); up && hi-lo > 2*edge || !up {
		lo, hi = lo+edge, hi-edge
	}
	step := m.usual.rule
	first := math.Ceil(lo/step-1e-9) * step
	if up { // measured from the face of the case
		first = lo + math.Mod(m.Inset-lo+1e-9, step)
	}
	bores := m.bores(up)
	for at := first; at <= hi+1e-9; at += step {
		room := math.Inf(1)
		for _, b := range bores {
			room = math.Min(room, b.room(at, m.usual.cover))
		}
		enters := math.Floor(room/step+1e-9) * step
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

// bores returns the different sections of the sides as screws meet them.
func (m *fitting) bores(up bool) []bore {
	var out []bore
	seen := map[*used]bool{}
	for _, r := range m.runs {
		if r.ret || r.rail || seen[r.section] || m.stage.sideways(r.edge) == 0 {
			continue
		}
		seen[r.section] = true
		out = append(out, boreInto(r.section, up))
	}
	return out
}
