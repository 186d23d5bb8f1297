//go:build unix

package stock_test

import (
	"syscall"
	"time"
)

// cpuTime returns the processor time the process has taken so far: where other programs share the machine it says
// more than the clock.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
