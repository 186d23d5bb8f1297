package template

import (
	"math"
	"slices"

	"listel/miter"
	"listel/profile/geom"
)

// cutFlat is how near the outline of a molding that is cut through is to its exact section, mm.
const cutFlat = 0.02

// sectionCut returns where along the front a case is cut for its section, mm: in its middle, or as near to that as shows the most
// moldings whole and no post or upright bead cut along its length.
func sectionCut(r miter.Result) float64 {
	b := geom.EmptyRect()
	for _, s := range r.Stages {
		b = b.Union(s.Bounds())
	}
	if b.Empty() {
		return 0
	}
	const inch = 25.4 // whole inches from the middle are found again on the case
	step := max(1, math.Round(b.Width()/12/inch)) * inch
	middle, best, most := b.Center().X, b.Center().X, -1.0
	for i := range 10 {
		x := middle + step*float64((i+1)/2)*[2]float64{1, -1}[i%2]
		if n := cutWorth(r, x); n > most+0.01 {
			best, most = x, n
		}
	}
	return best
}

// cutWorth returns how many moldings a cut at x goes through whole; one that runs along a post counts half a molding less.
func cutWorth(r miter.Result, x float64) float64 {
	n := 0.0
	for _, m := range r.Moldings {
		for _, p := range m.Pieces {
			if p.Run != "back-rail" && cutsWhole(p, x) {
				n++
				break
			}
		}
	}
	if alongPost(r, x) {
		n -= 0.5
	}
	return n
}

// cutsWhole reports whether the plane at x cuts one of a piece's places square or slanting through its whole section.
func cutsWhole(p miter.Piece, x float64) bool {
	if p.Section == nil || len(p.Ends) != 2 {
		return false
	}
	left, right := p.Cuts()
	for _, place := range p.Places {
		whole := true
		s, ok := crossing(place, x)
		if !ok {
			continue
		}
		for _, seg := range p.Section.Outline {
			q := seg.Start()
			whole = whole && s(q) >= left.At(q) && s(q) <= right.At(q)
		}
		if whole {
			return true
		}
	}
	return false
}

// alongPost reports whether the plane at x runs through a post between drawers, its beads among it.
func alongPost(r miter.Result, x float64) bool {
	edge, ok := layoutEdge(r)
	if !ok {
		return false
	}
	within := func(box geom.Rect) bool {
		a, b := edge.A.X+edge.Dir().X*box.Min.X, edge.A.X+edge.Dir().X*box.Max.X
		return x >= math.Min(a, b) && x <= math.Max(a, b)
	}
	return slices.ContainsFunc(r.Layout.Posts, within) ||
		slices.ContainsFunc(r.Layout.Beads, func(b miter.PlacedBead) bool { return b.Upright && within(b.At) })
}

// alongPlane is the part of a direction across the plane under which what runs so runs along it: under 3 degrees a cut is no section any more.
const alongPlane = 0.05

// crossing returns where along a piece the plane at x meets each of its section points; ok is false for a piece that runs along the plane.
func crossing(place miter.Placement, x float64) (s func(geom.Point) float64, ok bool) {
	if math.Abs(place.Along.X) < alongPlane {
		return nil, false
	}
	return func(q geom.Point) float64 {
		return (x - place.Origin.X - q.X*place.Out.X - q.Y*place.Up.X) / place.Along.X
	}, true
}

// cutSurfaces returns a case cut from front to back at x, seen from its left end: the stages, the openings in the front, and every molding
// and bead that the cut meets.
func cutSurfaces(r miter.Result, x float64) []Surface {
	var out []Surface
	for _, s := range r.Stages {
		for _, y := range stageSpans(s, x) {
			out = append(out, Surface{Kind: StageSurface, Outline: box(-y[1], s.Floor, -y[0], s.Top)})
		}
	}
	out = append(out, cutOpenings(r, x)...)
	for _, m := range r.Moldings {
		for _, p := range m.Pieces {
			out = append(out, cutPiece(p, m.Name, x)...)
		}
	}
	for _, p := range r.Beads {
		out = append(out, cutPiece(p, BeadsName, x)...)
	}
	return out
}

// box returns the corners of an upright rectangle.
func box(x0, y0, x1, y1 float64) []geom.Point {
	return []geom.Point{geom.Pt(x0, y0), geom.Pt(x1, y0), geom.Pt(x1, y1), geom.Pt(x0, y1)}
}

// stageSpans returns from where to where, from front to back, the plane at x runs through a stage.
func stageSpans(s miter.StagePlan, x float64) [][2]float64 {
	var pts []geom.Point
	for _, e := range s.Edges {
		pts = append(pts, e.A)
	}
	if len(pts) == 0 {
		return nil
	}
	var at []float64
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.X <= x) != (b.X <= x) {
			at = append(at, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
		}
	}
	at = sortedBy(at, func(y float64) float64 { return y })
	var out [][2]float64
	for i := 0; i+1 < len(at); i += 2 {
		out = append(out, [2]float64{at[i], at[i+1]})
	}
	return out
}

// openingDepth is how deep an opening is drawn in a section, mm: it is a gap in the front, of a depth that the case does not say.
const openingDepth = 12.0

// cutOpenings returns the openings that the plane at x runs through, as gaps in the front.
func cutOpenings(r miter.Result, x float64) []Surface {
	edge, ok := layoutEdge(r)
	if !ok || math.Abs(edge.Dir().X) < alongPlane {
		return nil
	}
	along := (x - edge.A.X) / edge.Dir().X
	face := -(edge.A.Y + edge.Dir().Y*along)
	var out []Surface
	for _, o := range r.Layout.Openings {
		if along > o.Min.X && along < o.Max.X {
			out = append(out, Surface{Kind: OpeningSurface, Outline: box(face-openingDepth, o.Min.Y, face, o.Max.Y)})
		}
	}
	return out
}

// cutPiece returns what the plane at x cuts from a piece in each of its places, nothing where it does not meet it.
func cutPiece(p miter.Piece, molding string, x float64) []Surface {
	if p.Section == nil || len(p.Ends) != 2 {
		return nil
	}
	left, right := p.Cuts()
	var out []Surface
	for i, place := range p.Places {
		s, ok := crossing(place, x)
		if !ok {
			continue
		}
		kept := clipped(p.Section.Outline.Flatten(cutFlat), func(q geom.Point) float64 { return s(q) - left.At(q) })
		kept = clipped(kept, func(q geom.Point) float64 { return right.At(q) - s(q) })
		var pts []geom.Point
		for _, q := range kept {
			v := place.At(s(q), q)
			pts = append(pts, geom.Pt(-v.Y, v.Z))
		}
		if math.Abs(geom.PolygonArea(pts)) > 1 { // mm2
			out = append(out, Surface{Kind: CutSurface, Molding: molding, Run: placedRun(p, i), Mark: p.Mark, Outline: pts})
		}
	}
	return out
}

// clipped returns the part of a polygon where a linear function is not under 0. Parts of it that fall apart stay joined by a line along
// the cut.
func clipped(pts []geom.Point, f func(geom.Point) float64) []geom.Point {
	var out []geom.Point
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		fa, fb := f(a), f(b)
		if fa >= 0 {
			out = append(out, a)
		}
		if (fa < 0) != (fb < 0) {
			out = append(out, a.Lerp(b, fa/(fa-fb)))
		}
	}
	return out
}
