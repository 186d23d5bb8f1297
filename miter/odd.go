package miter

import (
	"fmt"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// Odd returns, in words, what is possible in a case that was fitted, but hardly meant: a room that nothing is reckoned for, a stage that stands
// beside the one below it, moldings that take up the same place.
func Odd(c Case, r Result) []string {
	var out []string
	if c.Room != (Room{}) && c.Wood == "" {
		out = append(out, "the case tells its room and no wood: how its sides move is left out; write wood: to have it")
	}
	for i := 1; i < len(r.Stages); i++ {
		if above, below := r.Stages[i], r.Stages[i-1]; !above.Bounds().Expand(-lengthTol).Overlaps(below.Bounds()) {
			out = append(out, fmt.Sprintf("stage %s stands wholly beside stage %s, and not on it", above.Name, below.Name))
		}
	}
	for i := range r.Moldings {
		for k := range i {
			if run, mm := clash(c, r, k, i); run != "" {
				out = append(out, fmt.Sprintf("the moldings %s and %s take up the same place on edge %s, from %s over the floor on",
					r.Moldings[k].Name, r.Moldings[i].Name, run, measure.Format{Units: c.Units}.Length(mm)))
			}
		}
	}
	return out
}

// clash returns the first run on which moldings i and k of a case overlap, and the height over the floor at which they begin to; "" when they do
// nowhere. One that rakes is left out: it leaves its height.
func clash(c Case, r Result, i, k int) (run string, at float64) {
	a, b := r.Moldings[i], r.Moldings[k]
	if a.Stage != b.Stage || a.Rake != nil || b.Rake != nil {
		return "", 0
	}
	for _, x := range a.Runs {
		for _, y := range b.Runs {
			if x.Run != y.Run || !x.main || !y.main {
				continue
			}
			p := a.outlineAt(x.Mark, geom.Pt(-c.Moldings[i].Inset, a.Foot))
			q := b.outlineAt(y.Mark, geom.Pt(-c.Moldings[k].Inset, b.Foot))
			if at, ok := shared(p, q); ok {
				return x.Run, at
			}
		}
	}
	return "", 0
}

// outlineAt returns the section of the piece of that mark, moved to a place.
func (m MoldingResult) outlineAt(mark string, to geom.Point) []geom.Point {
	var s *profile.Section
	for _, p := range m.Pieces {
		if p.Mark == mark {
			s = p.Section
		}
	}
	if s == nil {
		return nil
	}
	pts := s.Outline.Flatten(searchTol)
	for i := range pts {
		pts[i] = pts[i].Add(to)
	}
	return pts
}

// shared returns the least height at which two outlines hold the same point, among a grid of places over what their bounds share, and false when
// they hold none: what they only touch in does not count.
func shared(p, q []geom.Point) (float64, bool) {
	const steps, least = 40, 0.1 // mm, of either size that they must share
	a, b := geom.EmptyRect(), geom.EmptyRect()
	for _, pt := range p {
		a = a.Include(pt)
	}
	for _, pt := range q {
		b = b.Include(pt)
	}
	lo := geom.Pt(max(a.Min.X, b.Min.X), max(a.Min.Y, b.Min.Y))
	hi := geom.Pt(min(a.Max.X, b.Max.X), min(a.Max.Y, b.Max.Y))
	if !(hi.X-lo.X > least && hi.Y-lo.Y > least) {
		return 0, false
	}
	for j := range steps {
		y := lo.Y + (float64(j)+0.5)/steps*(hi.Y-lo.Y)
		for i := range steps {
			pt := geom.Pt(lo.X+(float64(i)+0.5)/steps*(hi.X-lo.X), y)
			if geom.PolygonContains(p, pt) && geom.PolygonContains(q, pt) {
				return y, true
			}
		}
	}
	return 0, false
}
