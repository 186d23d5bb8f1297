package main

import (
	"errors"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/template"
	"listel/template/sheet"
)

func newTemplateCmd(app App, run func(App, profileOptions) error) *cobra.Command {
	var o profileOptions
	cmd := &cobra.Command{
		Use:   "template PROFILE|CASE",
		Short: "Draw full-size templates to cut out and scribe from",
		Long: `Template draws the section of a profile full size for both hands, on as many tiles as it needs. For a CASE it draws
every section that the case uses, and the miter faces.`,
		Example:           "  listel template press-cornice\n  listel template herb-press --paper A4 --out templates/",
		ValidArgsFunction: app.completes(library.KindProfile, library.KindExample),
		Args:              takes(1, 1, "one PROFILE or CASE"),
	}
	o.on(app, cmd, func() error { return run(app, o) })
	return cmd
}

func runTemplate(app App, o profileOptions) error {
	kind, err := app.kindOf(o.profile)
	if err != nil {
		return err
	}
	if kind == library.KindCase {
		return caseTemplates(app, o)
	}
	l, lengths, err := o.load(app)
	if err != nil {
		return err
	}
	style, err := o.style(app, lengths, l.From())
	if err != nil {
		return err
	}
	app.warn(l)
	return app.finish(l.TemplateSheets(style), o.json, o.drawOptions, l.Section.Name+"-template")
}

// caseTemplates draws the sections that a case uses, and its miter faces.
func caseTemplates(app App, o profileOptions) error {
	if o.sizeOptions != (sizeOptions{scale: 1}) {
		return usageError{errors.New("--scale, --height and --projection are for a PROFILE; a case takes its profiles as they are")}
	}
	l, err := app.loadCase(o.profile)
	if err != nil {
		return err
	}
	style, err := o.styleFor(app, o.commonOptions, l.Case.Units, l.From())
	if err != nil {
		return err
	}
	pages := append(template.CaseTemplates(l.Result, style), template.MiterFaces(l.Result, style)...)
	doc := sheet.Document{Title: l.Title() + ": templates", Pages: pages}
	return app.finish(doc, o.json, o.drawOptions, l.Case.Name+"-templates")
}
