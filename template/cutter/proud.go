package cutter

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// proud is how far, in mm, a tool that goes right through stands out of the wood: enough for the teeth of a saw to clear it, and no more to be
// touched. Common practice, no source; the blade's maker or the saw's manual may ask for more.
const proud = 25.4 / 8

// noHigher returns a cut of a square-ended tool no deeper than what stands of the wood needs: one that comes out into the open, or into what was
// taken before, goes on only as far as proud. What it takes stays the same, and so does what it leaves clean of the face that is not in cleaned. Other
// cuts are returned as they are.
func (s *search) noHigher(c *cut, wood *block, cleaned bitset) *cut {
	if k := s.tools[c.tool].Kind; k != SawBlade && (k != Straight || s.spoils(c, 0.3)) {
		return c // shaped, or a bit that comes down on the finished face, which it may be there to clean
	}
	left := wood.clone()
	left.cut(newPolygon(silhouette(c)))
	var depths []float64 // of what it takes, in cells of pitch by pitch
	for i, r := range wood.runs {
		rest := subtract(r, left.runs[i])
		for k := 0; k+1 < len(rest); k += 2 {
			for y := rest[k] + pitch/2; y < rest[k+1]; y += pitch {
				depths = append(depths, c.view.in(geom.Pt(wood.x(i), y)).Y)
			}
		}
	}
	// What is less than anyone would cut for is a whisker that the columns make out of a finished face.
	slices.Sort(depths)
	whisker := int(leastTaken / (pitch * wood.dx))
	if whisker >= len(depths) {
		return c
	}
	low := depths[whisker]
	for i, v := range c.view.sampleV {
		if k := s.rows.sample(c.view.sampleAt[i]); c.rows.has(k) && !cleaned.has(k) {
			low = math.Min(low, v)
		}
	}
	if low-proud <= c.h {
		return c
	}
	d := *c
	d.h = low - proud
	return &d
}
