package sheet

import (
	"strings"

	"listel/profile/geom"
)

// A Leader is a note with a line to what it is about: an arrow at Tip, a bend at Elbow, a short level landing, and
// the text beyond it. The landing runs away from the tip, to the right when the two are one above the other.
type Leader struct {
	Tip, Elbow geom.Point
	Text       string  // lines are separated by line ends
	Size       float64 // points; 0 is DefaultSize
	Dot        bool    // a dot at the tip, for a place inside an outline
}

// Drawing returns the leader.
func (l Leader) Drawing() Drawing {
	side := geom.Pt(1, 0)
	anchor := Left
	if l.Elbow.X < l.Tip.X-1e-9 {
		side, anchor = geom.Pt(-1, 0), Right
	}
	end := l.Elbow.Add(side.Mul(landing))
	d := Drawing{Polyline(PenHair, l.Tip, l.Elbow, end)}
	if l.Dot {
		d = d.Add(Dot(l.Tip, 0.6))
	} else if !l.Tip.Near(l.Elbow, 1e-9) {
		d = d.Add(ArrowHead(l.Tip, l.Tip.Sub(l.Elbow)))
	} else {
		d = d.Add(ArrowHead(l.Tip, side.Mul(-1)))
	}
	lines := strings.Split(l.Text, "\n")
	t := Text{Size: l.Size, Anchor: anchor}
	for i, s := range lines {
		t.S = s
		t.At = end.Add(side.Mul(textGap)).Add(geom.Pt(0, (float64(len(lines)-1)/2-float64(i))*LineHeight(t.size())))
		d = d.Add(t)
	}
	return d
}

// CenterMark returns a small cross, its arms so many mm long.
func CenterMark(at geom.Point, arm float64) Drawing {
	return Drawing{
		Line(at.Sub(geom.Pt(arm, 0)), at.Add(geom.Pt(arm, 0)), PenHair),
		Line(at.Sub(geom.Pt(0, arm)), at.Add(geom.Pt(0, arm)), PenHair),
	}
}

// An AngleDim gives an angle: an arc round Vertex, from the direction From through Sweep, with arrowheads, and the text
// upright in a gap in its middle, or outside the arc when it does not fit.
type AngleDim struct {
	Vertex      geom.Point
	From, Sweep geom.Angle // Sweep is not 0
	Radius      float64    // mm
	Text        string
	Size        float64 // points; 0 is DefaultSize
	Legs        bool    // thin lines along both directions, from the vertex to past the arc
}

// Drawing returns the dimension; nothing when the radius is not over 0 or the sweep is 0.
func (a AngleDim) Drawing() Drawing {
	if !(a.Radius > 0) || a.Sweep == 0 {
		return nil
	}
	if a.Sweep < 0 {
		a.From, a.Sweep = a.From+a.Sweep, -a.Sweep
	}
	arc := geom.Arc{Center: a.Vertex, Radius: a.Radius, From: a.From, Sweep: a.Sweep}
	var d Drawing
	if a.Legs {
		for _, dir := range [2]geom.Angle{a.From, a.From + a.Sweep} {
			d = d.Add(Line(a.Vertex, a.Vertex.Add(geom.Polar(a.Radius+extensionOver, dir)), PenHair))
		}
	}
	t := Text{S: a.Text, Size: a.Size, Anchor: Middle}
	mid := a.From + a.Sweep/2
	half := (abs(t.Width()*mid.Sin()) + abs(CapHeight(t.size())*mid.Cos())) / 2
	inside := arc.Length() >= 2*(half+textGap)+2*arrowLength+1
	if inside && a.Text != "" {
		gap := geom.Angle((half + textGap) / a.Radius)
		d = d.Add(
			Stroke{geom.Path{geom.Arc{Center: a.Vertex, Radius: a.Radius, From: a.From, Sweep: a.Sweep/2 - gap}}, PenThin},
			Stroke{geom.Path{geom.Arc{Center: a.Vertex, Radius: a.Radius, From: mid + gap, Sweep: a.Sweep/2 - gap}}, PenThin})
		t.At = a.Vertex.Add(geom.Polar(a.Radius, mid))
	} else {
		d = d.Add(Stroke{geom.Path{arc}, PenThin})
		clear := textGap // of the text from the arc, and from the ends of the legs
		if a.Legs {
			clear += extensionOver
		}
		t.At = a.Vertex.Add(geom.Polar(a.Radius+clear+(abs(t.Width()*mid.Cos())+abs(CapHeight(t.size())*mid.Sin()))/2, mid))
	}
	if arc.Length() >= 2*arrowLength+1 {
		back := geom.Angle(arrowLength / 2 / a.Radius) // the chord of the head follows the arc
		d = d.Add(
			ArrowHead(arc.Start(), geom.Polar(1, a.From+back-90*geom.Degree)),
			ArrowHead(arc.End(), geom.Polar(1, a.From+a.Sweep-back+90*geom.Degree)))
	}
	if a.Text == "" {
		return d
	}
	return d.Add(t)
}

func abs(v float64) float64 { return max(v, -v) }
