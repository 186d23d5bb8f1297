package scraper

import (
	"math"

	"listel/profile"
	"listel/profile/geom"
)

// A ScratchStock is a blade held square in a wooden holder whose fence runs along the edge of the board, for a small molding worked on that
// edge. All is in the coordinates of a blade plunged level: u to the right, v out of the work. The fence is at the right, against the foot.
type ScratchStock struct {
	Work   geom.Path  // the section
	Blade  Blade      // upright
	Holder geom.Path  // closed: the arm over the work and the fence beside it
	Slot   geom.Path  // closed: the part of the blade that is held
	Fence  [2]float64 // mm, from the fence to the nearest and to the farthest point that the blade scrapes
	Sole   float64    // v of the arm's sole, mm
	Stop   float64    // mm, from the sole down to the deepest point of the blade
}

// What a scratch stock can hold and how large it is, mm: common practice, no source.
const (
	scratchHeight = 32.0 // of the molding
	scratchDepth  = 16.0
	scratchArm    = 22.0 // of wood over the sole
	scratchSole   = 1.0  // between the sole and the highest point of the finished face
	scratchFence  = 18.0 // wide
	scratchBelow  = 14.0 // of fence below the deepest point of the face
	scratchBeyond = 24.0 // of arm beyond the blade
	scratchLap    = 2.0  // of the blade past the face at both ends
	scratchOver   = 6.0  // of the blade over the arm
)

// NewScratchStock returns the scratch stock for a section, and false when it is none that one would work so: when it is larger than 32 by 16 mm,
// or something of its face is hidden from the front.
func NewScratchStock(s profile.Section) (ScratchStock, bool) {
	face := s.Face.Bounds()
	if s.Height > scratchHeight || face.Width() > scratchDepth || s.Gap != nil {
		return ScratchStock{}, false
	}
	c := newScene(s)
	w := c.along(0)
	for _, a := range c.atoms {
		if !w.exposes(a) {
			return ScratchStock{}, false
		}
	}
	to := toBlade(0)
	line := s.Face.Transform(to).Reverse()
	a, b := line.Start(), line.End()
	edge := append(geom.Path{geom.Line{A: a.Sub(geom.Pt(scratchLap, 0)), B: a}}, line...)
	edge = append(edge, geom.Line{A: b, B: b.Add(geom.Pt(scratchLap, 0))}).Simplify(1e-9)
	box := line.Bounds()
	sole := box.Max.Y + scratchSole
	top := sole + scratchArm + scratchOver
	left, right := edge.Start(), edge.End()
	blade := Blade{Mark: "S", Hand: LeftHand, Edge: edge, Work: edge.Transform(to.Inverse()).Reverse(), Files: filesFor(edge),
		Covers: [2]float64{0, s.Height}, Spans: []Span{{0, float64(len(s.Face))}}, Guide: Guide{Kind: GuideHold}}
	blade.Outline = append(append(geom.Path{}, edge...), geom.Polyline(right, geom.Pt(right.X, top), geom.Pt(left.X, top), left)...)
	o := blade.Outline.Bounds()
	blade.Steel = Steel{Width: o.Width(), Height: o.Height(), Center: o.Center().X}
	st := ScratchStock{Work: s.Outline.Transform(to), Blade: blade, Sole: sole, Stop: sole - box.Min.Y}
	st.Fence = [2]float64{math.Max(0, -box.Max.X) + 0, -box.Min.X}
	fence := box.Max.X
	st.Holder = geom.Polygon(geom.Pt(o.Min.X-scratchBeyond, sole), geom.Pt(fence, sole), geom.Pt(fence, box.Min.Y-scratchBelow),
		geom.Pt(fence+scratchFence, box.Min.Y-scratchBelow), geom.Pt(fence+scratchFence, sole+scratchArm), geom.Pt(o.Min.X-scratchBeyond, sole+scratchArm))
	st.Slot = geom.Polygon(geom.Pt(left.X, sole), geom.Pt(right.X, sole), geom.Pt(right.X, sole+scratchArm), geom.Pt(left.X, sole+scratchArm))
	return st, true
}
