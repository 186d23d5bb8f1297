package template

import (
	"cmp"
	"math"
	"slices"

	"listel/miter"
	"listel/profile"
	"listel/profile/geom"
	"listel/template/sheet"
)

// A viewpoint is where a case is looked at from: it projects the room to the drawing, x to the right and y up, and tells how far
// away a place is. What faces the viewer runs counter-clockwise on the drawing.
type viewpoint func(v miter.Vec3) (at geom.Point, distance float64)

func fromFront(v miter.Vec3) (geom.Point, float64) { return geom.Pt(v.X, v.Z), v.Y }
func fromRight(v miter.Vec3) (geom.Point, float64) { return geom.Pt(v.Y, v.Z), -v.X }

// A facet is a flat or rolled surface as it is seen, with what it belongs to.
type facet struct {
	Surface
	distance float64
}

// pen returns what the facet's edges are drawn with: moldings are full of lines, and theirs are fine.
func (f facet) pen() sheet.Pen {
	if f.Kind == MoldingSurface {
		return sheet.PenHair
	}
	return sheet.PenThin
}

// creaseAngle is the least turn between two members that shows as a line in an elevation.
const creaseAngle = 15 * geom.Degree

// elevation draws the case as it is seen, at true size.
func elevation(r miter.Result, see viewpoint) sheet.Drawing {
	var d sheet.Drawing
	for _, f := range facets(r, see) {
		d = d.Add(sheet.FillPolygon(1, f.Outline...), sheet.Stroke{Path: geom.Polygon(f.Outline...), Pen: f.pen()})
	}
	return d
}

// facets returns what is seen of the case at true size: stages, moldings and beads, nearer things after farther ones.
func facets(r miter.Result, see viewpoint) []facet {
	var facets []facet
	for _, s := range r.Stages {
		facets = append(facets, stageFacets(s, see)...)
	}
	for _, m := range r.Moldings {
		for _, p := range m.Pieces {
			facets = append(facets, pieceFacets(p, m.Name, see)...)
		}
	}
	facets = append(facets, openingFacets(r, see)...)
	for _, p := range r.Beads {
		facets = append(facets, pieceFacets(p, BeadsName, see)...)
	}
	slices.SortStableFunc(facets, func(a, b facet) int { return cmp.Compare(b.distance, a.distance) })
	return facets
}

// newFacet returns the facet of the given corners, and whether it faces the viewer with some area.
func newFacet(corners []miter.Vec3, see viewpoint, of Surface) (facet, bool) {
	f := facet{Surface: of}
	sum := 0.0
	for _, c := range corners {
		p, far := see(c)
		f.Outline = append(f.Outline, p)
		sum += far
	}
	f.distance = sum / float64(len(corners))
	return f, geom.PolygonArea(f.Outline) > 1 // mm2: a surface seen edgewise is no facet
}

func stageFacets(s miter.StagePlan, see viewpoint) []facet {
	var out []facet
	add := func(corners []miter.Vec3) {
		if f, seen := newFacet(corners, see, Surface{Kind: StageSurface}); seen {
			out = append(out, f)
		}
	}
	var top []miter.Vec3
	for _, e := range s.Edges {
		at := func(p geom.Point, z float64) miter.Vec3 { return miter.Vec3{X: p.X, Y: p.Y, Z: z} }
		add([]miter.Vec3{at(e.A, s.Floor), at(e.B, s.Floor), at(e.B, s.Top), at(e.A, s.Top)})
		top = append(top, at(e.A, s.Top))
	}
	add(top)
	return out
}

// pieceFacets returns the surfaces of a piece in each of its places: its members from end to end, and the cuts.
func pieceFacets(p miter.Piece, molding string, see viewpoint) []facet {
	if p.Section == nil || len(p.Ends) != 2 {
		return nil
	}
	left, right := p.Cuts()
	strips := strips(*p.Section)
	var out []facet
	for i, place := range p.Places {
		of := Surface{Kind: MoldingSurface, Molding: molding, Run: placedRun(p, i), Mark: p.Mark}
		for _, strip := range strips {
			out = append(out, stripFacets(strip, place, left, right, see, of)...)
		}
		out = append(out, capFacets(*p.Section, place, left, right, see, of)...)
	}
	return out
}

// placedRun returns the run that the place i of a piece is on.
func placedRun(p miter.Piece, i int) string {
	if i < len(p.Runs) {
		return p.Runs[i]
	}
	return p.Run
}

// stripFacets returns the parts of a rolled strip of a piece that face the viewer: they end at the strip's creases and where it turns
// away.
func stripFacets(strip []geom.Point, place miter.Placement, left, right miter.Plane, see viewpoint, of Surface) []facet {
	var out []facet
	from := -1
	flush := func(to int) {
		if from < 0 {
			return
		}
		if f, seen := newFacet(strand(strip[from:to+1], place, left, right), see, of); seen {
			out = append(out, f)
		}
		from = -1
	}
	for i := 0; i+1 < len(strip); i++ {
		f, _ := newFacet(strand(strip[i:i+2], place, left, right), see, of)
		switch faces := geom.PolygonArea(f.Outline) > 1e-6; {
		case faces && from < 0:
			from = i
		case !faces:
			flush(i)
		}
	}
	flush(len(strip) - 1)
	return out
}

// strand returns the corners of the surface that section points sweep along a piece, the way round that faces outward: up its right end, down
// its left one.
func strand(points []geom.Point, place miter.Placement, left, right miter.Plane) []miter.Vec3 {
	corners := make([]miter.Vec3, 0, 2*len(points))
	for _, q := range points {
		corners = append(corners, place.At(right.At(q), q))
	}
	for _, q := range slices.Backward(points) {
		corners = append(corners, place.At(left.At(q), q))
	}
	return corners
}

// capFacets returns the cut ends of a piece that are seen.
func capFacets(s profile.Section, place miter.Placement, left, right miter.Plane, see viewpoint, of Surface) []facet {
	var a, b []miter.Vec3
	for _, q := range s.Outline.Flatten(0.2) {
		a, b = append(a, place.At(left.At(q), q)), append(b, place.At(right.At(q), q))
	}
	slices.Reverse(b)
	var out []facet
	for _, corners := range [][]miter.Vec3{a, b} {
		if f, seen := newFacet(corners, see, of); seen {
			out = append(out, f)
		}
	}
	return out
}

// strips returns the outline of a section in stretches between its creases, each as points within 0.2 mm of it.
func strips(s profile.Section) [][]geom.Point {
	var out [][]geom.Point
	n := len(s.Outline)
	for i, seg := range s.Outline {
		before := s.Outline[(i+n-1)%n]
		turn := math.Abs(math.Atan2(before.Tangent(1).Cross(seg.Tangent(0)), before.Tangent(1).Dot(seg.Tangent(0))))
		pts := seg.Flatten(0.2)
		if len(out) == 0 || geom.Angle(turn) > creaseAngle {
			out = append(out, slices.Clone(pts))
			continue
		}
		last := len(out) - 1
		out[last] = append(out[last], pts[1:]...)
	}
	return out
}

// openingFacets returns the drawer openings on the face that they are in.
func openingFacets(r miter.Result, see viewpoint) []facet {
	edge, ok := layoutEdge(r)
	if !ok {
		return nil
	}
	var out []facet
	dir := edge.Dir()
	lift := edge.Out().Mul(0.01) // mm in front of the face, so that it is drawn over it
	at := func(x, z float64) miter.Vec3 {
		p := edge.A.Add(dir.Mul(x)).Add(lift)
		return miter.Vec3{X: p.X, Y: p.Y, Z: z}
	}
	for _, o := range r.Layout.Openings {
		corners := []miter.Vec3{at(o.Min.X, o.Min.Y), at(o.Max.X, o.Min.Y), at(o.Max.X, o.Max.Y), at(o.Min.X, o.Max.Y)}
		if f, seen := newFacet(corners, see, Surface{Kind: OpeningSurface}); seen {
			out = append(out, f)
		}
	}
	return out
}
