package cutter

import "math"

// A Speed is how fast a router bit may turn by its diameter.
type Speed struct {
	Tool     string  `json:"tool"`
	Diameter float64 `json:"diameter_mm"`
	RPM      int     `json:"rpm"`     // at most
	Rim      float64 `json:"rim_m_s"` // at that speed
	Note     string  `json:"note"`
}

// speedTable gives the greatest speed by diameter in inches. It is the common workshop table (published at
// woodworking.about.com, "Router bit speeds"); the limit that the bit's or the router's maker states prevails.
var speedTable = []struct {
	upTo float64 // inches
	rpm  int
}{{1, 24000}, {2, 18000}, {2.5, 16000}, {3.5, 12000}}

// SpeedFor returns the greatest speed, in turns a minute, for a bit of a diameter in mm, and 0 for one of over 3.5 in, which is not for a router
// table.
func SpeedFor(diameter float64) int {
	for _, row := range speedTable {
		if diameter <= row.upTo*25.4+1e-9 {
			return row.rpm
		}
	}
	return 0
}

// RimSpeed returns the speed of the cutting edge in m/s for a diameter in mm and turns a minute: pi D n.
func RimSpeed(diameter float64, rpm int) float64 {
	return math.Pi * diameter / 1000 * float64(rpm) / 60
}

// Across returns the greatest diameter, in mm, that a tool's cutting edge turns on; 0 for planes.
func (t Tool) Across() float64 {
	switch t.Works() {
	case Plane:
		return 0
	case Saw:
		return t.Diameter
	}
	if t.Kind == SlotCutter {
		return t.Diameter
	}
	a, b := shapeOf(t).cut.span()
	return 2 * math.Max(-a, b)
}

// speedsFor returns the speeds of the router bits among tools.
func speedsFor(tools []Tool) []Speed {
	out := []Speed{}
	for _, t := range tools {
		d := t.Across()
		if t.Works() != Router || d == 0 {
			continue
		}
		n := SpeedFor(d)
		out = append(out, Speed{Tool: t.Name, Diameter: round(d, 100), RPM: n, Rim: round(RimSpeed(d, n), 10),
			Note: "common table by diameter; the maker's limit prevails"})
	}
	return out
}
