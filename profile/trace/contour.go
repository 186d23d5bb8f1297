package trace

import "listel/profile/geom"

// A crack is a step along the boundary of a patch, between two pixels.
type crack struct {
	at     geom.Point // where it starts, a corner of the pixels
	within int        // index of the pixel of the patch that it goes along
}

// contour returns the cracks along the outer boundary of c, whose pixels are those for which in is true: closed, a unit step each, with
// c on the right as one looks along it and y down. Pixels that meet at a corner alone are not joined.
func (f field) contour(c patch, in func(p uint8) bool) []crack {
	inside := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < f.w && y < f.h && in(f.pix[y*f.w+x])
	}
	x0, y0 := c.seed%f.w, c.seed/f.w
	x, y, dx, dy := x0, y0, 1, 0
	var out []crack
	for {
		px, py := x+(dx-dy-1)/2, y+(dy+dx-1)/2 // ahead of the corner to the right
		out = append(out, crack{geom.Pt(float64(x), float64(y)), py*f.w + px})
		x, y = x+dx, y+dy
		// The pixels ahead of the corner (x, y), to the left and to the right of the way (dx, dy), y down.
		lx, ly := x+(dx+dy-1)/2, y+(dy-dx-1)/2
		rx, ry := x+(dx-dy-1)/2, y+(dy+dx-1)/2
		switch {
		case !inside(rx, ry):
			dx, dy = -dy, dx
		case inside(lx, ly):
			dx, dy = dy, -dx
		}
		if x == x0 && y == y0 && dx == 1 && dy == 0 {
			return out
		}
	}
}

// placesOf returns where cracks start, px of the finder's field with the crop's corner for origin.
func (f *finder) placesOf(cracks []crack) []geom.Point {
	out := make([]geom.Point, len(cracks))
	for i, c := range cracks {
		out[i] = c.at.Add(geom.Pt(float64(f.x0), float64(f.y0)))
	}
	return out
}

// smoothed returns the means of closed points over 2n+1 of them.
func smoothed(points []geom.Point, n int) []geom.Point {
	out := make([]geom.Point, len(points))
	var sum geom.Point
	m := len(points)
	at := func(i int) geom.Point { return points[((i%m)+m)%m] }
	for i := -n; i <= n; i++ {
		sum = sum.Add(at(i))
	}
	for i := range out {
		out[i] = sum.Mul(1 / float64(2*n+1))
		sum = sum.Add(at(i + n + 1)).Sub(at(i - n))
	}
	return out
}
