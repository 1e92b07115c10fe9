//go:build !js

package pagetest

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// built is the program under test, made once.
var built struct {
	once sync.Once
	path string
	err  error
}

// program builds threepost and gives its path.
func program(t *testing.T) string {
	t.Helper()
	if _, err := os.Stat("../../../assets/page/built/viewport.wasm.gz"); err != nil {
		missing(t, "the compiled viewport", "make viewport makes it")
	}
	built.once.Do(func() {
		folder, err := os.MkdirTemp("", "threepost-program-")
		if err != nil {
			built.err = err
			return
		}
		built.path = filepath.Join(folder, "threepost")
		cmd := exec.Command("go", "build", "-o", built.path, "threepost/cmd/threepost")
		if out, err := cmd.CombinedOutput(); err != nil {
			built.err = fmt.Errorf("%w: %s", err, out)
		}
	})
	require.NoError(t, built.err)
	return built.path
}

// house is the program with a folder of loads, open for one test.
type house struct {
	t       *testing.T
	folder  string
	address string
}

// addressShown is how the program tells where the page is.
var addressShown = regexp.MustCompile(`http://127\.0\.0\.1:\d+`)

// open starts the program over a folder with the given samples, each under the
// name of its file in testdata/loads/reference.
func open(t *testing.T, samples ...string) *house {
	t.Helper()
	h := &house{t: t, folder: t.TempDir()}
	for _, name := range samples {
		text, err := os.ReadFile(filepath.Join("../../../testdata/loads/reference", name+".toml"))
		require.NoError(t, err)
		h.write(name, string(text))
	}
	cmd := exec.Command(program(t), "open", h.folder, "--port", "0", "--no-browser")
	cmd.Env = append(os.Environ(), "HOME="+t.TempDir())
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	require.NoError(t, cmd.Start())
	t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		done := make(chan error, 1)
		go func() { done <- cmd.Wait() }()
		select {
		case <-done:
		case <-time.After(10 * time.Second):
			_ = cmd.Process.Kill()
			t.Error("the program does not end when interrupted")
		}
	})
	found := make(chan string, 1)
	go func() {
		lines := bufio.NewScanner(out)
		for lines.Scan() {
			if at := addressShown.FindString(lines.Text()); at != "" {
				found <- at
				break
			}
		}
		close(found)
		_, _ = io.Copy(io.Discard, out)
	}()
	select {
	case h.address = <-found:
	case <-time.After(patience):
	}
	require.NotEmpty(t, h.address, "the program tells its address; it said: %s", errs.String())
	return h
}

// write puts a load into the folder as another program would.
func (h *house) write(id, text string) {
	require.NoError(h.t, os.WriteFile(h.file(id), []byte(text), 0o644))
}

// read is the load as it stands on disk.
func (h *house) read(id string) string {
	text, err := os.ReadFile(h.file(id))
	require.NoError(h.t, err)
	return string(text)
}

func (h *house) file(id string) string { return filepath.Join(h.folder, id+".toml") }

// visit opens a path of the page in a new tab and waits for the first picture.
func (h *house) visit(path string, width, height int64) *tab {
	h.t.Helper()
	b := newTab(h.t, width, height)
	b.do(chromedp.Navigate(h.address + path))
	return b
}

// run runs a verb of the program and gives what it printed.
func (h *house) run(args ...string) string {
	h.t.Helper()
	cmd := exec.Command(program(h.t), args...)
	out, err := cmd.Output()
	if exit, ok := err.(*exec.ExitError); ok && exit.ExitCode() == 1 {
		err = nil // problems in the load are an answer
	}
	require.NoError(h.t, err, strings.Join(args, " "))
	return string(out)
}

// get asks the server as a program would, with headers changed.
func (h *house) get(method, path string, body io.Reader, change func(*http.Request)) *http.Response {
	h.t.Helper()
	r, err := http.NewRequest(method, h.address+path, body)
	require.NoError(h.t, err)
	if change != nil {
		change(r)
	}
	answer, err := http.DefaultClient.Do(r)
	require.NoError(h.t, err)
	h.t.Cleanup(func() { answer.Body.Close() })
	return answer
}

// names are the load files of the folder.
func (h *house) names() []string {
	list, err := filepath.Glob(filepath.Join(h.folder, "*.toml"))
	require.NoError(h.t, err)
	for i := range list {
		list[i] = filepath.Base(list[i])
	}
	return list
}
