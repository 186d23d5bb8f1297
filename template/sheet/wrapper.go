package sheet

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"github.com/tdewolff/canvas"

	"listel/profile/geom"
)

// A wrapper prints marks on one of the drawing library's renderers.
type wrapper struct {
	to     canvas.Renderer
	raster bool                  // an image, whose renderer knows no even-odd rule; text is drawn as shapes
	faces  func(Weight) typeface // the writer's own, since the library changes a font that it makes a part of
}

// newWrapper returns a wrapper with fonts of its own, read when they are first used.
func newWrapper(to canvas.Renderer) wrapper {
	own := map[Weight]typeface{}
	return wrapper{to: to, faces: func(w Weight) typeface {
		f, ok := own[w]
		if !ok {
			f = w.load()
			own[w] = f
		}
		return f
	}}
}

// grid rounds a coordinate to 0.0001 mm, far inside what the figures ask, so that files stay small.
func grid(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

// libraryPath returns a path in the library's form, arcs as cubics. Runs that end where they began are closed, all
// of them when fill is set.
func libraryPath(p geom.Path, fill bool) *canvas.Path {
	out := &canvas.Path{}
	for _, run := range runs(p) {
		start := run[0].Start()
		out.MoveTo(grid(start.X), grid(start.Y))
		for _, s := range run {
			if line, ok := s.(geom.Line); ok {
				out.LineTo(grid(line.B.X), grid(line.B.Y))
				continue
			}
			for _, c := range cubics(s) {
				out.CubeTo(grid(c.c1.X), grid(c.c1.Y), grid(c.c2.X), grid(c.c2.Y), grid(c.end.X), grid(c.end.Y))
			}
		}
		if fill || closedRun(run) {
			out.Close()
		}
	}
	return out
}

func shade(gray float64) canvas.Paint {
	v := uint8(math.Round(255 * math.Min(1, math.Max(0, gray))))
	return canvas.Paint{Color: color.RGBA{v, v, v, 255}}
}

func (w wrapper) stroke(path geom.Path, pen Pen) {
	style := canvas.Style{
		Stroke: shade(pen.Gray), StrokeWidth: pen.Width,
		StrokeCapper: canvas.ButtCap, StrokeJoiner: canvas.RoundJoin,
	}
	for _, d := range pen.dashes() {
		style.Dashes = append(style.Dashes, d/pen.Width) // the library multiplies dashes by the width
	}
	w.to.RenderPath(libraryPath(path, false), style, canvas.Identity)
}

func (w wrapper) fill(paths []geom.Path, rule FillRule, gray float64) {
	if w.raster && rule == EvenOdd {
		paths, rule = windEvenOdd(paths), NonZero
	}
	all := &canvas.Path{}
	for _, p := range paths {
		all = all.Append(libraryPath(p, true))
	}
	style := canvas.Style{Fill: shade(gray), StrokeCapper: canvas.ButtCap, StrokeJoiner: canvas.RoundJoin}
	if rule == EvenOdd {
		style.FillRule = canvas.EvenOdd
	}
	w.to.RenderPath(all, style, canvas.Identity)
}

func (w wrapper) text(t Text) {
	if w.raster {
		t.Halo = false // it was drawn before
		t.Outlines().render(w)
		return
	}
	at := t.baseline()
	face := w.faces(t.Weight).font.Face(t.size(), shade(t.Gray))
	m := canvas.Identity.Translate(grid(at.X), grid(at.Y))
	if t.Angle != 0 {
		m = m.Rotate(t.Angle.Degrees())
	}
	w.to.RenderText(canvas.NewTextLine(face, t.printed(), canvas.Left), m)
}

// picture draws a copy, since one of the library's renderers writes on the image it is given.
func (w wrapper) picture(p Picture) {
	b := p.Image.Bounds()
	img := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(img, img.Rect, p.Image, b.Min, draw.Src)
	m := geom.Scaling(1/float64(b.Dx()), 1/float64(b.Dy())).Then(p.Place)
	w.to.RenderImage(img, canvas.Matrix{{m.A, m.C, m.E}, {m.B, m.D, m.F}})
}

func (wrapper) open(string) {}
func (wrapper) close()      {}

// windEvenOdd turns each outline so that outer ones run counter-clockwise and those inside an odd number of
// others clockwise: then both fill rules give the same, as long as no two outlines cross.
func windEvenOdd(paths []geom.Path) []geom.Path {
	flat := make([][]geom.Point, len(paths))
	for i, p := range paths {
		flat[i] = p.Flatten(0.01)
	}
	out := make([]geom.Path, len(paths))
	for i, p := range paths {
		hole := false
		for j := range paths {
			if i != j && len(flat[i]) > 0 && geom.PolygonContains(flat[j], flat[i][0]) {
				hole = !hole
			}
		}
		if (shoelace(flat[i]) > 0) == hole {
			p = p.Reverse()
		}
		out[i] = p
	}
	return out
}

// shoelace returns the polygon's area, positive when it runs counter-clockwise.
func shoelace(poly []geom.Point) float64 {
	sum := 0.0
	for i, a := range poly {
		sum += a.Cross(poly[(i+1)%len(poly)])
	}
	return sum / 2
}
