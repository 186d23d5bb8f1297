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

// PassesByHand says how often a plane goes over the work: about 12 passes, or of more than twenty many light passes, to the line.
func PassesByHand(n int) string {
	switch {
	case n > manyPasses:
		return "many light passes, to the line"
	case n == 1:
		return "1 pass"
	}
	return fmt.Sprintf("about %d passes", n)
}

// HeightSetting returns the height that a set-up is set to: by machine as a tool is set to it, 1 3/4 in (1.750), by hand to 1/64 in or 0.5 mm.
func HeightSetting(u cutter.Setup, f measure.Format) string { return settingOf(u, u.Height, f) }

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
	unit := 0.5
	if f.Units == measure.Inches {
		unit = measure.MMPerInch / 64
	}
	return math.Round(mm/unit) * unit
}
