package cutter

import (
	"math"
	"sort"

	"listel/profile/geom"
)

// A view is the target seen from one direction of approach.
type view struct {
	frame
	index    int   // among the views
	env      curve // of the section
	over     []int // sides of the blank that a tool coming this way enters first: router and saw from the table
	square   int   // the side that it enters squarely, -1 without one
	lo, hi   geom.Point
	hardU    []float64 // hard points, sorted by u
	hardV    []float64
	hardIdx  []int
	sampleU  []float64 // samples moved off the face by their tolerance, sorted by u
	sampleV  []float64
	sampleAt []int
}

func (t *target) newView(up geom.Point) *view {
	v := &view{frame: newFrame(up), square: -1}
	v.env = envelope(t.piece.Outline, v.frame)
	r := geom.EmptyRect()
	for _, p := range t.piece.Blank {
		r = r.Include(v.in(p))
	}
	v.lo, v.hi = r.Min, r.Max
	for i, s := range t.sides {
		if s.n.Dot(v.up) > 1-1e-9 {
			v.square = i
		}
		if s.n.Dot(v.up) > 0.5 {
			v.over = append(v.over, i)
		}
	}
	v.sortPoints(t)
	return v
}

// sortPoints sorts the target's points by their place across the approach.
func (v *view) sortPoints(t *target) {
	v.hardU, v.hardV, v.hardIdx = sorted(len(t.hard), func(i int) geom.Point { return v.in(t.hard[i]) })
	v.sampleU, v.sampleV, v.sampleAt = sorted(len(t.samples), func(i int) geom.Point {
		return v.in(t.samples[i].p.Add(t.samples[i].n))
	})
}

func sorted(n int, at func(int) geom.Point) (us, vs []float64, idx []int) {
	pts := make([]geom.Point, n)
	idx = make([]int, n)
	for i := range n {
		pts[i], idx[i] = at(i), i
	}
	sort.SliceStable(idx, func(a, b int) bool { return pts[idx[a]].X < pts[idx[b]].X })
	us, vs = make([]float64, n), make([]float64, n)
	for k, i := range idx {
		us[k], vs[k] = pts[i].X, pts[i].Y
	}
	return us, vs, idx
}

// table returns the v of the side's surface at u.
func (v *view) table(s side, u float64) float64 {
	return (s.d - u*s.n.Dot(v.right())) / s.n.Dot(v.up)
}

// views returns the directions of approach that the works at hand and the section suggest: square to each side of the
// blank, along and square to the section's own slopes, and for planes every 15 degrees.
func (t *target) views(works map[Work]bool, maxTilt geom.Angle) []*view {
	var ups []geom.Point
	add := func(up geom.Point) {
		for _, u := range ups {
			if u.Dot(up) > 1-1e-10 {
				return
			}
		}
		ups = append(ups, up.Unit())
	}
	for _, s := range t.sides {
		add(s.n)
	}
	slopes := t.slopes()
	if works[Saw] && maxTilt > 0 {
		for _, up := range slopes {
			for _, s := range t.sides {
				if math.Acos(min(1, up.Dot(s.n))) <= maxTilt.Radians() {
					add(up)
				}
			}
		}
		for _, s := range t.sides {
			for _, a := range []geom.Angle{-45, -30, -15, 15, 30, 45} {
				if a.Abs() <= maxTilt/geom.Degree {
					add(s.n.Rotate(a * geom.Degree))
				}
			}
		}
	}
	if works[Plane] {
		for _, up := range slopes {
			add(up)
		}
		for k := range 24 {
			add(t.sides[0].n.Rotate(geom.Angle(k) * 15 * geom.Degree))
		}
	}
	out := make([]*view, 0, len(ups))
	for _, up := range ups {
		v := t.newView(up)
		v.index = len(out)
		out = append(out, v)
	}
	return out
}

// slopes returns directions taken from the section: along each straight facet both ways, square off it, and square off the
// chord of each arc.
func (t *target) slopes() []geom.Point {
	var out []geom.Point
	for _, f := range t.facets {
		d := f.seg.End().Sub(f.seg.Start()).Unit()
		out = append(out, d.Left().Mul(-1))
		if f.kind == lineFacet {
			out = append(out, d, d.Mul(-1))
		}
	}
	return out
}
