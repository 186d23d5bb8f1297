package main

import (
	"fmt"
	"io"
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
	return printListings(app.Out, all, func(i int) string { return string(all[i].Kind) }, lengths)
}

// printListings prints entries in tables, a new one wherever first, what the first column is called for an entry, changes.
func printListings(to io.Writer, all []library.Listing, first func(i int) string, lengths measure.Format) error {
	for at := 0; at < len(all); {
		if at > 0 {
			fmt.Fprintln(to)
		}
		head := first(at)
		table := newListing(all[at].Kind, head)
		for ; at < len(all) && first(at) == head; at++ {
			table.add(all[at], lengths)
		}
		if err := table.print(to); err != nil {
			return err
		}
	}
	return nil
}

// A listing is a table of entries of one kind for a terminal: a row for each, and under it what is long.
type listing struct {
	rows  []string   // cells with tabs between them, the head first
	below [][]string // lines under each row
}

// newListing returns an empty listing of a kind, whose first column is called first.
func newListing(k library.Kind, first string) *listing {
	if k == library.KindProfile {
		return &listing{[]string{first + "\theight\tprojection\tfamily\ttitle"}, [][]string{{"members from the foot", "source; where it is"}}}
	}
	return &listing{[]string{first + "\ttitle"}, [][]string{{"source; where it is"}}}
}

// add adds the row of an entry.
func (l *listing) add(e library.Listing, lengths measure.Format) {
	const wide = 96 // characters of what stands below
	title := e.Title
	var below []string
	if e.Fault != "" {
		title = "cannot be used"
		for fault := range strings.SplitSeq(e.Fault, "\n") {
			below = append(below, library.Folded(fault, wide)...)
		}
	}
	cells := []string{e.Name, title}
	if e.Kind == library.KindProfile {
		cells = []string{e.Name, sizeWords(lengths, e.Height), sizeWords(lengths, e.Projection), e.Family, title}
		below = append(below, library.Folded(strings.Join(append([]string{strings.Join(e.Members, " ")}, e.Shape...), ", "), wide)...)
	}
	source, where := strings.TrimSuffix(e.Source, "."), e.Origin.String()
	if e.Origin.Where == library.Embedded && source != "" {
		below = append(below, library.Folded(source+"; "+where, wide)...)
	} else {
		below = append(append(below, library.Folded(source, wide)...), where) // a file's path is not folded, to be copied as one
	}
	l.rows, l.below = append(l.rows, strings.Join(cells, "\t")), append(l.below, below)
}

// print writes the rows in columns, with what stands below them set in.
func (l *listing) print(to io.Writer) error {
	var columns strings.Builder
	t := tabwriter.NewWriter(&columns, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, strings.Join(l.rows, "\n"))
	if err := t.Flush(); err != nil {
		return err
	}
	var out strings.Builder
	for i, row := range strings.Split(strings.TrimSuffix(columns.String(), "\n"), "\n") {
		fmt.Fprintln(&out, strings.TrimRight(row, " "))
		for _, line := range l.below[i] {
			fmt.Fprintln(&out, "    "+line)
		}
	}
	_, err := io.WriteString(to, out.String())
	return err
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
