package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
	"listel/template/sheet"
)

type showOptions struct {
	libraryOptions
	construction bool
}

func newLibraryShowCmd(app App, run func(App, showOptions) error) *cobra.Command {
	var o showOptions
	cmd := &cobra.Command{
		Use:   "show NAME",
		Short: "Show an entry: a profile, a set of tools, a wood, a paper, a thickness",
		Long: `Show prints an entry of any kind with its sizes, its source and where it was found. With --out or --format it draws a profile, full size
and dimensioned, or a case with its moldings.

With --construction it draws how an element is constructed, with compass centers, radii and angles: NAME is an element such as ovolo or
scotia, a profile for the elements that it uses, or all.`,
		Example:           "  listel library show ionic-impost\n  listel library show ionic-impost --out impost.svg\n  listel library show \"black cherry\"\n  listel library show ovolo --construction",
		ValidArgsFunction: app.completes(library.Kinds()...),
		Args:              takes(1, 1, "one NAME"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.arg = args[0]
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	cmd.Flags().BoolVar(&o.construction, "construction", false, "draw how an element is constructed")
	return cmd
}

func runLibraryShow(app App, o showOptions) error {
	if o.construction {
		return showConstruction(app, o)
	}
	lib := app.library(o.arg)
	kind, err := app.kindOf(o.arg)
	switch {
	case err == nil && kind == library.KindProfile:
		return runSection(app, profileOptions{commonOptions: o.commonOptions, drawOptions: o.drawOptions, sizeOptions: sizeOptions{scale: 1}, profile: o.arg})
	case err == nil && kind == library.KindCase && o.asked():
		return drawCase(app, o)
	case err == nil && kind == library.KindCase:
		return showCase(app, lib, o)
	case o.asked():
		return wrongUse("only a profile and a case are drawn; without --out and --format, %q is shown as a table", o.arg)
	}
	if shown, err := showTools(app, lib, o); shown || err != nil {
		return err
	}
	if shown, err := showListed(app, lib, o); shown || err != nil { // 8/4 is a name though it looks like a path
		return err
	}
	if err != nil && !errors.As(err, new(*library.NotFoundError)) {
		return err
	}
	return asUse(lib.NoEntry(o.arg))
}

// drawCase draws a case with its moldings in elevation and plan.
func drawCase(app App, o showOptions) error {
	l, err := app.loadCase(o.arg)
	if err != nil {
		return err
	}
	style, err := o.styleFor(app, o.commonOptions, l.Case.Units, l.From())
	if err != nil {
		return err
	}
	doc := sheet.Document{Title: l.Title(), Pages: template.Cover(l.Case, l.Result, style, nil)}
	return app.finish(doc, o.json, o.drawOptions, l.Case.Name)
}

// showCase prints the file of a case.
func showCase(app App, lib *library.Library, o showOptions) error {
	if isPath(o.arg) {
		return wrongUse("%s is a file already; library show is for names", o.arg)
	}
	text, origin, err := lib.Text(library.KindCase, o.arg)
	if err != nil {
		return asUse(err)
	}
	if o.json {
		c, _, err := library.LoadCase(origin.File, text)
		if err != nil {
			return err
		}
		return app.printJSON(map[string]any{"kind": "case", "name": c.Name, "title": c.Title, "wood": c.Wood, "origin": origin, "text": string(text)})
	}
	_, err = fmt.Fprintf(app.Out, "# from: %s\n%s", origin, text)
	return err
}

// showTools prints a set of tools, and reports whether there is one of the name.
func showTools(app App, lib *library.Library, o showOptions) (bool, error) {
	set, origin, err := lib.Tools(o.arg)
	if errors.As(err, new(*library.NotFoundError)) {
		return false, nil
	}
	if err != nil {
		return true, err
	}
	lengths, err := o.lengths(set.Units)
	if err != nil {
		return true, err
	}
	if o.json {
		return true, app.printJSON(map[string]any{"kind": "tool", "name": set.Name, "title": set.Title, "source": set.Source, "origin": origin, "tools": set.Tools})
	}
	fmt.Fprintf(app.Out, "%s (%s)\n%s\nsource: %s\n\n", set.Title, set.Name, origin, set.Source)
	t := tabwriter.NewWriter(app.Out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "tool\tkind\tfor\tacross\tradius\tcuts deep at most\tat one pass")
	for _, tool := range set.Tools {
		deep := tool.Reach
		if tool.Works() == cutter.Router && tool.Length > 0 {
			deep = min(deep, tool.Length)
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", tool.Name, tool.Kind, tool.Works(), sizeWords(lengths, tool.Across()), sizeWords(lengths, tool.Radius),
			sizeWords(lengths, deep), sizeWords(lengths, tool.PerPass))
	}
	return true, t.Flush()
}

// showConstruction draws how the elements that arg names are constructed.
func showConstruction(app App, o showOptions) error {
	lengths, err := o.lengths(measure.Inches)
	if err != nil {
		return err
	}
	kinds, from, err := elementsNamed(app, o.arg)
	if err != nil {
		return err
	}
	if o.json {
		all := []template.Construction{}
		for _, k := range kinds {
			all = append(all, template.Constructions(k)...)
		}
		if err := app.printJSON(all); err != nil || !o.asked() {
			return err
		}
	}
	style, err := o.style(app, lengths, from)
	if err != nil {
		return err
	}
	doc := sheet.Document{Title: "How it is drawn: " + o.arg, Pages: template.ConstructionSheets(kinds, style)}
	stem := strings.TrimSuffix(strings.TrimSuffix(lastOf(o.arg), ".yaml"), ".yml")
	return app.writeDocument(doc.Numbered(), o.drawOptions, stem+"-construction")
}

// lastOf returns a path without its folders.
func lastOf(path string) string { return path[strings.LastIndexAny(path, `/\`)+1:] }

// elementsNamed returns the kinds of elements that a word names, or all, or those of a profile; and what stands on the sheet as their source.
func elementsNamed(app App, arg string) ([]profile.Kind, string, error) {
	if arg == "all" {
		return profile.Kinds(), "", nil
	}
	for _, k := range profile.Kinds() {
		if string(k) == strings.ToLower(arg) {
			return []profile.Kind{k}, "", nil
		}
	}
	l, err := app.loadProfile(arg)
	var missing *library.NotFoundError
	if errors.As(err, &missing) {
		var names []string
		for _, k := range profile.Kinds() {
			names = append(names, string(k))
		}
		if near := library.Near(arg, names); near != "" {
			return nil, "", wrongUse("no element named %q; %s?", arg, near)
		}
	}
	if err != nil {
		return nil, "", err
	}
	var kinds []profile.Kind
	for _, m := range l.Section.Members {
		if !slices.Contains(kinds, m.Kind) {
			kinds = append(kinds, m.Kind)
		}
	}
	return kinds, l.From(), nil
}
