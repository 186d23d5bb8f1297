//go:build unix

package library

import (
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// makePipe makes a named pipe; it is false where machines have none.
func makePipe(t *testing.T, path string) bool {
	require.NoError(t, syscall.Mkfifo(path, 0o666))
	return true
}
