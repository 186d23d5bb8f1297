//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peak returns the most memory that an ended process held, in MB.
func peak(s *os.ProcessState) float64 {
	u, ok := s.SysUsage().(*syscall.Rusage)
	switch {
	case !ok:
		return 0
	case runtime.GOOS == "darwin": // in bytes there, else in kB
		return float64(u.Maxrss) / 1e6
	}
	return float64(u.Maxrss) / 1e3
}
