package miter

import (
	"math"

	"listel/profile/geom"
)

// A MiterFace is the true shape of a miter: the section with x stretched, and on it the groove and the hole. It is seen as one looks at
// the left end of a piece, x to the right; the face that meets it, at the right end of its neighbor, is its mirror image.
type MiterFace struct {
	Left, Right string     // the runs that meet there, left and right of the miter
	Corner      geom.Angle // inside angle of the case
	Stretch     float64    // of the profile's x
	Outline     geom.Path
	Groove      geom.Path // nil without a spline
	Pin         geom.Path // nil without a pin
}

// Mirrored returns the face at the right end of the neighbor.
func (f MiterFace) Mirrored() MiterFace {
	f.Outline = f.Outline.MirrorX()
	if f.Groove != nil {
		f.Groove = f.Groove.MirrorX()
	}
	if f.Pin != nil {
		f.Pin = f.Pin.MirrorX()
	}
	return f
}

// faceList returns the miter faces between the runs, those of one shape once.
func (m *fitting) faceList() []MiterFace {
	var out []MiterFace
	for _, r := range m.runs {
		if p, ok := placeOf(r, LeftHand); !ok || p != atRuns {
			continue
		}
		e := r.left
		k := r.section.Projection / m.profile.Projection
		f := MiterFace{Left: e.meets, Right: r.name, Corner: e.corner, Stretch: k * math.Hypot(1, e.slope)}
		if m.faceKnown(out, f) {
			continue
		}
		f.Outline = m.profile.Outline.Transform(geom.Scaling(f.Stretch, 1))
		if s := m.out.Spline; s != nil {
			f.Groove = s.onFace(f.Stretch)
		}
		if p := m.out.Pin; p != nil {
			f.Pin = geom.Circle(geom.Pt(p.At[0]*f.Stretch, p.At[1]), p.Diameter/2)
		}
		out = append(out, f)
	}
	return out
}

func (m *fitting) faceKnown(list []MiterFace, f MiterFace) bool {
	for _, g := range list {
		if near(g.Stretch, f.Stretch, 1e-9) && g.Corner.Near(f.Corner, 1e-9) {
			return true
		}
	}
	return false
}

// onFace returns the rectangle of the groove on a miter face.
func (s Spline) onFace(stretch float64) geom.Path {
	a, b := geom.Pt(s.From[0]*stretch, s.From[1]), geom.Pt(s.To[0]*stretch, s.To[1])
	side := b.Sub(a).Unit().Left().Mul(s.Thickness / 2)
	return geom.Polygon(a.Sub(side), b.Sub(side), b.Add(side), a.Add(side))
}
