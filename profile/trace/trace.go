package trace

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"slices"

	"listel/profile/geom"
	"listel/profile/measure"
)

// The stages that Options.Progress is told.
const (
	StageScales  = "scales"
	StageInk     = "ink"
	StageEdges   = "edges"
	StageMembers = "members"
)

// Trace finds the sections that p wants in img and returns them in p's order. img may be nil when all of them are given by clicked
// points and no scale by a bar. All that is wrong with the plate comes back at once as Faults; the sections without fault are
// returned beside them. When ctx ends, its error is returned alone.
func Trace(ctx context.Context, img image.Image, p Plate, o Options) ([]Traced, error) {
	bounds := image.Rectangle{}
	if img != nil {
		bounds = img.Bounds()
	}
	if err := p.Validate(bounds); err != nil {
		return nil, err
	}
	if o.Progress == nil {
		o.Progress = func(string, int, int) {}
	}
	scales, faults := p.solve(img, o)
	var out []Traced
	for i, w := range p.Sections {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s, ok := scales[w.Scale]
		if w.Scale == "" {
			s, ok = scales[p.Scales[0].Name]
		}
		if !ok {
			continue // its fault is told already
		}
		traced, err := trace(ctx, img, w, s, func(stage string, done, of int) {
			o.Progress(stage, i*of+done, len(p.Sections)*of)
		})
		if cause := ctx.Err(); cause != nil && errors.Is(err, cause) {
			return nil, cause
		}
		if err != nil {
			faults = append(faults, &Fault{Section: w.called(i), Index: i, Err: err})
			continue
		}
		out = append(out, traced)
	}
	return out, faults.orNil()
}

// solve solves the plate's scales, by name.
func (p Plate) solve(img image.Image, o Options) (map[string]solved, Faults) {
	scales := make(map[string]solved, len(p.Scales))
	var faults Faults
	for i, s := range p.Scales {
		o.Progress(StageScales, i, len(p.Scales))
		var bars []measured
		err := error(nil)
		if s.Bar != nil {
			bars, err = s.Bar.measure(img)
		}
		if err == nil {
			scales[s.Name], err = s.solve(bars)
		}
		if err != nil {
			delete(scales, s.Name)
			faults = append(faults, &Fault{Scale: s.called(i), Index: i, Err: err})
		}
	}
	o.Progress(StageScales, len(p.Scales), len(p.Scales))
	return scales, faults
}

// trace finds one section.
func trace(ctx context.Context, img image.Image, w Wanted, s solved, progress func(stage string, done, of int)) (Traced, error) {
	const stages = 4
	progress(StageInk, 0, stages)
	found, err := outlineOf(ctx, img, w, func() { progress(StageEdges, 1, stages) })
	if err != nil {
		return Traced{}, err
	}
	if err := ctx.Err(); err != nil {
		return Traced{}, err
	}
	progress(StageMembers, 2, stages)
	at := place(found.points, s, w.Face)
	pixel := 1 / at.pixels.Size(geom.Polygon(at.points...).Bounds().Center())
	d := Drawn{Points: at.points, Noise: math.Hypot(found.sigma, leastNoise) * pixel, Pixel: pixel, Line: found.line * pixel}
	if len(w.Points) > 0 {
		at.points = clicked(at.points, pixel)
		d.Points, d.Pixel = at.points, clickShare*pixel
	}
	if w.Crop.Empty() && len(w.Points) == 0 && at.isBox() {
		return Traced{}, fmt.Errorf("%w: the largest closed shape is a plain rectangle, the border of the plate most likely; crop the section", ErrNothing)
	}
	turned := at.looksTurned()
	if w.Back != nil {
		if at, err = at.withBack(*w.Back, clickStep*pixel); err != nil {
			return Traced{}, err
		}
		d.Points, found.ink = at.points, nil
	}
	composed, err := Compose(ctx, d, w)
	if err != nil {
		if turned && ctx.Err() == nil {
			err = fmt.Errorf("%w: %s %w", ErrFace, w.otherSide(), err)
		}
		return Traced{}, &UnreadError{Outline: mapped(d.Points, at.pixels), Err: err}
	}
	if turned {
		composed.Notes = append([]string{w.otherSide()}, composed.Notes...)
	}
	progress(StageMembers, 3, stages)
	out := w.judged(composed, found, at, d, s)
	if turned && !out.Truth.Within { // its back was read as the face: no profile of it is any use
		return Traced{}, &UnreadError{Outline: mapped(d.Points, at.pixels), Err: fmt.Errorf("%w: %s read as asked for it is %s off the drawing", ErrFace, w.otherSide(), w.small(out.Truth.Greatest))}
	}
	progress(StageMembers, stages, stages)
	return out, nil
}

// judged returns what was composed of an outline with how true it is and what a reader should know of it.
func (w Wanted) judged(c Composed, found foundOutline, at placed, d Drawn, s solved) Traced {
	out := Traced{Name: w.Name, Profile: c.Profile, Section: c.Section, Outline: geom.Polygon(at.points...), Pixels: at.pixels}
	pixel := 1 / at.pixels.Size(out.Outline.Bounds().Center())
	truth, hidden := comparison{at.points, c.Section.Outline, at.pixels, (found.line + 2) * pixel, found.ink}.judge(w.tolerance(d))
	sizes, of := c.Sizes, "the drawing"
	if len(w.Points) > 0 {
		sizes, of = atLeast(sizes, sure*clickSpread*math.Sqrt2*pixel), "the clicked points" // a size lies between two clicks
	} else if found.line == 0 {
		sizes = widened(sizes, inkRun*pixel)
	}
	out.Truth = truth.withScale(sizes, s.err)
	out.Notes = slices.Concat(s.notes, found.notes, c.Notes)
	note := func(format string, args ...any) { out.Notes = append(out.Notes, fmt.Sprintf(format, args...)) }
	if hint := stretchHint(c.Section.Members); hint != "" && s.alike {
		note("%s", hint)
	}
	if hidden > 4*pixel {
		note("%s of the outline lie in corners so narrow that the ink fills them; they are drawn as the members beside them go", w.small(hidden))
	}
	if deg := at.turn.Degrees(); math.Abs(deg) > 0.1 {
		note("the section stood %.1f degrees off plumb; set upright", math.Abs(deg))
	}
	if !out.Truth.Within {
		note("the section is up to %s off %s, more than the %s allowed", w.small(out.Truth.Greatest), of, w.small(out.Truth.Tolerance))
	}
	return out
}

// leastNoise is the least scatter that an outline is taken to have, px: what blur, stretch and a pen leave goes together from pixel to
// pixel, and does not show in the scatter.
const leastNoise = 0.15

// inkRun is what a size of a filled section may be off by since its ink has run, or been wiped thin, at both ends, px: no picture tells, while a line's two
// sides tell where its middle is. It is 0.06 mm at either end at 300 dots an inch; common practice, no source.
const inkRun = 1.5

// tolerance returns the greatest distance allowed between outline and section, mm: the one asked for, else two pixels, and no less
// than eight times the scatter.
func (w Wanted) tolerance(d Drawn) float64 {
	if w.Tolerance > 0 {
		return w.Tolerance
	}
	return math.Max(2*d.Pixel, 8*d.Noise)
}

// small returns a small length in the units of the profile.
func (w Wanted) small(mm float64) string {
	if w.Units == measure.Inches {
		return fmt.Sprintf("%.3f in", mm/measure.MMPerInch)
	}
	return fmt.Sprintf("%.2f mm", mm)
}

// A foundOutline is a section's outline in the picture.
type foundOutline struct {
	points []geom.Point // closed, px
	sigma  float64      // px, across
	line   float64      // px, the thickness of the line that it was drawn by, 0 for filled and clicked ones
	ink    *inkMap      // nil for clicked ones
	notes  []string
}

// outlineOf finds the outline of w in the ink, or takes its clicked points for it.
func outlineOf(ctx context.Context, img image.Image, w Wanted, edges func()) (foundOutline, error) {
	if len(w.Points) > 0 {
		return foundOutline{points: w.Points, sigma: clickSpread, notes: []string{"from clicked points; the ink was not looked at"}}, nil
	}
	crop := w.Crop
	if crop.Empty() {
		crop = img.Bounds()
	}
	t, err := toneOf(grayOf(img, crop))
	if err != nil {
		return foundOutline{}, err
	}
	if err := ctx.Err(); err != nil {
		return foundOutline{}, err
	}
	f := newFinder(t)
	c, err := f.only(w.Ink, t.box)
	if err != nil {
		return foundOutline{}, err
	}
	if w.Ink == AnyInk {
		if more := f.drawnElse(t, c); len(more) > 0 {
			return foundOutline{}, &SeveralError{Boxes: append([]image.Rectangle{f.box(c, t.box)}, more...)}
		}
	}
	edges()
	if err := ctx.Err(); err != nil {
		return foundOutline{}, err
	}
	out, err := f.measure(t, c)
	if err == nil {
		err = out.cutAt(crop)
	}
	if t.negative {
		out.notes = append(out.notes, "light ink on dark paper")
	}
	return out, err
}

// only returns the one section of the crop in, or the error that says why there is not one.
func (f *finder) only(kind Ink, in image.Rectangle) (patch, error) {
	all := f.sections(kind)
	if err := f.open(all, in); err != nil {
		return patch{}, err
	}
	whole := slices.DeleteFunc(slices.Clone(all), func(c patch) bool { return len(f.sides(c)) > 0 })
	switch {
	case len(all) == 0:
		return patch{}, fmt.Errorf("%w: no closed shape in the crop; its outline may be broken by more than %.0f px, or the crop may miss it", ErrNothing, 2*f.gap*float64(f.k))
	case len(whole) == 0 || whole[0].label != all[0].label:
		return patch{}, &EdgeError{f.box(all[0], in), f.sides(all[0])}
	case len(all) > 1:
		e := &SeveralError{Joined: f.joined(all)}
		for _, c := range all {
			e.Boxes = append(e.Boxes, f.box(c, in))
		}
		return patch{}, e
	}
	return all[0], nil
}

// measure follows the boundary of c through the shades of t.
func (f *finder) measure(t tone, c patch) (foundOutline, error) {
	e := edger{tone: t, line: f.line * float64(f.k), k: float64(f.k)}
	cracks := f.contour(c, has(isSection))
	touched, open := f.doubtful(cracks)
	edges := e.edges(f.placesOf(cracks), touched, open)
	line := 0.0
	if !f.filled {
		line = thickness(edges)
		worn(edges, line)
		for i := range edges { // without hatching, more ends of broken lines are taken for what is left of a step than steps are found
			edges[i].seen = edges[i].seen && f.spaces >= leastHatched
		}
		spoil(edges, line)
	}
	points, sigma := middle(edges, line)
	if len(points) < 12 {
		return foundOutline{}, fmt.Errorf("%w: no edge of ink that could be followed", ErrNothing)
	}
	if line > 0 && f.spaces < leastParted {
		points = f.spurred(e, points)
	}
	corner := geom.Pt(float64(t.box.Min.X), float64(t.box.Min.Y))
	for i := range points {
		points[i] = points[i].Add(corner)
	}
	out := foundOutline{points: points, sigma: sigma, line: line, ink: f.ink(t.box.Min, line), notes: f.notes}
	out.notes = append(out.notes, f.heavyNotes(t.box.Min)...)
	if note := bridged(edges, corner); note != "" {
		out.notes = append(out.notes, note)
	}
	if line > 0 {
		out.notes = append(out.notes, fmt.Sprintf("drawn by a line %.1f px thick; its middle is the section's edge", line))
	} else {
		out.notes = append(out.notes, "filled; the edge of the ink is the section's edge")
	}
	return out, nil
}
