package cutter

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
)

// A blade that leans toward the fence is kept further than leanClear from metal, mm, and any blade further than fenceClear. Common practice, no source.
const (
	leanClear  = measure.MMPerInch / 4
	fenceClear = measure.MMPerInch / 32
)

// inFence returns how far the blade of a saw's set-up comes in behind the fence's face, in mm, negative where it stays before it, and how high over the
// table it does. A blade that leans away is deepest at the table, one that leans toward the fence at its tip, with the nearer corner.
//
//	fence |    /          |  \
//	      |   /           |   \
//	    --+--/----      --+----\--
//	     leans away      leans toward it
func inFence(u Setup) (deep, high float64) {
	lean := geom.Angle(u.Tilt) * geom.Degree
	if lean <= 0 {
		if high = u.Height; lean < 0 {
			high = math.Min(high, math.Max(0, u.Fence/lean.Tan()))
		}
		return -u.Fence, high
	}
	corner := u.Height - (u.Far-u.Fence)*lean.Cos()*lean.Sin()
	return corner*lean.Tan() - u.Fence, u.Height
}

// facingWords says that a blade comes to the fence, which then needs a wooden facing, "" where it does not.
func facingWords(u Setup, f measure.Format) string {
	if u.Work != Saw {
		return ""
	}
	switch deep, high := inFence(u); {
	case deep > -fenceClear:
		return fmt.Sprintf("the blade stands in the fence: clamp on a wooden facing, thicker than %s and higher than %s, and raise the running blade into it as the saw's manual says",
			spoken(math.Max(0, deep), f), spoken(high, f))
	case u.Tilt > 0 && deep > -leanClear:
		return fmt.Sprintf("the blade leans to within %s of the fence: clamp a wooden facing to it", spoken(-deep, f))
	}
	return ""
}
