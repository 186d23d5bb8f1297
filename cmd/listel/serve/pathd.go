package serve

import (
	"math"
	"strconv"

	"listel/profile/geom"
)

// places is how many decimals of a mm the page is sent: finer than a screen shows at its greatest enlargement.
const places = 4

// tidy rounds to places, without -0.
func tidy(v float64) float64 {
	scale := math.Pow10(places)
	return math.Round(v*scale)/scale + 0
}

// pathD returns the d of an SVG path for a path, exact but for its decimals: arcs stay arcs. An empty path is "".
func pathD(p geom.Path, closed bool) string {
	if len(p) == 0 {
		return ""
	}
	d := appendPoint(append([]byte(nil), 'M'), p.Start())
	for _, seg := range p {
		d = appendSegment(d, seg)
	}
	if closed {
		d = append(d, 'Z')
	}
	return string(d)
}

func appendSegment(d []byte, seg geom.Segment) []byte {
	const most = 170 * geom.Degree // an arc of half a turn or more leaves open which way it goes once its ends are rounded
	switch a := seg.(type) {
	case geom.Arc:
		if math.Abs(float64(a.Sweep)) > float64(most) {
			return appendSegment(appendSegment(d, a.Trim(0, 0.5)), a.Trim(0.5, 1))
		}
		return appendArc(d, a.Radius, a.Radius, 0, a.Sweep, a.End())
	case geom.EllipticArc:
		if math.Abs(float64(a.Sweep)) > float64(most) {
			return appendSegment(appendSegment(d, a.Trim(0, 0.5)), a.Trim(0.5, 1))
		}
		return appendArc(d, a.RX, a.RY, a.Turn, a.Sweep, a.End())
	}
	return appendPoint(append(d, 'L'), seg.End())
}

// appendArc writes an arc of less than half a turn. With y up in the page's own coordinates a counter-clockwise sweep is SVG's positive
// one.
func appendArc(d []byte, rx, ry float64, turn, sweep geom.Angle, end geom.Point) []byte {
	d = appendPoint(append(d, 'A'), geom.Pt(rx, ry))
	d = appendNumber(append(d, ' '), turn.Degrees())
	if sweep > 0 {
		d = append(d, " 0 1 "...)
	} else {
		d = append(d, " 0 0 "...)
	}
	return appendPoint(d, end)
}

func appendPoint(d []byte, p geom.Point) []byte {
	return appendNumber(append(appendNumber(d, p.X), ' '), p.Y)
}

func appendNumber(d []byte, v float64) []byte {
	return strconv.AppendFloat(d, tidy(v), 'f', -1, 64)
}
