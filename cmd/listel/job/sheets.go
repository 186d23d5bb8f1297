package job

import (
	"fmt"
	"path/filepath"
	"strings"

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

// PagePath returns the path of sheet i (from 0) of n: press.svg, or press-03.svg when there are several.
func PagePath(path string, i, n int) string {
	if n == 1 {
		return path
	}
	ext := filepath.Ext(path)
	width := len(fmt.Sprint(n))
	return fmt.Sprintf("%s-%0*d%s", strings.TrimSuffix(path, ext), max(2, width), i+1, ext)
}
