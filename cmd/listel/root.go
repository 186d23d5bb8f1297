package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"listel/library"
)

const rootLong = `listel takes a molding to wood: it composes a section from classical members, fits it to a case with
its miters and returns, and prints everything full size for the bench.

A PROFILE or a CASE is a file, or the name of one in the library.

Exit codes: 0 done, 1 a fault of listel or of the machine, 2 wrong use, 3 the file says something impossible.`

// Main runs the command line args and returns the exit code. It is the one place where errors are printed.
func Main(args []string, app App) int {
	if args == nil {
		args = []string{} // cobra takes nil as an order to read os.Args
	}
	if app.files == nil {
		app.files = new(writingState)
	}
	out := &checkedWriter{Writer: app.Out}
	app.Out = out
	root := newRootCmd(app)
	root.SetArgs(args)
	err := root.Execute()
	switch {
	case err != nil && app.stopped() != nil && errors.Is(err, app.context().Err()):
		err = app.stopped()
	case err == nil:
		err = out.err
	}
	if err != nil {
		printFaults(app.Err, err)
	}
	return exitCode(err)
}

// printFaults prints an error, each of several mistakes of files on a line of its own.
func printFaults(out io.Writer, err error) {
	if mistakes, ok := err.(library.Mistakes); ok {
		for _, m := range mistakes {
			fmt.Fprintln(out, "listel: "+m.Error())
		}
		return
	}
	fmt.Fprintln(out, "listel: "+err.Error())
}

func newRootCmd(app App) *cobra.Command {
	root := &cobra.Command{
		Use:           "listel",
		Short:         "Moldings for case furniture, from section to full-size sheets",
		Long:          rootLong,
		Example:       "  listel packet\n  listel section ionic-impost",
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return cmd.Help()
		},
	}
	root.SetOut(app.Out)
	root.SetErr(app.Err)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return wrongUse("%w\nSee `%s --help`.", err, cmd.CommandPath())
	})
	root.AddCommand(
		newNewCmd(app, runNew),
		newCheckCmd(app, runCheck),
		newSectionCmd(app, runSection),
		newTraceCmd(app, runTrace),
		newMiterCmd(app, runMiter),
		newStockCmd(app, runStock),
		newSetupsCmd(app, runSetups),
		newScraperCmd(app, runScraper),
		newTemplateCmd(app, runTemplate),
		newPacketCmd(app, runPacket),
		newPrinterCmd(app),
		newLibraryCmd(app),
		newServeCmd(app, runServe),
		newManCmd(app, runMan),
	)
	completeFlags(root)
	return root
}

// noArgs refuses an argument with the name of what was meant, if it is near.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return wrongUse("unknown command %q; %s?", args[0], near[0])
	}
	return wrongUse("unknown command %q\nSee `%s --help`.", args[0], cmd.CommandPath())
}

// takes refuses any number of arguments outside least and most (-1: no limit), in the words of usage.
func takes(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < least || most >= 0 && len(args) > most {
			return wrongUse("%s takes %s, not %d arguments\nSee `%s --help`.", cmd.CommandPath(), what, len(args), cmd.CommandPath())
		}
		return nil
	}
}
