package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"listel/library"
)

type manOptions struct {
	root  *cobra.Command
	out   string
	force bool
	json  bool
}

func newManCmd(app App, run func(App, manOptions) error) *cobra.Command {
	var o manOptions
	cmd := &cobra.Command{
		Use:   "man",
		Short: "Write the manual pages of all commands",
		Long: `Man writes a page for man(1) of every command, from the words of their --help. Without --out they go into a folder man here; the folder man1 of a
manual, as ~/.local/share/man/man1, is where man finds them.`,
		Example: "  listel man\n  listel man --out ~/.local/share/man/man1\n  man ./man/listel.1",
		Args:    noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			o.root = cmd.Root()
			return run(app, o)
		},
	}
	cmd.Flags().StringVar(&o.out, "out", "man", "the `folder` to write to; it is made when it is not there")
	cmd.Flags().BoolVar(&o.force, "force", false, "replace pages that listel did not write")
	cmd.Flags().BoolVar(&o.json, "json", false, "print the names of the pages as JSON")
	return cmd
}

func runMan(app App, o manOptions) error {
	var files []library.File
	var add func(*cobra.Command) error
	add = func(cmd *cobra.Command) error {
		page, err := manPage(cmd)
		if err != nil {
			return err
		}
		name := strings.ReplaceAll(cmd.CommandPath(), " ", "-") + ".1"
		files = append(files, library.File{Path: filepath.Join(o.out, name), Data: page})
		for _, sub := range cmd.Commands() {
			if !sub.IsAvailableCommand() || sub.IsAdditionalHelpTopicCommand() {
				continue
			}
			if err := add(sub); err != nil {
				return err
			}
		}
		return nil
	}
	if err := add(o.root); err != nil {
		return err
	}
	if err := app.writeFiles(files, library.WriteOptions{Force: o.force, MakeFolder: true}); err != nil || !o.json {
		return err
	}
	names := []string{}
	for _, f := range files {
		names = append(names, f.Path)
	}
	return app.printJSON(map[string]any{"pages": names})
}

// manPage returns the page of one command, without a date, so that the same listel writes the same bytes.
func manPage(cmd *cobra.Command) ([]byte, error) {
	cmd.DisableAutoGenTag = true
	var b bytes.Buffer
	date := time.Time{}
	if err := doc.GenMan(cmd, &doc.GenManHeader{Section: "1", Date: &date, Source: "listel", Manual: "Moldings for case furniture"}, &b); err != nil {
		return nil, err
	}
	return bytes.Replace(b.Bytes(), []byte(`"`+date.Format("Jan 2006")+`"`), []byte(`""`), 1), nil
}
