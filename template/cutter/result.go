package cutter

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A Result is a plan: the set-ups in their order and what they leave. Its JSON is the output of the setups command. Lengths are mm,
// angles degrees, points are in section coordinates.
type Result struct {
	Profile    string       `json:"profile"`
	Blank      BlankSize    `json:"blank"`
	Allowance  float64      `json:"allowance_mm"`
	Outline    [][2]float64 `json:"outline"` // flattened at 0.005 mm
	Setups     []Setup      `json:"setups"`
	Left       Left         `json:"left"`
	Unreached  []Unreached  `json:"unreached"`
	LowerBound int          `json:"lower_bound"` // no fewer set-ups would do, of those that were considered
	Proven     bool         `json:"proven"`      // the plan has as few as the bound
	Advice     []string     `json:"advice"`      // the hints in words
	Hints      []Hint       `json:"hints"`
	Effort     string       `json:"effort"`
	Stopped    bool         `json:"stopped"` // the budget of nodes ended before the bound was proven
	Faces      []FaceState  `json:"faces"`   // the worked outline, piece by piece
	Speeds     []Speed      `json:"speeds"`
	Cautions   []string     `json:"cautions"`
	Candidates int          `json:"candidates"` // cuts considered

	unsafe  int     // what is against the safety of its set-ups, counted
	weak    int     // places of waste, of those looked at, that are cleared with less than the first margin
	unclean float64 // mm of face with wood on it
}

// A BlankSize is the blank of a plan.
type BlankSize struct {
	Polygon   [4][2]float64    `json:"polygon"`
	Width     float64          `json:"width_mm"`
	Thickness float64          `json:"thickness_mm"`
	Way       profile.BlankWay `json:"way,omitempty"`      // of a sprung molding: flat or upright
	RunsOut   bool             `json:"runs_out,omitempty"` // too thin to be a loose stick, and no board can stay behind it
	Board     float64          `json:"board_mm,omitempty"` // of it that lies behind the molding's back and is ripped off last; 0 for a stick
}

// A Setup is one set-up: how the blank lies, where the tool stands, what it does. Machine coordinates are the distance from the fence and
// the height over the table.
type Setup struct {
	N             int          `json:"n"`
	Tool          string       `json:"tool"`
	Work          Work         `json:"work"`
	OnTable       Face         `json:"on_table"` // on the bench, for a plane
	AgainstFence  Face         `json:"against_fence"`
	EndForEnd     bool         `json:"end_for_end"` // the left end leads
	Enters        string       `json:"enters"`      // table, fence or above: where the tool comes from
	Tilt          float64      `json:"tilt_deg"`    // of the blade's or plane's top, positive toward the fence
	Fence         float64      `json:"fence_mm"`    // to the nearest cutting edge, negative when that stands behind the fence's face; saw: at the table
	Far           float64      `json:"far_mm"`      // to the farthest cutting edge; saw: at the table
	Axis          float64      `json:"axis_mm"`     // fence to the tool's axis; saw: to the middle of the kerf at the table
	Height        float64      `json:"height_mm"`   // table to the highest cutting point; plane: bench to the lowest
	Passes        int          `json:"passes"`
	Silhouette    [][2]float64 `json:"silhouette"`
	Body          [][2]float64 `json:"body"`
	Transform     [6]float64   `json:"transform"` // a b c d e f: section x = a u + c v + e, y = b u + d v + f for u from the fence, v over the table
	Cleans        []int        `json:"cleans"`    // elements that come clean with this cut
	Removed       float64      `json:"removed_mm2"`
	Watch         []Note       `json:"watch"`                       // what to watch, beside what the other fields tell
	Warning       string       `json:"warning"`                     // all of it in words, with millimeters
	BottomContact bool         `json:"bottom_contact"`              // the tool comes down on the finished face: deeper would spoil it
	Frees         bool         `json:"frees"`                       // an offcut falls away
	Grooves       bool         `json:"grooves,omitempty"`           // plane: what it takes is a groove, closed on both sides
	Rips          bool         `json:"rips,omitempty"`              // parts the molding from the board whose edge it was
	Engages       float64      `json:"engages_mm,omitempty"`        // router bit: cutting length that takes what this takes in one; 0 for a disc
	Short         float64      `json:"short_mm,omitempty"`          // router bit: the length of it that cuts, where that is less than Engages; else 0
	TableStrip    float64      `json:"on_table_strip_mm,omitempty"` // thickness of a strip that bears on the table and may break, 0 without
	FenceStrip    float64      `json:"against_fence_strip_mm,omitempty"`
	OnTableWidth  float64      `json:"on_table_width_mm"`
	FenceWidth    float64      `json:"against_fence_width_mm"`
	FenceHigh     float64      `json:"fence_high_mm"` // height over the table that the fence, or a plane's stop, must have at least to bear what bears on it, before the cut and after
}

// Left is the wood that a plan leaves on the section, places declared unreached not counted.
type Left struct {
	Max   float64 `json:"max_mm"`
	Area  float64 `json:"area_mm2"`
	Total float64 `json:"total_mm2"` // with the unreached places
}

// A FaceState is one line or arc of the worked outline and the part of it that the plan leaves clean.
type FaceState struct {
	Element int          `json:"element"` // 0 on the back
	Kind    string       `json:"kind"`    // line, arc or curve
	Radius  float64      `json:"radius_mm"`
	Points  [][2]float64 `json:"points"` // flattened at 0.005 mm
	Clean   float64      `json:"clean"`  // 0 to 1
}

// point rounds a point to a ten-thousandth of a millimeter.
func point(p geom.Point) [2]float64 {
	return [2]float64{round(p.X, 1e4), round(p.Y, 1e4)}
}

// round returns v to the nearest 1/k, never -0.
func round(v, k float64) float64 { return math.Round(v*k)/k + 0 }

func points(ps []geom.Point) [][2]float64 {
	out := make([][2]float64, len(ps))
	for i, p := range ps {
		out[i] = point(p)
	}
	return out
}

// beyondBlank is how far outside the blank, in mm, what a cut sweeps begins.
const beyondBlank = 4

// silhouette returns what a cut sweeps with its edge, from outside the blank to its last depth, as a polygon in section coordinates.
func silhouette(c *cut) []geom.Point { return sweep(c, c.view.hi.Y+beyondBlank) }

// sweep returns the silhouette from the height top in the cut's view on.
func sweep(c *cut, top float64) []geom.Point {
	a, b := c.variant.cut.span()
	out := []geom.Point{geom.Pt(c.x+b, top), geom.Pt(c.x+a, top)}
	end := a
	for _, p := range c.variant.cut {
		if p.a > end+vertical { // a pilot between: the polygon bridges it above the blank
			out = append(out, geom.Pt(c.x+end, top-1), geom.Pt(c.x+p.a, top-1))
		}
		for _, q := range p.flatten(0.002) {
			out = append(out, geom.Pt(c.x+q.X, c.h+q.Y))
		}
		end = p.b
	}
	return inSection(c, out)
}

// bodyOf returns what a cut sweeps with pilot, shank and body, as a polygon in section coordinates.
func bodyOf(c *cut, t Tool) []geom.Point {
	top := c.view.hi.Y + 4
	body := lowerEnvelope(c.variant.body)
	if len(body) == 0 {
		length := t.Length
		if length == 0 {
			length = t.Reach
		}
		d := t.Shank
		if d == 0 || d > c.variant.width {
			d = c.variant.width * 0.7
		}
		body = flat(d/2, math.Min(length, top-0.5-c.h))
	}
	a, b := body.span()
	if c.variant.oneWay() { // down to the table
		a, b = math.Max(a, c.view.lo.X-c.x), math.Min(b, c.view.hi.X-c.x)
		body = body.within(a, b)
	}
	out := []geom.Point{geom.Pt(c.x+b, top), geom.Pt(c.x+a, top)}
	for _, p := range body {
		out = append(out, geom.Pt(c.x+p.a, math.Min(top-0.5, c.h+p.at(p.a))), geom.Pt(c.x+p.b, math.Min(top-0.5, c.h+p.at(p.b))))
	}
	return inSection(c, out)
}

func inSection(c *cut, pts []geom.Point) []geom.Point {
	out := pts[:0]
	for _, p := range pts {
		q := c.view.out(p)
		if len(out) == 0 || !q.Near(out[len(out)-1], 1e-9) {
			out = append(out, q)
		}
	}
	return out
}

// flatten returns points of the piece from a to b, chords within tol of it.
func (p piece) flatten(tol float64) []geom.Point {
	if p.half == straightLine {
		return []geom.Point{geom.Pt(p.a, p.at(p.a)), geom.Pt(p.b, p.at(p.b))}
	}
	angle := func(x float64) float64 { return math.Acos(math.Max(-1, math.Min(1, (x-p.c.X)/p.r))) }
	from, to := angle(p.a), angle(p.b)
	n := max(1, int(math.Ceil((from-to)/(2*math.Acos(math.Max(0, 1-tol/p.r))))))
	out := make([]geom.Point, n+1)
	for i := range out {
		a := from + (to-from)*float64(i)/float64(n)
		out[i] = geom.Pt(p.c.X+p.r*math.Cos(a), p.c.Y+float64(p.half)*p.r*math.Sin(a))
	}
	out[0], out[n] = geom.Pt(p.a, p.at(p.a)), geom.Pt(p.b, p.at(p.b))
	return out
}
