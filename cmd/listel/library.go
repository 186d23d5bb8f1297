package main

import "github.com/spf13/cobra"

type libraryOptions struct {
	commonOptions
	drawOptions
	arg   string
	words []string
}

func newLibraryCmd(app App) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "library",
		Short: "Look through the profiles, tools, woods, papers and lumber at hand",
		Long: `The library holds what listel brings along and what you add: files beside your case come first, then those in your own
library folder, then those that listel brings. To have something of your own, copy what is nearest and change it.`,
		Example: "  listel library gallery\n  listel library find cove fillet\n  listel library show ionic-impost\n  listel library copy ionic-impost --as my-waist --height 2in",
		Args:    noArgs,
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(
		newLibraryListCmd(app, runLibraryList), newLibraryFindCmd(app, runLibraryFind), newLibraryGalleryCmd(app, runLibraryGallery),
		newLibraryShowCmd(app, runLibraryShow), newLibraryCopyCmd(app, runLibraryCopy),
	)
	return cmd
}
