package main

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
	"listel/template"
)

// commonOptions are those that every command takes.
type commonOptions struct {
	units    string
	fraction int
	json     bool
}

func (o *commonOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.units, "units", "", "print lengths in `in or mm` (default: as the file does)")
	f.IntVar(&o.fraction, "fraction", 64, "print inches to the nearest 1/`N`: 2, 4, 8, 16, 32 or 64")
	f.BoolVar(&o.json, "json", false, "print JSON alone, in millimeters and degrees")
}

// lengths returns how to print lengths: in the units asked for, else in those of the file.
func (o commonOptions) lengths(file measure.Units) (measure.Format, error) {
	f, err := job.Lengths(o.units, o.fraction, file)
	return f, asUse(err)
}

// drawOptions are those of the commands that draw.
type drawOptions struct {
	out       string
	format    string
	paper     string
	landscape bool
	printer   string
	force     bool
}

func (o *drawOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVarP(&o.out, "out", "o", "", "write to `FILE`, or into a folder (a name ending in /, or one that is there)")
	f.StringVar(&o.format, "format", "", "draw as `pdf, svg or png` (default: by the name of --out, else pdf)")
	f.StringVar(&o.paper, "paper", "", "`NAME` of the paper: A4, Letter, \"ANSI B\", ... (default: Letter for inches, A4 for mm)")
	f.BoolVar(&o.landscape, "landscape", false, "lay the paper on its long side")
	f.StringVar(&o.printer, "printer", "", "correct for the measured printer `NAME` (see listel printer)")
	f.BoolVar(&o.force, "force", false, "replace files that listel did not write")
}

// caseOptions are those of the commands on a CASE.
type caseOptions struct {
	commonOptions
	drawOptions
	file string // as it was named, "" for the example
}

// on makes cmd a command on a CASE with these options, that ends in run.
func (o *caseOptions) on(app App, cmd *cobra.Command, run func() error) {
	cmd.Args, cmd.ValidArgsFunction = takes(0, 1, "at most one CASE"), app.completes(library.KindExample)
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		o.file = first(args)
		return run()
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
}

// first returns the first argument, "" without one.
func first(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}

// asked reports whether any drawing was asked for, for the commands that print words without it.
func (o drawOptions) asked() bool { return o.out != "" || o.format != "" }

// style returns how to draw sheets, from the options and the units that lengths are printed in.
func (o drawOptions) style(app App, lengths measure.Format, source string) (template.Style, error) {
	paper := job.Paper{Name: o.paper, Landscape: o.landscape, Printer: o.printer}
	style, err := paper.Style(library.Open(".", app.UserFolder), app.UserFolder, lengths, source)
	return style, asUse(err)
}

// styleFor returns how to draw the sheets of a file whose lengths are in the units: as asked for in common and o.
func (o drawOptions) styleFor(app App, common commonOptions, file measure.Units, source string) (template.Style, error) {
	lengths, err := common.lengths(file)
	if err != nil {
		return template.Style{}, err
	}
	return o.style(app, lengths, source)
}

// drawnKinds are the kinds of file that sheets are drawn as.
var drawnKinds = [...]string{"pdf", "svg", "png"}

// kind returns the kind of file to draw, pdf, svg or png: as --format says, else by the name of --out, else pdf.
func (o drawOptions) kind() (string, error) {
	asked, named := strings.ToLower(o.format), ""
	if !isFolder(o.out) {
		named = strings.ToLower(strings.TrimPrefix(filepath.Ext(o.out), "."))
	}
	for _, k := range []string{asked, named} {
		if k != "" && !slices.Contains(drawnKinds[:], k) {
			return "", wrongUse("%q is no kind of drawing; it must be pdf, svg or png", k)
		}
	}
	if asked != "" && named != "" && asked != named {
		return "", wrongUse("--format %s does not go with --out %s; leave one of them out", asked, o.out)
	}
	return cmp.Or(asked, named, "pdf"), nil
}
