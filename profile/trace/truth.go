package trace

import (
	"math"

	"listel/profile/geom"
)

// A comparison is a traced outline beside the section made of it.
type comparison struct {
	traced  []geom.Point // closed, mm
	section geom.Path    // closed, counter-clockwise
	pixels  Mapping
	blind   float64 // mm, the breadth of a crevice that the drawing's own line and blur fill
	ink     *inkMap // the drawing itself, nil when there is none to compare with
}

// judge measures how far the two are apart, both ways, and where the section lies further from the ink than from the outline traced in it, how far
// it is from that; and tells the length of the section that no drawing could show (mm): the
// bottoms of crevices, as between a half round and the flat that it stands on. They are left out.
func (c comparison) judge(tolerance float64) (t Truth, hidden float64) {
	outline := geom.Polygon(c.traced...)
	t.Tolerance = tolerance
	sum, weight := 0.0, 0.0
	look := func(at geom.Point, to geom.Path, length float64) {
		_, _, d := to.Nearest(at)
		sum, weight = sum+d*length, weight+length
		if d > t.Greatest {
			t.Greatest, t.Worst = d, at
		}
	}
	type sample struct {
		at     geom.Point
		length float64
	}
	var seen []sample
	var filled []geom.Point // what stands against another part
	step := math.Max(outline.Length()/1500, 0.05)
	for i, s := range c.section {
		n := max(1, int(math.Ceil(s.Length()/step)))
		for j := range n {
			at := float64(i) + float64(j)/float64(n)
			seen = append(seen, sample{c.section.At(at), s.Length() / float64(n)})
			if c.crevice(at) {
				filled = append(filled, c.section.At(at))
			}
		}
	}
	for _, s := range seen {
		if nearAny(s.at, filled, c.blind*0.75) {
			hidden += s.length
			continue
		}
		look(s.at, outline, s.length)
		if c.ink != nil && !nearAny(s.at, filled, 2*c.blind) { // the end of a crevice lies deep in ink
			if d := c.ink.off(c.pixels.Apply(s.at)) / c.pixels.Size(s.at); d > t.Greatest {
				t.Greatest, t.Worst = d, s.at
			}
		}
	}
	for i, p := range c.traced {
		if !nearAny(p, filled, c.blind) {
			look(p, c.section, p.Dist(c.traced[(i+1)%len(c.traced)]))
		}
	}
	t.Mean = sum / math.Max(weight, step)
	px := c.pixels.Size(c.section.Bounds().Center())
	t.GreatestPx, t.MeanPx = t.Greatest*px, t.Mean*px
	t.Within = t.Greatest <= tolerance
	return t, hidden
}

// crevice reports whether another part of the section stands against the one at s, as a path counts, nearer than blind. The walls of a
// square groove do not when they are further apart, and those of a corner never do.
func (c comparison) crevice(s float64) bool {
	out := c.section.Tangent(s).Left().Mul(-1)
	middle := c.section.At(s).Add(out.Mul(c.blind / 2))
	other, _, d := c.section.Nearest(middle)
	return d < 0.95*c.blind/2 && c.section.Tangent(other).Left().Mul(-1).Dot(out) < -0.5
}

// nearAny reports whether p lies within reach of one of the points.
func nearAny(p geom.Point, points []geom.Point, reach float64) bool {
	for _, q := range points {
		if p.Near(q, reach) {
			return true
		}
	}
	return false
}

// withScale adds the scale's own error to what the sizes may be off by.
func (t Truth) withScale(sizes []Uncertain, relative float64) Truth {
	t.ScaleError = relative
	t.Sizes = make([]Uncertain, len(sizes))
	for i, s := range sizes {
		s.Error = math.Hypot(s.Error, sure*s.MM*relative)
		t.Sizes[i] = s
	}
	return t
}

// widened returns sizes that may each be off by so many mm besides.
func widened(sizes []Uncertain, mm float64) []Uncertain {
	out := make([]Uncertain, len(sizes))
	for i, s := range sizes {
		s.Error = math.Hypot(s.Error, mm)
		out[i] = s
	}
	return out
}

// atLeast returns sizes that may each be off by at least so many mm.
func atLeast(sizes []Uncertain, mm float64) []Uncertain {
	out := make([]Uncertain, len(sizes))
	for i, s := range sizes {
		s.Error = math.Max(s.Error, mm)
		out[i] = s
	}
	return out
}

// Words returns what the size is called in a report: its key, or for the sizes of the back plain words.
func (u Uncertain) Words() string {
	switch u.Key {
	case "back.rabbet.width":
		return "rabbet's width"
	case "back.rabbet.depth":
		return "rabbet's depth"
	case "back.spring.wall":
		return "flat on the wall"
	}
	return u.Key
}
