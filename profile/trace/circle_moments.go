package trace

import (
	"math"

	"listel/profile/geom"
)

// moments are weighted sums over points, enough to fit a line or a circle without looking at the points again; z is x² + y².
type moments struct{ w, x, y, xx, xy, yy, xz, yz, zz float64 }

// plus returns the sums with one more point.
func (m moments) plus(p geom.Point, w float64) moments {
	z := p.Dot(p)
	return moments{m.w + w, m.x + w*p.X, m.y + w*p.Y, m.xx + w*p.X*p.X, m.xy + w*p.X*p.Y, m.yy + w*p.Y*p.Y, m.xz + w*p.X*z, m.yz + w*p.Y*z, m.zz + w*z*z}
}

// minus returns the sums without those of n.
func (m moments) minus(n moments) moments {
	return moments{m.w - n.w, m.x - n.x, m.y - n.y, m.xx - n.xx, m.xy - n.xy, m.yy - n.yy, m.xz - n.xz, m.yz - n.yz, m.zz - n.zz}
}

// central are means about the centroid, and the weight.
type central struct {
	w                         float64
	mid                       geom.Point
	xx, xy, yy, z, xz, yz, zz float64
}

// central returns the means about the centroid.
func (m moments) central() central {
	if !(m.w > 0) {
		return central{}
	}
	k := 1 / m.w
	c := geom.Pt(m.x*k, m.y*k)
	cc, z := c.Dot(c), m.xx+m.yy
	sz := z - 2*c.X*m.x - 2*c.Y*m.y + cc*m.w
	out := central{w: m.w, mid: c, xx: m.xx*k - c.X*c.X, xy: m.xy*k - c.X*c.Y, yy: m.yy*k - c.Y*c.Y}
	out.z = out.xx + out.yy
	out.xz = k * (m.xz - 2*c.X*m.xx - 2*c.Y*m.xy + cc*m.x - c.X*sz)
	out.yz = k * (m.yz - 2*c.X*m.xy - 2*c.Y*m.yy + cc*m.y - c.Y*sz)
	out.zz = k * (m.zz + 4*c.X*c.X*m.xx + 4*c.Y*c.Y*m.yy + cc*cc*m.w - 4*c.X*m.xz - 4*c.Y*m.yz + 2*cc*z + 8*c.X*c.Y*m.xy - 4*cc*(c.X*m.x+c.Y*m.y))
	return out
}

// line returns the mean of the squared distances from the best line, and its direction.
func (c central) line() (float64, geom.Angle) {
	half, diff := (c.xx+c.yy)/2, (c.xx-c.yy)/2
	root := math.Hypot(diff, c.xy)
	return math.Max(0, half-root), geom.Angle(0.5 * math.Atan2(2*c.xy, c.xx-c.yy))
}

// prattRoot returns the least root of the characteristic polynomial of Pratt's fit, by Newton from 0: to first order the mean of the
// squared distances from the circle.
func (c central) prattRoot() float64 {
	cov := c.xx*c.yy - c.xy*c.xy
	a2 := 4*cov - 3*c.z*c.z - c.zz
	a1 := c.zz*c.z + 4*cov*c.z - c.xz*c.xz - c.yz*c.yz - c.z*c.z*c.z
	a0 := c.xz*c.xz*c.yy + c.yz*c.yz*c.xx - c.zz*cov - 2*c.xz*c.yz*c.xy + c.z*c.z*cov
	x, y := 0.0, a0
	for range 30 {
		slope := a1 + x*(2*a2+16*x*x)
		next := x - y/slope
		if !(next != x) || math.IsInf(next, 0) || math.IsNaN(next) {
			break
		}
		at := a0 + next*(a1+next*(a2+4*next*next))
		if math.Abs(at) >= math.Abs(y) {
			break
		}
		x, y = next, at
	}
	return math.Max(0, x)
}

// pratt returns Pratt's circle, or the best line where that is better or the circle has no center within reach.
func (c central) pratt() bend {
	flat, dir := c.line()
	line := bend{t: float64(dir) + math.Pi/2, o: c.mid}
	x := c.prattRoot()
	det := x*x - x*c.z + c.xx*c.yy - c.xy*c.xy
	if !(x < flat) || !(math.Abs(det) > 1e-14*c.z*c.z) {
		return line
	}
	center := geom.Pt(c.xz*(c.yy-x)-c.yz*c.xy, c.yz*(c.xx-x)-c.xz*c.xy).Mul(1 / (2 * det))
	r2 := center.Dot(center) + c.z + 2*x
	a := 1 / (2 * math.Sqrt(r2))
	// a (|p - center|² - r²) = a z - 2 a (p.center) + d
	return bend{a: a, d: a * (center.Dot(center) - r2), t: float64(center.Mul(-1).Angle()), o: c.mid}
}
