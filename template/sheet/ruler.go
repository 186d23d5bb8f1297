package sheet

import "listel/profile/geom"

// Sizes of a ruler's parts, mm.
const (
	rulerHalf = 2.75 // from its middle to either side
	rulerGap  = 0.4  // from its middle to either line
	tickLong  = 2.2
	tickShort = 1.2
)

// Ruler returns a bar to check a printer with, along the x axis from the origin: above it millimeters with a mark
// every 10, below it inches with a mark every half. Its ends are the middles of its end marks. It says its lengths at
// its right end, and keeps within rulerHalf of the axis.
func Ruler(mm, in int) Drawing {
	length := float64(mm)
	d := make(Drawing, 0, mm/5+in*4+6)
	d = append(d, Line(geom.Pt(0, rulerGap), geom.Pt(length, rulerGap), PenThin))
	for i := 0; i <= mm/5; i++ {
		tick := tickShort
		if i%2 == 0 {
			tick = tickLong
		}
		d = append(d, Line(geom.Pt(float64(i)*5, rulerGap), geom.Pt(float64(i)*5, rulerGap+tick), PenHair))
	}
	d = append(d, Line(geom.Pt(0, -rulerGap), geom.Pt(float64(in)*inch, -rulerGap), PenThin))
	for i := 0; i <= in*4; i++ {
		tick := tickShort
		if i%4 == 0 {
			tick = tickLong
		}
		x := float64(i) * inch / 4
		d = append(d, Line(geom.Pt(x, -rulerGap), geom.Pt(x, -rulerGap-tick), PenHair))
	}
	end := max(length, float64(in)*inch) + 1.5
	return append(d,
		Text{At: geom.Pt(end, rulerGap), S: num(length, 0) + " mm", Size: 7},
		Text{At: geom.Pt(end, -rulerGap), S: num(float64(in), 0) + " in", Size: 7, Anchor: TopLeft},
	)
}

// rulerFor returns the longest bar that fits the length, in mm and inches; 0, 0 when not even the shortest does.
func rulerFor(room float64) (mm, in int) {
	for _, size := range [][2]int{{100, 4}, {50, 2}, {20, 1}} {
		if max(float64(size[0]), float64(size[1])*inch)+1.5+TextWidth("100 mm", 7, Regular) <= room {
			return size[0], size[1]
		}
	}
	return 0, 0
}

// Quarter turns a drawing a quarter turn counter-clockwise about the origin: a Ruler then runs up.
func (d Drawing) Quarter() Drawing { return d.Moved(geom.Affine{B: 1, C: -1}) }
