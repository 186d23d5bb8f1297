package profile

import "listel/profile/geom"

// A Fillet is a plumb flat, narrow or (as a fascia) broad. Its height is more than 0; the zero value is no fillet.
type Fillet struct {
	Height float64 // mm
}

// Validate returns a *SizeError when the height is not more than 0.
func (e Fillet) Validate() error { return positive("height", e.Height) }

// Outline returns the flat as a plumb line.
func (e Fillet) Outline(from geom.Point) geom.Path { return plumb(from, e.Height) }

// A Chamfer is a straight slope. Its height is more than 0 and its run is not 0.
type Chamfer struct {
	Height     float64 // mm
	Projection float64 // mm, positive outward going up
}

// Validate returns a *SizeError for a height of 0 or less or a run of 0.
func (e Chamfer) Validate() error { return firstOf(positive("height", e.Height), run(e.Projection)) }

// Outline returns the slope as a line.
func (e Chamfer) Outline(from geom.Point) geom.Path {
	return geom.Path{geom.Line{A: from, B: from.Add(geom.Pt(e.Projection, e.Height))}}
}

// A Quirk is a square groove sunk into a plumb face; it ends at the x where it began. Both sizes are more than 0.
type Quirk struct {
	Height float64 // mm, the width of the groove
	Depth  float64 // mm
}

// Validate returns a *SizeError for a size that is not more than 0.
func (e Quirk) Validate() error {
	return firstOf(positive("height", e.Height), positive("depth", e.Depth))
}

// Outline returns the groove: in, up, and out.
func (e Quirk) Outline(from geom.Point) geom.Path {
	in := from.Sub(geom.Pt(e.Depth, 0))
	return geom.Polyline(from, in, in.Add(geom.Pt(0, e.Height)), from.Add(geom.Pt(0, e.Height)))
}

// Dentils are a course of square blocks standing on a ground: Outline is the face of the blocks and GapOutline the ground between two
// of them. All sizes are more than 0.
type Dentils struct {
	Height float64 // mm
	Block  float64 // mm, along the molding
	Gap    float64 // mm, along the molding, between two blocks
	Depth  float64 // mm, from the face of the blocks back to the ground
}

// Validate returns a *SizeError for a size that is not more than 0.
func (e Dentils) Validate() error {
	return firstOf(positive("height", e.Height), positive("block", e.Block), positive("gap", e.Gap), positive("depth", e.Depth))
}

// Outline returns the face of the blocks.
func (e Dentils) Outline(from geom.Point) geom.Path { return plumb(from, e.Height) }

// GapOutline returns the outline between two blocks: in to the ground, up, and out to the face again.
func (e Dentils) GapOutline(from geom.Point) geom.Path {
	return Quirk{Height: e.Height, Depth: e.Depth}.Outline(from)
}
