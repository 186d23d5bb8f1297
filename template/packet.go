package template

import (
	"fmt"

	"listel/miter"
	"listel/profile"
	"listel/template/sheet"
)

// A Job is all that a packet is drawn from.
type Job struct {
	Case     miter.Case
	Result   miter.Result
	Profiles map[string]profile.Profile // by name, for each profile that the case uses
	Stock    *Cutting                   // what to buy and how to cut it, nil to leave its sheets out
	Setups   []SetupPlan                // of the sections that are molded, none to leave their sheets out
}

// Packet returns the sheets of a case in the order of the work, numbered, the cover first: it lists those that follow. Moldings are made in long
// strips and the pieces cut from them, never the other way, so the pieces come after the set-ups.
func Packet(job Job, st Style) sheet.Document {
	parts := []packetPart{
		{"Sections", sectionSheets(job, st)},
		{"What to buy and how to cut it", stockSheetsOf(job, st)},
		{"Set-ups", setupSheets(job, st)},
		{"Scrapers and gauges", caseScrapers(job, st)},
		{"Templates", CaseTemplates(job.Result, st)},
		{"Pieces to cut and the saw", CutList(job.Case, job.Result, st)},
		{"Miter faces", MiterFaces(job.Result, st)},
		{"Splines", SplineSheets(job.Result, st)},
		{"Frame", FrameSheets(job.Result, st)},
		{"Openings and beads", OpeningSheets(job.Result, st)},
		{"Dentils", DentilSheets(job.Result, st)},
		{"Fixing and movement", FixingSheets(job.Case, job.Result, st)},
		{"Story stick", StoryStick(job.Result, st)},
		{printerCheckPart, PrinterCheck(st)},
	}
	var pages []sheet.Page
	var contents []Content
	for _, p := range parts {
		if len(p.pages) > 0 {
			for i := range p.pages {
				p.pages[i].Part = p.name
			}
			pages = append(pages, p.pages...)
			contents = append(contents, Content{p.name, len(p.pages)})
		}
	}
	pages = append(Cover(job.Case, job.Result, st, contents), pages...)
	return sheet.Document{Title: job.Case.Heading(), Pages: pages}.Numbered()
}

// printerCheckPart is the part that the cover sends the reader to first.
const printerCheckPart = "Printer check"

// A packetPart is the sheets of one part of the work.
type packetPart struct {
	name  string
	pages []sheet.Page
}

// sectionSheets returns the sheets of every section that pieces are cut from, each once.
func sectionSheets(job Job, st Style) []sheet.Page {
	times := map[string]int{}
	job.eachSection(func(s profile.Section, _ string) { times[s.Name]++ })
	var pages []sheet.Page
	job.eachSection(func(s profile.Section, from string) {
		if times[s.Name] > 1 {
			s = WithBlank(s)
		}
		pages = append(pages, SectionSheet(s, job.Profiles[from], st)...)
	})
	return pages
}

// WithBlank returns the section with its blank in its title, for a case that makes it from both.
func WithBlank(s profile.Section) profile.Section {
	s.Title = fmt.Sprintf("%s, %s blank", sectionTitle(s), s.BlankWay)
	return s
}
