package sheet

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// An edge is a half plane with an upright or level border: what of the plane a window's side keeps.
type edge struct {
	level bool    // border at y = at; otherwise at x = at
	at    float64 // mm
	below bool    // keeps what lies below or left of the border; otherwise above or right
}

func edges(window geom.Rect) [4]edge {
	return [4]edge{
		{at: window.Min.X}, {at: window.Max.X, below: true},
		{level: true, at: window.Min.Y}, {level: true, at: window.Max.Y, below: true},
	}
}

// coordinate returns the coordinate of p across the border.
func (e edge) coordinate(p geom.Point) float64 {
	if e.level {
		return p.Y
	}
	return p.X
}

func (e edge) keeps(p geom.Point) bool {
	if e.below {
		return e.coordinate(p) <= e.at
	}
	return e.coordinate(p) >= e.at
}

// crossings returns the parameters in (0, 1), in order, at which s crosses the border; exact for lines and for
// circular and elliptic arcs. A segment that lies along the border crosses it nowhere.
func (e edge) crossings(s geom.Segment) []float64 {
	switch s := s.(type) {
	case geom.Line:
		a, b := e.coordinate(s.A), e.coordinate(s.B)
		if t := (e.at - a) / (b - a); t > 0 && t < 1 {
			return []float64{t}
		}
	case geom.Arc:
		return e.arcCrossings(s.Center, geom.Pt(s.Radius, 0), geom.Pt(0, s.Radius), s.From, s.Sweep)
	case geom.EllipticArc:
		u := geom.Polar(1, s.Turn)
		return e.arcCrossings(s.Center, u.Mul(s.RX), u.Left().Mul(s.RY), s.From, s.Sweep)
	}
	return nil
}

// arcCrossings solves for the eccentric angles at which center + p cos a + q sin a lies on the border.
func (e edge) arcCrossings(center, p, q geom.Point, from, sweep geom.Angle) []float64 {
	kp, kq := e.coordinate(p), e.coordinate(q)
	amplitude := math.Hypot(kp, kq)
	k := (e.at - e.coordinate(center)) / amplitude
	if !(math.Abs(k) < 1) {
		return nil
	}
	phase, half := math.Atan2(kq, kp), math.Acos(k)
	var ts []float64
	for _, a := range [2]float64{phase + half, phase - half} {
		turn := math.Mod(a-from.Radians(), 2*math.Pi)
		for _, d := range [3]float64{turn - 2*math.Pi, turn, turn + 2*math.Pi} {
			if t := d / sweep.Radians(); t > 0 && t < 1 {
				ts = append(ts, t)
			}
		}
	}
	slices.Sort(ts)
	return slices.Compact(ts)
}

// trim is s between two parameters, s itself when that is all of it.
func trim(s geom.Segment, t0, t1 float64) geom.Segment {
	if t0 <= 0 && t1 >= 1 {
		return s
	}
	return s.Trim(t0, t1)
}
