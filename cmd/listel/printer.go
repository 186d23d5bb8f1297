package main

import (
	"fmt"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

type printerOptions struct {
	commonOptions
	drawOptions
	name       string
	across, up string
}

func newPrinterCmd(app App) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "printer",
		Short: "Check a printer, and correct the sheets for its error",
		Long: `No printer prints quite true. Print the check page at 100 %, measure its two bars, and record what they measure under a
name; sheets drawn with --printer NAME then come out true on that printer, and say so.`,
		Example: "  listel printer page --out check.pdf\n  listel printer record shop --across 99.4mm --up 99.8mm\n  listel packet --printer shop",
		Args:    noArgs,
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newPrinterPageCmd(app, runPrinterPage), newPrinterRecordCmd(app, runPrinterRecord), newPrinterListCmd(app, runPrinterList))
	return cmd
}

func newPrinterPageCmd(app App, run func(App, printerOptions) error) *cobra.Command {
	var o printerOptions
	cmd := &cobra.Command{
		Use:     "page",
		Short:   "Draw the page with the bars to measure",
		Example: "  listel printer page --paper A4 --out check.pdf",
		Args:    takes(0, 0, "no argument"),
		RunE:    func(*cobra.Command, []string) error { return run(app, o) },
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	return cmd
}

func runPrinterPage(app App, o printerOptions) error {
	style, err := o.styleFor(app, o.commonOptions, measure.Inches, "")
	if err != nil {
		return err
	}
	doc := sheet.Document{Title: "Printer check", Pages: template.PrinterCheck(style)}
	return app.finish(doc, o.json, o.drawOptions, "printer-check")
}

func newPrinterRecordCmd(app App, run func(App, printerOptions) error) *cobra.Command {
	var o printerOptions
	cmd := &cobra.Command{
		Use:   "record NAME",
		Short: "Record what the bars of the check page measure",
		Long: `Record keeps, under NAME in your library, what the two 100 mm bars of the check page measure on paper: across the sheet's short
side and up its long side. Recording a name again replaces it.`,
		Example: "  listel printer record shop --across 99.4mm --up 99.8mm",
		Args:    takes(1, 1, "one NAME"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.name = args[0]
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	cmd.Flags().StringVar(&o.across, "across", "", "what the bar across measures, a `LENGTH`; a bare number is mm")
	cmd.Flags().StringVar(&o.up, "up", "", "what the bar up measures, a `LENGTH`; a bare number is mm")
	return cmd
}

func runPrinterRecord(app App, o printerOptions) error {
	p := library.Printer{Name: o.name}
	for _, m := range []struct {
		flag, text string
		factor     *float64
	}{{"across", o.across, &p.Across}, {"up", o.up, &p.Up}} {
		if m.text == "" {
			return wrongUse("--%s is needed: what the %g mm bar measures on paper", m.flag, template.CheckBar)
		}
		mm, err := measure.ParsePositive(m.text, measure.Millimeters)
		if err != nil {
			return wrongUse("--%s: %w", m.flag, err)
		}
		*m.factor = mm / template.CheckBar
	}
	if err := job.Correction(p).Validate(); err != nil {
		return usageError{err}
	}
	if app.UserFolder == "" {
		return fmt.Errorf("this machine names no home folder to keep the printer in; set XDG_DATA_HOME")
	}
	if err := app.hold(func() error { return library.RecordPrinter(app.UserFolder, p) }); err != nil {
		return err
	}
	if o.json {
		return app.printJSON(p)
	}
	fmt.Fprintf(app.Out, "Recorded %s: %.2f %% across, %.2f %% up. Draw with --printer %s.\n", p.Name, p.Across*100, p.Up*100, p.Name)
	return nil
}

func newPrinterListCmd(app App, run func(App, printerOptions) error) *cobra.Command {
	var o printerOptions
	cmd := &cobra.Command{
		Use:     "list",
		Short:   "List the recorded printers",
		Example: "  listel printer list",
		Args:    takes(0, 0, "no argument"),
		RunE:    func(*cobra.Command, []string) error { return run(app, o) },
	}
	o.commonOptions.flags(cmd)
	return cmd
}

func runPrinterList(app App, o printerOptions) error {
	printers, err := library.Printers(app.UserFolder)
	if err != nil {
		return err
	}
	if o.json {
		return app.printJSON(printers)
	}
	if len(printers) == 0 {
		fmt.Fprintln(app.Out, "No printer is recorded yet; see `listel printer --help`.")
		return nil
	}
	t := tabwriter.NewWriter(app.Out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "name\tacross\tup")
	for _, p := range printers {
		fmt.Fprintf(t, "%s\t%.2f %%\t%.2f %%\n", p.Name, p.Across*100, p.Up*100)
	}
	return t.Flush()
}
