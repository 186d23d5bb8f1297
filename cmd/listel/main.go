// Command listel takes a molding from a set of proportions or a picture to wood.
package main

import (
	"os"
	"runtime/debug"
)

// memory is what the collector keeps to as long as less is held, in bytes: a packet plans two moldings at once and stays under 200 MB.
const memory = 150 << 20

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memory)
	}
	os.Exit(untilStopped(os.Args[1:], NewApp(), usualPatience))
}
