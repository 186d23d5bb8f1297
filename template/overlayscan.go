package template

import (
	"image"
	"math"
	"slices"

	"listel/profile/geom"
	"listel/profile/trace"
	"listel/template/sheet"
)

// scanDots bounds the dots of a scan on a sheet, so that a file of it stays small.
const scanDots = 700_000

// scanUnder returns the part of a picture that lies in a window of the section's plane, brought into that plane, as it lies under other lines:
// so light that black shows on it. window is in mm of wood, k the scale it is drawn at. It is nil where the picture has no part there.
func scanUnder(p *image.Gray, pixels trace.Mapping, window geom.Rect, k float64) sheet.Drawing {
	if p == nil || window.Empty() {
		return nil
	}
	fine := pixels.Size(window.Center()) // px to the mm of wood
	dots := min(fine*1.2, 12*k, math.Sqrt(scanDots/(window.Width()*window.Height())))
	if !(dots > 0) || math.IsInf(dots, 0) {
		return nil
	}
	w, h := int(math.Ceil(window.Width()*dots)), int(math.Ceil(window.Height()*dots))
	out := image.NewGray(image.Rect(0, 0, max(1, w), max(1, h)))
	box := max(1, int(math.Round(fine/dots))) // px that one dot stands for
	for y := range h {
		for x := range w {
			q := pixels.Apply(geom.Pt(window.Min.X+(float64(x)+0.5)*window.Width()/float64(w), window.Max.Y-(float64(y)+0.5)*window.Height()/float64(h)))
			out.Pix[y*out.Stride+x] = shade(p, q, box)
		}
	}
	lighten(out)
	place := geom.Rect{Min: window.Min.Mul(k), Max: window.Max.Mul(k)}
	return sheet.Drawing{sheet.PictureIn(out, place)}
}

// shade returns the gray of a picture round a place in px, the mean of box by box pixels; white outside.
func shade(p *image.Gray, q geom.Point, box int) byte {
	if !(math.Abs(q.X) < 1e9 && math.Abs(q.Y) < 1e9) {
		return 255
	}
	if box == 1 {
		return between(p, q.X-0.5, q.Y-0.5)
	}
	sum := 0
	x0, y0 := int(math.Floor(q.X-float64(box)/2+0.5)), int(math.Floor(q.Y-float64(box)/2+0.5))
	for j := range box {
		for i := range box {
			sum += int(grayAt(p, x0+i, y0+j))
		}
	}
	return byte(sum / (box * box))
}

// between returns the gray between the four pixels round a place.
func between(p *image.Gray, x, y float64) byte {
	i, j := int(math.Floor(x)), int(math.Floor(y))
	fx, fy := x-float64(i), y-float64(j)
	top := float64(grayAt(p, i, j))*(1-fx) + float64(grayAt(p, i+1, j))*fx
	low := float64(grayAt(p, i, j+1))*(1-fx) + float64(grayAt(p, i+1, j+1))*fx
	return byte(math.Round(top*(1-fy) + low*fy))
}

func grayAt(p *image.Gray, x, y int) byte {
	if !image.Pt(x, y).In(p.Rect) {
		return 255
	}
	return p.GrayAt(x, y).Y
}

// lighten makes the paper of a scan white and its ink a middle gray, in few shades.
func lighten(p *image.Gray) {
	sorted := slices.Clone(p.Pix)
	slices.Sort(sorted)
	paper, ink := float64(sorted[len(sorted)*3/4]), float64(sorted[len(sorted)/200])
	if paper-ink < 40 { // hardly any ink: nothing to stretch
		ink = paper - 200
	}
	const darkest, shades = 0.45, 12.0 // of the ink on the sheet; from white to it
	var to [256]byte
	for v := range to {
		dark := min(1, max(0, (paper-8-float64(v))/(paper-8-ink)))
		to[v] = byte(math.Round(255 * (1 - darkest*math.Round(dark*shades)/shades)))
	}
	for i, v := range p.Pix {
		p.Pix[i] = to[v]
	}
}
