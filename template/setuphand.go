package template

import (
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
)

// manyPasses is the number of passes of a plane over which nobody counts them.
const manyPasses = 20

// PassesByHand says how often a plane goes over the work: about 12 passes. Of what would take more than twenty most is taken otherwise first: a saw opens a rabbet, but
// not a groove.
func PassesByHand(u cutter.Setup) string {
	switch n := u.Passes; {
	case n > manyPasses && u.Grooves:
		return "plow or chop the groove first, then plane to the line"
	case n > manyPasses:
		return "saw near the line first, then plane to it"
	case n == 1:
		return "1 pass"
	default:
		return fmt.Sprintf("about %d passes", n)
	}
}

// roughByHand says how most of what many passes would take is taken first, "" where a plane alone does it.
func roughByHand(u cutter.Setup, st Style) string {
	near := st.Lengths.Drawing(inUnits(st.Lengths, 1./16, 1.5))
	switch {
	case u.Passes <= manyPasses:
		return ""
	case u.Grooves:
		return "A groove closed on both sides: plow it, or saw a kerf down just inside each scribed line and take the core out with a chisel, " + near + " short of the bottom; then the plane."
	}
	return "Rip saw or band saw, " + near + " outside the scribed line; then the plane."
}

// HeightSetting returns the height that a set-up is set to: by machine as a tool is set to it, 1 3/4 in (1.750), by hand to 1/64 in or 0.5 mm, and where
// the plane comes lower than the face that lies down, 9/64 in under it.
func HeightSetting(u cutter.Setup, f measure.Format) string {
	if underBed(u) > 0 {
		return settingOf(u, underBed(u), f) + " under it"
	}
	return settingOf(u, u.Height, f)
}

// underBed returns how far, mm, a plane's cut comes lower than the face of the wood that lies down, 0 where it does not: the wood then lies on a packing.
func underBed(u cutter.Setup) float64 {
	if u.Work != cutter.Plane || u.Height > -flush {
		return 0
	}
	return -u.Height
}

// packing returns the thickness, mm, of the packing that the wood lies on so that a plane clears the bench, 0 where none is needed: to the next 1/4 in, or 5 mm.
func packing(u cutter.Setup, f measure.Format) float64 {
	under := underBed(u)
	if under == 0 {
		return 0
	}
	unit := inUnits(f, 1./4, 5)
	return math.Ceil((under+1)/unit) * unit
}

// Of the stop that a stick is planed against, mm: what it stays under the plane, and the least height that holds.
const (
	stopClear = 1.5
	leastStop = 3.0
)

// stopHeight returns how high, mm over the face that lies down, the stop may stand so that the plane passes over it; ok is false where the plane does not
// come over it.
func stopHeight(u cutter.Setup) (mm float64, ok bool) {
	low, m := math.Inf(1), machine(u)
	for _, pts := range [][][2]float64{u.Silhouette, u.Body} {
		for i := range pts {
			a, b := m.Apply(geom.Pt(pts[i][0], pts[i][1])), m.Apply(geom.Pt(pts[(i+1)%len(pts)][0], pts[(i+1)%len(pts)][1]))
			for k := range 33 {
				if p := a.Lerp(b, float64(k)/32); p.X < 0 {
					low = math.Min(low, p.Y)
				}
			}
		}
	}
	return low - stopClear, !math.IsInf(low, 1)
}

// stopHolds reports whether a stop may stand so high that the stick a plane works on is held against it.
func stopHolds(u cutter.Setup) bool {
	mm, ok := stopHeight(u)
	return !ok || mm >= max(leastStop, u.FenceHigh)
}

// TiltSetting returns how a set-up's blade or plane leans, toward the fence or stop or away from it: by machine 22.5° toward, by hand in whole degrees, about 15°
// away; "" when it stands upright, or so nearly that by hand nobody sees it.
func TiltSetting(u cutter.Setup, f measure.Format) string {
	words := tiltOf(u, f)
	if words == "" {
		return ""
	}
	if u.Work == cutter.Plane {
		words = "about " + words
	}
	return words + map[bool]string{true: " toward", false: " away"}[u.Tilt > 0]
}

// tiltOf returns the angle of a tilt, by machine or by hand, "" for none.
func tiltOf(u cutter.Setup, f measure.Format) string {
	switch a := math.Abs(u.Tilt); {
	case u.Work != cutter.Plane && a > 0:
		return f.Angle(geom.Angle(a) * geom.Degree)
	case u.Work == cutter.Plane && a >= 0.5:
		return fmt.Sprintf("%.0f°", a)
	}
	return ""
}

// settingOf returns a setting of a set-up, by machine or by hand.
func settingOf(u cutter.Setup, mm float64, f measure.Format) string {
	if u.Work == cutter.Plane {
		return f.Length(byHandSize(mm, f))
	}
	return f.Set(mm)
}

// byHandSize returns the size, mm, that a gauge is set to for a plane that is worked to a scribed line: to the nearest
// 1/64 in, or 0.5 mm.
func byHandSize(mm float64, f measure.Format) float64 {
	unit := inUnits(f, 1./64, 0.5)
	return math.Round(mm/unit) * unit
}
