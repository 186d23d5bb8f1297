package trace

import (
	"math"

	"listel/profile/geom"
)

// frameShare is the share of a field's width and height that a frame round it takes, at least.
const frameShare = 0.7

// frames returns which of the patches of ink are frames: rectangles of lines alone, a little turned at most, that go round most of the ink, with other ink
// in them. labels tells the patch of each pixel.
func (f field) frames(inks []patch, labels []uint32) map[uint32]bool {
	var may []*frame
	byLabel := make([]*frame, len(inks)+1)
	for _, c := range inks {
		w, h := c.x1-c.x0, c.y1-c.y0
		if float64(w) < frameShare*float64(f.w) || float64(h) < frameShare*float64(f.h) || c.area > 8*(w+h)*f.framePen() {
			continue
		}
		byLabel[c.label] = newFrame(c)
		may = append(may, byLabel[c.label])
	}
	if len(may) == 0 {
		return nil
	}
	each := func(visit func(c *frame, p geom.Point)) { // all of them in one go: a page of hatching has thousands that are as large
		for i, l := range labels {
			if byLabel[l] != nil {
				visit(byLabel[l], geom.Pt(float64(i%f.w), float64(i/f.w)))
			}
		}
	}
	each((*frame).reach)
	reach := float64(f.framePen()) + 2
	each(func(c *frame, p geom.Point) {
		if c.along(p, reach) {
			c.on++
		}
	})
	out := map[uint32]bool{}
	for _, c := range may {
		if float64(c.on) > 0.995*float64(c.area) && holdsMore(c.patch, inks) {
			out[c.label] = true
		}
	}
	return out
}

// A frame is a patch that may be one: the quadrilateral through its corners has nearly all of its pixels along its sides.
type frame struct {
	patch
	corners [4]geom.Point // left top, right top, right bottom, left bottom
	most    [4]float64    // px, how far they lie out that way
	on      int           // px of it along the sides
}

func newFrame(c patch) *frame {
	out := math.Inf(-1)
	return &frame{patch: c, most: [4]float64{out, out, out, out}}
}

// reach moves the corners out to a pixel of the patch.
func (c *frame) reach(p geom.Point) {
	for i, v := range [4]float64{-p.X - p.Y, p.X - p.Y, p.X + p.Y, p.Y - p.X} {
		if v > c.most[i] {
			c.most[i], c.corners[i] = v, p
		}
	}
}

// along reports whether a pixel lies no further than reach px from a side.
func (c *frame) along(p geom.Point, reach float64) bool {
	for i, a := range c.corners {
		if way := c.corners[(i+1)%4].Sub(a).Unit(); math.Abs(p.Sub(a).Cross(way)) <= reach {
			return true
		}
	}
	return false
}

// framePen returns the thickest line that a frame is drawn by, px.
func (f field) framePen() int { return max(4, min(f.w, f.h)/60) }

// holdsMore reports whether another patch of ink with a fifth of the size of the frame c either way lies within it.
func holdsMore(c patch, inks []patch) bool {
	for _, d := range inks {
		if d.label != c.label && d.x0 > c.x0 && d.x1 < c.x1 && d.y0 > c.y0 && d.y1 < c.y1 && 5*(d.x1-d.x0) > c.x1-c.x0 && 5*(d.y1-d.y0) > c.y1-c.y0 {
			return true
		}
	}
	return false
}
