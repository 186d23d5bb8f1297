package template

import (
	"listel/profile/measure"
	"listel/template/cutter"
)

// FenceSetting returns how far the cutting edge that a set-up is set by stands from the fence or stop: the nearest, or where that stands
// behind the face of the fence, the farthest, which it then says: 3/4 in (0.750) to FAR edge. A blade that stands wholly behind the face at the table
// says so.
func FenceSetting(u cutter.Setup, f measure.Format) string {
	switch mm, far := edgeToFence(u); {
	case !far:
		return f.Set(max(0, mm))
	case mm > 0:
		return f.Set(mm) + " to FAR edge"
	default:
		return "far side " + f.Set(-mm) + " INSIDE the fence"
	}
}
