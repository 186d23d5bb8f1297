package main

import (
	"errors"
	"fmt"
	"io/fs"

	"listel/library"
	"listel/profile/trace"
	"listel/template/sheet"
)

// The exit codes: what a script can rely on.
const (
	exitDone  = 0 // done
	exitFault = 1 // a fault of ours or of the machine
	exitUsage = 2 // wrong use
	exitFile  = 3 // the file says something impossible
)

// A usageError is a wrong use of a command: an option or an argument that cannot be.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// wrongUse returns a usageError with the formatted text.
func wrongUse(format string, a ...any) error { return usageError{fmt.Errorf(format, a...)} }

// exitCode returns the code that err ends the process with.
func exitCode(err error) int {
	var use usageError
	var mistakes library.Mistakes
	var picture *library.PictureError
	var faults trace.Faults
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &use), errors.Is(err, sheet.ErrPaperTooSmall):
		return exitUsage
	case errors.As(err, &mistakes), errors.As(err, &picture), errors.As(err, &faults), errors.Is(err, sheet.ErrTooManySheets):
		return exitFile
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrExist): // a file named that is not there, or one not to be replaced
		return exitUsage
	}
	return exitFault
}
