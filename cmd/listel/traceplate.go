package main

import (
	"image"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// plateOptions say of a picture what a trace file would, for a single section.
type plateOptions struct {
	scales, bars, known []string
	level, plumb        string
	crop, points        string
	face, drawn         string
	name, title         string
	tolerance           string
	back                string
	parts               bool
	given               []string // the names of those that were given
	fractionGiven       bool     // --fraction was given: it holds for the profile too
}

// plateFlags are the names of the options of plateOptions.
var plateFlags = [...]string{"scale", "bar", "known", "level", "plumb", "crop", "points", "face", "drawn", "name", "title", "tolerance", "back", "parts"}

func (o *plateOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringArrayVar(&o.scales, "scale", nil, "two pixels and the true length between them, \"`X,Y X,Y LENGTH`\"; several, across and up, correct a stretched scan")
	f.StringArrayVar(&o.bars, "bar", nil, "rough ends of a printed scale bar, its length and, if known, its divisions: \"`X,Y X,Y LENGTH N`\"")
	f.StringArrayVar(&o.known, "known", nil, "a pixel and its true place, x to the right and y up, \"`X,Y = X,Y`\"; three or more correct a turn, four a photograph taken aslant")
	f.StringVar(&o.level, "level", "", "two pixels, \"`X,Y X,Y`\", of a line that is level")
	f.StringVar(&o.plumb, "plumb", "", "two pixels, \"`X,Y X,Y`\", of a line that is plumb")
	f.StringVar(&o.crop, "crop", "", "the part of the picture with the section, `LEFT,TOP,RIGHT,BOTTOM` (default: all)")
	f.StringVar(&o.points, "points", "", "the section's corners in order, \"`X,Y X,Y ...`\", in place of its ink")
	f.StringVar(&o.face, "face", "right", "the side that the face is on: `right or left`")
	f.StringVar(&o.drawn, "drawn", "any", "how the section is drawn: `any, outlined or filled`")
	f.StringVar(&o.back, "back", "", "a pixel, `X,Y`, of the plumb back, where the drawing is broken off or left open there")
	f.BoolVar(&o.parts, "parts", false, "write the sizes in parts of the height, where they come out whole or half ones")
	f.StringVar(&o.name, "name", "", "`NAME` of the profile (default: that of the picture)")
	f.StringVar(&o.title, "title", "", "`TITLE` of the profile")
	f.StringVar(&o.tolerance, "tolerance", "", "`LENGTH` that the profile may be off the drawing before that is said (default: by the scan)")
}

// givenPlateFlags returns the names of the options of plateOptions that were given.
func givenPlateFlags(cmd *cobra.Command) []string {
	var out []string
	cmd.Flags().Visit(func(f *pflag.Flag) {
		for _, name := range plateFlags {
			if f.Name == name {
				out = append(out, name)
			}
		}
	})
	return out
}

// parse returns the scale and the section that the options give; bare lengths are in units.
func (o plateOptions) parse(units measure.Units) (trace.Scale, trace.Wanted, error) {
	var s trace.Scale
	w := trace.Wanted{Units: units}
	if len(o.scales)+len(o.bars)+len(o.known) == 0 {
		return s, w, wrongUse("how large is the section? give --scale \"X,Y X,Y LENGTH\", two pixels and the true length between them, or --bar or --known")
	}
	for _, text := range o.scales {
		from, to, rest, err := twoPixels("scale", text)
		if err != nil {
			return s, w, err
		}
		mm, err := lengthAfter("scale", text, rest, units)
		if err != nil {
			return s, w, err
		}
		s.Lengths = append(s.Lengths, trace.Length{From: from, To: to, MM: mm})
	}
	if len(o.bars) > 1 {
		return s, w, wrongUse("--bar is given %d times; a section has one bar, and --scale takes the lengths of others", len(o.bars))
	}
	for _, text := range o.bars {
		b, err := parseBar(text, units)
		if err != nil {
			return s, w, err
		}
		s.Bar = &b
	}
	for _, text := range o.known {
		p, err := parseKnown(text, units)
		if err != nil {
			return s, w, err
		}
		s.Points = append(s.Points, p)
	}
	for _, l := range []struct {
		name, text string
		dst        **trace.Line
	}{{"level", o.level, &s.Level}, {"plumb", o.plumb, &s.Plumb}} {
		if l.text == "" {
			continue
		}
		from, to, rest, err := twoPixels(l.name, l.text)
		if err != nil || len(rest) > 0 {
			return s, w, wrongUse("--%s %q; it must be two pixels, \"X,Y X,Y\"", l.name, l.text)
		}
		*l.dst = &trace.Line{From: from, To: to}
	}
	return s, w, o.section(&w)
}

// section reads what the options say of the section.
func (o plateOptions) section(w *trace.Wanted) error {
	if o.crop != "" {
		at, ok := pixelNumbers(o.crop, 4)
		if !ok {
			return wrongUse("--crop %q; it must be LEFT,TOP,RIGHT,BOTTOM in pixels", o.crop)
		}
		w.Crop = image.Rectangle{Min: image.Pt(int(at[0]), int(at[1])), Max: image.Pt(int(at[2]), int(at[3]))}
		if w.Crop.Dx() <= 0 || w.Crop.Dy() <= 0 {
			return wrongUse("--crop %s holds nothing; it is LEFT,TOP,RIGHT,BOTTOM", o.crop)
		}
	}
	for _, text := range strings.Fields(o.points) {
		p, ok := parsePixel(text)
		if !ok {
			return wrongUse("--points: %q is no pixel; it must be X,Y", text)
		}
		w.Points = append(w.Points, p)
	}
	sides := map[string]trace.Side{"right": trace.FaceRight, "left": trace.FaceLeft}
	inks := map[string]trace.Ink{"any": trace.AnyInk, "outlined": trace.Outlined, "filled": trace.Filled}
	var ok bool
	if w.Face, ok = sides[o.face]; !ok {
		return wrongUse("--face %q; it must be right or left", o.face)
	}
	if w.Ink, ok = inks[o.drawn]; !ok {
		return wrongUse("--drawn %q; it must be any, outlined or filled", o.drawn)
	}
	if strings.ContainsAny(o.name, `/\:"`) || strings.HasPrefix(o.name, ".") {
		return wrongUse("--name %q is no name: use letters, digits and hyphens, and --out for the place", o.name)
	}
	w.Parts = o.parts
	if o.back != "" {
		p, ok := parsePixel(o.back)
		if !ok {
			return wrongUse("--back %q; it must be a pixel of the back, X,Y", o.back)
		}
		w.Back = &p
	}
	if o.tolerance == "" {
		return nil
	}
	var err error
	if w.Tolerance, err = measure.ParsePositive(o.tolerance, w.Units); err != nil {
		return wrongUse("--tolerance: %w", err)
	}
	return nil
}

// parseBar reads a scale bar: two pixels, a length and, at the end, how many divisions it has.
func parseBar(text string, units measure.Units) (trace.Bar, error) {
	var b trace.Bar
	var rest []string
	var err error
	if b.From, b.To, rest, err = twoPixels("bar", text); err != nil {
		return b, err
	}
	if n := len(rest); n > 1 {
		if d, err := strconv.Atoi(rest[n-1]); err == nil && d > 0 && strings.ContainsAny(rest[n-2], "abcdefghijklmnopqrstuvwxyz'\"") {
			b.Divisions, rest = d, rest[:n-1]
		}
	}
	b.MM, err = lengthAfter("bar", text, rest, units)
	return b, err
}

// lengthAfter reads the true length that follows two pixels.
func lengthAfter(flag, text string, rest []string, units measure.Units) (float64, error) {
	if len(rest) == 0 {
		return 0, wrongUse("--%s %q: the true length is missing after the two pixels, as in %q", flag, text, text+" 3in")
	}
	mm, err := measure.ParsePositive(strings.Join(rest, " "), units)
	if err != nil {
		return 0, wrongUse("--%s %q: %w", flag, text, err)
	}
	return mm, nil
}

// parseKnown reads a pixel and its true place.
func parseKnown(text string, units measure.Units) (trace.Fixed, error) {
	var p trace.Fixed
	at, place, ok := strings.Cut(text, "=")
	x, y, two := strings.Cut(place, ",")
	var pixel bool
	if p.Pixel, pixel = parsePixel(at); !ok || !two || !pixel {
		return p, wrongUse("--known %q; it must be a pixel and its true place, \"X,Y = X,Y\"", text)
	}
	for _, c := range []struct {
		text string
		dst  *float64
	}{{x, &p.True.X}, {y, &p.True.Y}} {
		var err error
		if *c.dst, err = measure.ParseLength(strings.TrimSpace(c.text), units); err != nil {
			return p, wrongUse("--known %q: %w", text, err)
		}
	}
	return p, nil
}

// twoPixels reads the two pixels that a text begins with, and returns the rest of its words.
func twoPixels(flag, text string) (from, to geom.Point, rest []string, err error) {
	words := strings.Fields(text)
	if len(words) >= 2 {
		var ok1, ok2 bool
		from, ok1 = parsePixel(words[0])
		to, ok2 = parsePixel(words[1])
		if ok1 && ok2 {
			return from, to, words[2:], nil
		}
	}
	return from, to, nil, wrongUse("--%s %q; it must begin with two pixels, \"X,Y X,Y\"", flag, text)
}

// parsePixel reads X,Y.
func parsePixel(text string) (geom.Point, bool) {
	at, ok := pixelNumbers(text, 2)
	if !ok {
		return geom.Point{}, false
	}
	return geom.Pt(at[0], at[1]), true
}

// pixelNumbers reads n numbers of pixels with commas between them.
func pixelNumbers(text string, n int) ([]float64, bool) {
	parts := strings.Split(text, ",")
	if len(parts) != n {
		return nil, false
	}
	out := make([]float64, n)
	for i, s := range parts {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil || !(v >= 0 && v <= 1e6) || math.IsNaN(v) {
			return nil, false
		}
		out[i] = v
	}
	return out, true
}
