package files

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// big is a file large enough that a kill often falls into its writing.
func big(fill byte) []byte { return bytes.Repeat([]byte{fill}, 8<<20) }

// TestMain lets the test binary play the writer that is killed.
func TestMain(m *testing.M) {
	if path := os.Getenv("THREEPOST_WRITER"); path != "" {
		for i := 0; ; i++ {
			if err := Write(path, big("ab"[i%2])); err != nil {
				os.Exit(1)
			}
		}
	}
	os.Exit(m.Run())
}

// TestKillWhileWritingLeavesAWholeFile kills a writer at many moments: what is
// there afterwards is the old file or the new one, whole.
func TestKillWhileWritingLeavesAWholeFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "load.toml")
	require.NoError(t, Write(path, big('b')))
	for i := range 12 {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "THREEPOST_WRITER="+path)
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(11+7*i) * time.Millisecond)
		require.NoError(t, cmd.Process.Kill())
		require.Error(t, cmd.Wait(), "the writer was to be killed, and ended by itself")
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Len(t, data, 8<<20)
		require.Contains(t, "ab", string(data[:1]))
		require.True(t, bytes.Equal(data, big(data[0])), "the file holds parts of two")
	}
}

func TestWriteKeepsPermissionsAndFollowsLinks(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.toml"), filepath.Join(dir, "link.toml")
	require.NoError(t, os.WriteFile(real, []byte("old"), 0o600))
	require.NoError(t, os.Symlink(real, link))
	require.NoError(t, Write(link, []byte("new")))
	data, err := os.ReadFile(real)
	require.NoError(t, err)
	require.Equal(t, "new", string(data))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
	info, err = os.Stat(real)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, entries, 2, "no temporary file is left")
}

func TestRefusalsAreSentences(t *testing.T) {
	dir := t.TempDir()
	_, err := Read(filepath.Join(dir, "none.toml"))
	require.ErrorContains(t, err, "is not there; check the name")
	_, err = Read(dir)
	require.ErrorContains(t, err, "is a folder")
	require.ErrorContains(t, Write(dir, nil), "is a folder")
	require.ErrorContains(t, Write(filepath.Join(dir, "none", "x.toml"), nil), "the folder "+filepath.Join(dir, "none")+" is not there")
	path := filepath.Join(dir, "there.toml")
	require.NoError(t, Create(path, []byte("x")))
	require.ErrorContains(t, Create(path, []byte("y")), "is there already")
	data, err := Read(path)
	require.NoError(t, err)
	require.Equal(t, "x", string(data))
	require.Equal(t, filepath.Join(dir, "there.earlier.toml"), Earlier(path))
}
