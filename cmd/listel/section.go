package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

// profileOptions are those of the commands on a PROFILE.
type profileOptions struct {
	commonOptions
	drawOptions
	sizeOptions
	profile string // as it was named
}

// on makes cmd a command on a PROFILE, or on what its own Args say, with these options, that ends in run.
func (o *profileOptions) on(app App, cmd *cobra.Command, run func() error) {
	if cmd.Args == nil {
		cmd.Args, cmd.ValidArgsFunction = takes(1, 1, "one PROFILE"), app.completes(library.KindProfile)
	}
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		o.profile = args[0]
		return run()
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	o.sizeOptions.flags(cmd)
}

// load reads the profile, in the size asked for, and returns how its lengths are printed.
func (o profileOptions) load(app App) (job.Profile, measure.Format, error) {
	l, err := app.loadSized(o.profile, o.sizeOptions)
	if err != nil {
		return l, measure.Format{}, err
	}
	lengths, err := o.lengths(l.Profile.Units)
	return l, lengths, err
}

// sizeOptions change the size of a profile before it is built.
type sizeOptions struct {
	scale              float64
	height, projection string
}

func (o *sizeOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.Float64Var(&o.scale, "scale", 1, "make everything `K` times as large")
	f.StringVar(&o.height, "height", "", "another `LENGTH` for the height: what is in parts or rest follows")
	f.StringVar(&o.projection, "projection", "", "another `LENGTH` for the projection: a run that is rest follows")
}

// apply returns p in the size asked for.
func (o sizeOptions) apply(p profile.Profile) (profile.Profile, error) {
	if !(o.scale > 0 && o.scale <= 1000) {
		return p, wrongUse("--scale %g; it must be more than 0 and at most 1000", o.scale)
	}
	p = p.Scaled(o.scale)
	set := func(flag, text string, with func(float64) (profile.Profile, error)) error {
		if text == "" {
			return nil
		}
		mm, err := measure.ParsePositive(text, p.Units)
		if err == nil {
			p, err = with(mm)
		}
		if err != nil {
			return wrongUse("--%s: %w", flag, err)
		}
		return nil
	}
	if err := set("height", o.height, func(mm float64) (profile.Profile, error) { return p.WithHeight(mm) }); err != nil {
		return p, err
	}
	return p, set("projection", o.projection, func(mm float64) (profile.Profile, error) { return p.WithProjection(mm) })
}

func newSectionCmd(app App, run func(App, profileOptions) error) *cobra.Command {
	var o profileOptions
	cmd := &cobra.Command{
		Use:   "section PROFILE",
		Short: "Show a section: its members, sizes and shape",
		Long: `Section builds a profile and prints its members with their sizes. With --out or --format it draws the
section full size, dimensioned.`,
		Example: "  listel section press-cornice\n  listel section press-cornice --out cornice.pdf\n  listel section ionic-impost --height 3in --units mm",
	}
	o.on(app, cmd, func() error { return run(app, o) })
	return cmd
}

func runSection(app App, o profileOptions) error {
	l, lengths, err := o.load(app)
	if err != nil {
		return err
	}
	if o.json {
		if err := app.printJSON(newSectionJSON(l)); err != nil {
			return err
		}
	} else if err := printSection(app.Out, l, lengths); err != nil {
		return err
	}
	app.warn(l)
	if !o.asked() {
		return nil
	}
	style, err := o.style(app, lengths, l.From())
	if err != nil {
		return err
	}
	return app.writeDocument(l.SectionSheets(style), o.drawOptions, l.Section.Name+"-section")
}

// loadSized reads the profile that arg names, changes its size and builds it.
func (app App) loadSized(arg string, size sizeOptions) (job.Profile, error) {
	l, err := app.readProfile(arg)
	if err != nil {
		return l, err
	}
	if l.Profile, err = size.apply(l.Profile); err != nil {
		return l, err
	}
	return l.Built()
}

// warn tells what in the profile is odd, though possible.
func (app App) warn(l job.Profile) {
	for _, n := range l.Notes() {
		fmt.Fprintf(app.Err, "note: %s: %s\n", l.From(), n)
	}
}

// printSection prints the members in a table, and the sizes of the whole.
func printSection(out io.Writer, l job.Profile, f measure.Format) error {
	s := l.Section
	fmt.Fprintf(out, "%s (%s)\n%s\n\n", l.Title(), s.Name, l.From())
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "no.\tmember\tfoot\theight\tset\trun\tx at foot\tradius")
	for _, m := range s.Members {
		var radii []string
		for _, r := range m.Radii {
			radii = append(radii, f.Bare(r))
		}
		fmt.Fprintf(t, "%d\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", m.Index, m.Kind, f.Bare(m.Foot), f.Bare(m.Height), f.Bare(m.Set),
			f.Bare(m.Projection), f.Bare(m.Start), strings.Join(radii, ", "))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	b := s.Blank()
	fmt.Fprintf(out, "\nheight %s, projection %s, face %s\n", f.Length(s.Height), f.Length(s.Projection), f.Length(s.FaceLength()))
	fmt.Fprintf(out, "smallest blank %s x %s\n", f.Length(b.Width), f.Length(b.Thickness))
	for _, u := range s.Undercuts() {
		fmt.Fprintf(out, "hidden from %s: from %s to %s up, %s deep\n", u.From, f.Length(u.Y0), f.Length(u.Y1), f.Length(u.Depth))
	}
	if l.Profile.Source != "" {
		fmt.Fprintf(out, "source: %s\n", l.Profile.Source)
	}
	return nil
}
