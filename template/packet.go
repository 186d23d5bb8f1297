package template

import (
	"listel/miter"
	"listel/profile"
	"listel/template/sheet"
)

// A Job is all that a packet is drawn from.
type Job struct {
	Case     miter.Case
	Result   miter.Result
	Profiles map[string]profile.Profile // by name, for each profile that the case uses
	Setups   []SetupPlan                // of the sections that are molded, none to leave their sheets out
	Remains  map[string][]Remaining     // by section, what the set-ups leave for the scraper; nil when none are planned
}

// Packet returns the sheets of a case in the order of the work, numbered, the cover first: it lists those that follow.
func Packet(job Job, st Style) sheet.Document {
	parts := [][]sheet.Page{
		sectionSheets(job, st),
		CutList(job.Case, job.Result, st),
		FrameSheets(job.Result, st),
		OpeningSheets(job.Result, st),
		DentilSheets(job.Result, st),
		MiterFaces(job.Result, st),
		setupSheets(job, st),
		caseScrapers(job, st),
		CaseTemplates(job.Result, st),
		FixingSheets(job.Case, job.Result, st),
		StoryStick(job.Result, st),
		PrinterCheck(st),
	}
	var pages []sheet.Page
	for _, p := range parts {
		pages = append(pages, p...)
	}
	var titles []string
	for _, p := range pages {
		titles = append(titles, p.Frame.Title)
	}
	pages = append(Cover(job.Case, job.Result, st, titles), pages...)
	return sheet.Document{Title: job.title(), Pages: pages}.Numbered()
}

// title names the case.
func (j Job) title() string {
	if j.Case.Title != "" {
		return j.Case.Title
	}
	return j.Case.Name
}

// sectionSheets returns the sheets of every section that pieces are cut from, each once.
func sectionSheets(job Job, st Style) []sheet.Page {
	var pages []sheet.Page
	job.eachSection(func(s profile.Section, from string) {
		pages = append(pages, SectionSheet(s, job.Profiles[from], st)...)
	})
	return pages
}
