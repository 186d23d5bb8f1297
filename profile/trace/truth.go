package trace

import (
	"math"

	"listel/profile/geom"
)

// judge measures how far the traced outline and the section made of it are apart, both ways.
func judge(traced []geom.Point, section geom.Path, pixels Mapping, tolerance float64) Truth {
	outline := geom.Polygon(traced...)
	t := Truth{Tolerance: tolerance}
	sum, weight := 0.0, 0.0
	look := func(at geom.Point, to geom.Path, length float64) {
		_, _, d := to.Nearest(at)
		sum, weight = sum+d*length, weight+length
		if d > t.Greatest {
			t.Greatest, t.Worst = d, at
		}
	}
	for i, p := range traced {
		look(p, section, p.Dist(traced[(i+1)%len(traced)]))
	}
	step := math.Max(outline.Length()/1500, 0.05)
	for _, s := range section {
		n := max(1, int(math.Ceil(s.Length()/step)))
		for i := range n {
			look(s.At(float64(i)/float64(n)), outline, s.Length()/float64(n))
		}
	}
	t.Mean = sum / weight
	px := pixels.Size(section.Bounds().Center())
	t.GreatestPx, t.MeanPx = t.Greatest*px, t.Mean*px
	t.Within = t.Greatest <= tolerance
	return t
}

// withScale adds the scale's own error to what the sizes may be off by.
func (t Truth) withScale(sizes []Uncertain, relative float64) Truth {
	t.ScaleError = relative
	t.Sizes = make([]Uncertain, len(sizes))
	for i, s := range sizes {
		s.Error = math.Hypot(s.Error, s.MM*relative)
		t.Sizes[i] = s
	}
	return t
}
