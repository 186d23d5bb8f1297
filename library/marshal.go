package library

import (
	"fmt"
	"math"
	"math/big"
	"reflect"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"listel/profile"
	"listel/profile/geom"
	"listel/profile/measure"
)

// MarshalProfile returns p as the text of a profile file, as a person would write it: sizes as fractions of an inch or
// as millimeters after p's units, an element a line. What it returns loads as p, exactly but for the last bits of an angle; the
// error says why p cannot be written, such as a size that is not a number.
func MarshalProfile(p profile.Profile) ([]byte, error) {
	w := &profileWriter{units: p.Units}
	w.line("kind: profile")
	w.line("name: " + scalarText(p.Name))
	if p.Title != "" {
		w.line("title: " + scalarText(p.Title))
	}
	if p.Source != "" {
		w.line("source: " + scalarText(p.Source))
	}
	if p.Family != "" {
		w.line("family: " + string(p.Family))
	}
	w.line("units: " + p.Units.String())
	if p.Height != 0 {
		w.line("height: " + w.length(p.Height))
	}
	if p.Projection != 0 {
		w.line("projection: " + w.length(p.Projection))
	}
	if p.Parts != 0 {
		w.line("parts: " + countText(p.Parts))
	}
	w.line("ground: " + w.size(p.Ground))
	w.line("elements:")
	for _, e := range p.Elements {
		w.line("  - " + string(e.Kind) + ": " + w.element(e))
	}
	w.back(p.Back)
	out := []byte(w.String())
	again, _, err := LoadProfile(p.Name+".yaml", out)
	if err != nil {
		return nil, fmt.Errorf("the profile cannot be written: %w", err)
	}
	if s, t := again.Back.Spring, p.Back.Spring; s != nil && t != nil && s.Angle.Near(t.Angle, angleBits) {
		s.Angle = t.Angle
	}
	if !reflect.DeepEqual(again, p) {
		return nil, fmt.Errorf("the profile cannot be written: it holds what a file does not say")
	}
	return out, nil
}

// A profileWriter writes a profile file.
type profileWriter struct {
	strings.Builder
	units measure.Units
}

func (w *profileWriter) line(s string) { w.WriteString(s + "\n") }

// pairs collects the keys of a group in braces.
type pairs []string

func (p *pairs) add(key, value string) { *p = append(*p, key+": "+value) }

func (p pairs) String() string { return "{" + strings.Join(p, ", ") + "}" }

// sizes adds a size under its key, unless it is left out.
func (w *profileWriter) sizes(p *pairs, key string, s profile.Size) {
	if s.Given() {
		p.add(key, w.size(s))
	}
}

// element returns the sizes of an element in braces.
func (w *profileWriter) element(e profile.Entry) string {
	var p pairs
	if e.Profile != "" {
		p.add("profile", Scalar(e.Profile))
	}
	w.sizes(&p, "height", e.Height)
	w.sizes(&p, "projection", e.Projection)
	w.sizes(&p, "set", e.Set)
	if e.Curve != "" {
		p.add("curve", string(e.Curve))
	}
	w.sizes(&p, "radius", e.Radius)
	if e.Count != 0 {
		p.add("count", strconv.Itoa(e.Count))
	}
	w.sizes(&p, "block", e.Block)
	w.sizes(&p, "gap", e.Gap)
	w.sizes(&p, "depth", e.Depth)
	w.sizes(&p, "fillet", e.Fillet)
	if e.Flush {
		p.add("flush", "true")
	}
	if d := e.Drip; d != nil {
		var q pairs
		w.sizes(&q, "width", d.Width)
		w.sizes(&q, "depth", d.Depth)
		w.sizes(&q, "inset", d.Inset)
		p.add("drip", q.String())
	}
	if b := e.Quirk; b != nil {
		var q pairs
		w.sizes(&q, "width", b.Width)
		w.sizes(&q, "depth", b.Depth)
		if side, ok := map[profile.Sides]string{profile.AboveOnly: "above", profile.BelowOnly: "below"}[b.Sides]; ok {
			q.add("sides", side)
		}
		p.add("quirk", q.String())
	}
	if e.Points != nil {
		p.add("points", w.points(e.Points))
	}
	return p.String()
}

func (w *profileWriter) points(points []profile.CurvePoint) string {
	var out []string
	for _, c := range points {
		var p pairs
		w.sizes(&p, "x", c.X)
		w.sizes(&p, "y", c.Y)
		if c.Through != nil {
			p.add("through", "["+w.size(c.Through[0])+", "+w.size(c.Through[1])+"]")
		}
		out = append(out, p.String())
	}
	return "[" + strings.Join(out, ", ") + "]"
}

func (w *profileWriter) back(b profile.Back) {
	if b.Rabbet == nil && b.Spring == nil {
		return
	}
	w.line("back:")
	if r := b.Rabbet; r != nil {
		var p pairs
		p.add("at", map[profile.RabbetPlace]string{profile.AtTop: "top", profile.AtFoot: "foot"}[r.At])
		w.sizes(&p, "width", r.Width)
		w.sizes(&p, "depth", r.Depth)
		w.line("  rabbet: " + p.String())
	}
	if s := b.Spring; s != nil {
		var p pairs
		p.add("angle", angleText(s.Angle))
		w.sizes(&p, "wall", s.Wall)
		w.sizes(&p, "top", s.Top)
		w.line("  spring: " + p.String())
	}
}

// size returns a size as a file gives it.
func (w *profileWriter) size(s profile.Size) string {
	switch {
	case s.IsRest():
		return "rest"
	case s.IsParts():
		return countText(s.In(1)) + "p"
	}
	return w.length(s.In(0))
}

// length returns a length as a file in w.units gives it, such that it reads as the same float64.
func (w *profileWriter) length(mm float64) string {
	reads := func(text string) bool {
		got, err := measure.ParseLength(text, w.units)
		return err == nil && got == mm
	}
	inch := func(unit string) string {
		for den := int64(1); den <= 1024; den *= 2 {
			if text := measure.Mixed(big.NewRat(int64(math.Round(mm/measure.MMPerInch*float64(den))), den)) + unit; reads(text) {
				return text
			}
		}
		return ""
	}
	decimal := func(x float64, most int, unit string) string {
		for places := range most + 1 {
			if text := strconv.FormatFloat(x, 'f', places, 64) + unit; reads(text) {
				return text
			}
		}
		return ""
	}
	if !(math.Abs(mm) <= measure.Limit) {
		return strconv.FormatFloat(mm, 'f', -1, 64)
	}
	tries := []func() string{
		func() string { return inch("") },
		func() string { return decimal(mm/measure.MMPerInch, 3, "") }, // 0.995 in is 25.273 mm to the last bit, and nobody wrote that
		func() string { return decimal(mm, 3, "mm") },
		func() string { return decimal(mm/measure.MMPerInch, 6, "") },
	}
	if w.units == measure.Millimeters {
		tries = []func() string{func() string { return decimal(mm, 4, "") }, func() string { return inch("in") }}
	}
	for _, try := range tries {
		if text := try(); text != "" {
			return text
		}
	}
	return strconv.FormatFloat(mm, 'f', -1, 64) + "mm"
}

// countText returns a plain number as a whole number with a fraction of small denominator, or else as a decimal, such
// that it reads as the same float64.
func countText(x float64) string {
	const most = 64
	for den := int64(1); den <= most && math.Abs(x) < 1e9; den++ {
		r := big.NewRat(int64(math.Round(x*float64(den))), den)
		if f, _ := r.Float64(); f == x {
			return measure.Mixed(r)
		}
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// angleBits is how far an angle may be from what its file says: a few last bits of a float64, since degrees are not what it is held in.
const angleBits = geom.Angle(1e-15)

// angleText returns an angle in degrees with the fewest decimals that read as the same angle.
func angleText(a geom.Angle) string {
	text := ""
	for places := range 18 {
		text = strconv.FormatFloat(a.Degrees(), 'f', places, 64) + "deg"
		if got, err := measure.ParseAngle(text); err == nil && got.Near(a, angleBits) {
			break
		}
	}
	return text
}

// scalarText returns a text as YAML writes it behind a key on a line of its own: plain where that reads the same, else in quotes, line breaks kept. Within
// braces or brackets a comma would end it: Scalar serves there.
func scalarText(s string) string {
	plain, err := yaml.Marshal(s)
	if text := strings.TrimSuffix(string(plain), "\n"); err == nil && !strings.ContainsAny(text, "\r\n") {
		return text
	}
	return strconv.Quote(s)
}
