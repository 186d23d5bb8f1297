package library

import (
	"image"
	"image/color"
	"image/draw"
)

// grayOf returns a picture in gray, laid on white where it is clear. A placed one lies where its bounds say within all, as a GIF's first
// picture may; any other fills all.
func grayOf(img image.Image, all image.Rectangle, placed bool) *image.Gray {
	if placed && img.Bounds() != all {
		out := image.NewGray(all)
		draw.Draw(out, all, image.White, image.Point{}, draw.Src)
		b := img.Bounds()
		draw.Draw(out, b, img, b.Min, draw.Over)
		return out
	}
	switch p := img.(type) {
	case *image.Gray:
		return &image.Gray{Pix: p.Pix, Stride: p.Stride, Rect: all}
	case *image.YCbCr: // of a JPEG: Y is the gray
		return &image.Gray{Pix: p.Y, Stride: p.YStride, Rect: all}
	}
	out := image.NewGray(all)
	b := img.Bounds()
	rows := func(row func(dst []byte, y int)) *image.Gray {
		for y := range all.Dy() {
			row(out.Pix[y*out.Stride:][:all.Dx()], y)
		}
		return out
	}
	switch p := img.(type) {
	case *image.Paletted:
		grays := [256]byte{}
		for i, c := range p.Palette {
			grays[i&0xff] = grayOn(c)
		}
		return rows(func(dst []byte, y int) {
			for x, v := range p.Pix[y*p.Stride:][:len(dst)] {
				dst[x] = grays[v]
			}
		})
	case *image.RGBA:
		return rows(func(dst []byte, y int) {
			for x := range dst {
				q := p.Pix[y*p.Stride+4*x:][:4:4]
				dst[x] = luma(q[0], q[1], q[2]) + (255 - q[3])
			}
		})
	}
	return rows(func(dst []byte, y int) {
		for x := range dst {
			dst[x] = grayOn(img.At(b.Min.X+x, b.Min.Y+y))
		}
	})
}

// luma returns the gray of a color, with the weights of package image/color: those of JFIF.
func luma(r, g, b byte) byte {
	return byte((19595*uint32(r) + 38470*uint32(g) + 7471*uint32(b) + 1<<15) >> 16)
}

// grayOn returns the gray of a color laid on white.
func grayOn(c color.Color) byte {
	r, g, b, a := c.RGBA()
	v := (19595*r+38470*g+7471*b+1<<15)>>16 + 0xffff - a
	return byte(v >> 8)
}

// upright returns a picture turned and mirrored as the EXIF orientation says: it is the number of the side and the edge of the picture where
// the first row and the first column of its pixels lie.
func upright(p *image.Gray, turn int) *image.Gray {
	if turn <= 1 || turn > 8 {
		return p
	}
	w, h := p.Rect.Dx(), p.Rect.Dy()
	size := image.Pt(w, h)
	if turn >= 5 {
		size = image.Pt(h, w)
	}
	out := image.NewGray(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			u, v := x, y // where that pixel is among those of p
			if turn >= 5 {
				u, v = y, x
			}
			if turn == 2 || turn == 3 || turn == 7 || turn == 8 {
				u = w - 1 - u
			}
			if turn == 3 || turn == 4 || turn == 6 || turn == 7 {
				v = h - 1 - v
			}
			out.Pix[y*out.Stride+x] = p.Pix[v*p.Stride+u]
		}
	}
	return out
}
