package template

import (
	"listel/miter"
	"listel/profile"
	"listel/template/sheet"
)

// Molded returns the sections that the case's pieces are molded to, each once, in the order of the moldings: those to plan set-ups for. The titles
// tell the several sections of one molding apart.
func (j Job) Molded() []profile.Section {
	told := map[string]string{}
	for _, m := range j.Result.Moldings {
		for _, u := range m.Sections {
			told[u.Section.Name] = partOf(m, u)
		}
	}
	var out []profile.Section
	j.eachSection(func(s profile.Section, _ string) {
		if part := told[s.Name]; part != "" {
			s.Title = sectionTitle(s) + ", " + part
		}
		out = append(out, s)
	})
	return out
}

// partOf names the part of a molding that is cut to one of its sections, "" for the profile itself where no part of it rakes.
func partOf(m miter.MoldingResult, u miter.UsedSection) string {
	switch u.Role {
	case miter.RoleNarrowed:
		return "narrowed, " + ListWords(u.Runs)
	case miter.RoleRaking:
		return "the raking part"
	case miter.RoleTopReturn:
		return "its top returns"
	}
	if m.Rake != nil {
		return "the level part"
	}
	return ""
}

// eachSection visits every section that pieces are cut from, each once, with the name of its profile.
func (j Job) eachSection(visit func(s profile.Section, from string)) {
	seen := map[string]bool{}
	once := func(s profile.Section, from string) {
		if key := s.Name + " " + string(s.BlankWay); !seen[key] {
			seen[key] = true
			visit(s, from)
		}
	}
	for _, m := range j.Result.Moldings {
		for _, u := range m.Sections {
			if len(u.Runs) > 0 && u.Role != miter.RoleRail { // a rail is a plain board
				once(u.Section, m.Profile)
			}
		}
	}
	for _, p := range j.Result.Beads {
		if p.Section != nil {
			once(*p.Section, p.Profile)
		}
	}
}

// setupSheets returns the sheets of every plan of set-ups.
func setupSheets(job Job, st Style) []sheet.Page {
	var pages []sheet.Page
	for _, p := range job.Setups {
		p.Safe = job.Case.Shop.Safe
		pages = append(pages, SetupSheets(p, st)...)
	}
	return pages
}
