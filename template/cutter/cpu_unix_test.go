//go:build unix

package cutter_test

import (
	"syscall"
	"time"
)

// used returns the processor time that the process has used, by itself and for its collector: it does not hang on how busy the machine is.
func used() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano())
}
