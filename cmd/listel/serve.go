package main

import (
	"fmt"
	"os/exec"
	"runtime"

	"github.com/spf13/cobra"

	"listel/cmd/listel/serve"
)

type serveOptions struct {
	commonOptions
	folder string
	port   int
	open   bool
}

func newServeCmd(app App, run func(App, serveOptions) error) *cobra.Command {
	var o serveOptions
	cmd := &cobra.Command{
		Use:   "serve [FOLDER]",
		Short: "Show a page on this machine to design on",
		Long: `Serve shows a page in your browser on which a molding is composed and changed under the hand, seen on its case, and printed. It opens
and saves the files of FOLDER, the folder at hand without one, and nothing outside of it; what it saves the other commands read. When a file is
changed by another program the page follows, and asks where both have changed.

The page is for this machine alone: no other can reach it, and it fetches nothing from elsewhere. Stop it with Ctrl-C.`,
		Example: "  listel serve\n  listel serve moldings/ --port 8080 --open",
		Args:    takes(0, 1, "at most one FOLDER"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.folder = first(args)
			return run(app, o)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.json, "json", false, "print the address and the folder as JSON")
	f.IntVar(&o.port, "port", 0, "listen on port `N` (default: a free one)")
	f.BoolVar(&o.open, "open", false, "open the page in the browser")
	return cmd
}

// servedJSON is what serve --json prints.
type servedJSON struct {
	URL    string `json:"url"`
	Folder string `json:"folder"`
}

func runServe(app App, o serveOptions) error {
	if o.port < 0 || o.port > 65535 {
		return wrongUse("--port %d; it must be from 1 to 65535, or 0 for a free one", o.port)
	}
	s, err := serve.New(serve.Options{Folder: o.folder, User: app.UserFolder, Cache: app.Plans, Port: o.port, Write: app.hold})
	if err != nil {
		return err
	}
	if o.json {
		err = app.printJSON(servedJSON{s.URL(), s.Folder()})
	} else {
		_, err = fmt.Fprintf(app.Out, "%s\nshows the files of %s; Ctrl-C stops it\n", s.URL(), s.Folder())
	}
	if err != nil {
		s.Close()
		return err
	}
	if o.open {
		if err := openBrowser(s.URL()); err != nil {
			fmt.Fprintf(app.Err, "note: no browser was opened (%s); open the address yourself\n", err)
		}
	}
	return s.Run(app.context())
}

// openBrowser asks the machine to show an address.
func openBrowser(url string) error {
	name, args := "xdg-open", []string{url}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", url}
	}
	cmd := exec.Command(name, args...)
	if err := cmd.Start(); err != nil {
		return err
	}
	go func() { _ = cmd.Wait() }() // how it ends says nothing of the page
	return nil
}
