package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile/measure"
)

type copyOptions struct {
	commonOptions
	name, as string
	height   string
	out      string
	mine     bool
	force    bool
}

func newLibraryCopyCmd(app App, run func(App, copyOptions) error) *cobra.Command {
	var o copyOptions
	cmd := &cobra.Command{
		Use:   "copy NAME",
		Short: "Copy a profile, a case or a set of tools to a file of your own",
		Long: `Copy writes an entry of the library, comments and all, to a file beside your work, from whichever place it is found in. The
names woods, papers and lumber copy those whole lists. What is in parts or rest in a profile follows another --height.`,
		Example: "  listel library copy ionic-impost\n  listel library copy cavetto-cornice --as my-cornice --height 2in\n" +
			"  listel library copy inch-tools --as my-tools --mine",
		ValidArgsFunction: app.completes(library.KindProfile, library.KindExample, library.KindTool),
		Args:              takes(1, 1, "one NAME"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.name = args[0]
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	f := cmd.Flags()
	f.StringVar(&o.as, "as", "", "call the copy `NAME`")
	f.StringVar(&o.height, "height", "", "make a profile this `LENGTH` high; a bare number is in its own units")
	f.StringVarP(&o.out, "out", "o", "", "write to `FILE`, or into a folder")
	f.BoolVar(&o.mine, "mine", false, "put it in your own library, where every project finds it")
	f.BoolVar(&o.force, "force", false, "replace a file that listel did not write")
	return cmd
}

func runLibraryCopy(app App, o copyOptions) error {
	lib := library.Open(".", app.UserFolder)
	c, err := lib.Copy(o.name, o.as)
	if err != nil {
		return usageError{err}
	}
	if o.height != "" {
		mm, err := measure.ParsePositive(o.height, unitsOf(c))
		if err == nil {
			c, err = lib.WithHeight(c, mm)
		}
		if err != nil {
			return wrongUse("--height: %w", err)
		}
	}
	path, err := o.path(app, c.Name)
	if err != nil {
		return err
	}
	if err := app.writeFiles([]library.File{{Path: path, Data: c.Text}}, library.WriteOptions{Force: o.force, MakeFolder: o.mine}); err != nil {
		return err
	}
	if o.json {
		return app.printJSON(map[string]any{"kind": c.Kind, "name": c.Name, "file": path, "from": c.Origin})
	}
	fmt.Fprintf(app.Out, "%s from: %s\n", path, c.Origin)
	switch c.Kind {
	case library.KindProfile:
		fmt.Fprintf(app.Out, "Edit it, then: listel section %s --out %s.pdf\n", path, c.Name)
	case library.KindCase:
		fmt.Fprintf(app.Out, "Edit it, then: listel packet %s\n", path)
	}
	return nil
}

// unitsOf returns the units that a copied file is written in.
func unitsOf(c library.Copied) measure.Units {
	p, _, err := library.LoadProfile(c.Name+".yaml", c.Text)
	if err != nil {
		return measure.Inches
	}
	return p.Units
}

// path returns where the copy goes.
func (o copyOptions) path(app App, name string) (string, error) {
	if !o.mine {
		return drawOptions{out: o.out}.target(name, "yaml"), nil
	}
	switch {
	case o.out != "":
		return "", wrongUse("--mine and --out name two places; give one")
	case app.UserFolder == "":
		return "", fmt.Errorf("this machine names no home folder to keep a library in; set XDG_DATA_HOME")
	}
	return filepath.Join(app.UserFolder, name+".yaml"), nil
}
