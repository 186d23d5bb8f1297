package template

import (
	"listel/profile/measure"
	"listel/template/cutter"
)

// FenceSetting returns how far the cutting edge that a set-up is set by stands from the fence or stop: the nearest, or where that stands
// behind the face of the fence, the farthest, which it then says: 3/4 in (0.750) to FAR edge. A blade that stands wholly behind the face at the table
// says so. By hand it is to 1/64 in or 0.5 mm.
func FenceSetting(u cutter.Setup, f measure.Format) string {
	switch mm, far := edgeToFence(u); {
	case !far:
		return settingOf(u, max(0, mm), f)
	case mm > 0:
		return settingOf(u, mm, f) + " to FAR edge"
	case u.Work == cutter.Plane:
		return "FAR edge " + settingOf(u, -mm, f) + " BEHIND the stop's face"
	default:
		return "far side " + settingOf(u, -mm, f) + " INSIDE the fence"
	}
}
