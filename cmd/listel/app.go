package main

import (
	"context"
	"io"
	"os"
	"time"

	"listel/cmd/listel/job"
	"listel/library"
)

// An App is what the commands meet the world through; tests give their own.
type App struct {
	Out, Err   io.Writer
	UserFolder string // the user's library and measured printers; "" for none
	Now        func() time.Time
	Plans      job.Cache       // keeps finished plans of set-ups, nil for nowhere
	Context    context.Context // ends a command that runs until it is stopped, nil for none
	Terminal   bool            // Err is a terminal, on which a bar may move

	files *writingState // of the files that the command writes; Main makes one where there is none
}

// NewApp returns the App of a person at a terminal.
func NewApp() App {
	return App{
		Out: os.Stdout, Err: os.Stderr, UserFolder: library.UserFolder(), Now: time.Now,
		Plans: library.OpenCache(library.CacheFolder()), Terminal: isTerminal(os.Stderr),
	}
}

// isTerminal reports whether a file is a terminal, or another device that takes characters.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
}
