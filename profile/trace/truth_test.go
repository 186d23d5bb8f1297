package trace_test

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/geom"
	"listel/profile/trace"
)

// known returns the scale of a page as its maker would measure it: a length across and one up.
func (p *page) known() trace.Scale {
	k := p.weight * p.scan.scale
	return trace.Scale{Name: "s", Lengths: []trace.Length{
		{From: geom.Pt(10, 10), To: geom.Pt(10+50*k*(1+p.stretch), 10), MM: 50},
		{From: geom.Pt(10, 10), To: geom.Pt(10, 10+50*k), MM: 50},
	}}
}

func TestLook(t *testing.T) {
	lib := library.Open("", "")
	only := os.Getenv("LOOK")
	for _, l := range lib.List(library.KindProfile) {
		if only != "" && !strings.Contains(l.Name, only) {
			continue
		}
		sec, err := lib.SectionOf(l.Name)
		require.NoError(t, err)
		for _, s := range []scan{
			{dpi: 300, scale: 1, style: outlined, blur: 0.8, noise: 4, tone: 20},
			{dpi: 300, scale: 1, style: hatched, blur: 0.8, noise: 4, tone: 20},
			{dpi: 300, scale: 1, style: filled, blur: 0.8, noise: 4, tone: 20},
			{dpi: 300, scale: 1, style: hatched, blur: 0.8, noise: 4, tone: 20, turn: 2 * geom.Degree, stretch: 0.01, breaks: 3, gap: 4, dims: true, quality: 80},
			{dpi: 300, scale: 0.5, style: hatched, blur: 0.8, noise: 4, tone: 20, turn: 2 * geom.Degree, stretch: 0.01, breaks: 3, gap: 4, dims: true, quality: 80},
			{dpi: 150, scale: 0.5, style: outlined, blur: 0.8, noise: 4, tone: 20},
		} {
			img, p := s.render(t, sec.Outline)
			outline, pixels, notes, err := trace.Drawing(img, trace.Plate{Scales: []trace.Scale{p.known()}, Sections: []trace.Wanted{{Name: l.Name}}})
			if os.Getenv("LOOKPNG") != "" {
				f, _ := os.Create(fmt.Sprintf("/tmp/t2-%s-%v-%v-%v.png", l.Name, s.style, s.dpi, s.scale))
				png.Encode(f, img)
				f.Close()
			}
			if err != nil {
				fmt.Println(l.Name, s.style, s.dpi, s.scale, s.dims, "ERR", err)
				continue
			}
			if os.Getenv("LOOKPNG") != "" {
				over := image.NewRGBA(image.Rect(0, 0, 2*img.Bounds().Dx(), 2*img.Bounds().Dy()))
				for y := range over.Rect.Max.Y {
					for x := range over.Rect.Max.X {
						over.Set(x, y, img.At(x/2, y/2))
					}
				}
				for _, seg := range outline {
					n := 1 + int(seg.Length()*40)
					for i := range n {
						q := pixels.Apply(seg.At(float64(i) / float64(n)))
						over.Set(int(q.X*2), int(q.Y*2), color.RGBA{255, 0, 0, 255})
					}
				}
				f, _ := os.Create(fmt.Sprintf("/tmp/t2-%s-%v-%v-%v-over.png", l.Name, s.style, s.dpi, s.scale))
				png.Encode(f, over)
				f.Close()
			}
			a, b := apart(outline, sec)
			fmt.Printf("%-28s %-9v %v %v dims %v greatest %.3f mean %.3f  %s\n", l.Name, s.style, s.dpi, s.scale, s.dims, a, b, strings.Join(notes, "; "))
		}
	}
}

// apart returns the greatest and the mean distance of two outlines, both ways, mm.
func apart(got geom.Path, want profile.Section) (greatest, mean float64) {
	n := 0
	for _, pair := range [][2]geom.Path{{got, want.Outline}, {want.Outline, got}} {
		for _, s := range pair[0] {
			steps := 1 + int(s.Length()/0.2)
			for i := range steps {
				_, _, d := pair[1].Nearest(s.At(float64(i) / float64(steps)))
				greatest = math.Max(greatest, d)
				mean += d
				n++
			}
		}
	}
	return greatest, mean / float64(n)
}
