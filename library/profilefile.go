package library

import (
	"path/filepath"
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
	v.mapping("profile",
		optional("kind", ignore),
		optional("name", name(&p.Name)),
		optional("title", text(&p.Title)),
		optional("source", text(&p.Source)),
		optional("units", ignore),
		optional("height", length(&p.Height, positive)),
		optional("projection", length(&p.Projection, positive)),
		optional("parts", number(&p.Parts, 0.01, 10000)),
		required("ground", "5/8", size(&p.Ground, notNegative)),
		required("elements", "the members from the foot upward, as in - fillet: {height: 1/4}", elements(&p.Elements)),
		optional("back", back(&p.Back)),
	)
	if err := v.d.err(); err != nil {
		return profile.Profile{}, v.d.source, err
	}
	return p, v.d.source, nil
}

// baseName returns the name of a file without its folder and ending.
func baseName(file string) string {
	b := filepath.Base(filepath.FromSlash(file))
	return strings.TrimSuffix(b, filepath.Ext(b))
}

// ignore reads a value that was read before.
func ignore(value) {}

// elements reads the members of a profile.
func elements(dst *[]profile.Entry) func(value) {
	return func(v value) {
		n := v.list(MaxElements, func(i int) string { return ordinal("element", i) }, func(_ int, item value) {
			if e, ok := element(item); ok {
				*dst = append(*dst, e)
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
