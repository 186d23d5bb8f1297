package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"sync"
	"sync/atomic"
	"syscall"
	"time"
)

// What a command ends with that was interrupted: before it wrote anything, and after it told of what it wrote.
var (
	errStopped        = errors.New("stopped; nothing was written")
	errStoppedBetween = errors.New("stopped; what is told above was written")
)

// A patience is how long a command that was interrupted is waited for.
type patience struct {
	stop time.Duration // to come to its own end: serve lets a file be saved first
	end  time.Duration // from the last file that it was still writing to its end
}

// usualPatience is that of a person at a terminal.
var usualPatience = patience{stop: 3 * time.Second, end: 500 * time.Millisecond}

// A writingState is what is known of a command's files while it runs.
type writingState struct {
	sync.Mutex             // held while files are written and told of: see hold
	some       atomic.Bool // files were written
}

// untilStopped runs the command line args and returns the exit code. An interrupt, or an order to end, ends what is searched for and drawn; files are then
// not begun to be written any more, and those that are being written come whole into their places or not at all. A second one ends the
// process at once, and so does a command that takes longer to its end than is waited for.
func untilStopped(args []string, app App, wait patience) int {
	ctx, stop := signal.NotifyContext(app.context(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	app.Context, app.files = ctx, new(writingState)
	ended := make(chan int, 1)
	go func() { ended <- Main(args, app) }()
	select {
	case code := <-ended:
		return code
	case <-ctx.Done():
	}
	stop()
	select {
	case code := <-ended:
		return code
	case <-time.After(wait.stop):
	}
	app.files.Lock() // and never unlocked: what is being written is done, and nothing else begins
	select {
	case code := <-ended: // that was its last
		return code
	case <-time.After(wait.end):
	}
	fmt.Fprintln(app.Err, "listel: "+app.stopped().Error())
	return exitFault
}

// context returns what ends a command that is interrupted; tests end theirs with it.
func (app App) context() context.Context {
	if app.Context != nil {
		return app.Context
	}
	return context.Background()
}

// stopped returns errStopped once the command was interrupted, errStoppedBetween where it has written files by then.
func (app App) stopped() error {
	switch {
	case app.context().Err() == nil:
		return nil
	case app.files.some.Load():
		return errStoppedBetween
	}
	return errStopped
}

// A checkedWriter remembers the first error of the writer below it, so that a full disk behind a command's output is no success.
type checkedWriter struct {
	io.Writer
	err error
}

// Write writes to the writer below.
func (w *checkedWriter) Write(p []byte) (int, error) {
	n, err := w.Writer.Write(p)
	if w.err == nil {
		w.err = err
	}
	return n, err
}
