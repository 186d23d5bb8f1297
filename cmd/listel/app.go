package main

import (
	"io"
	"os"
	"time"

	"listel/library"
)

// An App is what the commands meet the world through; tests give their own.
type App struct {
	Out, Err   io.Writer
	UserFolder string // the user's library and measured printers; "" for none
	Now        func() time.Time
}

// NewApp returns the App of a person at a terminal.
func NewApp() App {
	return App{Out: os.Stdout, Err: os.Stderr, UserFolder: library.UserFolder(), Now: time.Now}
}
