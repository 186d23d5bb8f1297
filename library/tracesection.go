package library

import (
	"image"
	"slices"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/profile/trace"
)

// sections reads what is to be traced. A section without a name of its own is called as the plate.
func sections(p *trace.Plate, d *decoder) func(value) {
	return func(v value) {
		n := v.list(maxTraced, func(i int) string { return ordinal("section", i) }, func(i int, item value) {
			w := trace.Wanted{Name: p.Name, Units: d.units}
			section(item, &w)
			if slices.ContainsFunc(p.Sections, func(o trace.Wanted) bool { return o.Name == w.Name }) {
				item.fault("two sections are named "+quoted(w.Name), "give each a name of its own: it is that of its file")
			}
			put(&p.Sections, i, w)
		})
		if n == 0 {
			v.fault("sections is an empty list", "give at least one, as in - {name: my-cornice, crop: [400, 200, 900, 800]}")
		}
	}
}

func section(v value, w *trace.Wanted) {
	v.mapping("section",
		optional("name", name(&w.Name)),
		optional("title", text(&w.Title)),
		optional("scale", name(&w.Scale)),
		optional("crop", crop(&w.Crop)),
		optional("face", oneOf(&w.Face, []choice[trace.Side]{{"right", trace.FaceRight}, {"left", trace.FaceLeft}})),
		optional("drawn", oneOf(&w.Ink, []choice[trace.Ink]{{"any", trace.AnyInk}, {"outlined", trace.Outlined}, {"filled", trace.Filled}})),
		optional("tolerance", length(&w.Tolerance, positive)),
		optional("units", units(&w.Units)),
		optional("fraction", fraction(&w.Fraction)),
		optional("parts", yesNo(&w.Parts)),
		optional("back", pixelOf(&w.Back)),
		optional("points", clicks(&w.Points)))
}

// pixelOf reads a point of the picture that need not be given.
func pixelOf(dst **geom.Point) func(value) {
	return func(v value) {
		p := geom.Point{}
		*dst = &p
		pixel(&p)(v)
	}
}

// crop reads the part of a picture that holds a section.
func crop(dst *image.Rectangle) func(value) {
	return func(v value) {
		var at [4]float64
		if !v.numbers(at[:], "four numbers of pixels, left, top, right and bottom, as in [400, 200, 900, 800]") {
			return
		}
		r := image.Rectangle{Min: image.Pt(int(at[0]), int(at[1])), Max: image.Pt(int(at[2]), int(at[3]))}
		if r.Empty() {
			v.fault("crop holds nothing", "its numbers are left, top, right and bottom: the third is more than the first, the fourth more than the second")
			return
		}
		*dst = r
	}
}

// units reads the units of one section's profile.
func units(dst *measure.Units) func(value) {
	return func(v value) {
		s, ok := v.scalar("in or mm")
		if !ok {
			return
		}
		u, err := measure.ParseUnits(s)
		if err != nil {
			v.wrong("in or mm")
			return
		}
		*dst = u
	}
}

// fraction reads what the sizes of a profile are rounded to: 16 for sixteenths.
func fraction(dst *int) func(value) {
	return func(v value) {
		n := 0
		whole(&n, 1, 64)(v)
		if n&(n-1) != 0 {
			v.wrong("it must be 1, 2, 4, 8, 16, 32 or 64")
			return
		}
		*dst = n
	}
}

// clicks reads the corners of a section, clicked in order.
func clicks(dst *[]geom.Point) func(value) {
	return func(v value) {
		n := v.list(maxClicks, func(i int) string { return ordinal("point", i) }, func(_ int, item value) {
			var p geom.Point
			pixel(&p)(item)
			*dst = append(*dst, p)
		})
		const least = 3
		if n >= 0 && n < least {
			v.fault(v.name+" has "+plain(float64(n))+" points", "at least 3 are needed: the corners of the section in order, with some along its curves")
		}
	}
}
