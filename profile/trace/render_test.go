package trace_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/vector"

	"listel/profile/geom"
)

// A scan is how a drawn section is put on paper and scanned. It shares no code with the tracer: areas are covered by the rasterizer
// of x/image, lines are stroked here.
type scan struct {
	dpi     float64
	scale   float64 // of the drawing, 1 for full size
	style   style
	turn    geom.Angle // counter-clockwise
	stretch float64    // across, relative
	blur    float64    // px, one standard deviation
	noise   float64    // shades, one standard deviation
	tone    float64    // shades by which the paper darkens over the page
	breaks  int        // gaps in the outline
	gap     float64    // px, their width
	dims    bool       // dimension and leader lines that touch and cross it
	quality int        // of a JPEG, 0 for none
	left    bool       // mirrored, the face to the left
	pen     float64    // mm on paper, 0.5 when 0
	spread  float64    // mm on paper, by which the ink has run beyond what pen or brush laid down
	hatch   [2]float64 // mm on paper: thickness and distance of the hatching, half the pen and 1.6 when 0
	seed    uint64
}

type style int

const (
	outlined style = iota
	hatched
	filled
)

func (s style) String() string { return [...]string{"outlined", "hatched", "filled"}[s] }

// A page is a scan under way.
type page struct {
	scan
	w, h   int
	toPx   func(geom.Point) geom.Point // section coordinates, mm
	cover  []float64                   // how much of each pixel is ink
	weight float64                     // mm on paper in px
}

// margin is the paper round the section, mm on paper.
const margin = 14

// lay returns an empty page for an outline.
func (s scan) lay(outline geom.Path) *page {
	if s.pen == 0 {
		s.pen = 0.5
	}
	k := s.dpi / 25.4
	b := outline.Bounds()
	mid := b.Center()
	p := &page{scan: s, weight: k}
	p.w = int(((b.Max.X-b.Min.X)*s.scale*(1+s.stretch) + 2*margin) * k)
	p.h = int(((b.Max.Y-b.Min.Y)*s.scale + 2*margin) * k)
	p.toPx = func(q geom.Point) geom.Point {
		v := q.Sub(mid)
		if s.left {
			v.X = -v.X
		}
		sin, cos := math.Sincos(float64(s.turn))
		v = geom.Pt(v.X*cos-v.Y*sin, v.X*sin+v.Y*cos)
		return geom.Pt(float64(p.w)/2+v.X*k*s.scale*(1+s.stretch), float64(p.h)/2-v.Y*k*s.scale)
	}
	p.cover = make([]float64, p.w*p.h)
	return p
}

// ink covers polygons (px), each of them whole.
func (p *page) ink(polygons [][]geom.Point) {
	r := vector.NewRasterizer(p.w, p.h)
	for _, poly := range polygons {
		if geom.PolygonArea(poly) < 0 { // one sense, so that what overlaps adds up
			for i, j := 0, len(poly)-1; i < j; i, j = i+1, j-1 {
				poly[i], poly[j] = poly[j], poly[i]
			}
		}
		for i, q := range poly {
			if i == 0 {
				r.MoveTo(float32(q.X), float32(q.Y))
			} else {
				r.LineTo(float32(q.X), float32(q.Y))
			}
		}
		r.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, p.w, p.h))
	r.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	for i, a := range mask.Pix {
		p.cover[i] = math.Max(p.cover[i], float64(a)/255)
	}
}

// penned returns the polygons of a line of a thickness through points (px), with round ends.
func penned(points []geom.Point, thick float64) [][]geom.Point {
	var out [][]geom.Point
	for i, q := range points {
		var disc []geom.Point
		for j := range 24 {
			a := 2 * math.Pi * float64(j) / 24
			disc = append(disc, q.Add(geom.Pt(math.Cos(a), math.Sin(a)).Mul(thick/2)))
		}
		out = append(out, disc)
		if i == 0 || q == points[i-1] {
			continue
		}
		n := q.Sub(points[i-1]).Unit().Left().Mul(thick / 2)
		out = append(out, []geom.Point{points[i-1].Add(n), q.Add(n), q.Sub(n), points[i-1].Sub(n)})
	}
	return out
}

// render draws the outline (mm, section coordinates) and scans it.
func (s scan) render(t testing.TB, outline geom.Path) (image.Image, *page) {
	p := s.lay(outline)
	p.draw(outline)
	return p.scanned(t), p
}

// draw inks the outline and what goes with it.
func (p *page) draw(outline geom.Path) {
	pts := outline.Flatten(0.005)
	px := make([]geom.Point, len(pts))
	for i, q := range pts {
		px[i] = p.toPx(q)
	}
	rng := rand.New(rand.NewPCG(p.seed, 8))
	if p.style == filled {
		p.ink([][]geom.Point{px})
		if p.spread > 0 {
			p.ink(penned(append(px, px[0]), 2*p.spread*p.weight))
		}
	} else {
		p.ink(penned(append(px, px[0]), (p.pen+2*p.spread)*p.weight))
		for range p.breaks {
			p.erase(outline, rng)
		}
	}
	if p.style == hatched {
		p.hatching(px)
	}
	if p.dims {
		p.dimension(outline.Bounds())
	}
}

// erase takes the ink away across the outline, at a place by chance.
func (p *page) erase(outline geom.Path, rng *rand.Rand) {
	s := rng.Float64() * float64(len(outline))
	at := p.toPx(outline.At(s))
	r := int(p.gap + p.pen*p.weight)
	for y := max(0, int(at.Y)-r); y < min(p.h, int(at.Y)+r); y++ {
		for x := max(0, int(at.X)-r); x < min(p.w, int(at.X)+r); x++ {
			if geom.Pt(float64(x)+0.5, float64(y)+0.5).Dist(at) < p.gap/2+p.pen*p.weight/2 {
				d := p.toPx(outline.At(s).Add(outline.Tangent(s))).Sub(at).Unit()
				if math.Abs(geom.Pt(float64(x)+0.5, float64(y)+0.5).Sub(at).Dot(d)) < p.gap/2 {
					p.cover[y*p.w+x] = 0
				}
			}
		}
	}
}

// hatching draws lines at 45 degrees within the polygon.
func (p *page) hatching(poly []geom.Point) {
	thick, apart := p.hatch[0], p.hatch[1]
	if thick == 0 {
		thick, apart = p.pen/2, 1.6
	}
	step := apart * p.weight * math.Sqrt2
	var lines [][]geom.Point
	for c := -float64(p.h); c < float64(p.w); c += step { // x - y = c
		var ts []float64
		for i, a := range poly {
			b := poly[(i+1)%len(poly)]
			da, db := a.X-a.Y-c, b.X-b.Y-c
			if (da < 0) != (db < 0) {
				ts = append(ts, a.Lerp(b, da/(da-db)).X)
			}
		}
		for i := range ts {
			for j := i; j > 0 && ts[j] < ts[j-1]; j-- {
				ts[j], ts[j-1] = ts[j-1], ts[j]
			}
		}
		for i := 0; i+1 < len(ts); i += 2 {
			lines = append(lines, penned([]geom.Point{geom.Pt(ts[i], ts[i]-c), geom.Pt(ts[i+1], ts[i+1]-c)}, thick*p.weight)...)
		}
	}
	p.ink(lines)
}

// dimension draws the height on the left with extension lines that touch the section, the breadth below with lines that stop short of
// it, and a leader that crosses its edge.
func (p *page) dimension(b geom.Rect) {
	mm := 1 / p.scale // on paper, in section coordinates
	thin := 0.45 * p.pen * p.weight
	line := func(pts ...geom.Point) {
		px := make([]geom.Point, len(pts))
		for i, q := range pts {
			px[i] = p.toPx(q)
		}
		p.ink(penned(px, thin))
	}
	x := b.Min.X - 6*mm
	line(geom.Pt(b.Min.X, b.Min.Y), geom.Pt(x-1*mm, b.Min.Y))
	line(geom.Pt(b.Min.X, b.Max.Y), geom.Pt(x-1*mm, b.Max.Y))
	line(geom.Pt(x, b.Min.Y), geom.Pt(x, b.Max.Y))
	p.arrow(geom.Pt(x, b.Max.Y), geom.Pt(0, 1), mm)
	p.arrow(geom.Pt(x, b.Min.Y), geom.Pt(0, -1), mm)
	y := b.Min.Y - 6*mm
	line(geom.Pt(b.Min.X, b.Min.Y-1*mm), geom.Pt(b.Min.X, y-1*mm))
	line(geom.Pt(b.Max.X, b.Min.Y-1*mm), geom.Pt(b.Max.X, y-1*mm))
	line(geom.Pt(b.Min.X, y), geom.Pt(b.Max.X, y))
	p.arrow(geom.Pt(b.Min.X, y), geom.Pt(-1, 0), mm)
	p.arrow(geom.Pt(b.Max.X, y), geom.Pt(1, 0), mm)
	mid := b.Center()
	line(geom.Pt(mid.X*0.6, mid.Y), geom.Pt(b.Max.X+4*mm, mid.Y+8*mm), geom.Pt(b.Max.X+9*mm, mid.Y+8*mm))
}

// arrow fills an arrowhead.
func (p *page) arrow(tip, way geom.Point, mm float64) {
	back := tip.Sub(way.Mul(2.2 * mm))
	n := way.Left().Mul(0.4 * mm)
	p.ink([][]geom.Point{{p.toPx(tip), p.toPx(back.Add(n)), p.toPx(back.Sub(n))}})
}

// scanned returns the page as a scanner sees it.
func (p *page) scanned(t testing.TB) image.Image {
	cover := p.cover
	if p.blur > 0 {
		cover = blurred(cover, p.w, p.h, p.blur)
	}
	rng := rand.New(rand.NewPCG(p.seed, 9))
	img := image.NewGray(image.Rect(0, 0, p.w, p.h))
	for y := range p.h {
		for x := range p.w {
			paper := 236 - p.tone*(float64(x)/float64(p.w)+0.5*math.Sin(float64(y)/float64(p.h)*3))
			paper += p.tone / 8 * math.Sin(float64(x)/7) * math.Sin(float64(y)/9)
			v := paper + (38-paper)*cover[y*p.w+x] + p.noise*rng.NormFloat64()
			img.SetGray(x, y, color.Gray{Y: uint8(math.Min(255, math.Max(0, v+0.5)))})
		}
	}
	if p.quality == 0 {
		return img
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, &jpeg.Options{Quality: p.quality}))
	out, err := jpeg.Decode(&b)
	require.NoError(t, err)
	return out
}

// blurred returns a field under a Gaussian of one standard deviation sigma px.
func blurred(f []float64, w, h int, sigma float64) []float64 {
	n := int(math.Ceil(3 * sigma))
	bell := make([]float64, 2*n+1)
	sum := 0.0
	for i := range bell {
		d := float64(i - n)
		bell[i] = math.Exp(-d * d / (2 * sigma * sigma))
		sum += bell[i]
	}
	pass := func(src []float64, dx, dy int) []float64 {
		out := make([]float64, len(src))
		for y := range h {
			for x := range w {
				for i, b := range bell {
					u := min(max(x+(i-n)*dx, 0), w-1)
					v := min(max(y+(i-n)*dy, 0), h-1)
					out[y*w+x] += src[v*w+u] * b / sum
				}
			}
		}
		return out
	}
	return pass(pass(f, 1, 0), 0, 1)
}
