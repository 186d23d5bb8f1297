package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
	"listel/profile/trace"
)

type traceOptions struct {
	commonOptions
	drawOptions
	plateOptions
	overlay string
	only    []string // names of the sections of a file that are wanted
	file    string
}

func newTraceCmd(app App, run func(App, traceOptions) error) *cobra.Command {
	var o traceOptions
	cmd := &cobra.Command{
		Use:   "trace FILE|IMAGE",
		Short: "Make a profile of a section in a scanned plate",
		Long: `Trace finds a drawn section in a picture, splits its outline into members and writes a profile for each section, with how
true it is and what each size may be off by. With --overlay it draws the profile over the picture, to judge it by.

FILE is a trace file (kind: trace): it names the picture, its scales, as many as the plate has, and the sections. listel new trace starts one,
with a plate to learn on. For a single section an IMAGE and options will do: PNG, JPEG, TIFF or GIF, with one scale at least. Places are in pixels from the left and
from the top, as a viewer of pictures shows them.

A section that is further from the drawing than its tolerance is written all the same, and that is said; one whose back was asked for as its face is not,
and --face says where it is. A profile that you have changed since it was
traced stays as it is, unless --force is given, and the others are written; --only NAME traces one section of a file. Where a section fails, the overlay shows the
outline that was found.`,
		Example: `  listel trace plate.yaml --overlay plate.pdf
  listel trace cornice.png --scale "120,340 720,340 4in" --crop 400,200,900,800
  listel trace photo.jpg --known "10,20 = 0,0" --known "900,25 = 3 1/2,0" --known "880,700 = 3 1/2,-2" --known "15,690 = 0,-2"`,
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveDefault
		},
		Args: takes(1, 1, "one FILE or IMAGE"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.file = args[0]
			o.fractionGiven = cmd.Flags().Changed("fraction")
			o.given = givenPlateFlags(cmd)
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	o.plateOptions.flags(cmd)
	f := cmd.Flags()
	f.StringVar(&o.overlay, "overlay", "", "draw the sections over the picture to `FILE`, or into a folder (--format alone draws beside the profiles)")
	f.StringArrayVar(&o.only, "only", nil, "trace this section of the FILE alone, by its `NAME`; may be given several times")
	f.Lookup("out").Usage = "write the profiles into a folder `PLACE`, or a single one to that file (default: NAME.yaml here)"
	f.Lookup("format").Usage = "draw the overlay as `pdf, svg or png` (default: by the name of --overlay, else pdf)"
	return cmd
}

// traceMemory bounds the memory that is held while a large scan is traced: garbage is cleared away before it is reached.
const traceMemory = 900 << 20

// roomToTrace raises the bound of the memory to what tracing takes, until the function that it returns is called.
func roomToTrace() (done func()) {
	if os.Getenv("GOMEMLIMIT") != "" {
		return func() {}
	}
	before := debug.SetMemoryLimit(traceMemory)
	return func() { debug.SetMemoryLimit(before) }
}

func runTrace(app App, o traceOptions) error {
	t, err := o.tracing()
	if err != nil {
		return err
	}
	lengths, err := o.lengths(t.Units)
	if err != nil {
		return err
	}
	draw, err := o.overlayOptions()
	if err != nil {
		return err
	}
	style, err := draw.style(app, lengths, filepath.Base(o.file))
	if err != nil {
		return err
	}
	defer roomToTrace()()
	found, wrong := app.traced(&t)
	if len(found) == 0 && wrong != nil {
		if draw.asked() && t.Shows(found) {
			wrong = errors.Join(wrong, app.writeDocument(t.Overlay(found, style), draw, t.Name+"-overlay"))
		}
		return o.asUse(wrong)
	}
	files, err := o.profileFiles(found)
	if err != nil {
		return err
	}
	kept, err := app.writeTraced(files, o.writing())
	if err != nil {
		return err
	}
	if o.json {
		err = app.printJSON(newTraceJSON(t, found, files))
	} else {
		err = printTraced(app.Out, t, found, lengths)
	}
	if err != nil {
		return err
	}
	for _, p := range found {
		for _, n := range p.Notes {
			fmt.Fprintf(app.Err, "note: %s: %s\n", p.Name, n)
		}
	}
	if draw.asked() {
		if err := app.writeDocument(t.Overlay(found, style), draw, t.Name+"-overlay"); err != nil {
			return err
		}
	}
	return errors.Join(o.asUse(wrong), kept)
}

// writeTraced writes the profiles, each for itself: one that the user has changed is kept, and does not keep the others from being written. kept says
// which were; err is any other fault.
func (app App) writeTraced(files []library.File, how library.WriteOptions) (kept, err error) {
	for _, f := range files {
		err := app.writeFiles([]library.File{f}, how)
		var exists *library.ExistsError
		if errors.As(err, &exists) {
			kept = errors.Join(kept, usageError{err})
		} else if err != nil {
			return kept, err
		}
	}
	return kept, nil
}

// traced runs t until it is done or the user stops it.
func (app App) traced(t *job.Tracing) ([]job.TracedProfile, error) {
	bar := app.newProgress("tracing", 1)
	defer bar.end()
	defer bar.keepShowing()()
	found, err := t.Run(app.context(), bar.part)
	if errors.Is(err, context.Canceled) {
		return nil, errStopped
	}
	return found, err
}

// asUse makes what is wrong with a scale or a crop that was given by options a wrong use of the command.
func (o traceOptions) asUse(err error) error {
	var faults trace.Faults
	if !errors.As(err, &faults) || !o.byOptions() {
		return err
	}
	for _, f := range faults {
		if f.Scale != "" || f.Key != "" {
			return usageError{err}
		}
	}
	return err
}

// overlayOptions returns the options that the overlay is drawn with: it goes to --overlay, or beside the profiles.
func (o traceOptions) overlayOptions() (drawOptions, error) {
	d := o.drawOptions
	switch {
	case o.overlay != "":
		d.out = o.overlay
	case !isFolder(d.out):
		if d.out = ""; o.out != "" && filepath.Dir(o.out) != "." {
			d.out = filepath.Dir(o.out) + "/"
		}
	}
	if o.overlay == "" && o.drawOptions.format == "" {
		d.out = "" // no overlay is asked for
	}
	_, err := d.kind()
	return d, err
}

// profileFiles returns the files of the traced profiles.
func (o traceOptions) profileFiles(found []job.TracedProfile) ([]library.File, error) {
	var files []library.File
	for _, p := range found {
		text, err := p.Text()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.Name, err)
		}
		path := drawOptions{out: o.out}.target(p.Name, "yaml")
		if len(o.out) > 0 && !isFolder(o.out) && len(found) > 1 {
			return nil, wrongUse("--out %s names one file, and there are %d profiles; name a folder", o.out, len(found))
		}
		if ext := strings.ToLower(filepath.Ext(path)); ext != ".yaml" && ext != ".yml" {
			return nil, wrongUse("--out %s is no name of a profile; it ends in .yaml, and --overlay takes the drawing", o.out)
		}
		if sameFile(path, o.file) {
			return nil, wrongUse("the profile would be written over %s; give it another name, or --out another place", o.file)
		}
		files = append(files, library.File{Path: path, Data: text})
	}
	return files, nil
}

// sameFile reports whether two paths lead to one file.
func sameFile(a, b string) bool {
	x, errA := os.Stat(a)
	y, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(x, y)
}

// isTraceFile reports whether a path is that of a trace file rather than of a picture: by its ending.
func isTraceFile(path string) bool {
	ext := strings.ToLower(filepath.Ext(path))
	return ext == ".yaml" || ext == ".yml"
}

// tracing returns what is to be traced: the trace file, or the picture with what the options say.
func (o traceOptions) tracing() (job.Tracing, error) {
	if !o.byOptions() {
		if len(o.given) > 0 {
			return job.Tracing{}, wrongUse("--%s is for an IMAGE; %s says it for itself", o.given[0], o.file)
		}
		t, err := job.ReadTracing(o.file)
		if err != nil || len(o.only) == 0 {
			return t, err
		}
		if err := t.Only(o.only); err != nil {
			return t, usageError{err}
		}
		return t, nil
	}
	if len(o.only) > 0 {
		return job.Tracing{}, wrongUse("--only is for a trace file with several sections; the options of an IMAGE name one")
	}
	units := measure.Inches
	if o.units != "" {
		u, err := measure.ParseUnits(o.units)
		if err != nil {
			return job.Tracing{}, wrongUse("--units: %w", err)
		}
		units = u
	}
	t := job.Tracing{}
	t.Image, t.Units, t.Name = o.file, units, strings.TrimSuffix(filepath.Base(o.file), filepath.Ext(o.file))
	if o.name != "" {
		t.Name = o.name
	}
	t.Title = o.title
	fraction := 0
	if o.fractionGiven {
		fraction = o.fraction
	}
	s, w, err := o.plateOptions.parse(units)
	if err != nil {
		return t, err
	}
	w.Name, w.Title, w.Fraction = t.Name, o.title, fraction
	t.Scales, t.Sections = []trace.Scale{s}, []trace.Wanted{w}
	return t, o.asUse(t.Check())
}

// byOptions reports whether the options, not a file, say what is traced.
func (o traceOptions) byOptions() bool { return !isTraceFile(o.file) }
