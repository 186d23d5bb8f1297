package trace

import (
	"math"

	"listel/profile/geom"
)

// frameShare is the share of a field's width and height that a frame round it takes, at least.
const frameShare = 0.7

// frames returns which of the patches of ink are frames: rectangles of lines alone, a little turned at most, that go round most of the ink, with other ink
// in them. label tells the patch of each pixel.
func (f field) frames(inks []patch, labels []uint32) map[uint32]bool {
	var out map[uint32]bool
	for _, c := range inks {
		w, h := c.x1-c.x0, c.y1-c.y0
		if float64(w) < frameShare*float64(f.w) || float64(h) < frameShare*float64(f.h) || c.area > 8*(w+h)*f.framePen() {
			continue
		}
		if f.isFrame(c, labels) && holdsMore(c, inks) {
			if out == nil {
				out = map[uint32]bool{}
			}
			out[c.label] = true
		}
	}
	return out
}

// framePen returns the thickest line that a frame is drawn by, px.
func (f field) framePen() int { return max(4, min(f.w, f.h)/60) }

// isFrame reports whether nearly all pixels of c lie along the sides of the quadrilateral through its corners.
func (f field) isFrame(c patch, labels []uint32) bool {
	corners := [4]geom.Point{} // left top, right top, right bottom, left bottom
	most := [4]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	each := func(visit func(p geom.Point)) {
		for y := c.y0; y < c.y1; y++ {
			for x := c.x0; x < c.x1; x++ {
				if labels[y*f.w+x] == c.label {
					visit(geom.Pt(float64(x), float64(y)))
				}
			}
		}
	}
	each(func(p geom.Point) {
		for i, v := range [4]float64{-p.X - p.Y, p.X - p.Y, p.X + p.Y, p.Y - p.X} {
			if v > most[i] {
				most[i], corners[i] = v, p
			}
		}
	})
	reach := float64(f.framePen()) + 2
	on, all := 0, 0
	each(func(p geom.Point) {
		all++
		for i, a := range corners {
			way := corners[(i+1)%4].Sub(a).Unit()
			if math.Abs(p.Sub(a).Cross(way)) <= reach {
				on++
				break
			}
		}
	})
	return float64(on) > 0.995*float64(all)
}

// holdsMore reports whether another patch of ink with a fifth of the size of the frame c either way lies within it.
func holdsMore(c patch, inks []patch) bool {
	for _, d := range inks {
		if d.label != c.label && d.x0 > c.x0 && d.x1 < c.x1 && d.y0 > c.y0 && d.y1 < c.y1 && 5*(d.x1-d.x0) > c.x1-c.x0 && 5*(d.y1-d.y0) > c.y1-c.y0 {
			return true
		}
	}
	return false
}
