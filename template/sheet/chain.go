package sheet

import (
	"math"

	"listel/profile/geom"
)

// A Chain is a row of dimensions along one line, from each point to the next. A label stands beside the middle of
// its step; where steps are too narrow, labels move apart and a thin leader joins each to its step, so that none
// meets another.
type Chain struct {
	Points []geom.Point // in rising order of x for Across, of y for Up
	Texts  []string     // one for each step; "" leaves a step without a label
	Along  Direction    // Across or Up
	At     float64      // y of the line for Across, x for Up, mm
	Below  bool         // labels below an Across line or left of an Up one, in place of above and right
	Size   float64      // points; 0 is DefaultSize
	Bare   bool         // without extension lines
}

// Distances from a chain's line to its labels, mm.
const (
	labelNear  = 1.6 // to one that fits its step
	labelFar   = 8.0 // to one with a leader
	leaderRise = 4.2 // of a leader before it turns aside, clear of the labels that fit
	leaderStop = 0.7 // from a leader's end to its label
	chainSlack = 15.0
)

// A label is one step's text and where it goes.
type label struct {
	text     string
	lo, hi   float64 // the step
	half     float64 // half of the room it takes along the line
	at       float64 // its middle along the line
	fits     bool    // beside its own step
	middle   float64 // of the step
	sideways bool    // an Across label that is turned to run up
}

// point returns the point at s along the line and d away from it toward the labels.
func (c Chain) point(s, d float64) geom.Point {
	if c.Below {
		d = -d
	}
	if c.Along == Up {
		return geom.Pt(c.At+d, s)
	}
	return geom.Pt(s, c.At+d)
}

func (c Chain) along(p geom.Point) float64 {
	if c.Along == Up {
		return p.Y
	}
	return p.X
}

func (c Chain) size() float64 {
	if c.Size > 0 {
		return c.Size
	}
	return DefaultSize
}

// Drawing returns the chain. Fewer than two points draw nothing.
func (c Chain) Drawing() Drawing {
	if len(c.Points) < 2 {
		return nil
	}
	var d Drawing
	first, last := c.along(c.Points[0]), c.along(c.Points[len(c.Points)-1])
	u := c.point(1, 0).Sub(c.point(0, 0))
	d = d.Add(Line(c.point(first, 0), c.point(last, 0), PenThin))
	for _, p := range c.Points {
		to := c.point(c.along(p), 0)
		if !c.Bare {
			d = append(d, extension(p, to)...)
		}
		d = append(d, Tick(to, u))
	}
	for _, l := range c.labels() {
		d = append(d, c.drawLabel(l)...)
	}
	return d
}

// labels returns the labels with their places.
func (c Chain) labels() []label {
	var all []label
	for i, s := range c.Texts {
		if s == "" || i+1 >= len(c.Points) {
			continue
		}
		l := label{text: s, lo: c.along(c.Points[i]), hi: c.along(c.Points[i+1])}
		l.middle = (l.lo + l.hi) / 2
		l.half = c.size() * mmPerPoint * 1.2 / 2
		if c.Along == Across {
			l.half = TextWidth(s, c.size(), Regular)/2 + 0.8
		}
		l.fits = math.Abs(l.hi-l.lo) >= 2*l.half
		l.at = l.middle
		all = append(all, l)
	}
	if c.Along == Up {
		return place(all)
	}
	// The labels that fit stand in a row of their own, nearer to the line than the rest.
	var near, far []label
	for _, l := range all {
		if l.fits {
			near = append(near, l)
		} else {
			far = append(far, l)
		}
	}
	far = place(far)
	first, last := c.along(c.Points[0]), c.along(c.Points[len(c.Points)-1])
	if n := len(far); n > 0 && (far[0].at-far[0].half < first-chainSlack || far[n-1].at+far[n-1].half > last+chainSlack) {
		for i := range far {
			far[i].sideways, far[i].half, far[i].at = true, c.size()*mmPerPoint*1.2/2, far[i].middle
		}
		far = place(far)
	}
	return append(near, far...)
}

// place spreads the labels along the line.
func place(ls []label) []label {
	want, half := make([]float64, len(ls)), make([]float64, len(ls))
	for i, l := range ls {
		want[i], half[i] = l.middle, l.half
	}
	for i, at := range Spread(want, half, 0) {
		ls[i].at = at
		ls[i].fits = ls[i].fits && at-ls[i].half >= min(ls[i].lo, ls[i].hi)-1e-9 && at+ls[i].half <= max(ls[i].lo, ls[i].hi)+1e-9
	}
	return ls
}

func (c Chain) drawLabel(l label) Drawing {
	t := Text{S: l.text, Size: c.Size}
	switch {
	case c.Along == Up && c.Below:
		t.Anchor = Right
	case c.Along == Up:
		t.Anchor = Left
	case l.sideways:
		t.Angle = 90 * geom.Degree
		t.Anchor = map[bool]Anchor{false: Left, true: Right}[c.Below]
	case c.Below:
		t.Anchor = Top
	default:
		t.Anchor = Bottom
	}
	if l.fits {
		t.At = c.point(l.at, labelNear)
		return Drawing{t}
	}
	t.At = c.point(l.at, labelFar)
	turn := leaderRise
	if c.Along == Up {
		turn = labelNear
	}
	return Drawing{
		Polyline(PenHair, c.point(l.middle, 0), c.point(l.middle, turn), c.point(l.at, labelFar-leaderStop-0.6), c.point(l.at, labelFar-leaderStop)),
		t,
	}
}
