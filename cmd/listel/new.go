package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile/measure"
)

type newOptions struct {
	units string
	out   string
	force bool
	json  bool
	kind  string
	name  string

	rule                 string
	height, width, depth string
}

// started are the kinds of files that can be started.
var started = [...]string{"profile", "case", "trace"}

func newNewCmd(app App, run func(App, newOptions) error) *cobra.Command {
	var o newOptions
	cmd := &cobra.Command{
		Use:   "new profile|case|trace NAME",
		Short: "Start a profile, a case or a trace file to edit",
		Long: `New writes a small working file with every part explained, to change to your own. The file is NAME.yaml unless --out
names another. With a trace file it writes NAME.png, a plate to learn tracing on.

A case may start from its height: with --height and --rule the heights of base, waist and cornice follow a published rule, and the file
says which, what the rule gives and what is ours. It is a starting point. The profiles are written beside the case.

` + rulesHelp(),
		Example: "  listel new profile my-cornice\n  listel new case my-press --units mm\n  listel new case my-bookcase --height 6ft --rule chippendale-tuscan",
		Args: func(cmd *cobra.Command, args []string) error {
			if err := takes(2, 2, "profile, case or trace, and a NAME")(cmd, args); err != nil {
				return err
			}
			if !slices.Contains(started[:], args[0]) {
				return wrongUse("%q cannot be started; profile, case and trace can", args[0])
			}
			if strings.ContainsAny(args[1], `/\:"`) || strings.HasPrefix(args[1], ".") || strings.TrimSpace(args[1]) != args[1] || args[1] == "" {
				return wrongUse("%q is no name: use letters, digits and hyphens, and --out for the place", args[1])
			}
			return nil
		},
		ValidArgs: started[:],
		RunE: func(_ *cobra.Command, args []string) error {
			o.kind, o.name = args[0], args[1]
			return run(app, o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.units, "units", "in", "units of the file: `in or mm`")
	f.StringVarP(&o.out, "out", "o", "", "write to `FILE`")
	f.BoolVar(&o.force, "force", false, "replace a file that listel did not write")
	f.BoolVar(&o.json, "json", false, "print what was written as JSON")
	f.StringVar(&o.rule, "rule", "", "let the moldings of a case follow the published rule `NAME`")
	f.StringVar(&o.height, "height", "", "`LENGTH` from the floor to the top of the cornice, for --rule")
	f.StringVar(&o.width, "width", "", "`LENGTH` across the front, for --rule (default: two thirds of the height)")
	f.StringVar(&o.depth, "depth", "", "`LENGTH` from the front to the wall, for --rule (default: a quarter of the height)")
	return cmd
}

func runNew(app App, o newOptions) error {
	units, err := measure.ParseUnits(o.units)
	if err != nil {
		return wrongUse("--units: %w", err)
	}
	if o.proposes() {
		return newProposal(app, o, units)
	}
	text, err := library.Starter(o.kind, strings.TrimSuffix(o.name, ".yaml"), units)
	if err != nil {
		return err
	}
	path := drawOptions{out: o.out}.target(strings.TrimSuffix(o.name, ".yaml"), "yaml")
	files := []library.File{{Path: path, Data: text}}
	if o.kind == string(library.KindTrace) {
		files = append(files, library.File{Path: filepath.Join(filepath.Dir(path), strings.TrimSuffix(o.name, ".yaml")+".png"), Data: library.StarterPlate()})
	}
	if err := app.writeFiles(files, library.WriteOptions{Force: o.force, MakeFolder: endsInSlash(o.out)}); err != nil {
		return err
	}
	if o.json {
		return app.printJSON(map[string]string{"kind": o.kind, "file": path})
	}
	next := map[string]string{"profile": "section", "case": "miter", "trace": "trace"}[o.kind]
	fmt.Fprintf(app.Out, "Edit it, then: listel check %s && listel %s %s\n", path, next, path)
	return nil
}
