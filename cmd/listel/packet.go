package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
)

type packetOptions struct {
	caseOptions
	toolOptions
	noSetups bool
}

func newPacketCmd(app App, run func(App, packetOptions) error) *cobra.Command {
	var o packetOptions
	cmd := &cobra.Command{
		Use:   "packet [CASE]",
		Short: "Draw everything for the bench in one file",
		Long: `Packet draws all the sheets for a case in the order of the work: the case with its moldings, the sections, what to
buy and how to rip it, the set-ups of every molding, scrapers and templates full size, the pieces to cut from the molded strips with the saw's settings and the miter
faces, fixing, a story stick, and a page to check the printer with.
Without a CASE it draws the example.

Print it at 100 %, never fitted to the page, and measure the bars on the first full-size sheet.`,
		Example: "  listel packet\n  listel packet press.yaml --paper A4 --out bench/",
	}
	o.on(app, cmd, func() error { return run(app, o) })
	o.toolOptions.flags(cmd)
	cmd.Flags().BoolVar(&o.noSetups, "no-setups", false, "leave the set-ups out: nothing is searched for")
	return cmd
}

func runPacket(app App, o packetOptions) error {
	l, err := app.loadCase(o.file)
	if err != nil {
		return err
	}
	style, err := o.styleFor(app, o.commonOptions, l.Case.Units, l.PacketSource())
	if err != nil {
		return err
	}
	for _, name := range l.Names() {
		app.warn(l.Profiles[name])
	}
	p := job.Packet{Style: style, Setups: !o.noSetups, Planning: job.Planning{Shop: o.shop(), Cache: o.cache(app)}}
	if p.Setups {
		if err := o.drawable(style); err != nil {
			return err
		}
		if p.Tools, err = o.toolSet(l.Lib, l.Case.Units); err != nil {
			return err
		}
	}
	bar := app.newProgress("planning set-ups", 0)
	defer bar.end()
	p.Start = bar.begin
	doc, notes, err := l.Packet(app.context(), p)
	for _, n := range notes {
		fmt.Fprintf(app.Err, "note: %s\n", n)
	}
	if err != nil {
		return asUse(err)
	}
	return app.finish(doc, o.json, o.drawOptions, l.Case.Name+"-packet")
}
