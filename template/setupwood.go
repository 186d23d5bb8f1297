package template

import (
	"math"
	"slices"

	"listel/profile/geom"
	"listel/template/cutter"
)

// A cutStick is the blank of a plan and what its cuts sweep, in section coordinates (mm), to draw the wood as it stands between two cuts.
type cutStick struct {
	blank   polygon
	cuts    []polygon
	section geom.Path
	held    []cells // before the first cut and after each: what hangs together with the section
}

// A polygon is a closed outline of straight edges and its bounds.
type polygon struct {
	pts []geom.Point
	box geom.Rect
}

func newPolygon(pts []geom.Point) polygon {
	p := polygon{pts: pts, box: geom.EmptyRect()}
	for _, q := range pts {
		p.box = p.box.Include(q)
	}
	return p
}

// polygonOf returns the polygon of a plan's points, without those that a drawing does not need.
func polygonOf(ps [][2]float64) polygon {
	pts := make([]geom.Point, len(ps))
	for i, p := range ps {
		pts[i] = geom.Pt(p[0], p[1])
	}
	return newPolygon(thinned(pts, 0.01))
}

// thinned drops points so long as the chord from the last one kept stays within tol of those that it leaves out.
func thinned(pts []geom.Point, tol float64) []geom.Point {
	var out []geom.Point
	for i := 0; i < len(pts); {
		out = append(out, pts[i])
		next := i + 1
		for k := i + 2; k < len(pts) && chordHolds(pts[i:k+1], tol); k++ {
			next = k
		}
		i = next
	}
	return out
}

func chordHolds(pts []geom.Point, tol float64) bool {
	a, b := pts[0], pts[len(pts)-1]
	u := b.Sub(a)
	if u.Norm() < 1e-9 {
		return false
	}
	n, u := u.Unit().Left(), u.Unit()
	last := 0.0
	for _, p := range pts[1:] {
		d := p.Sub(a)
		if math.Abs(d.Dot(n)) > tol || d.Dot(u) < last {
			return false
		}
		last = d.Dot(u)
	}
	return true
}

// holds reports whether p lies inside.
func (g polygon) holds(p geom.Point) bool { return g.box.Contains(p) && geom.PolygonContains(g.pts, p) }

// cells are squares of the blank's bounds, row by row, that stand.
type cells []bool

// cellSize is the side of a square, mm: far less than any kerf or tool, which part what falls from what stays.
const cellSize = 0.25

// newCutStick returns the stick of a plan.
func newCutStick(p SetupPlan) *cutStick {
	s := &cutStick{section: p.Section.Outline}
	s.blank = p.shown()
	for _, u := range p.Plan.Setups {
		s.cuts = append(s.cuts, polygonOf(u.Silhouette))
	}
	outline := polygonOf(p.Plan.Outline)
	w, h := s.grid()
	stand := make(cells, w*h)
	s.sweep(s.blank, stand, true)
	seed := make(cells, w*h)
	s.sweep(outline, seed, true)
	s.held = append(s.held, slices.Clone(stand))
	for _, c := range s.cuts {
		s.sweep(c, stand, false)
		stand = s.reach(stand, seed)
		s.held = append(s.held, slices.Clone(stand))
	}
	return s
}

func (s *cutStick) grid() (w, h int) {
	return int(s.blank.box.Width()/cellSize) + 2, int(s.blank.box.Height()/cellSize) + 2
}

// sweep sets the squares whose middles lie in g.
func (s *cutStick) sweep(g polygon, c cells, to bool) {
	w, h := s.grid()
	var xs []float64
	for j := range h {
		y := s.blank.box.Min.Y + (float64(j)+0.5)*cellSize
		xs = xs[:0]
		for i, a := range g.pts {
			if b := g.pts[(i+1)%len(g.pts)]; (a.Y > y) != (b.Y > y) {
				xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
		slices.Sort(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			from := max(0, int(math.Ceil((xs[k]-s.blank.box.Min.X)/cellSize-0.5)))
			until := min(w-1, int(math.Floor((xs[k+1]-s.blank.box.Min.X)/cellSize-0.5)))
			for i := from; i <= until; i++ {
				c[j*w+i] = to
			}
		}
	}
}

// reach returns the standing squares that hang together with a seed.
func (s *cutStick) reach(stand, seed cells) cells {
	w, h := s.grid()
	out := make(cells, len(stand))
	var open []int
	push := func(k int) {
		if stand[k] && !out[k] {
			out[k] = true
			open = append(open, k)
		}
	}
	for k, is := range seed {
		if is {
			push(k)
		}
	}
	for len(open) > 0 {
		k := open[len(open)-1]
		open = open[:len(open)-1]
		if i := k % w; i > 0 {
			push(k - 1)
		}
		if k%w < w-1 {
			push(k + 1)
		}
		if k >= w {
			push(k - w)
		}
		if k < w*(h-1) {
			push(k + w)
		}
	}
	return out
}

// stands reports whether there is wood at p after the first n cuts: in the blank, in no cut, and not fallen off.
func (s *cutStick) stands(n int, p geom.Point) bool {
	if !s.blank.holds(p) {
		return false
	}
	for _, c := range s.cuts[:n] {
		if c.holds(p) {
			return false
		}
	}
	w, h := s.grid()
	i, j := int((p.X-s.blank.box.Min.X)/cellSize), int((p.Y-s.blank.box.Min.Y)/cellSize)
	for y := max(0, j-1); y <= min(h-1, j+1); y++ {
		for x := max(0, i-1); x <= min(w-1, i+1); x++ {
			if s.held[n][y*w+x] {
				return true
			}
		}
	}
	return false
}

// edgeStep is how far beside an edge it is looked whether there is wood, mm.
const edgeStep = 0.02

// edges returns the boundary of the wood after the first n cuts, as lines.
func (s *cutStick) edges(n int) geom.Path {
	var out geom.Path
	for _, g := range append([]polygon{s.blank}, s.cuts[:n]...) {
		for i, a := range g.pts {
			b := g.pts[(i+1)%len(g.pts)]
			side := b.Sub(a).Unit().Left().Mul(edgeStep)
			out = append(out, s.parts(n, a, b, func(m geom.Point) bool {
				return s.stands(n, m.Add(side)) != s.stands(n, m.Sub(side))
			})...)
		}
	}
	return out
}

// parts cuts the line from a to b where it crosses an edge of the blank or of the first n cuts and returns those parts whose middles are to be kept.
func (s *cutStick) parts(n int, a, b geom.Point, keep func(middle geom.Point) bool) geom.Path {
	box := geom.EmptyRect().Include(a).Include(b)
	ts := []float64{0, 1}
	d := b.Sub(a)
	for _, g := range append([]polygon{s.blank}, s.cuts[:n]...) {
		if !g.box.Overlaps(box) {
			continue
		}
		for i, p := range g.pts {
			e := g.pts[(i+1)%len(g.pts)].Sub(p)
			det := d.Cross(e)
			if math.Abs(det) < 1e-12 {
				for _, q := range []geom.Point{p, p.Add(e)} {
					ts = append(ts, q.Sub(a).Dot(d)/d.Dot(d))
				}
				continue
			}
			if u := p.Sub(a).Cross(d) / det; u >= -1e-9 && u <= 1+1e-9 {
				ts = append(ts, p.Sub(a).Cross(e)/det)
			}
		}
	}
	slices.Sort(ts)
	var out geom.Path
	last := 0.0
	for i := 1; i < len(ts); i++ {
		t0, t1 := max(0, ts[i-1]), min(1, ts[i])
		if (t1-t0)*d.Norm() < 1e-6 || !keep(a.Add(d.Mul((t0+t1)/2))) {
			continue
		}
		if k := len(out) - 1; k >= 0 && t0 == last {
			out[k] = geom.Line{A: out[k].Start(), B: a.Add(d.Mul(t1))}
		} else {
			out = append(out, geom.Line{A: a.Add(d.Mul(t0)), B: a.Add(d.Mul(t1))})
		}
		last = t1
	}
	return out
}

// hatch rules lines at an angle, spacing mm apart, over the places for which keep holds after the first n cuts.
func (s *cutStick) hatch(n int, angle geom.Angle, spacing float64, keep func(geom.Point) bool) geom.Path {
	dir := geom.Polar(1, angle)
	across := dir.Left()
	lo, hi, from, to := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range s.blank.pts {
		lo, hi = math.Min(lo, p.Dot(across)), math.Max(hi, p.Dot(across))
		from, to = math.Min(from, p.Dot(dir)), math.Max(to, p.Dot(dir))
	}
	var out geom.Path
	for k := math.Ceil(lo / spacing); k*spacing < hi; k++ {
		at := across.Mul(k * spacing)
		out = append(out, s.parts(n, at.Add(dir.Mul(from-1)), at.Add(dir.Mul(to+1)), keep)...)
	}
	return out
}

// machine returns the map from section coordinates to those of the machine: the distance from the fence, the height over the table.
func machine(u cutter.Setup) geom.Affine {
	t := u.Transform
	return geom.Affine{A: t[0], B: t[1], C: t[2], D: t[3], E: t[4], F: t[5]}.Inverse()
}
