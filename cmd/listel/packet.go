package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile"
	"listel/template"
)

type packetOptions struct {
	commonOptions
	drawOptions
	toolOptions
	file     string
	noSetups bool
}

func newPacketCmd(app App, run func(App, packetOptions) error) *cobra.Command {
	var o packetOptions
	cmd := &cobra.Command{
		Use:   "packet [CASE]",
		Short: "Draw everything for the bench in one file",
		Long: `Packet draws all the sheets for a case in the order of the work: the case with its moldings, the sections, the pieces to
cut with the saw's settings, the miter faces, what to buy and how to cut it, the set-ups of every molding, the templates full size, and a page to check the printer with.
Without a CASE it draws the example.

Print it at 100 %, never fitted to the page, and measure the bars on the first full-size sheet.`,
		Example:           "  listel packet\n  listel packet press.yaml --paper A4 --out bench/",
		ValidArgsFunction: app.completes(library.KindExample),
		Args:              takes(0, 1, "at most one CASE"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.file = first(args)
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	o.drawOptions.flags(cmd)
	o.toolOptions.flags(cmd)
	cmd.Flags().BoolVar(&o.noSetups, "no-setups", false, "leave the set-ups out: nothing is searched for")
	return cmd
}

func runPacket(app App, o packetOptions) error {
	l, err := app.loadCase(o.file)
	if err != nil {
		return err
	}
	lengths, err := o.commonOptions.format(l.c.Units)
	if err != nil {
		return err
	}
	style, err := o.style(app, lengths, filepath.Base(l.from()))
	if err != nil {
		return err
	}
	j := template.Job{Case: l.c, Result: l.result, Profiles: map[string]profile.Profile{}}
	for _, name := range l.names() {
		j.Profiles[name] = l.profiles[name].profile
		app.warn(l.profiles[name])
	}
	if j.Stock, err = app.buyable(l); err != nil {
		return err
	}
	if !o.noSetups {
		if err := o.drawable(style); err != nil {
			return err
		}
		if j.Setups, err = app.planCase(l, j.Molded(), o.toolOptions); err != nil {
			return err
		}
	}
	doc := template.Packet(j, style)
	return app.finish(doc, o.json, o.drawOptions, l.c.Name+"-packet")
}

// planCase returns the set-ups of a case's sections. A plan that does not pass its check is told of, and its sheets say so.
func (app App) planCase(l loadedCase, sections []profile.Section, o toolOptions) ([]template.SetupPlan, error) {
	options, err := o.options(l.c.Units)
	if err != nil {
		return nil, err
	}
	set, err := o.toolSet(l.lib, l.c.Units)
	if err != nil {
		return nil, err
	}
	jobs := make([]planJob, len(sections))
	for i, s := range sections {
		jobs[i] = planJob{section: s, set: set, options: options, upright: o.upright}
	}
	plans, err := app.planAll(jobs, o.cache(app))
	if err != nil {
		return nil, err
	}
	out := make([]template.SetupPlan, len(plans))
	for i, p := range plans {
		out[i] = jobs[i].sheets(p)
		if len(p.Verified.Faults) > 0 {
			fmt.Fprintf(app.Err, "note: the set-ups of %s did not pass their check: %s\n", p.Profile, strings.Join(p.Verified.Faults, "; "))
		}
	}
	return out, nil
}
