package scraper

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// An atom is a piece of the face short enough to be scraped by a blade or not as a whole.
type atom struct {
	s0, s1  float64       // on the face
	lo, hi  float64       // degrees, between which the directions of its outward normals lie
	length  float64       // mm
	seg     geom.Segment  // the piece itself
	pts     []geom.Point  // the same, flattened
	samples [3]geom.Point // just off it, to look out from
	box     geom.Rect
	segment int // of the face
	member  int // index of the member in the section's Members
	isLine  bool
	natural bool    // whether the face may well be parted at its start: a corner, or on a flat
	parting float64 // how ill it is to part the face at its start
}

// Sizes of atoms.
const (
	atomTurn    = 10.0  // degrees that an atom of a curve turns at most
	atomLength  = 6.0   // mm, of an atom of a flat at most
	maxAtoms    = 1500  // of a face; on a larger one the flats are parted less
	flattening  = 0.003 // mm, of the outline when it is asked what hides what: a blade passes wood as near as that
	cornerTurn  = 10.0  // degrees, from which a turn between two segments is a corner
	wedgePart   = 0.25  // mm, of an atom of a segment that meets its neighbor in a wedge, where some of it may be reached and some not
	wedgeParts  = 30    // such parts of an atom at most
	wedgeTurn   = 91.0  // degrees: a sharper inside corner than a square one
	guidingFlat = 1.5   // mm, from which a flat is one that a blade can run on
)

// normalAt returns the direction of the outward normal of a segment at t, in degrees.
func normalAt(g geom.Segment, t float64) float64 {
	return outward(g, t).Angle().Degrees()
}

// turnOf returns by how many degrees a segment turns between two parameters, counter-clockwise positive.
func turnOf(g geom.Segment, t0, t1 float64) float64 {
	switch a := g.(type) {
	case geom.Arc:
		return a.Sweep.Degrees() * (t1 - t0)
	case geom.EllipticArc:
		d := normalAt(g, t1) - normalAt(g, t0)
		if a.Sweep > 0 && d < -1e-9 {
			d += 360
		} else if a.Sweep < 0 && d > 1e-9 {
			d -= 360
		}
		return d
	}
	return 0
}

// paramAtTurn returns the parameter at which a segment has turned by so many degrees from its start.
func paramAtTurn(g geom.Segment, turn float64) float64 {
	if a, ok := g.(geom.Arc); ok {
		return turn / a.Sweep.Degrees()
	}
	lo, hi := 0.0, 1.0
	for range 50 {
		mid := (lo + hi) / 2
		if math.Abs(turnOf(g, 0, mid)) < math.Abs(turn) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// partsOf returns the parameters at which a segment is parted into atoms, 0 and 1 among them. Curves are parted at the round
// directions of their normal, and where a wall is SafeWall from level or plumb.
func partsOf(g geom.Segment, flat float64) []float64 {
	ts := []float64{0}
	if _, ok := g.(geom.Line); ok {
		n := math.Max(1, math.Ceil(g.Length()/flat))
		for i := 1.0; i < n; i++ {
			ts = append(ts, i/n)
		}
		return append(ts, 1)
	}
	total, from := turnOf(g, 0, 1), normalAt(g, 0)
	dir := math.Copysign(1, total)
	for k := math.Floor(dir*from/5) + 1; k*5-dir*from < math.Abs(total); k++ {
		at := math.Mod(math.Mod(5*k, 90)+90, 90)
		if math.Mod(5*k, atomTurn) != 0 && at != 5 && at != 85 {
			continue
		}
		if t := paramAtTurn(g, dir*(k*5-dir*from)); t > ts[len(ts)-1]+1e-6 && t < 1-1e-6 {
			ts = append(ts, t)
		}
	}
	return append(ts, 1)
}

// finer returns the parameters of a segment of a wedge with more between them: on a flat all along, on a curve near its ends.
func finer(ts []float64, isLine bool, length float64) []float64 {
	out := ts[:1:1]
	for i := 1; i < len(ts); i++ {
		n := 1.0
		if isLine || i == 1 || i == len(ts)-1 {
			n = math.Min(wedgeParts, math.Ceil((ts[i]-ts[i-1])*length/wedgePart))
		}
		for k := 1.0; k < n; k++ {
			out = append(out, ts[i-1]+(ts[i]-ts[i-1])*k/n)
		}
		out = append(out, ts[i])
	}
	return out
}

// atomsOf parts the face of a section.
func atomsOf(s profile.Section) []atom {
	owners := ownersOf(s)
	flat := math.Max(atomLength, s.Face.Length()/maxAtoms*2)
	var out []atom
	for i, g := range s.Face {
		ts := partsOf(g, flat)
		_, isLine := g.(geom.Line)
		if wedged(s, i) {
			ts = finer(ts, isLine, g.Length())
		}
		for j := 1; j < len(ts); j++ {
			seg := g.Trim(ts[j-1], ts[j])
			a := atom{s0: float64(i) + ts[j-1], s1: float64(i) + ts[j], seg: seg, segment: i, length: seg.Length(), member: owners[i], isLine: isLine}
			if a.length < smallestFeature {
				continue
			}
			a.pts = seg.Flatten(flattening)
			a.samples, a.box = samplesOf(a.pts), seg.Bounds()
			from := normalAt(g, ts[j-1])
			to := from + turnOf(g, ts[j-1], ts[j])
			a.lo, a.hi = math.Min(from, to), math.Max(from, to)
			a.natural, a.parting = partingAt(s.Face, i, ts[j-1], isLine)
			out = append(out, a)
		}
	}
	return out
}

// partingAt says how ill it is to part the face at t of its segment i: least at an outside corner, more on a flat and at an
// inside corner, most in a curve.
func partingAt(face geom.Path, i int, t float64, isLine bool) (natural bool, cost float64) {
	const atCorner, onFlat, atInside, inCurve = 1, 2, 3, 20
	if t > 0 {
		if isLine {
			return true, onFlat
		}
		return false, inCurve
	}
	if i == 0 {
		return true, 0
	}
	turn := math.Remainder(normalAt(face[i], 0)-normalAt(face[i-1], 1), 360)
	if math.Abs(turn) >= cornerTurn {
		if turn > 0 { // the wood lies on the left: a left turn is an outside corner
			return true, atCorner
		}
		return true, atInside
	}
	for _, g := range []geom.Segment{face[i-1], face[i]} {
		if l, ok := g.(geom.Line); ok && l.Length() >= guidingFlat {
			return true, onFlat
		}
	}
	return false, inCurve
}

// wedged reports whether segment i of the face, or what faces it across an inside corner, is a wall of a wedge sharper than square.
func wedged(s profile.Section, i int) bool {
	for _, j := range [2]int{i, i + 1} {
		if j > 0 && j < len(s.Face) && math.Remainder(normalAt(s.Face[j], 0)-normalAt(s.Face[j-1], 1), 360) < -wedgeTurn {
			return true
		}
		if j > 0 && j < len(s.Face) && math.Abs(math.Remainder(normalAt(s.Face[j], 0)-normalAt(s.Face[j-1], 1), 360)) > 180-cornerTurn {
			return true // a wedge that closes to nothing: the sign of its turn is rounding
		}
	}
	return false
}

// ownersOf returns for each segment of the face the member that it belongs to; a level step belongs to the member that it leads to.
func ownersOf(s profile.Section) []int {
	out := make([]int, len(s.Face))
	at := 0
	for i, g := range s.Face {
		mid := g.At(0.5)
		out[i] = -1
		for k := range s.Members {
			j := (at + k) % len(s.Members)
			if _, _, d := s.Members[j].Path.Nearest(mid); d < 1e-6 {
				at, out[i] = j, j
				break
			}
		}
	}
	next := max(0, len(s.Members)-1)
	for i := len(out) - 1; i >= 0; i-- {
		if out[i] < 0 {
			out[i] = next
		}
		next = out[i]
	}
	return out
}
