package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/template/sheet"
)

// pngDots is the resolution of PNG previews, dots per mm: about 200 dpi.
const pngDots = 8

// writeDocument writes the sheets of doc as the options ask, under the name stem where they name no file: a PDF is one file, SVG and PNG
// are one file a sheet. All are drawn, and their places looked at, before the first is written. It tells what was written on app.Err.
func (app App) writeDocument(doc sheet.Document, o drawOptions, stem string) error {
	kind, err := o.kind()
	if err != nil {
		return err
	}
	path := o.target(stem, kind)
	if kind == "pdf" {
		var b bytes.Buffer
		if err := sheet.WritePDF(&b, doc); err != nil {
			return err
		}
		return app.writeFiles([]library.File{{Path: path, Data: b.Bytes()}}, o.writing())
	}
	var files []library.File
	for i, page := range doc.Pages {
		if err := app.stopped(); err != nil {
			return err
		}
		var b bytes.Buffer
		if kind == "svg" {
			err = sheet.WriteSVG(&b, page)
		} else {
			err = sheet.WritePNG(&b, page, pngDots)
		}
		if err != nil {
			return err
		}
		files = append(files, library.File{Path: job.PagePath(path, i, len(doc.Pages)), Data: b.Bytes()})
	}
	return app.writeFiles(files, o.writing())
}

// finish numbers the sheets of doc and writes them, telling which they are when JSON is asked for.
func (app App) finish(doc sheet.Document, json bool, o drawOptions, stem string) error {
	doc = doc.Numbered()
	if json {
		if err := app.printJSON(newSheetsJSON(doc)); err != nil {
			return err
		}
	}
	return app.writeDocument(doc, o, stem)
}

// target returns the path to write to: --out, or stem in the folder that --out names, or stem here.
func (o drawOptions) target(stem, kind string) string {
	if o.out == "" {
		return stem + "." + kind
	}
	if isFolder(o.out) {
		return filepath.Join(o.out, stem+"."+kind)
	}
	if filepath.Ext(o.out) == "" {
		return o.out + "." + kind
	}
	return o.out
}

// isFolder reports whether the path names a folder: by its end, or because one is there.
func isFolder(path string) bool {
	if endsInSlash(path) {
		return true
	}
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// endsInSlash reports whether the path is written as that of a folder; such a one is made when it is not there.
func endsInSlash(path string) bool {
	return strings.HasSuffix(path, "/") || strings.HasSuffix(path, string(filepath.Separator))
}

// writeFiles writes each file whole or not at all, and none when one of them may not be replaced. It tells where they are.
func (app App) writeFiles(files []library.File, o library.WriteOptions) error {
	o.Stopped = app.stopped
	return app.hold(func() error {
		if err := library.WriteFiles(files, o); err != nil {
			return err
		}
		for _, f := range files {
			fmt.Fprintln(app.Err, "wrote "+f.Path)
		}
		return nil
	})
}

// hold calls what puts files in their places, and tells of them, while nothing else does: a command that is interrupted does not end in the middle
// of it. All that a command writes for its user is written so.
func (app App) hold(write func() error) error {
	app.files.Lock()
	defer app.files.Unlock()
	err := write()
	if err == nil {
		app.files.some.Store(true)
	}
	return err
}

// writing returns how the options have files written.
func (o drawOptions) writing() library.WriteOptions {
	return library.WriteOptions{Force: o.force, MakeFolder: endsInSlash(o.out)}
}

// printJSON writes v to app.Out, indented.
func (app App) printJSON(v any) error {
	enc := json.NewEncoder(app.Out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}
