package folder

import (
	"os"
	"runtime"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestAFolderThatMayNotBeWritten works as an account that may read the folder
// and not write it. Root may write everything, so the thread takes the file
// system rights of nobody (setfsuid(2)).
func TestAFolderThatMayNotBeWritten(t *testing.T) {
	f := open(t)
	hand(t, f, "a.toml", load("A", 0))
	require.NoError(t, os.Chmod(f.Dir(), 0o555))
	defer os.Chmod(f.Dir(), 0o755)
	if os.Geteuid() == 0 {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		require.NoError(t, syscall.Setfsuid(65534))
		defer func() { require.NoError(t, syscall.Setfsuid(0)) }()
	}
	l, err := f.Read("a")
	require.NoError(t, err)
	_, err = f.Save("a", l.Revision, load("B", 0), "x")
	require.Equal(t, NotAllowed, KindOf(err), "%v", err)
	require.Contains(t, err.Error(), "may not be read or written by this account")
	_, err = f.Create("b", load("B", 0))
	require.Equal(t, NotAllowed, KindOf(err), "%v", err)
	again, err := f.Read("a")
	require.NoError(t, err)
	require.Equal(t, load("A", 0), again.Text)
}
