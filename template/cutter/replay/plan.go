// Package replay plays a plan of set-ups through on a raster and tells what it spoils, what it leaves and where it is not safe. It knows a
// plan by its JSON alone and shares no geometry with the planner, so that a fault of the one does not hide in the other.
package replay

import (
	"encoding/json"
	"fmt"
	"math"
)

// A Point is a place in section coordinates, or in those of the machine: distance from the fence, height over the table (mm).
type Point [2]float64

// A Plan is what the setups command prints, as far as a replay needs it.
type Plan struct {
	Profile string `json:"profile"`
	Blank   struct {
		Polygon []Point `json:"polygon"`
	} `json:"blank"`
	Allowance float64 `json:"allowance_mm"`
	Outline   []Point `json:"outline"`
	Setups    []Setup `json:"setups"`
	Left      struct {
		Total float64 `json:"total_mm2"`
	} `json:"left"`
	Unreached []Unreached `json:"unreached"`
	Faces     []Face      `json:"faces"`
}

// A Setup is one cut of a plan.
type Setup struct {
	N          int        `json:"n"`
	Tool       string     `json:"tool"`
	Work       string     `json:"work"`
	Enters     string     `json:"enters"`
	Tilt       float64    `json:"tilt_deg"`
	Height     float64    `json:"height_mm"`
	Silhouette []Point    `json:"silhouette"`
	Body       []Point    `json:"body"`
	Transform  [6]float64 `json:"transform"`
	Removed    float64    `json:"removed_mm2"`
	FenceHigh  float64    `json:"fence_high_mm"`
	Contact    bool       `json:"bottom_contact"`
	Warning    string     `json:"warning"`
	Rips       bool       `json:"rips"` // parts the molding from the board whose edge it was
}

// An Unreached is a place where a plan says that wood stays.
type Unreached struct {
	Y0    float64 `json:"y0_mm"`
	Y1    float64 `json:"y1_mm"`
	Depth float64 `json:"depth_mm"`
	Area  float64 `json:"area_mm2"`
	In    Point   `json:"in"` // the way into the wood that Deep is measured
	Deep  float64 `json:"deep_mm"`
}

// A Face is a line or arc of the worked outline and the part of it that the plan says is left clean.
type Face struct {
	Element int     `json:"element"`
	Kind    string  `json:"kind"`
	Points  []Point `json:"points"`
	Clean   float64 `json:"clean"`
}

// Decode reads a plan from JSON.
func Decode(data []byte) (Plan, error) {
	var p Plan
	if err := json.Unmarshal(data, &p); err != nil {
		return Plan{}, fmt.Errorf("plan: %w", err)
	}
	if len(p.Outline) < 3 || len(p.Blank.Polygon) < 3 {
		return Plan{}, fmt.Errorf("plan: it has no outline or no blank")
	}
	return p, nil
}

// Without returns the plan without its i-th set-up, from 0.
func (p Plan) Without(i int) Plan {
	q := p
	q.Setups = append(append([]Setup{}, p.Setups[:i]...), p.Setups[i+1:]...)
	return q
}

// Deepened returns the plan with its i-th set-up, from 0, d mm deeper the way the tool enters.
func (p Plan) Deepened(i int, d float64) Plan {
	q := p
	q.Setups = append([]Setup{}, p.Setups...)
	s := q.Setups[i]
	dir := s.machineEntry()
	q.Setups[i] = s.moved(Point{dir[0] * d, dir[1] * d})
	return q
}

// machineEntry returns the direction in which the tool enters the wood, in machine coordinates.
func (s Setup) machineEntry() Point {
	sin, cos := math.Sincos(s.Tilt * math.Pi / 180)
	switch s.Enters {
	case "fence":
		return Point{1, 0}
	case "above":
		return Point{sin, -cos}
	}
	return Point{-sin, cos}
}

// entry returns the same in section coordinates.
func (s Setup) entry() Point {
	d, t := s.machineEntry(), s.Transform
	return Point{t[0]*d[0] + t[2]*d[1], t[1]*d[0] + t[3]*d[1]}
}

// Shaken returns the plan with each set-up moved from the fence and the table by what shake returns for it, in mm.
func (p Plan) Shaken(shake func() (fence, height float64)) Plan {
	q := p
	q.Setups = append([]Setup{}, p.Setups...)
	for i, s := range q.Setups {
		du, dv := shake()
		q.Setups[i] = s.moved(Point{du, dv})
	}
	return q
}

// moved returns the set-up with its tool moved by d in machine coordinates.
func (s Setup) moved(d Point) Setup {
	t := s.Transform
	m := Point{t[0]*d[0] + t[2]*d[1], t[1]*d[0] + t[3]*d[1]}
	shift := func(ps []Point) []Point {
		out := make([]Point, len(ps))
		for i, p := range ps {
			out[i] = Point{p[0] + m[0], p[1] + m[1]}
		}
		return out
	}
	s.Silhouette, s.Body = shift(s.Silhouette), shift(s.Body)
	return s
}

// section returns a machine point in section coordinates.
func (s Setup) section(u, v float64) Point {
	t := s.Transform
	return Point{t[0]*u + t[2]*v + t[4], t[1]*u + t[3]*v + t[5]}
}

// machine returns a section point in machine coordinates; the transform keeps lengths, so its transpose undoes it.
func (s Setup) machine(p Point) Point {
	t := s.Transform
	x, y := p[0]-t[4], p[1]-t[5]
	return Point{t[0]*x + t[1]*y, t[2]*x + t[3]*y}
}
