package miter

import "listel/profile"

// FromBlanks returns the result with the blanks of its sprung sections as way tells them; those of which it says nothing stay as they are. The
// result itself is not changed.
func (r Result) FromBlanks(way func(profile.Section) profile.BlankWay) Result {
	made := map[*profile.Section]*profile.Section{} // pieces of one section stay so
	from := func(s *profile.Section) *profile.Section {
		if s == nil || s.Spring == nil {
			return s
		}
		if made[s] == nil {
			next := *s
			if w := way(next); w != profile.BlankEither {
				next = next.From(w)
			}
			made[s] = &next
		}
		return made[s]
	}
	r.Moldings = append([]MoldingResult{}, r.Moldings...)
	for i := range r.Moldings {
		m := &r.Moldings[i]
		m.Sections, m.Pieces = append([]UsedSection{}, m.Sections...), append([]Piece{}, m.Pieces...)
		for k := range m.Sections {
			m.Sections[k].Section = *from(&m.Sections[k].Section)
		}
		for k := range m.Pieces {
			m.Pieces[k].Section = from(m.Pieces[k].Section)
		}
	}
	return r
}
