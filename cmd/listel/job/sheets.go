package job

import (
	"listel/template"
	"listel/template/sheet"
)

// SectionSheets returns the section full size with its dimensions, numbered.
func (p Profile) SectionSheets(style template.Style) sheet.Document {
	return sheet.Document{Title: p.Title(), Pages: template.SectionSheet(p.Section, p.Profile, style)}.Numbered()
}

// TemplateSheets returns the full-size templates of the section for both hands, numbered.
func (p Profile) TemplateSheets(style template.Style) sheet.Document {
	return sheet.Document{Title: p.Title() + ": template", Pages: template.FullSize(p.Section, style)}.Numbered()
}

// SetupSheets returns the sheets of a plan of set-ups for the profile, numbered.
func (p Profile) SetupSheets(plan template.SetupPlan, style template.Style) sheet.Document {
	return sheet.Document{Title: p.Title() + ": set-ups", Pages: template.SetupSheets(plan, style)}.Numbered()
}
