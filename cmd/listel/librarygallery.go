package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

func newLibraryGalleryCmd(app App, run func(App, libraryOptions) error) *cobra.Command {
	var o libraryOptions
	cmd := &cobra.Command{
		Use:   "gallery [WORD...]",
		Short: "Draw the profiles on a few pages, to choose from by looking",
		Long: `Gallery draws all profiles at hand to one scale, by family, with their names, heights and projections. With words it draws those that
find would find.`,
		Example:           "  listel library gallery\n  listel library gallery cornice --out cornices.pdf\n  listel library gallery cove fillet --paper A4",
		ValidArgsFunction: findWords,
		RunE: func(_ *cobra.Command, args []string) error {
			o.words = args
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	return cmd
}

func runLibraryGallery(app App, o libraryOptions) error {
	style, err := o.styleFor(app, o.commonOptions, measure.Inches, "")
	if err != nil {
		return err
	}
	lib := library.Open(".", app.UserFolder)
	shown := lib.Shown(lib.Find(o.words))
	if len(shown) == 0 {
		return wrongUse("nothing found for %s; library list profile shows all", strings.Join(o.words, " "))
	}
	style.Source = fmt.Sprintf("%d profiles", len(shown))
	hung := make([]template.Hung, len(shown))
	own := false
	for i, s := range shown {
		hung[i] = template.Hung{Section: s.Section, Family: profile.Family(s.Family), Name: s.Name}
		if where := s.Origin.Where; where != library.Embedded {
			hung[i].Origin, own = map[library.Where]string{library.Project: "in this folder", library.User: "in your library"}[where], true
		}
	}
	if own {
		style.Source += "; where nothing else is said, of the embedded library"
	} else {
		style.Source += " of the embedded library"
	}
	title := "Moldings"
	if len(o.words) > 0 {
		title += ": " + strings.Join(o.words, " ")
	}
	doc := sheet.Document{Title: title, Pages: template.Gallery(hung, title, style)}.Numbered()
	return app.finish(doc, o.json, o.drawOptions, "moldings")
}
