package template

import (
	"listel/miter"
	"listel/profile"
	"listel/template/sheet"
)

// Molded returns the sections that the case's pieces are molded to, each once, in the order of the moldings: those to plan set-ups for.
func (j Job) Molded() []profile.Section {
	var out []profile.Section
	j.eachSection(func(s profile.Section, _ string) { out = append(out, s) })
	return out
}

// eachSection visits every section that pieces are cut from, each once, with the name of its profile.
func (j Job) eachSection(visit func(s profile.Section, from string)) {
	seen := map[string]bool{}
	once := func(s profile.Section, from string) {
		if !seen[s.Name] {
			seen[s.Name] = true
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
		pages = append(pages, SetupSheets(p, st)...)
	}
	return pages
}
