package scraper

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A scene is a section made ready to ask what can be seen of its face along a plunge.
type scene struct {
	section profile.Section
	ring    geom.Path // the face and then the back: closed, from the foot of the face
	faceLen int       // segments of the face
	atoms   []atom
	chains  [][]geom.Point // the ring's segments flattened
}

func newScene(s profile.Section) *scene {
	c := &scene{section: s, faceLen: len(s.Face), atoms: atomsOf(s)}
	c.ring = append(append(geom.Path{}, s.Face...), s.Back...)
	c.chains = make([][]geom.Point, len(c.ring))
	for _, a := range c.atoms {
		i := a.segment
		if n := len(c.chains[i]); n > 0 {
			c.chains[i] = append(c.chains[i], a.pts[1:]...)
		} else {
			c.chains[i] = append(c.chains[i], a.pts...)
		}
	}
	for i, g := range c.ring {
		if len(c.chains[i]) == 0 {
			c.chains[i] = g.Flatten(flattening)
		}
	}
	return c
}

// A view is the scene seen along one plunge.
type view struct {
	*scene
	plunge float64    // degrees
	u, v   geom.Point // unit vectors: across, and out of the work
	lines  []sightline
	over   columns // the lines over each place across
}

// A sightline is a flattened segment of the outline in the coordinates of a view.
type sightline struct {
	least, most, high float64      // u, u and v
	pts               []geom.Point // (u, v)
}

// stand is how far from the face a ray starts, mm: so that it does not meet the chord that it starts from.
const stand = 1e-4

// along returns the scene seen along a plunge, in degrees.
func (c *scene) along(plunge float64) *view {
	w := &view{scene: c, plunge: plunge, lines: make([]sightline, len(c.chains))}
	w.u, w.v = axes(geom.Angle(plunge) * geom.Degree)
	total := 0
	for _, ch := range c.chains {
		total += len(ch)
	}
	all := make([]geom.Point, 0, total)
	for i, ch := range c.chains {
		from := len(all)
		s := sightline{least: math.Inf(1), most: math.Inf(-1), high: math.Inf(-1)}
		for _, p := range ch {
			q := geom.Pt(p.Dot(w.u), p.Dot(w.v))
			all = append(all, q)
			s.least, s.most, s.high = math.Min(s.least, q.X), math.Max(s.most, q.X), math.Max(s.high, q.Y)
		}
		s.pts = all[from:]
		w.lines[i] = s
	}
	w.over = newColumns(w.lines)
	return w
}

// axes returns the directions across a plunge and out of the work, in the section.
func axes(plunge geom.Angle) (u, v geom.Point) {
	v = geom.Pt(plunge.Cos(), plunge.Sin())
	return geom.Pt(v.Y, -v.X), v
}

// off returns how far the normals between lo and hi are from the plunge at most, in degrees: 90 is a wall along it, more an undercut.
func off(lo, hi, plunge float64) float64 {
	return max(apart(lo-plunge), apart(hi-plunge))
}

// apart returns a difference of directions, in degrees, without its sign and as less than half a turn. It is math.Remainder for differences that are
// turned round but once, and much quicker.
func apart(d float64) float64 {
	if d < 0 {
		d = -d
	}
	if d > 180 {
		d = math.Abs(d - 360)
	}
	return d
}

// A wall this far off the plunge is scraped, or is formed though it rubs.
const (
	scrapes = float64((90*geom.Degree - SafeWall + wallSlack) / geom.Degree)
	forms   = float64((90*geom.Degree + wallSlack) / geom.Degree)
)

// exposes reports whether the whole atom lies open along the plunge. Walls that run along it count.
func (w *view) exposes(a atom) bool {
	if off(a.lo, a.hi, w.plunge) > forms {
		return false
	}
	for _, p := range a.samples {
		if w.blocked(p) {
			return false
		}
	}
	return true
}

// samplesOf returns places just off the atom's chords from which to look out: near both ends and in the middle.
func samplesOf(pts []geom.Point) [3]geom.Point {
	var out [3]geom.Point
	for i, t := range [...]float64{0.02, 0.5, 0.98} {
		k := t * float64(len(pts)-1)
		j := math.Min(math.Floor(k), float64(len(pts)-2))
		a, b := pts[int(j)], pts[int(j)+1]
		d := b.Sub(a).Unit()
		out[i] = a.Lerp(b, k-j).Add(geom.Pt(d.Y, -d.X).Mul(stand))
	}
	return out
}

// blocked reports whether wood lies over p along the plunge.
func (w *view) blocked(p geom.Point) bool {
	pu, pv := p.Dot(w.u), p.Dot(w.v)
	for _, i := range w.over.at(pu) {
		s := &w.lines[i]
		if pv > s.high {
			return false // so are those that follow
		}
		if pu < s.least || pu > s.most {
			continue
		}
		for j := 1; j < len(s.pts); j++ {
			a, b := s.pts[j-1], s.pts[j]
			if (a.X < pu) != (b.X < pu) && a.Y+(pu-a.X)/(b.X-a.X)*(b.Y-a.Y) > pv {
				return true
			}
		}
	}
	return false
}

// highest returns the greatest v of the outline between two places across, -infinity where there is none.
func (w *view) highest(u0, u1 float64) float64 {
	top := math.Inf(-1)
	for _, s := range w.lines {
		if s.most < u0 || s.least > u1 || s.high < top {
			continue
		}
		for j := 1; j < len(s.pts); j++ {
			a, b := s.pts[j-1], s.pts[j]
			if a.X > b.X {
				a, b = b, a
			}
			if b.X < u0 || a.X > u1 {
				continue
			}
			if b.X-a.X < smallestFeature {
				top = math.Max(top, math.Max(a.Y, b.Y))
				continue
			}
			for _, q := range [2]float64{math.Max(a.X, u0), math.Min(b.X, u1)} {
				top = math.Max(top, a.Lerp(b, (q-a.X)/(b.X-a.X)).Y)
			}
		}
	}
	return top
}
