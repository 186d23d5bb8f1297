package sheet

import (
	"slices"

	"listel/profile/geom"
)

// clipPath returns the parts of a path that lie in the window, cut exactly, as one path with gaps.
func clipPath(p geom.Path, window geom.Rect) geom.Path {
	if window.Empty() {
		return nil
	}
	var out geom.Path
	for _, s := range p {
		b := s.Bounds()
		switch {
		case !b.Overlaps(window):
		case inside(b, window):
			out = append(out, s)
		default:
			out = append(out, clipSegment(s, window)...)
		}
	}
	return out
}

func clipSegment(s geom.Segment, window geom.Rect) geom.Path {
	cuts := []float64{0}
	for _, e := range edges(window) {
		cuts = append(cuts, e.crossings(s)...)
	}
	cuts = append(cuts, 1)
	slices.Sort(cuts)
	var out geom.Path
	from := -1.0 // start of the stretch inside, or -1 outside
	for i := 1; i < len(cuts); i++ {
		in := window.Contains(s.At((cuts[i-1] + cuts[i]) / 2))
		if in && from < 0 {
			from = cuts[i-1]
		}
		if !in && from >= 0 {
			out = append(out, trim(s, from, cuts[i-1]))
			from = -1
		}
	}
	if from >= 0 {
		out = append(out, trim(s, from, 1))
	}
	return out
}

// clipRegion returns the part of a region in the window. Where an outline leaves the window it goes on along the
// border; such an edge may be covered twice, which changes neither fill rule's answer.
func clipRegion(ps []geom.Path, window geom.Rect) []geom.Path {
	var out []geom.Path
	for _, p := range ps {
		for _, e := range edges(window) {
			p = e.clipOutline(p)
		}
		if len(p) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// clipOutline keeps what of a closed outline lies on the border's inner side and closes it along the border.
func (e edge) clipOutline(p geom.Path) geom.Path {
	var kept geom.Path
	for _, s := range closeOutline(p) {
		cuts := append(append([]float64{0}, e.crossings(s)...), 1)
		for i := 1; i < len(cuts); i++ {
			if e.keeps(s.At((cuts[i-1] + cuts[i]) / 2)) {
				kept = append(kept, trim(s, cuts[i-1], cuts[i]))
			}
		}
	}
	return closeOutline(kept)
}

// closeOutline joins the segments of an outline with straight lines wherever one does not start at the end of
// the one before.
func closeOutline(p geom.Path) geom.Path {
	if len(p) == 0 {
		return nil
	}
	out := make(geom.Path, 0, len(p)+1)
	last := p[len(p)-1].End()
	for _, s := range p {
		if start := s.Start(); !start.Near(last, 1e-9) {
			out = append(out, geom.Line{A: last, B: start})
		}
		out = append(out, s)
		last = s.End()
	}
	// The first line, if one was put there, closes the outline: it reads better at the end.
	if !out[0].Start().Near(p[0].Start(), 1e-9) {
		out = append(out[1:], out[0])
	}
	return out
}
