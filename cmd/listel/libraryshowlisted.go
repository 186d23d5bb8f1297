package main

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"listel/library"
	"listel/profile/measure"
)

// showListed prints a table of a wood, a paper or a thickness, and reports whether there is one of the name.
func showListed(app App, lib *library.Library, o showOptions) (bool, error) {
	if w, origin, err := lib.WoodSource(o.arg); err == nil {
		return true, showWood(app, o, w, origin)
	}
	for _, k := range []library.Kind{library.KindPaper, library.KindLumber} {
		list := lib.List(k)
		i := slices.IndexFunc(list, func(e library.Listing) bool { return strings.EqualFold(e.Name, o.arg) })
		switch {
		case i < 0:
			continue
		case o.json:
			return true, app.printJSON(list[i])
		case k == library.KindPaper:
			return true, showPaper(app, lib, list[i])
		default:
			return true, showLumber(app, lib, o, list[i])
		}
	}
	return false, nil
}

// table prints lines of fields as columns.
func table(app App, rows ...[]string) error {
	t := tabwriter.NewWriter(app.Out, 0, 0, 2, ' ', 0)
	for _, row := range rows {
		fmt.Fprintln(t, strings.Join(row, "\t"))
	}
	return t.Flush()
}

// showPaper prints the size of a paper.
func showPaper(app App, lib *library.Library, e library.Listing) error {
	papers, err := lib.Papers()
	if err != nil {
		return err
	}
	i := slices.IndexFunc(papers, func(p library.Paper) bool { return p.Name == e.Name })
	p := papers[i]
	fmt.Fprintf(app.Out, "%s, paper\n%s\nsource: %s\n\n", strings.Join(append([]string{p.Name}, p.Also...), ", also "), e.Origin, e.Source)
	mm, in := measure.Format{}, measure.Format{Units: measure.Inches}
	return table(app, []string{"", "width", "height"}, []string{"upright", mm.Length(p.Width), mm.Length(p.Height)}, []string{"", in.Length(p.Width), in.Length(p.Height)},
		[]string{"lying", mm.Length(p.Height), mm.Length(p.Width)}, []string{"", in.Length(p.Height), in.Length(p.Width)})
}

// showLumber prints the thicknesses and the lengths that wood is sold in, the entry's own line marked.
func showLumber(app App, lib *library.Library, o showOptions, e library.Listing) error {
	l, err := lib.Lumber()
	if err != nil {
		return err
	}
	lengths, err := o.lengths(measure.Inches)
	if err != nil {
		return err
	}
	fmt.Fprintf(app.Out, "%s, lumber\n%s\nsource: %s\n\n", e.Name, e.Origin, e.Source)
	rows := [][]string{{"", "sold as", "rough", "surfaced on two sides", "on one side"}}
	for _, t := range l.Thicknesses {
		mark := ""
		if t.Name == e.Name {
			mark = ">"
		}
		rows = append(rows, []string{mark, t.Name, lengths.Length(t.Rough), sizeWords(lengths, t.S2S), sizeWords(lengths, t.S1S)})
	}
	if err := table(app, rows...); err != nil || len(l.Lengths) == 0 {
		return err
	}
	var long []string
	for _, mm := range l.Lengths {
		long = append(long, lengths.Length(mm))
	}
	_, err = fmt.Fprintf(app.Out, "\nlengths: %s\n", strings.Join(long, ", "))
	return err
}

// showWood prints what is known of a wood's movement, and where each number comes from.
func showWood(app App, o showOptions, w library.Wood, origin library.Origin) error {
	if o.json {
		return app.printJSON(map[string]any{"kind": "wood", "name": w.Name, "also": w.Also, "shrinkage": w.Shrinkage, "change": w.Change, "origin": origin})
	}
	fmt.Fprintf(app.Out, "%s, wood\n%s\n\n", strings.Join(append([]string{w.Name}, w.Also...), ", also "), origin)
	rows := [][]string{{"", "quarter sawn (radial)", "flat sawn (tangential)", "in volume", "source"}}
	if s := w.Shrinkage; s != nil {
		rows = append(rows, []string{"shrinks, green to ovendry", fmt.Sprintf("%g %%", s.Radial), fmt.Sprintf("%g %%", s.Tangential), fmt.Sprintf("%g %%", s.Volumetric), s.Table + "; " + string(s.Mark)})
	}
	if c := w.Change; c != nil {
		rows = append(rows, []string{"of its width, for 1 % of moisture", fmt.Sprintf("%.5f", c.Radial), fmt.Sprintf("%.5f", c.Tangential), "", c.Table + "; " + string(c.Mark)})
	}
	return table(app, rows...)
}
