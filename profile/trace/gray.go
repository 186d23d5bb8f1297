package trace

import (
	"image"
	"image/color"
)

// A gray is a picture in shades, or the crop of one: 0 is black.
type gray struct {
	box    image.Rectangle // where it lies in the picture, px
	stride int
	pix    []uint8
}

// grayOf returns the part of img within box in shades, without copying where img has them already.
func grayOf(img image.Image, box image.Rectangle) gray {
	box = box.Intersect(img.Bounds())
	if g, ok := img.(*image.Gray); ok {
		return gray{box, g.Stride, g.Pix[g.PixOffset(box.Min.X, box.Min.Y):]}
	}
	if y, ok := img.(*image.YCbCr); ok { // its luma is what a gray picture has
		return gray{box, y.YStride, y.Y[y.YOffset(box.Min.X, box.Min.Y):]}
	}
	g := gray{box, box.Dx(), make([]uint8, box.Dx()*box.Dy())}
	shade := shader(img)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row := g.pix[(y-box.Min.Y)*g.stride:][:box.Dx()]
		for x := range row {
			row[x] = shade(x+box.Min.X, y)
		}
	}
	return g
}

// shader returns how to get the shade of a pixel of img. What is transparent lets white paper through.
func shader(img image.Image) func(x, y int) uint8 {
	switch p := img.(type) {
	case *image.RGBA:
		return func(x, y int) uint8 {
			i := p.PixOffset(x, y)
			return luma(p.Pix[i], p.Pix[i+1], p.Pix[i+2]) + 255 - p.Pix[i+3]
		}
	case *image.NRGBA:
		return func(x, y int) uint8 {
			i := p.PixOffset(x, y)
			return over(luma(p.Pix[i], p.Pix[i+1], p.Pix[i+2]), p.Pix[i+3])
		}
	case *image.Gray16:
		return func(x, y int) uint8 { return p.Pix[p.PixOffset(x, y)] }
	case *image.Paletted:
		var shades [256]uint8
		for i, c := range p.Palette[:min(len(p.Palette), 256)] {
			shades[i] = shadeOf(c)
		}
		return func(x, y int) uint8 { return shades[p.Pix[p.PixOffset(x, y)]] }
	}
	return func(x, y int) uint8 { return shadeOf(img.At(x, y)) }
}

// shadeOf returns the shade of c on white paper.
func shadeOf(c color.Color) uint8 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return over(luma(n.R, n.G, n.B), n.A)
}

// luma returns the lightness of a color as ITU-R BT.601 weighs it, which is also what a JPEG's gray is.
func luma(r, g, b uint8) uint8 {
	return uint8((19595*uint32(r) + 38470*uint32(g) + 7471*uint32(b) + 1<<15) >> 16)
}

// over returns a shade with opacity a laid on white.
func over(shade, a uint8) uint8 {
	return uint8((uint32(shade)*uint32(a) + 255*(255-uint32(a)) + 127) / 255)
}

// at returns the shade of the pixel (x, y) of the crop, the nearest one outside.
func (g gray) at(x, y int) uint8 {
	x, y = min(max(x, 0), g.box.Dx()-1), min(max(y, 0), g.box.Dy()-1)
	return g.pix[y*g.stride+x]
}
