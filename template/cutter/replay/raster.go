package replay

import (
	"math"
	"sort"
)

// A raster is a grid of cells over the blank. Cell (i, j) stands for the point at its middle.
type raster struct {
	x0, y0, cell float64
	w, h         int
}

func newRaster(poly []Point, cell float64) raster {
	lo, hi := bounds(poly)
	r := raster{x0: lo[0] - cell, y0: lo[1] - cell, cell: cell}
	r.w = int(math.Ceil((hi[0]-lo[0])/cell)) + 2
	r.h = int(math.Ceil((hi[1]-lo[1])/cell)) + 2
	return r
}

func bounds(ps []Point) (lo, hi Point) {
	lo, hi = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range ps {
		for k := range 2 {
			lo[k], hi[k] = math.Min(lo[k], p[k]), math.Max(hi[k], p[k])
		}
	}
	return lo, hi
}

// at returns the middle of a cell.
func (r raster) at(k int) Point {
	return Point{r.x0 + (float64(k%r.w)+0.5)*r.cell, r.y0 + (float64(k/r.w)+0.5)*r.cell}
}

// index returns the cell that holds p, -1 outside.
func (r raster) index(p Point) int {
	i, j := int(math.Floor((p[0]-r.x0)/r.cell)), int(math.Floor((p[1]-r.y0)/r.cell))
	if i < 0 || j < 0 || i >= r.w || j >= r.h {
		return -1
	}
	return j*r.w + i
}

// fill calls f for the runs of cells, from a to before b, whose middles lie in the polygon.
func (r raster) fill(poly []Point, f func(a, b int)) {
	var xs []float64
	lo, hi := bounds(poly)
	j0 := max(0, int((lo[1]-r.y0)/r.cell)-1)
	j1 := min(r.h, int((hi[1]-r.y0)/r.cell)+2)
	for j := j0; j < j1; j++ {
		y := r.y0 + (float64(j)+0.5)*r.cell
		xs = xs[:0]
		for i := range poly {
			a, b := poly[i], poly[(i+1)%len(poly)]
			if (a[1] > y) != (b[1] > y) {
				xs = append(xs, a[0]+(b[0]-a[0])*(y-a[1])/(b[1]-a[1]))
			}
		}
		sort.Float64s(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			a := int(math.Ceil((xs[i]-r.x0)/r.cell - 0.5))
			b := int(math.Ceil((xs[i+1]-r.x0)/r.cell - 0.5))
			a, b = max(0, min(r.w, a)), max(0, min(r.w, b))
			if a < b {
				f(j*r.w+a, j*r.w+b)
			}
		}
	}
}

// A run is a row's cells from a to before b that stand.
type run struct{ a, b int }

// loose calls f for the runs of standing cells that do not hang together with the cell keep, side by side or one above the other. Nothing is
// called when keep itself does not stand.
func (r raster) loose(standing []bool, keep int, f func(run)) {
	var runs []run
	row := make([]int, r.h+1) // first run of each row
	for j := range r.h {
		row[j] = len(runs)
		for k, end := j*r.w, (j+1)*r.w; k < end; k++ {
			if !standing[k] {
				continue
			}
			a := k
			for k < end && standing[k] {
				k++
			}
			runs = append(runs, run{a, k})
		}
	}
	row[r.h] = len(runs)
	up := make([]int, len(runs))
	for i := range up {
		up[i] = i
	}
	root := func(i int) int {
		for up[i] != i {
			up[i] = up[up[i]]
			i = up[i]
		}
		return i
	}
	for j := 1; j < r.h; j++ {
		for p, q := row[j-1], row[j]; p < row[j] && q < row[j+1]; {
			below, here := run{runs[p].a + r.w, runs[p].b + r.w}, runs[q]
			if below.a < here.b && here.a < below.b {
				up[root(p)] = root(q)
			}
			if below.b < here.b {
				p++
			} else {
				q++
			}
		}
	}
	main := -1
	for i, n := range runs {
		if n.a <= keep && keep < n.b {
			main = root(i)
		}
	}
	if main < 0 {
		return
	}
	for i, n := range runs {
		if root(i) != main {
			f(n)
		}
	}
}

// inside reports whether p lies in the polygon.
func inside(poly []Point, p Point) bool {
	in := false
	j := len(poly) - 1
	for i := range poly {
		a, b := poly[i], poly[j]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
		j = i
	}
	return in
}

// boundaryDistance returns the distance of p from the polygon's boundary, in mm.
func boundaryDistance(poly []Point, p Point) float64 {
	best := math.Inf(1)
	j := len(poly) - 1
	for i := range poly {
		ax, ay := poly[j][0], poly[j][1]
		dx, dy := poly[i][0]-ax, poly[i][1]-ay
		t := 0.0
		if n := dx*dx + dy*dy; n > 0 {
			t = math.Max(0, math.Min(1, ((p[0]-ax)*dx+(p[1]-ay)*dy)/n))
		}
		ex, ey := p[0]-ax-t*dx, p[1]-ay-t*dy
		best = math.Min(best, ex*ex+ey*ey)
		j = i
	}
	return math.Sqrt(best)
}

// along calls f for points of the polygon's boundary no more than step apart.
func along(poly []Point, step float64, f func(p Point)) {
	for i := range poly {
		a, b := poly[i], poly[(i+1)%len(poly)]
		n := max(1, int(math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1])/step)))
		for k := range n {
			t := float64(k) / float64(n)
			f(Point{a[0] + (b[0]-a[0])*t, a[1] + (b[1]-a[1])*t})
		}
	}
}
