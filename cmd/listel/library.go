package main

import (
	"fmt"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile/measure"
)

type libraryOptions struct {
	commonOptions
	drawOptions
	arg string
}

func newLibraryCmd(app App) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "library",
		Short: "Look through the profiles, woods, papers and lumber at hand",
		Long: `The library holds what listel brings along and what you add: files beside your case come first, then those in your own
library folder, then those that listel brings.`,
		Example: "  listel library list profile\n  listel library show ionic-impost",
		Args:    noArgs,
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newLibraryListCmd(app, runLibraryList), newLibraryShowCmd(app, runLibraryShow))
	return cmd
}

func newLibraryListCmd(app App, run func(App, libraryOptions) error) *cobra.Command {
	var o libraryOptions
	var kinds []string
	for _, k := range library.Kinds() {
		kinds = append(kinds, string(k))
	}
	cmd := &cobra.Command{
		Use:       "list [KIND]",
		Short:     "List what the library holds, with sizes and sources",
		Long:      fmt.Sprintf("List prints the entries of one kind, or of all. The kinds are %s.", joined(kinds)),
		Example:   "  listel library list profile\n  listel library list --json",
		Args:      takes(0, 1, "at most one KIND"),
		ValidArgs: kinds,
		RunE: func(_ *cobra.Command, args []string) error {
			o.arg = first(args)
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	return cmd
}

// joined returns words as "a, b and c".
func joined(words []string) string {
	s := ""
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			s += " and "
		default:
			s += ", "
		}
		s += w
	}
	return s
}

func runLibraryList(app App, o libraryOptions) error {
	lengths, err := o.commonOptions.format(measure.Inches)
	if err != nil {
		return err
	}
	kinds, err := kindsNamed(o.arg)
	if err != nil {
		return err
	}
	lib := library.Open(".", app.UserFolder)
	all := []library.Listing{}
	for _, k := range kinds {
		all = append(all, lib.List(k)...)
	}
	if o.json {
		return app.printJSON(all)
	}
	t := tabwriter.NewWriter(app.Out, 0, 0, 2, ' ', 0)
	last := library.Kind("")
	for _, e := range all {
		if e.Kind != last {
			if last != "" {
				fmt.Fprintln(t)
			}
			fmt.Fprintf(t, "%s\theight\tprojection\ttitle\tsource\twhere\n", e.Kind)
			last = e.Kind
		}
		title := e.Title
		if e.Fault != "" {
			title = "cannot be used: " + e.Fault
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n", e.Name, sizeWords(lengths, e.Height), sizeWords(lengths, e.Projection), title, e.Source, e.Origin)
	}
	return t.Flush()
}

// sizeWords returns a length, "" for 0.
func sizeWords(f measure.Format, mm float64) string {
	if mm == 0 {
		return ""
	}
	return f.Length(mm)
}

// kindsNamed returns the kind that name spells, all for "".
func kindsNamed(name string) ([]library.Kind, error) {
	if name == "" {
		return library.Kinds(), nil
	}
	var names []string
	for _, k := range library.Kinds() {
		if string(k) == name || string(k)+"s" == name {
			return []library.Kind{k}, nil
		}
		names = append(names, string(k))
	}
	if near := library.Near(name, names); near != "" {
		return nil, wrongUse("unknown kind %q; %s?", name, near)
	}
	return nil, wrongUse("unknown kind %q; the kinds are %s", name, joined(names))
}

func newLibraryShowCmd(app App, run func(App, libraryOptions) error) *cobra.Command {
	var o libraryOptions
	cmd := &cobra.Command{
		Use:   "show NAME",
		Short: "Show one profile: its members, sizes, source, and a drawing when asked",
		Long: `Show prints the members of a profile of the library, as section does. With --out or --format it draws it full
size.`,
		Example:           "  listel library show ionic-impost\n  listel library show ionic-impost --out impost.svg",
		ValidArgsFunction: app.completes(library.KindProfile),
		Args:              takes(1, 1, "one NAME"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.arg = args[0]
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	return cmd
}

func runLibraryShow(app App, o libraryOptions) error {
	return runSection(app, sectionOptions{commonOptions: o.commonOptions, drawOptions: o.drawOptions, sizeOptions: sizeOptions{scale: 1}, profile: o.arg})
}
