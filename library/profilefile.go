package library

import (
	"errors"
	"path/filepath"
	"strconv"
	"strings"

	"listel/profile"
)

// LoadProfile reads a profile file. It returns the profile as its file gives it and where each key stands; whether the
// elements can be built is seen in Profile.Section, whose errors Source.Mistakes places. file names the data in messages,
// and the profile when it has no name of its own. The error is Mistakes: all that is wrong, at once.
func LoadProfile(file string, data []byte) (profile.Profile, *Source, error) {
	v, err := open(file, data, "profile")
	if err != nil {
		return profile.Profile{}, nil, err
	}
	p := profile.Profile{Name: baseName(file), Units: v.d.units}
	var at []int // the place in the file of each of p's elements
	v.mapping("profile",
		optional("kind", ignore),
		optional("name", name(&p.Name)),
		optional("title", text(&p.Title)),
		optional("source", text(&p.Source)),
		optional("family", oneOf(&p.Family, words(profile.Families()...))),
		optional("units", ignore),
		optional("height", length(&p.Height, positive)),
		optional("projection", length(&p.Projection, positive)),
		optional("parts", number(&p.Parts, 0.01, 10000)),
		required("ground", "5/8", size(&p.Ground, notNegative)),
		required("elements", "the members from the foot upward, as in - fillet: {height: 1/4}", elements(&p.Elements, &at)),
		optional("back", back(&p.Back)),
	)
	if len(v.d.mistakes) > 0 {
		v.d.elementFaults(p, at)
		return profile.Profile{}, v.d.source, v.d.err()
	}
	return p, v.d.source, nil
}

// elementFaults notes what is impossible in the elements of a profile that has mistakes, of those elements that have none: each is built by
// itself on a thick board, and only what is said of one of its keys counts.
func (d *decoder) elementFaults(p profile.Profile, at []int) {
	const board = 1000 // mm
	faulty := map[string]bool{}
	for _, m := range d.mistakes {
		if key, _, ok := strings.Cut(strings.TrimPrefix(m.Key, "elements["), "]"); ok {
			faulty[key] = true
		}
	}
	for i, e := range p.Elements {
		if d.full() {
			return
		}
		if faulty[strconv.Itoa(at[i])] || e.Height.IsRest() || e.Projection.IsRest() || e.Kind == profile.KindStack {
			continue
		}
		one := profile.Profile{Units: p.Units, Height: p.Height, Parts: p.Parts, Ground: profile.MM(board), Elements: []profile.Entry{e}}
		_, err := one.Section(nil)
		var errs profile.Errors
		errors.As(err, &errs)
		for _, fault := range errs {
			if fault.Index == 1 && fault.Key != "" && !d.full() {
				there := *fault
				there.Index = at[i] + 1
				d.mistakes = append(d.mistakes, d.source.elementMistake(&there))
			}
		}
	}
}

// baseName returns the name of a file without its folder and ending.
func baseName(file string) string {
	b := filepath.Base(filepath.FromSlash(file))
	return strings.TrimSuffix(b, filepath.Ext(b))
}

// ignore reads a value that was read before.
func ignore(value) {}

// elements reads the members of a profile, and the place in the list of each that could be read.
func elements(dst *[]profile.Entry, at *[]int) func(value) {
	return func(v value) {
		n := v.list(MaxElements, func(i int) string { return ordinal("element", i) }, func(i int, item value) {
			if e, ok := element(item); ok {
				*dst, *at = append(*dst, e), append(*at, i)
			}
		})
		if n == 0 {
			v.fault("elements is an empty list", "give at least one, as in - fillet: {height: 1/4}")
		}
	}
}

// back reads what is done to the back.
func back(dst *profile.Back) func(value) {
	return func(v value) {
		if !v.mapping("back", optional("rabbet", rabbet(dst)), optional("spring", spring(dst))) {
			return
		}
		if dst.Rabbet != nil && dst.Spring != nil {
			v.fault("back has a rabbet and a spring", "one of them: a sprung molding has no rabbet")
		}
	}
}

func rabbet(dst *profile.Back) func(value) {
	return func(v value) {
		r := &profile.Rabbet{}
		dst.Rabbet = r
		v.mapping("rabbet",
			required("at", "top", oneOf(&r.At, []choice[profile.RabbetPlace]{{"top", profile.AtTop}, {"foot", profile.AtFoot}})),
			required("width", "1/2", size(&r.Width, positive)),
			required("depth", "3/8", size(&r.Depth, positive)))
	}
}

func spring(dst *profile.Back) func(value) {
	return func(v value) {
		s := &profile.Spring{}
		dst.Spring = s
		ok := v.mapping("spring",
			required("angle", "38deg", angle(&s.Angle, 0, 90)),
			optional("wall", size(&s.Wall, notNegative)),
			optional("top", size(&s.Top, notNegative)))
		if ok && v.child("wall") != nil && v.child("top") != nil {
			v.fault("spring has wall and top", "give one; the other follows from it")
		}
		if ok && v.child("wall") == nil && v.child("top") == nil {
			v.fault("spring has neither wall nor top", "give the width of one bearing flat, as in wall: 1/4")
		}
	}
}
