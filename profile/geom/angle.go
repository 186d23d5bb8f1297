package geom

import (
	"encoding/json"
	"math"
)

// An Angle is a plane angle in radians, positive counter-clockwise. Write 45*Degree.
type Angle float64

// The units an Angle is written in.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Radians returns a in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Sin returns the sine of a.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of a.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan returns the tangent of a.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }

// Abs returns a without its sign.
func (a Angle) Abs() Angle { return Angle(math.Abs(float64(a))) }

// Near reports whether a and b differ by at most tol; a full turn counts as a difference.
func (a Angle) Near(b, tol Angle) bool { return math.Abs(float64(a-b)) <= float64(tol) }

// MarshalJSON writes a in degrees, rounded to a millionth.
func (a Angle) MarshalJSON() ([]byte, error) {
	return json.Marshal(math.Round(a.Degrees()*1e6)/1e6 + 0)
}
