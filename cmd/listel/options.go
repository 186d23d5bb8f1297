package main

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
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

// format returns how to print lengths: in the units asked for, else in those of the file.
func (o commonOptions) format(file measure.Units) (measure.Format, error) {
	units := file
	if o.units != "" {
		u, err := measure.ParseUnits(o.units)
		if err != nil {
			return measure.Format{}, wrongUse("--units: %w", err)
		}
		units = u
	}
	switch o.fraction {
	case 2, 4, 8, 16, 32, 64:
		return measure.Format{Units: units, Fraction: o.fraction}, nil
	}
	return measure.Format{}, wrongUse("--fraction %d; it must be 2, 4, 8, 16, 32 or 64", o.fraction)
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

// asked reports whether any drawing was asked for, for the commands that print words without it.
func (o drawOptions) asked() bool { return o.out != "" || o.format != "" }

// style returns how to draw sheets, from the options and the units that lengths are printed in.
func (o drawOptions) style(app App, lengths measure.Format, source string) (template.Style, error) {
	name := strings.Trim(o.paper, `"'`)
	if name == "" {
		name = map[measure.Units]string{measure.Inches: "Letter", measure.Millimeters: "A4"}[lengths.Units]
	}
	paper, err := app.paper(name)
	if err != nil {
		return template.Style{}, err
	}
	if o.landscape {
		paper = paper.Landscape()
	}
	printer, err := o.correction(app)
	if err != nil {
		return template.Style{}, err
	}
	return template.Style{Lengths: lengths, Paper: paper, Printer: printer, Source: source}, nil
}

// paper returns the paper of that name: a standard one, else one of the project's or the user's own.
func (app App) paper(name string) (sheet.Paper, error) {
	paper, unknown := sheet.PaperNamed(name)
	if unknown == nil {
		return paper, nil
	}
	own, err := library.Open(".", app.UserFolder).Papers()
	if err != nil {
		return paper, err
	}
	for _, p := range own {
		if slices.ContainsFunc(slices.Concat([]string{p.Name}, p.Also), func(s string) bool { return strings.EqualFold(s, name) }) {
			return sheet.Paper{Name: p.Name, Width: p.Width, Height: p.Height}, nil
		}
	}
	return paper, wrongUse("--paper: %w", unknown)
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
