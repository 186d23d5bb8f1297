package sheet

import (
	"math"
	"slices"

	"listel/profile/geom"
)

// A Hatch is a region ruled with parallel lines, as cut wood is drawn. The lines are cut exactly at the outlines
// flattened to 0.005 mm, by the even-odd rule.
type Hatch struct {
	Paths   []geom.Path
	Angle   geom.Angle // of the lines, from the x axis; it stays as it is when the region is turned
	Spacing float64    // mm between lines, > 0; kept when the region is scaled
	Pen     Pen
	Origin  geom.Point // a point that one line goes through, inside the region or not
}

// hatchTolerance is how far a hatch line may stop from the exact outline, mm: a fiftieth of a thin line.
const hatchTolerance = 0.005

// maxHatchLines bounds the lines of one region; a spacing too fine for it is widened.
const maxHatchLines = 4000

// EndGrain returns the hatching of wood cut across the grain: thin lines at 45 degrees, 2.5 mm apart.
func EndGrain(outlines ...geom.Path) Hatch {
	return Hatch{Paths: outlines, Angle: 45 * geom.Degree, Spacing: 2.5, Pen: PenHair}
}

// Bounds returns the bounds of the outlines grown by half the pen's width.
func (h Hatch) Bounds() geom.Rect {
	b := pathsBounds(h.Paths)
	if b.Empty() {
		return b
	}
	return b.Expand(h.Pen.Width / 2)
}

// Transform returns the hatching of the moved region: spacing and angle stay those of the paper.
func (h Hatch) Transform(m geom.Affine) Mark {
	h.Paths = transformPaths(h.Paths, m)
	h.Origin = m.Apply(h.Origin)
	return h
}

// Lines returns the hatch lines, each a separate Line, in order across the region.
func (h Hatch) Lines() geom.Path {
	if !(h.Spacing > 0) {
		return nil
	}
	// In a frame turned by the angle the lines are level: v is constant along each.
	var edges [][2]geom.Point
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range h.Paths {
		pts := p.Flatten(hatchTolerance)
		for i := range pts {
			pts[i] = pts[i].Sub(h.Origin).Rotate(-h.Angle)
			lo, hi = math.Min(lo, pts[i].Y), math.Max(hi, pts[i].Y)
		}
		for i, a := range pts {
			if b := pts[(i+1)%len(pts)]; a.Y != b.Y {
				edges = append(edges, [2]geom.Point{a, b})
			}
		}
	}
	if len(edges) == 0 {
		return nil
	}
	step := math.Max(h.Spacing, (hi-lo)/maxHatchLines)
	first := math.Ceil(lo / step)
	rows := make([][]float64, int(math.Floor(hi/step)-first)+1)
	for _, e := range edges {
		crossRows(rows, e, first, step)
	}
	var out geom.Path
	for i, xs := range rows {
		slices.Sort(xs)
		v := (first + float64(i)) * step
		for k := 0; k+1 < len(xs); k += 2 {
			if xs[k+1]-xs[k] > joint {
				out = append(out, geom.Line{A: h.back(xs[k], v), B: h.back(xs[k+1], v)})
			}
		}
	}
	return out
}

// crossRows notes where one edge crosses the rows. An edge owns its lower end and not its upper one, so that a
// row through a corner is counted once.
func crossRows(rows [][]float64, e [2]geom.Point, first, step float64) {
	a, b := e[0], e[1]
	if a.Y > b.Y {
		a, b = b, a
	}
	for i := max(0, int(math.Ceil(a.Y/step-first))); i < len(rows); i++ {
		v := (first + float64(i)) * step
		if v < a.Y {
			continue
		}
		if v >= b.Y {
			return
		}
		rows[i] = append(rows[i], a.X+(v-a.Y)/(b.Y-a.Y)*(b.X-a.X))
	}
}

// back turns a point of the level frame back to the sheet.
func (h Hatch) back(u, v float64) geom.Point {
	return geom.Pt(u, v).Rotate(h.Angle).Add(h.Origin)
}

func (h Hatch) clip(window geom.Rect) Drawing {
	return Stroke{h.Lines(), h.Pen}.clip(window)
}

func (h Hatch) render(r renderer) {
	Stroke{h.Lines(), h.Pen}.render(r)
}
