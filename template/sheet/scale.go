package sheet

import "listel/profile/geom"

// Scales that drawings are made to, largest first, as real mm to one mm on paper: ISO 5455 recommends 1:1, 1:2, 1:5, 1:10
// and so on; in inches 3 in, 1 1/2 in, 1 in, 3/4 in, 1/2 in and 1/4 in to the foot are usual. (Both from memory.)
var (
	metricScales = [...]float64{1, 2, 5, 10, 20, 50, 100, 200}
	inchScales   = [...]float64{1, 2, 4, 8, 12, 16, 24, 48, 96}
)

// FitScale returns the largest usual scale at which something of the extent's size fits the room, as the factor to
// draw it with and in words for the frame ("1:8"). It reduces only; what fits no scale gets the smallest.
func FitScale(extent, room geom.Rect, inches bool) (factor float64, words string) {
	scales := metricScales[:]
	if inches {
		scales = inchScales[:]
	}
	n := scales[len(scales)-1]
	for _, s := range scales {
		if extent.Width() <= s*room.Width()+1e-9 && extent.Height() <= s*room.Height()+1e-9 {
			n = s
			break
		}
	}
	return 1 / n, "1:" + num(n, 0)
}

// In returns the drawing moved so that the middle of its bounds is the middle of the room.
func (d Drawing) In(room geom.Rect) Drawing {
	b := d.Bounds()
	if b.Empty() || room.Empty() {
		return d
	}
	return d.At(room.Center().Sub(b.Center()))
}
