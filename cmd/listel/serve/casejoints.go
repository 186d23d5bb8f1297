package serve

import (
	"slices"

	"listel/miter"
	"listel/profile/geom"
	"listel/template"
)

// The kinds of what holds a miter together, hidden beyond the cut of a section.
const (
	splineSurface template.SurfaceKind = "spline" // its groove
	pinSurface    template.SurfaceKind = "pin"    // its hole
)

// jointShapes returns the grooves and the holes in the miters of the moldings that a section cuts square across, as they lie beyond the cut.
func jointShapes(v template.CaseView, r miter.Result) []caseShape {
	var out []caseShape
	for _, s := range v.Surfaces {
		at := slices.IndexFunc(r.Moldings, func(m miter.MoldingResult) bool { return m.Name == s.Molding })
		if s.Kind != template.CutSurface || at < 0 {
			continue
		}
		m := r.Moldings[at]
		if len(m.Sections) == 0 || len(m.Faces) == 0 {
			continue
		}
		place, ok := placeOf(m.Sections[0].Section.Outline, s.Outline)
		if !ok {
			continue
		}
		aslant := geom.Scaling(1/m.Faces[0].Stretch, 1) // the face is seen as wide as the section
		add := func(kind template.SurfaceKind, p geom.Path) {
			if p != nil {
				seen := p.Transform(aslant.Then(place)).Flatten(0.02)
				out = append(out, caseShape{Kind: kind, Molding: m.Name, Run: s.Run, Mark: s.Mark, D: closedData(seen)})
			}
		}
		add(splineSurface, m.Faces[0].Groove)
		add(pinSurface, m.Faces[0].Pin)
	}
	return out
}

// placeOf returns how a section lies where an outline is cut from it: moved, and turned round for a run at the other side of the case. It is not
// ok when the outline is none of that section: a run that reaches less far, one that is cut slanting, a rail.
func placeOf(section geom.Path, outline []geom.Point) (place geom.Affine, ok bool) {
	cut := geom.EmptyRect()
	for _, p := range outline {
		cut = cut.Include(p)
	}
	for _, side := range []float64{1, -1} {
		turned := section.Transform(geom.Scaling(side, 1))
		b := turned.Bounds()
		shift := geom.Translation(cut.Min.Sub(b.Min))
		placed := turned.Transform(shift)
		off := slices.ContainsFunc(outline, func(p geom.Point) bool {
			_, _, d := placed.Nearest(p)
			return d > sameSpot
		})
		if !off {
			return geom.Scaling(side, 1).Then(shift), true
		}
	}
	return geom.Affine{}, false
}
