package main

import (
	"path/filepath"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/template/sheet"
)

// completes returns a completion of the first argument: the library's names of these kinds, and files.
func (app App) completes(kinds ...library.Kind) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		files, _ := filepath.Glob("*.yaml") // the pattern is good, so that there is no error
		names := files
		lib := library.Open(".", app.UserFolder)
		for _, k := range kinds {
			for _, e := range lib.List(k) {
				names = append(names, e.Name)
			}
		}
		return names, cobra.ShellCompDirectiveDefault
	}
}

// completeFlags registers the words that the options of commands that draw take.
func completeFlags(cmd *cobra.Command) {
	words := func(name string, all []string) {
		if cmd.Flags().Lookup(name) == nil {
			return
		}
		err := cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(all, cobra.ShellCompDirectiveNoFileComp))
		if err != nil {
			panic(err) // the flag is there
		}
	}
	words("paper", sheet.PaperNames())
	words("format", drawnKinds[:])
	words("units", []string{"in", "mm"})
	for _, sub := range cmd.Commands() {
		completeFlags(sub)
	}
}
