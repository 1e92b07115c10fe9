package main

import (
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// opening is a page that runs until it is stopped.
type opening struct {
	lines *io.PipeReader
	first shown
	stop  func() error
}

// openPage runs the verb as --json and waits for the address.
func openPage(t *testing.T, name string, f pageFlags) opening {
	t.Helper()
	f.noBrowser = true
	out, in := io.Pipe()
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() {
		term := &terminal{in: strings.NewReader(""), out: in, errs: io.Discard, json: true}
		err := term.page(ctx, name, f)
		in.CloseWithError(io.EOF)
		ended <- err
	}()
	o := opening{lines: out}
	require.NoError(t, json.NewDecoder(out).Decode(&o.first))
	go io.Copy(io.Discard, out)
	done := false
	o.stop = func() error {
		if done {
			return nil
		}
		done = true
		cancel()
		return <-ended
	}
	t.Cleanup(func() { require.NoError(t, o.stop()) })
	return o
}

func get(t *testing.T, url string) (int, string) {
	t.Helper()
	client := http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	a, err := client.Get(url)
	require.NoError(t, err)
	defer a.Body.Close()
	body, err := io.ReadAll(a.Body)
	require.NoError(t, err)
	return a.StatusCode, string(body)
}

func TestOpenServesTheFolderOfALoad(t *testing.T) {
	path := reference(t, "newcomer")
	o := openPage(t, path, pageFlags{})
	require.True(t, strings.HasSuffix(o.first.Address, "/?load=newcomer"), o.first.Address)
	require.Empty(t, o.first.Code)
	base := strings.TrimSuffix(o.first.Address, "/?load=newcomer")
	require.True(t, strings.HasPrefix(base, "http://127.0.0.1:"), base)
	status, body := get(t, base+"/api/room")
	require.Equal(t, 200, status)
	require.Contains(t, body, `"id":"newcomer"`)

	// A second start finds the first.
	require.Equal(t, "Threepost runs already for "+o.first.Folder+":\n  "+base+"/\n", threepost(t, "open", filepath.Dir(path), "--no-browser"))
	// Another folder gets another port.
	other := openPage(t, t.TempDir(), pageFlags{})
	require.NotEqual(t, base+"/", other.first.Address)
	require.NoError(t, o.stop())
	require.NoFileExists(t, filepath.Join(filepath.Dir(path), ".threepost", "running"))
	_, err := http.Get(base + "/api/room")
	require.Error(t, err, "it answers no more")
}

func TestOpenWithoutANameMakesItsFolder(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home) // the home folder on Windows
	o := openPage(t, "", pageFlags{})
	real, err := filepath.EvalSymlinks(filepath.Join(home, "Threepost"))
	require.NoError(t, err)
	require.Equal(t, real, o.first.Folder)
	require.DirExists(t, real)
	// Without a verb it is the same page: here it runs already.
	t.Setenv("DISPLAY", "")
	t.Setenv("WAYLAND_DISPLAY", "")
	require.Contains(t, threepost(t), "Threepost runs already for "+real)
}

func TestOpenOnTheNetworkShowsACode(t *testing.T) {
	o := openPage(t, t.TempDir(), pageFlags{lan: true})
	require.Regexp(t, `^\d{3} \d{3}$`, o.first.Code)
	for _, a := range o.first.LAN {
		status, _ := get(t, a)
		require.Contains(t, []int{200, 401, 503}, status, a)
	}
	var out strings.Builder
	(&terminal{out: &out}).tellPage(shown{Folder: "/loads", Address: "http://127.0.0.1:4183/", LAN: []string{"http://192.0.2.5:4183/"}, Code: "123 456"})
	require.Equal(t, "Loads in /loads. The page is at\n  http://127.0.0.1:4183/\nOn a phone or tablet in the same network open\n  http://192.0.2.5:4183/\n"+
		"and type the code 123 456 there. The connection is not encrypted.\nCtrl-C ends it.\n", out.String())
	plainWords(t, out.String())
}

func TestOpenRefuses(t *testing.T) {
	path := reference(t, "newcomer")
	text := filepath.Join(filepath.Dir(path), "notes.txt")
	require.NoError(t, os.WriteFile(text, []byte("x"), 0o644))
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	port := strconv.Itoa(taken.Addr().(*net.TCPAddr).Port)
	keep := []string{path}
	refused(t, exitUnreadable, "is not there", keep, "open", filepath.Join(filepath.Dir(path), "none"), "--no-browser")
	refused(t, exitUnreadable, "is not there", keep, "open", filepath.Join(filepath.Dir(path), "none.toml"), "--no-browser")
	refused(t, exitUnreadable, "names end in .toml", keep, "open", text, "--no-browser")
	refused(t, exitUnreadable, "port "+port+" cannot be used", keep, "open", path, "--no-browser", "--port", port)
	refused(t, exitUsage, "--port is from 1 to 65535", keep, "open", path, "--port", "65536")
	refused(t, exitUsage, "one folder or one load", keep, "open", path, path)
	refused(t, exitUsage, "one folder or one load", keep, "open", "")
}

// TestOpenEndsWithinSeconds: a page that is being watched does not keep the
// program from ending.
func TestOpenEndsWithinSeconds(t *testing.T) {
	o := openPage(t, reference(t, "newcomer"), pageFlags{})
	base := strings.TrimSuffix(o.first.Address, "/?load=newcomer")
	a, err := http.Get(base + "/api/loads/newcomer/changes")
	require.NoError(t, err)
	defer a.Body.Close()
	begun := time.Now()
	require.NoError(t, o.stop())
	require.Less(t, time.Since(begun), 4*time.Second)
}
