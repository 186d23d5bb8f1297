package profile

import "listel/profile/geom"

// A Torus is a half round that stands out and comes back to the x where it began; an astragal is a small one.
type Torus struct {
	Height float64 // mm, > 0
}

// Validate returns a *SizeError when the height is not more than 0.
func (e Torus) Validate() error { return positive("height", e.Height) }

// Outline returns the half circle on the height.
func (e Torus) Outline(from geom.Point) geom.Path { return geom.Path{halfRound(from, e.Height)} }

// A Bead is a half round with narrow grooves, its quirks, beside it. Flush sinks it so that its crest lies at the x where
// it began. The height is without the quirks.
type Bead struct {
	Height float64     // mm, > 0
	Quirk  *SizedQuirk // nil without one
	Flush  bool
}

// A SizedQuirk is the groove beside a bead. Both sizes are more than 0.
type SizedQuirk struct {
	Width, Depth float64 // mm
	Sides        Sides
}

// Validate returns a *SizeError for a size that is not more than 0, or a quirk that is too shallow for a flush bead.
func (e Bead) Validate() error {
	if err := positive("height", e.Height); err != nil || e.Quirk == nil {
		return err
	}
	if err := firstOf(positive("quirk.width", e.Quirk.Width), positive("quirk.depth", e.Quirk.Depth)); err != nil {
		return err
	}
	if e.Flush && e.Quirk.Depth < e.Height/2-equalSizes {
		return sizeFault("quirk.depth", "quirk.depth is %s; a flush bead needs half its height, %s, at least", e.Quirk.Depth, e.Height/2)
	}
	return nil
}

// Rise returns the height with the quirks, in mm.
func (e Bead) Rise() float64 {
	below, above := e.quirks()
	return below + e.Height + above
}

// quirks returns the widths of the grooves below and above, 0 where there is none.
func (e Bead) quirks() (below, above float64) {
	if e.Quirk == nil {
		return 0, 0
	}
	if e.Quirk.Sides != AboveOnly {
		below = e.Quirk.Width
	}
	if e.Quirk.Sides != BelowOnly {
		above = e.Quirk.Width
	}
	return below, above
}

// Outline returns the quirk below, the half round and the quirk above, as far as there are such.
func (e Bead) Outline(from geom.Point) geom.Path {
	below, above := e.quirks()
	foot := geom.Pt(from.X, from.Y+below)
	if e.Flush {
		foot.X -= e.Height / 2
	}
	out := level(from, foot.X-from.X)
	if below > 0 {
		in := from.Sub(geom.Pt(e.Quirk.Depth, 0))
		out = geom.Polyline(from, in, geom.Pt(in.X, foot.Y))
		out = append(out, between(geom.Pt(in.X, foot.Y), foot)...)
	}
	out = append(out, halfRound(foot, e.Height))
	top := foot.Add(geom.Pt(0, e.Height))
	if above > 0 {
		in := geom.Pt(from.X-e.Quirk.Depth, top.Y)
		out = append(out, between(top, in)...)
		return append(out, geom.Polyline(in, in.Add(geom.Pt(0, above)), geom.Pt(from.X, top.Y+above))...)
	}
	return append(out, level(top, from.X-top.X)...)
}

// between returns the line from a to b, nothing when they are one point.
func between(a, b geom.Point) geom.Path {
	if a.Near(b, equalSizes) {
		return nil
	}
	return geom.Path{geom.Line{A: a, B: b}}
}

// Reeds are equal half rounds standing out side by side over the height, with plumb flats between them when Gap is not 0.
type Reeds struct {
	Height float64 // mm, > 0, over all
	Count  int     // at least 1
	Gap    float64 // mm, between two reeds; may be 0
}

// Validate returns a *SizeError for a height of 0 or less, no reeds, or gaps that leave them no room.
func (e Reeds) Validate() error { return validRow("reeds", e.Height, e.Count, e.Gap) }

// Outline returns the half rounds and the flats between them.
func (e Reeds) Outline(from geom.Point) geom.Path {
	return row(from, e.Height, e.Count, e.Gap, halfRound)
}

// Flutes are equal half-round hollows sunk in side by side over the height, with plumb flats between them.
type Flutes struct {
	Height float64 // mm, > 0, over all
	Count  int     // at least 1
	Gap    float64 // mm, between two flutes; more than 0 when there are several
}

// Validate returns a *SizeError for a height of 0 or less, no flutes, gaps that leave them no room, or none between
// several.
func (e Flutes) Validate() error {
	if err := validRow("flutes", e.Height, e.Count, e.Gap); err != nil {
		return err
	}
	if e.Count > 1 && !(e.Gap > 0) {
		return sizeFault("gap", "flutes need a gap between them, more than 0; without one their edges are sharp")
	}
	return nil
}

// Outline returns the hollows and the flats between them.
func (e Flutes) Outline(from geom.Point) geom.Path {
	return row(from, e.Height, e.Count, e.Gap, func(foot geom.Point, h float64) geom.Segment {
		return geom.Arc{Center: foot.Add(geom.Pt(0, h/2)), Radius: h / 2, From: 270 * geom.Degree, Sweep: -180 * geom.Degree}
	})
}

// halfRound returns the half circle of height h that stands out from foot.
func halfRound(foot geom.Point, h float64) geom.Segment {
	return geom.Arc{Center: foot.Add(geom.Pt(0, h/2)), Radius: h / 2, From: -90 * geom.Degree, Sweep: 180 * geom.Degree}
}

// row returns count equal members over h with plumb flats of gap between them.
func row(from geom.Point, h float64, count int, gap float64, member func(geom.Point, float64) geom.Segment) geom.Path {
	each := (h - gap*float64(count-1)) / float64(count)
	var out geom.Path
	for i := range count {
		foot := from.Add(geom.Pt(0, float64(i)*(each+gap)))
		if i > 0 {
			out = append(out, plumb(foot.Sub(geom.Pt(0, gap)), gap)...)
		}
		out = append(out, member(foot, each))
	}
	return out
}

// validRow checks reeds or flutes.
func validRow(what string, h float64, count int, gap float64) error {
	if err := positive("height", h); err != nil {
		return err
	}
	switch {
	case count < 1:
		return sizeFault("count", countIs(count)+"; it must be 1 at least")
	case count > MaxElements:
		return sizeFault("count", countIs(count)+"; the limit is 500")
	case !(gap >= 0):
		return sizeFault("gap", "gap is %s; it must be 0 or more", gap)
	case count > 1 && !(h-gap*float64(count-1) >= least*float64(count)):
		return sizeFault("gap", "gap is %s; it must be less than %s for the "+what+" to have room in a height of %s", gap, h/float64(count-1), h)
	}
	return nil
}
