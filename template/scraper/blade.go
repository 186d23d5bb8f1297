package scraper

import (
	"listel/profile"
	"listel/profile/geom"
)

// A Hand says toward which end of the molding a blade is drawn along.
type Hand string

// The hands: the face that is seen on the pattern is toward the end that the blade is drawn to.
const (
	LeftHand  Hand = "left"
	RightHand Hand = "right"
)

// A Blade is one blade to file.
type Blade struct {
	Mark    string     // A, B, ...
	Hand    Hand       // Make makes left-hand blades
	Lean    geom.Angle // along the travel, 0 for a knife
	Plunge  geom.Angle // 0 level toward the case, 90 degrees straight down
	Covers  [2]float64 // mm, least and greatest y of what it scrapes
	Spans   []Span     // what it scrapes, on the section's face
	Edge    geom.Path  // as filed, from left to right
	Outline geom.Path  // as filed: closed, counter-clockwise, the edge first
	Work    geom.Path  // the line in the section that the edge follows, from the foot upward; at its ends it may stand free of the wood
	Steel   Steel
	Steep   geom.Angle // of the steepest wall that it scrapes, from the plunge
	Guide   Guide
	Rubs    []Place // walls that it forms but does not scrape
	Files   []File  // to file it with, from left to right
	Knife   *Knife  // of a rotating head, else nil
}

// A Span is a part of a section's face, counted as geom.Path.At does.
type Span struct{ From, To float64 }

// Steel is the piece that a blade is filed from.
type Steel struct {
	Width, Height float64 // mm
	Center        float64 // u of the center line, mm
	Shoulder      float64 // v of the lower edge of the ears, 0 without ears, mm
	Ears          bool    // whether the steel stands out over the edge at a side
}

// A GuideKind names what a blade runs on.
type GuideKind string

// The guides.
const (
	GuideFoot GuideKind = "foot"  // a lip runs along the molding's foot
	GuideTop  GuideKind = "top"   // a lip runs along its top
	GuideFlat GuideKind = "flat"  // a shoulder runs on a finished flat beside what is scraped
	GuideOwn  GuideKind = "own"   // it runs on a flat that it scrapes itself
	GuideHold GuideKind = "fence" // the fence of the holder that it sits in
	GuideNone GuideKind = "none"  // nothing flat: the curve itself guides it
)

// A Guide is what keeps a blade in its place across the molding.
type Guide struct {
	Kind    GuideKind
	Element int          // of the flat, from 1; 0 on foot and top
	Member  profile.Kind // of that element
	Length  float64      // mm, along the surface
	U       [2]float64   // where it lies on the blade, mm
}

// A Why says why a place is named.
type Why string

// The reasons.
const (
	Rub    Why = "rubs"   // within SafeWall of the plunge: the edge forms it but does not scrape it
	Hidden Why = "hidden" // wood lies over it along the plunge
	Small  Why = "narrow" // there is no room for the edge
)

// A Place is a part of the face that is not scraped.
type Place struct {
	Y0, Y1  float64 // mm
	Length  float64 // mm, along the face
	Element int     // from 1
	Member  profile.Kind
	Why     Why
	Given   []string // marks of the blades that scrape it, none when no blade does
}

// ToBlade returns the map from the section to the blade as filed. It holds for a scraper; a knife's depth is not so simple.
func (b Blade) ToBlade() geom.Affine {
	m := toBlade(b.Plunge).Then(geom.Scaling(1, 1/b.Lean.Cos()))
	if b.Hand == RightHand {
		m = m.Then(geom.Scaling(-1, 1))
	}
	return m
}

// ToSection returns the map from the blade as filed to the section: what the blade cuts, projected through its lean.
func (b Blade) ToSection() geom.Affine { return b.ToBlade().Inverse() }

// toBlade returns the map from the section to an upright blade.
func toBlade(plunge geom.Angle) geom.Affine {
	u, v := axes(plunge)
	return geom.Affine{A: u.X, B: v.X, C: u.Y, D: v.Y}
}

// Mirrored returns the blade for the other hand: the same turned over, so that its other face is seen.
func (b Blade) Mirrored() Blade {
	out := b
	out.Hand = LeftHand
	if b.Hand == LeftHand {
		out.Hand = RightHand
	}
	out.Edge, out.Outline = b.Edge.MirrorX(), mirrored(b.Outline, len(b.Edge))
	out.Steel.Center = 0 - b.Steel.Center
	out.Guide.U = [2]float64{0 - b.Guide.U[1], 0 - b.Guide.U[0]}
	out.Files = make([]File, len(b.Files))
	for i, f := range b.Files {
		f.At.X = 0 - f.At.X
		out.Files[len(b.Files)-1-i] = f
	}
	return out
}

// mirrored returns a closed outline turned over, with the images of its first n segments first again.
func mirrored(p geom.Path, n int) geom.Path {
	m := p.MirrorX()
	k := len(m) - n
	return append(append(geom.Path{}, m[k:]...), m[:k]...)
}
