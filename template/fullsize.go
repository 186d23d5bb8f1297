package template

import (
	"listel/miter"
	"listel/profile"
	"listel/template/sheet"
)

// A Templated is a section to make a full-size template of.
type Templated struct {
	Section profile.Section
	Note    string // what it is for, under its title; "" for nothing
	Face    bool   // it is the sawn face of a miter, not the section
	Rail    bool   // it is the back rail of a frame, which has the wall behind it and no case
}

// FullSize returns the sheets with the full-size templates of a section, one for each end of a piece, on tiles where the paper
// does not hold them. The pages are not yet numbered. On paper too small for a frame, larger paper is taken.
func FullSize(s profile.Section, st Style) []sheet.Page {
	return FullSizeAll([]Templated{{Section: s}}, st)
}

// FullSizeAll is FullSize for several sections: small ones share a sheet. None give no pages.
func FullSizeAll(all []Templated, st Style) []sheet.Page {
	var sets []patternSet
	for _, t := range all {
		sets = append(sets, sectionPatterns(t))
	}
	title := "Templates"
	if len(sets) == 1 {
		title = sets[0].title + ": template"
	}
	return layPatterns(sets, st.frame(title, templatePurpose, ""), st)
}

const templatePurpose = "Glue to thin stiff stock, cut to the middle of the heavy dashed line, mark the back and which way is up"

// CaseTemplates returns the templates of every section that a case uses, narrowed and raking ones among them, each once.
func CaseTemplates(r miter.Result, st Style) []sheet.Page {
	var all []Templated
	seen := map[string]bool{}
	add := func(t Templated) {
		if !seen[t.Section.Name] {
			seen[t.Section.Name] = true
			all = append(all, t)
		}
	}
	for _, m := range r.Moldings {
		for _, u := range m.Sections {
			add(Templated{Section: u.Section, Note: roleNote(m.Name, u.Role), Rail: u.Role == miter.RoleRail})
		}
	}
	for _, p := range r.Beads {
		if p.Section != nil {
			add(Templated{Section: *p.Section, Note: "bead round the openings"})
		}
	}
	return FullSizeAll(all, st)
}

// roleNote says what a section is to the molding that uses it.
func roleNote(molding string, role miter.Role) string {
	s := "for the " + molding
	switch role {
	case miter.RoleNarrowed:
		s += ", where it reaches less far"
	case miter.RoleRaking:
		s += ", square to the slope"
	case miter.RolePlumbCut:
		s += ", the raking piece cut plumb"
	case miter.RoleTopReturn:
		s += ", the return at the peak"
	}
	return s
}

// How near a section and itself turned over must be to count as one, mm: what a printed line cannot show.
const sameTemplate = 0.01

// sectionPatterns returns the templates of a section: for the left and the right end of a piece, or one for both when it is its own
// mirror.
func sectionPatterns(t Templated) patternSet {
	s := t.Section
	title := sectionTitle(s)
	left := pattern{outline: s.Outline, gap: s.Gap, name: title, note: t.Note, hand: "left end, seen from the left", short: "left end", rail: t.Rail}
	if s.OwnMirror(sameTemplate) {
		left.hand, left.short = "either end: for the right end turn it over", "either end"
		return patternSet{title, []pattern{left}}
	}
	right := left
	right.outline, right.gap, right.mirrored = s.Outline.MirrorX(), nil, true
	if s.Gap != nil {
		right.gap = s.Gap.MirrorX()
	}
	right.hand, right.short = "right end, seen from the right", "right end"
	return patternSet{title, []pattern{left, right}}
}
