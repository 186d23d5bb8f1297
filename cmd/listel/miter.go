package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/miter"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

func newMiterCmd(app App, run func(App, caseOptions) error) *cobra.Command {
	var o caseOptions
	cmd := &cobra.Command{
		Use:   "miter [CASE]",
		Short: "List the pieces around a case, with lengths and saw settings",
		Long: `Miter fits the moldings of a case and lists every piece: mark, lengths at the back, at the long and at the
short point, and the saw's settings for both ends. Without a CASE it takes the example.

With --out or --format it draws the cut list, the miter faces full size, the splines, the frame, the openings with their beads, and the dentils.

The angles are for a saw that reads 0 at a square cut. Cut a test corner first, and follow the saw's manual and its guards.`,
		Example: "  listel miter\n  listel miter press.yaml --out cuts.pdf\n  listel miter press.yaml --json",
	}
	o.on(app, cmd, func() error { return run(app, o) })
	return cmd
}

func runMiter(app App, o caseOptions) error {
	l, err := app.loadCase(o.file)
	if err != nil {
		return err
	}
	lengths, err := o.lengths(l.Case.Units)
	if err != nil {
		return err
	}
	if o.json {
		err = app.printJSON(l.Result)
	} else {
		err = printPieces(app.Out, l, lengths)
	}
	if err != nil || !o.asked() {
		return err
	}
	style, err := o.style(app, lengths, l.From())
	if err != nil {
		return err
	}
	pages := slices.Concat(template.CutList(l.Case, l.Result, style), template.MiterFaces(l.Result, style), template.SplineSheets(l.Result, style),
		template.FrameSheets(l.Result, style), template.OpeningSheets(l.Result, style), template.DentilSheets(l.Result, style))
	doc := sheet.Document{Title: l.Title() + ": pieces to cut", Pages: pages}
	return app.writeDocument(doc.Numbered(), o.drawOptions, l.Case.Name+"-pieces")
}

// printPieces prints a table of the pieces of each molding, and under it what holds them.
func printPieces(out io.Writer, l job.Case, f measure.Format) error {
	fmt.Fprintf(out, "%s (%s)\n%s\n", l.Title(), l.Case.Name, l.From())
	for _, m := range l.Result.Moldings {
		fmt.Fprintf(out, "\n%s: %s (%s)\n", m.Name, m.Profile, l.Profiles[m.Profile].Origin)
		if err := printTable(out, m.Pieces, l.Case.Shop.Rough, f); err != nil {
			return err
		}
		printIndented(out, job.FittingWords(m, f))
	}
	if len(l.Result.Beads) > 0 {
		fmt.Fprint(out, "\nbeads\n")
		if err := printTable(out, l.Result.Beads, l.Case.Shop.Rough, f); err != nil {
			return err
		}
		printIndented(out, job.BeadWords(l.Result.Beads, f))
	}
	for _, d := range l.Result.Drawers {
		if len(l.Result.Drawers) == 1 {
			fmt.Fprintf(out, "opening: %s wide, %s high\n", f.Length(d.Width), f.Length(d.Height))
			continue
		}
		fmt.Fprintf(out, "drawer opening, row %d, column %d: %s wide, %s high\n", d.Row, d.Column, f.Length(d.Width), f.Length(d.Height))
	}
	for _, s := range l.Result.Notes {
		fmt.Fprintln(out, s)
	}
	return nil
}

// printIndented prints lines under a table.
func printIndented(out io.Writer, lines []string) {
	for _, s := range lines {
		fmt.Fprintln(out, "  "+s)
	}
}

// printTable prints a table of pieces, their rough lengths with rough mm left on each end.
func printTable(out io.Writer, pieces []miter.Piece, rough float64, f measure.Format) error {
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "mark\tpieces\trun\thand\tback\tlong\tshort\trough\tleft end\tright end")
	for _, p := range pieces {
		fmt.Fprintf(t, "%s\t%d\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", p.Mark, p.Count, strings.Join(p.Runs, ", "), p.Hand, f.Bare(p.Back), f.Bare(p.Long),
			f.Bare(p.Short), f.Bare(f.NoLess(p.Stick(rough))), job.EndWords(p.Ends[0], f), job.EndWords(p.Ends[1], f))
	}
	return t.Flush()
}
