package main

import (
	"path/filepath"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile"
	"listel/template"
)

type packetOptions struct {
	commonOptions
	drawOptions
	file string
}

func newPacketCmd(app App, run func(App, packetOptions) error) *cobra.Command {
	var o packetOptions
	cmd := &cobra.Command{
		Use:   "packet [CASE]",
		Short: "Draw everything for the bench in one file",
		Long: `Packet draws all the sheets for a case in the order of the work: the case with its moldings, the sections, the pieces to
cut with the saw's settings, the miter faces and templates full size, and a page to check the printer with.
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
	doc := template.Packet(j, style)
	if o.json {
		if err := app.printJSON(newSheetsJSON(doc)); err != nil {
			return err
		}
	}
	return app.writeDocument(doc, o.drawOptions, l.c.Name+"-packet")
}
