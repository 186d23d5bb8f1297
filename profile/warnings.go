package profile

import (
	"fmt"

	"listel/profile/measure"
)

// Warnings returns what is possible but looks like a slip, in the order of the elements; s is the section of p. A run is named whose sign
// differs from those of the runs next to it (of the two nearest on its one side, at an end of the molding), unless a step of its own sign leads into it.
// So is the member behind which the back is cut away to less than 1/8 in.
func (p Profile) Warnings(s Section) Errors {
	var out Errors
	for _, m := range strangeRuns(s.Members, p.Back.Rabbet != nil) {
		way, other := "outward", "back"
		if m.Projection < 0 {
			way, other = other, way
		}
		out = append(out, &ElementError{Index: m.Index, Kind: m.Kind, Key: "projection",
			Reason: fmt.Sprintf("it runs %s while its neighbors run %s; is the sign of its projection right?", way, other)})
	}
	if p.Parts > 0 && !p.usesParts() {
		out = append(out, &ElementError{Key: "parts", Reason: "parts are given, but no size uses them"})
	}
	if over := s.Projection - p.Projection; p.Projection > 0 && over > equalSizes {
		out = append(out, &ElementError{Key: "projection", Reason: fmt.Sprintf("a round stands out %s beyond the projection, which the run that is the rest reaches",
			spell(measure.Format{Units: p.Units}, over))})
	}
	if thin, found := newBoundary(s.boundaryLinks()).behind(s.cutAtBack, soundBack-equalSizes); found {
		f, m := measure.Format{Units: p.Units}, s.Members[thin.Member-1]
		out = append(out, &ElementError{Index: m.Index, Kind: m.Kind, Reason: fmt.Sprintf("%s leaves %s of wood behind it; under %s it may break at the cutter",
			s.cutName(), f.Length(thin.Thickness), f.Length(soundBack))})
	}
	return out
}

// soundBack is the thickness in mm, 1/8 in, that wood between a cut into the back and the face should have at least: common practice, no source.
const soundBack = measure.MMPerInch / 8

// strangeRuns returns the members whose run has another sign than its neighbors. Of two that differ it is the upper. Thumbs and scotias run back by what
// they are, and a waist, which seats a case in its rabbet, goes out and in again: its first and last runs may differ from the others.
func strangeRuns(all []Member, waist bool) []Member {
	var ms, out []Member
	for _, m := range all {
		if m.Projection != 0 && m.Kind != KindStack && m.Kind != KindThumb && m.Kind != KindScotia {
			ms = append(ms, m)
		}
	}
	differ := func(i, j int) bool {
		return ms[i].Projection < 0 != (ms[j].Projection < 0) && !(ms[i].Set*ms[i].Projection > 0)
	}
	n := len(ms)
	for i := range ms {
		switch {
		case waist && (i == 0 || i == n-1):
		case n == 2 && i == 1:
			if differ(1, 0) {
				out = append(out, ms[1])
			}
		case n < 3:
		case i == 0 && differ(0, 1) && differ(0, 2), i == n-1 && differ(i, n-2) && differ(i, n-3),
			i > 0 && i < n-1 && differ(i, i-1) && differ(i, i+1):
			out = append(out, ms[i])
		}
	}
	return out
}

// usesParts reports whether a size of the profile is in parts.
func (p Profile) usesParts() bool {
	used := p.Ground.IsParts()
	see := func(s Size) Size {
		used = used || s.IsParts()
		return s
	}
	for _, e := range p.Elements {
		e.eachSize(see)
	}
	if r := p.Back.Rabbet; r != nil {
		used = used || r.Width.IsParts() || r.Depth.IsParts()
	}
	if sp := p.Back.Spring; sp != nil {
		used = used || sp.Wall.IsParts() || sp.Top.IsParts()
	}
	return used
}
