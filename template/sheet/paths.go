package sheet

import "listel/profile/geom"

// joint is the greatest distance, mm, at which a segment counts as starting where the one before ended. Clipped
// strokes are kept as one path with gaps in it, and the gaps are far wider.
const joint = 1e-6

// runs splits a path at its gaps.
func runs(p geom.Path) []geom.Path {
	var out []geom.Path
	from := 0
	for i := 1; i <= len(p); i++ {
		if i == len(p) || !p[i-1].End().Near(p[i].Start(), joint) {
			out = append(out, p[from:i])
			from = i
		}
	}
	return out
}

// closedRun reports whether a run without gaps ends where it began. A single line never does.
func closedRun(p geom.Path) bool {
	if len(p) == 0 || !p[0].Start().Near(p[len(p)-1].End(), joint) {
		return false
	}
	_, straight := p[0].(geom.Line)
	return len(p) > 1 || !straight
}

func pathsBounds(ps []geom.Path) geom.Rect {
	r := geom.EmptyRect()
	for _, p := range ps {
		r = r.Union(p.Bounds())
	}
	return r
}

func transformPaths(ps []geom.Path, m geom.Affine) []geom.Path {
	out := make([]geom.Path, len(ps))
	for i, p := range ps {
		out[i] = p.Transform(m)
	}
	return out
}

// rectPath returns the closed, counter-clockwise outline of r.
func rectPath(r geom.Rect) geom.Path {
	return geom.Polygon(r.Min, geom.Pt(r.Max.X, r.Min.Y), r.Max, geom.Pt(r.Min.X, r.Max.Y))
}
