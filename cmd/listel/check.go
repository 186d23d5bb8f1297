package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"listel/cmd/listel/job"
	"listel/library"
)

type checkOptions struct {
	commonOptions
	files []string
}

func newCheckCmd(app App, run func(App, checkOptions) error) *cobra.Command {
	var o checkOptions
	cmd := &cobra.Command{
		Use:   "check FILE...",
		Short: "Tell all that is wrong or odd in a file: profile, case, pieces, trace, tools, woods, papers, lumber or printers",
		Long: `Check reads files, builds what they describe and tells every mistake at once, each with its line, what was found and what
would do. It ends with exit code 3 when anything is wrong; notes on what is odd but possible do not count.`,
		Example: "  listel check cornice.yaml press.yaml",
		Args:    takes(1, -1, "one FILE or more"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.files = args
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	return cmd
}

// checkedJSON is what check --json prints for a file.
type checkedJSON struct {
	File     string        `json:"file"`
	Kind     string        `json:"kind"`
	OK       bool          `json:"ok"`
	Mistakes []mistakeJSON `json:"mistakes"`
	Notes    []string      `json:"notes"`
}

type mistakeJSON struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Key    string `json:"key"`
	Found  string `json:"found"`
	Want   string `json:"want"`
}

func runCheck(app App, o checkOptions) error {
	var all library.Mistakes
	checked := []checkedJSON{}
	for _, file := range o.files {
		c, err := app.check(file)
		var mistakes library.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			return err
		}
		all = append(all, mistakes...)
		c.File, c.OK, c.Mistakes = file, len(mistakes) == 0, []mistakeJSON{}
		for _, m := range mistakes {
			c.Mistakes = append(c.Mistakes, mistakeJSON{m.File, m.Line, m.Column, m.Key, m.Found, m.Want})
		}
		checked = append(checked, c)
		if o.json {
			continue
		}
		for _, n := range c.Notes {
			fmt.Fprintf(app.Out, "%s: note: %s\n", file, n)
		}
		if c.OK {
			fmt.Fprintf(app.Out, "%s: %s, nothing wrong\n", file, kindWords(c.Kind))
		}
	}
	if o.json {
		if err := app.printJSON(checked); err != nil {
			return err
		}
	}
	if len(all) > 0 {
		return all
	}
	return nil
}

// kindWords names a kind of file: a case, a list of pieces.
func kindWords(kind string) string {
	switch kind {
	case string(library.KindTrace):
		return "a plate to trace"
	case "tools":
		return "a set of tools"
	case string(library.KindPieces), "woods", "papers", "lumber", "printers":
		return "a list of " + kind
	}
	return "a " + kind
}

// check reads and builds one file and returns what kind it is and what is odd in it.
func (app App) check(file string) (checkedJSON, error) {
	out := checkedJSON{Notes: []string{}}
	if isPath(file) {
		listed, err := app.library(file).CheckListed(file)
		if out.Kind = listed; listed != "" || err != nil {
			return out, err
		}
	}
	kind, err := app.kindOf(file)
	if err != nil {
		return out, err
	}
	out.Kind = string(kind)
	switch kind {
	case library.KindCase:
		var c job.Case
		if c, err = app.loadCase(file); err == nil {
			out.Notes = append(out.Notes, c.Notes()...)
			notes, mistakes := c.StockNotes(app.context())
			for _, n := range notes {
				out.Notes = append(out.Notes, n.String())
			}
			if len(mistakes) > 0 {
				err = mistakes // what the sheets can be without, and stock cannot
			}
		}
	case library.KindPieces:
		_, _, err = library.ReadPieces(file)
	case library.KindTrace:
		var t job.Tracing
		if t, err = job.ReadTracing(file); err == nil {
			defer roomToTrace()()
			_, err = app.traced(&t)
		}
	default:
		var p job.Profile
		if p, err = app.loadProfile(file); err == nil {
			out.Notes = append(out.Notes, p.Notes()...)
		}
	}
	return out, err
}
