package sheet

import (
	"image"
	"image/draw"
	"math"

	"listel/profile/geom"
)

// A Picture is a raster image on the drawing. Place maps the unit square, its corner (0, 0) at the picture's
// lower left, to where the picture lies. The pixels must not be changed afterward.
type Picture struct {
	Image image.Image
	Place geom.Affine
}

// PictureIn returns the picture stretched over r.
func PictureIn(img image.Image, r geom.Rect) Picture {
	return Picture{img, geom.Affine{A: r.Width(), D: r.Height(), E: r.Min.X, F: r.Min.Y}}
}

// Bounds returns the bounds of the picture's four corners.
func (p Picture) Bounds() geom.Rect {
	r := geom.EmptyRect()
	if p.Image == nil || p.Image.Bounds().Empty() {
		return r
	}
	for _, c := range []geom.Point{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}} {
		r = r.Include(p.Place.Apply(c))
	}
	return r
}

// Transform returns the picture moved by m.
func (p Picture) Transform(m geom.Affine) Mark {
	return Picture{p.Image, p.Place.Then(m)}
}

// clip keeps the pixels that lie wholly in the window: a row or column is dropped where none does, and pixels of
// a turned picture that stick out become clear.
func (p Picture) clip(window geom.Rect) Drawing {
	if p.Bounds().Empty() || math.Abs(p.Place.Det()) < 1e-12 {
		return nil
	}
	b := p.Image.Bounds()
	w, h := float64(b.Dx()), float64(b.Dy())
	toPixel := p.Place.Inverse().Then(geom.Affine{A: w, D: -h, F: h})
	keep := geom.EmptyRect()
	for _, c := range []geom.Point{window.Min, window.Max, {X: window.Min.X, Y: window.Max.Y}, {X: window.Max.X, Y: window.Min.Y}} {
		keep = keep.Include(toPixel.Apply(c))
	}
	crop := image.Rect(int(math.Ceil(keep.Min.X-1e-6)), int(math.Ceil(keep.Min.Y-1e-6)),
		int(math.Floor(keep.Max.X+1e-6)), int(math.Floor(keep.Max.Y+1e-6))).Intersect(image.Rect(0, 0, b.Dx(), b.Dy()))
	if crop.Empty() {
		return nil
	}
	out := image.NewNRGBA(image.Rect(0, 0, crop.Dx(), crop.Dy()))
	draw.Draw(out, out.Bounds(), p.Image, b.Min.Add(crop.Min), draw.Src)
	fromPixel := toPixel.Inverse()
	if p.Place.B != 0 || p.Place.C != 0 {
		clearOutside(out, crop.Min, fromPixel, window)
	}
	part := geom.Affine{
		A: float64(crop.Dx()) / w, D: float64(crop.Dy()) / h,
		E: float64(crop.Min.X) / w, F: 1 - float64(crop.Max.Y)/h,
	}
	return Drawing{Picture{out, part.Then(p.Place)}}
}

// clearOutside clears the pixels that stick out of the window.
func clearOutside(img *image.NRGBA, at image.Point, fromPixel geom.Affine, window geom.Rect) {
	for y := 0; y < img.Rect.Dy(); y++ {
		for x := 0; x < img.Rect.Dx(); x++ {
			for _, c := range [4]image.Point{{}, {X: 1}, {Y: 1}, {X: 1, Y: 1}} {
				q := fromPixel.Apply(geom.Pt(float64(at.X+x+c.X), float64(at.Y+y+c.Y)))
				if !window.Expand(1e-6).Contains(q) {
					i := img.PixOffset(x, y)
					clear(img.Pix[i : i+4])
					break
				}
			}
		}
	}
}

func (p Picture) render(r renderer) {
	if !p.Bounds().Empty() {
		r.picture(p)
	}
}
