package sheet

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image/png"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/tdewolff/font"

	"listel/profile/geom"
)

// WriteSVG writes one page as an SVG file of the page's true size, one user unit to the millimeter. Circular and elliptic
// arcs stay arcs with their own radii. Text is written as outlines, so that it looks the same everywhere, each
// line labeled with its words. It returns the error of w, or of a page that cannot be printed.
func WriteSVG(w io.Writer, page Page) error {
	if err := page.check(); err != nil {
		return err
	}
	r := &svgWriter{height: page.Paper.Height, glyphs: map[glyphKey]bool{}}
	const usual = 1 << 15 // bytes, of a sheet of a section or of its letters
	r.body.Grow(usual)
	page.Drawing().render(r)
	if r.err != nil {
		return r.err
	}
	var out bytes.Buffer
	out.Grow(r.body.Len() + usual)
	width, height := num(page.Paper.Width, 4), num(page.Paper.Height, 4)
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" `+
		`width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n", width, height, width, height)
	if title := page.title(); title != "" {
		fmt.Fprintf(&out, "<title>%s</title>\n", escape(title))
	}
	if desc := page.description(); desc != "" {
		fmt.Fprintf(&out, "<desc>%s</desc>\n", escape(desc))
	}
	r.writeGlyphs(&out)
	if !page.Clear {
		fmt.Fprintf(&out, "<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n", width, height)
	}
	out.WriteString("<g fill=\"none\" stroke=\"#000\" stroke-linejoin=\"round\">\n")
	out.Write(r.body.Bytes())
	out.WriteString("</g>\n</svg>\n")
	_, err := w.Write(out.Bytes())
	return err
}

// A glyphKey names one character's shape.
type glyphKey struct {
	weight Weight
	id     uint16
}

// append writes the name that the shape has in the file.
func (k glyphKey) append(b []byte) []byte {
	b = append(b, "rb"[k.weight&1])
	return strconv.AppendInt(b, int64(k.id), 10)
}

// An svgWriter prints marks as SVG elements, y down from the top of the page.
type svgWriter struct {
	height float64
	body   bytes.Buffer
	glyphs map[glyphKey]bool // those in use
	err    error
}

func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a strings.Builder does not fail
	return b.String()
}

// svgGray returns the attribute value of a gray.
func svgGray(gray float64) string {
	v := int(math.Round(255 * math.Min(1, math.Max(0, gray))))
	switch v {
	case 0:
		return "#000"
	case 255:
		return "#fff"
	}
	return fmt.Sprintf("#%02x%02x%02x", v, v, v)
}

// point writes a place on the page.
func (r *svgWriter) point(b *bytes.Buffer, p geom.Point) {
	out := appendNum(b.AvailableBuffer(), p.X, 4)
	out = append(out, ' ')
	b.Write(appendNum(out, r.height-p.Y, 4))
}

// data returns the path's data. Arcs are split at 90 degrees, where the end points fix the center well: near
// 180 degrees a rounding of 0.0001 mm in them would move it by tenths.
func (r *svgWriter) data(b *bytes.Buffer, p geom.Path, fill bool) {
	for _, run := range runs(p) {
		b.WriteByte('M')
		r.point(b, run[0].Start())
		closed := fill || closedRun(run)
		for i, s := range run {
			switch s := s.(type) {
			case geom.Arc:
				r.arc(b, s, s.Radius, s.Radius, 0, s.Sweep)
			case geom.EllipticArc:
				r.arc(b, s, s.RX, s.RY, -s.Turn, s.Sweep)
			default:
				if closed && i == len(run)-1 && s.End().Near(run[0].Start(), joint) {
					continue
				}
				b.WriteByte('L')
				r.point(b, s.End())
			}
		}
		if closed {
			b.WriteByte('Z')
		}
	}
}

func (r *svgWriter) arc(b *bytes.Buffer, s geom.Segment, rx, ry float64, turn, sweep geom.Angle) {
	n := max(1, int(math.Ceil(sweep.Abs().Degrees()/90-1e-9)))
	flag := "0" // y points down in the file, so that counter-clockwise is the flag 0
	if sweep < 0 {
		flag = "1"
	}
	for i := 1; i <= n; i++ {
		end := s.End()
		if i < n {
			end = s.At(float64(i) / float64(n))
		}
		b.WriteString("A" + num(rx, 6) + " " + num(ry, 6) + " " + num(turn.Degrees(), 6) + " 0 " + flag + " ")
		r.point(b, end)
	}
}

func (r *svgWriter) stroke(path geom.Path, pen Pen) {
	b := &r.body
	b.WriteString(`<path stroke-width="` + num(pen.Width, 4) + `"`)
	if pen.Gray > 0 {
		b.WriteString(` stroke="` + svgGray(pen.Gray) + `"`)
	}
	for i, d := range pen.dashes() {
		b.WriteString([2]string{` stroke-dasharray="`, " "}[min(i, 1)] + num(d, 4))
	}
	if pen.dashes() != nil {
		b.WriteByte('"')
	}
	b.WriteString(` d="`)
	r.data(b, path, false)
	b.WriteString("\"/>\n")
}

func (r *svgWriter) fill(paths []geom.Path, rule FillRule, gray float64) {
	b := &r.body
	b.WriteString(`<path stroke="none" fill="` + svgGray(gray) + `"`)
	if rule == EvenOdd {
		b.WriteString(` fill-rule="evenodd"`)
	}
	b.WriteString(` d="`)
	for _, p := range paths {
		r.data(b, p, true)
	}
	b.WriteString("\"/>\n")
}

// text writes one use of a glyph for each character, in font units.
func (r *svgWriter) text(t Text) {
	f, b, s := t.Weight.face(), &r.body, t.printed()
	b.WriteString(`<g fill="` + svgGray(t.Gray) + `" stroke="none" aria-label="` + escape(s) + `" transform="translate(`)
	r.point(b, t.baseline())
	b.WriteByte(')')
	if a := num(-t.Angle.Degrees(), 4); a != "0" {
		b.WriteString(" rotate(" + a + ")")
	}
	k := num(t.size()*mmPerPoint/f.em, 8)
	b.WriteString(" scale(" + k + " -" + k + `)">`)
	x := 0
	for _, c := range s {
		key := glyphKey{t.Weight, f.font.SFNT.GlyphIndex(c)}
		if c != ' ' {
			r.glyphs[key] = true
			out := append(b.AvailableBuffer(), `<use xlink:href="#`...)
			out = key.append(out)
			out = append(out, `" x="`...)
			out = strconv.AppendInt(out, int64(x), 10)
			b.Write(append(out, `"/>`...))
		}
		x += int(f.font.SFNT.GlyphAdvance(key.id))
	}
	b.WriteString("</g>\n")
}

func (r *svgWriter) picture(p Picture) {
	var data bytes.Buffer
	if err := png.Encode(&data, p.Image); err != nil {
		r.err = fmt.Errorf("picture: %w", err)
		return
	}
	// The unit square y up becomes the image's unit square y down.
	m := geom.Affine{A: 1, D: -1, F: 1}.Then(p.Place).Then(geom.Affine{A: 1, D: -1, F: r.height})
	fmt.Fprintf(&r.body, `<image width="1" height="1" preserveAspectRatio="none" transform="matrix(%s %s %s %s %s %s)" xlink:href="data:image/png;base64,%s"/>`+"\n",
		num(m.A, 6), num(m.B, 6), num(m.C, 6), num(m.D, 6), num(m.E, 4), num(m.F, 4), base64.StdEncoding.EncodeToString(data.Bytes()))
}

func (r *svgWriter) open(name string) { fmt.Fprintf(&r.body, "<g class=\"%s\">\n", escape(name)) }
func (r *svgWriter) close()           { r.body.WriteString("</g>\n") }

// writeGlyphs writes the shapes of the characters in use, in a fixed order.
func (r *svgWriter) writeGlyphs(b *bytes.Buffer) {
	if len(r.glyphs) == 0 {
		return
	}
	keys := make([]glyphKey, 0, len(r.glyphs))
	for k := range r.glyphs {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b glyphKey) int {
		if a.weight != b.weight {
			return int(a.weight) - int(b.weight)
		}
		return int(a.id) - int(b.id)
	})
	b.WriteString("<defs>\n")
	for _, k := range keys {
		b.WriteString(`<path id="`)
		b.Write(k.append(b.AvailableBuffer()))
		b.WriteString(`" d="` + k.data() + "\"/>\n")
	}
	b.WriteString("</defs>\n")
}

// data returns the shape as path data.
func (k glyphKey) data() string {
	known := regularGlyphs
	if k.weight == Bold {
		known = boldGlyphs
	}
	if d, ok := known()[k.id]; ok {
		return d
	}
	return k.weight.face().glyph(k.id)
}

// The shapes of the plain letters and the usual signs as path data, by their numbers in the font, made once.
var (
	regularGlyphs = sync.OnceValue(Regular.usualGlyphs)
	boldGlyphs    = sync.OnceValue(Bold.usualGlyphs)
)

func (w Weight) usualGlyphs() map[uint16]string {
	f, out := w.face(), map[uint16]string{}
	add := func(r rune) {
		id := f.font.SFNT.GlyphIndex(r)
		out[id] = f.glyph(id)
	}
	for r := '!'; r <= '~'; r++ {
		add(r)
	}
	for _, r := range usualSigns {
		add(r)
	}
	return out
}

// glyph returns a character's shape as path data.
func (f typeface) glyph(id uint16) string {
	var b bytes.Buffer
	if err := f.font.SFNT.GlyphPath(glyphData{&b}, id, 0, 0, 0, 1, font.NoHinting); err != nil {
		panic("sheet: built-in font: " + err.Error())
	}
	return b.String()
}

// glyphData writes a character's outline as path data in font units.
type glyphData struct{ *bytes.Buffer }

func (d glyphData) put(cmd byte, vs ...float64) {
	out := append(d.AvailableBuffer(), cmd)
	for i, v := range vs {
		if i > 0 {
			out = append(out, ' ')
		}
		out = appendNum(out, v, 1)
	}
	d.Write(out)
}

func (d glyphData) MoveTo(x, y float64)                 { d.put('M', x, y) }
func (d glyphData) LineTo(x, y float64)                 { d.put('L', x, y) }
func (d glyphData) QuadTo(cx, cy, x, y float64)         { d.put('Q', cx, cy, x, y) }
func (d glyphData) CubeTo(ax, ay, bx, by, x, y float64) { d.put('C', ax, ay, bx, by, x, y) }
func (d glyphData) Close()                              { d.WriteByte('Z') }
