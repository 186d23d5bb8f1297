package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

func newLibraryFindCmd(app App, run func(App, libraryOptions) error) *cobra.Command {
	var o libraryOptions
	cmd := &cobra.Command{
		Use:   "find WORD...",
		Short: "Find profiles by their members, in order from the foot, and by other words",
		Long: `Find prints the profiles that all the words describe. Words for members (cove, fillet, cyma-recta; also cavetto, ogee, quarter-round, plinth,
round, hollow) must be met in that order from the foot upward; profiles in which they follow one another with none between come first. Any
other word must be the family (` + familyNames() + `), say something of the shape (sprung, rabbet, drip, undercut), or
stand in the name, the title or the source.`,
		Example:           "  listel library find cove fillet\n  listel library find cornice sprung\n  listel library find base ogee\n  listel library find chippendale",
		ValidArgsFunction: findWords,
		Args:              takes(1, -1, "one WORD or more"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.words = args
			return run(app, o)
		},
	}
	o.commonOptions.flags(cmd)
	return cmd
}

// findWords completes the words that find knows.
func findWords(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	words := []string{"sprung", "rabbet", "drip", "undercut", "round", "hollow", "ogee"}
	for _, f := range profile.Families() {
		words = append(words, string(f))
	}
	for _, k := range profile.Kinds() {
		words = append(words, string(k))
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}

// familyNames returns the families as a list of words.
func familyNames() string {
	var names []string
	for _, f := range profile.Families() {
		names = append(names, string(f))
	}
	return strings.Join(names, ", ")
}

func runLibraryFind(app App, o libraryOptions) error {
	lengths, err := o.lengths(measure.Inches)
	if err != nil {
		return err
	}
	found := library.Open(".", app.UserFolder).Find(o.words)
	if o.json {
		if found == nil {
			found = []library.Match{}
		}
		return app.printJSON(found)
	}
	if len(found) == 0 {
		fmt.Fprintf(app.Err, "nothing found for %s; library list profile shows all\n", strings.Join(o.words, " "))
		return nil
	}
	all := make([]library.Listing, len(found))
	for i, m := range found {
		all[i] = m.Listing
	}
	first := func(i int) string {
		if found[i].Exact {
			return string(library.KindProfile)
		}
		return "with others between"
	}
	return printListings(app.Out, all, first, lengths)
}
