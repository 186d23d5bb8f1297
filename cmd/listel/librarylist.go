package main

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile/measure"
	"listel/template"
)

func newLibraryListCmd(app App, run func(App, libraryOptions) error) *cobra.Command {
	var o libraryOptions
	var kinds []string
	for _, k := range library.Kinds() {
		kinds = append(kinds, string(k))
	}
	cmd := &cobra.Command{
		Use:       "list [KIND]",
		Short:     "List what the library holds, with sizes and sources",
		Long:      fmt.Sprintf("List prints the entries of one kind, or of all. The kinds are %s.", template.ListWords(kinds)),
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

func runLibraryList(app App, o libraryOptions) error {
	lengths, err := o.lengths(measure.Inches)
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
			fmt.Fprintln(t, listHead(e.Kind))
			last = e.Kind
		}
		fmt.Fprintln(t, listRow(e, lengths))
	}
	return t.Flush()
}

// listHead returns the head of the columns of a kind.
func listHead(k library.Kind) string {
	if k == library.KindProfile {
		return "profile\theight\tprojection\tfamily\tmembers from the foot\ttitle\tsource\twhere"
	}
	return string(k) + "\ttitle\tsource\twhere"
}

// listRow returns the row of an entry.
func listRow(e library.Listing, lengths measure.Format) string {
	title := e.Title
	if e.Fault != "" {
		title = "cannot be used: " + strings.ReplaceAll(e.Fault, "\n", "; ")
	}
	cells := []string{e.Name, title, e.Source, e.Origin.String()}
	if e.Kind == library.KindProfile {
		shape := strings.Join(append([]string{strings.Join(e.Members, " ")}, e.Shape...), ", ")
		cells = []string{e.Name, sizeWords(lengths, e.Height), sizeWords(lengths, e.Projection), e.Family, shape, title, e.Source, e.Origin.String()}
	}
	return strings.Join(cells, "\t")
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
	return nil, wrongUse("unknown kind %q; the kinds are %s", name, template.ListWords(names))
}
