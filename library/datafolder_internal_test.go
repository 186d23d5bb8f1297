package library

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// Windows and macOS have a folder of their own for what a program holds for its user, which the standard library knows.
func TestDataFolder(t *testing.T) {
	t.Setenv("HOME", "/home/maker")
	own, err := os.UserConfigDir()
	require.NoError(t, err)
	for system, want := range map[string]string{"windows": own, "darwin": own, "linux": "/home/maker/.local/share", "freebsd": "/home/maker/.local/share"} {
		got, err := dataFolder(system)
		require.NoError(t, err)
		require.Equal(t, want, got, system)
	}
}
