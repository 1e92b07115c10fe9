//go:build !js

package pagetest

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// patience is how long a test waits for anything: long, since the machines are
// shared and the tests measure no time.
const patience = 60 * time.Second

// browserPath finds the browser, or "".
func browserPath() string {
	if named := os.Getenv("THREEPOST_BROWSER"); named != "" {
		return named
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// missing leaves a test out with the reason, or fails it where everything must
// be there.
func missing(t *testing.T, what, cure string) {
	t.Helper()
	if os.Getenv("THREEPOST_CI") != "" {
		t.Fatalf("%s is missing; %s", what, cure)
	}
	t.Skipf("left out: %s is missing; %s", what, cure)
}

// chrome is one browser for all tests of the package; each test has a tab.
var chrome struct {
	once sync.Once
	ctx  context.Context
	stop func()
	err  error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if chrome.stop != nil {
		chrome.stop()
	}
	os.Exit(code)
}

// startChrome starts the browser the first time that a test asks for a tab.
func startChrome(path string) (context.Context, error) {
	chrome.once.Do(func() {
		profile, err := os.MkdirTemp("", "threepost-browser-")
		if err != nil {
			chrome.err = err
			return
		}
		opts := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path),
			chromedp.UserDataDir(profile),
			chromedp.Flag("use-gl", "angle"),
			chromedp.Flag("use-angle", "swiftshader"),
			chromedp.Flag("enable-unsafe-swiftshader", true),
			chromedp.Flag("disable-quic", true),
			chromedp.Flag("disable-component-update", true),
			chromedp.Flag("disable-background-networking", true),
			chromedp.Flag("disable-sync", true),
		)
		if os.Geteuid() == 0 {
			opts = append(opts, chromedp.NoSandbox)
		}
		alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), opts...)
		ctx, stopTab := chromedp.NewContext(alloc)
		chrome.err = chromedp.Do(ctx)
		chrome.ctx = ctx
		chrome.stop = func() {
			stopTab()
			stopAlloc()
			os.RemoveAll(profile)
		}
	})
	return chrome.ctx, chrome.err
}

// tab is one page of the browser, and what it complained about.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu    sync.Mutex
	wrote []string // to the console
}

// newTab opens an empty tab of a size in CSS px.
func newTab(t *testing.T, width, height int64) *tab {
	t.Helper()
	path := browserPath()
	if path == "" {
		missing(t, "a browser", "make browser installs Chromium")
	}
	whole, err := startChrome(path)
	require.NoError(t, err, "the browser %s starts", path)
	ctx, stop := chromedp.NewContext(whole)
	t.Cleanup(stop)
	b := &tab{t: t, ctx: ctx}
	require.NoError(t, chromedp.Do(ctx))
	console := chromedp.Console(ctx)
	go func() {
		for m, err := range console {
			if err != nil {
				return
			}
			b.mu.Lock()
			b.wrote = append(b.wrote, m.String())
			b.mu.Unlock()
		}
	}()
	b.do(chromedp.EmulateViewport(width, height))
	return b
}

// do runs steps within the patience of the tests.
func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	b.must(chromedp.Do(ctx, steps...), "a step")
}

// must ends the test with a picture and what the page wrote to its console.
func (b *tab) must(err error, doing string) {
	b.t.Helper()
	if err == nil {
		return
	}
	b.picture("failed")
	b.mu.Lock()
	defer b.mu.Unlock()
	require.NoError(b.t, err, "%s\nThe console: %s", doing, strings.Join(b.wrote, "\n"))
}

// ask evaluates an expression of the page.
func ask[T any](b *tab, expression string) T {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, expression)
	return v
}

// wait waits until an expression of the page is true.
func (b *tab) wait(expression string) {
	b.t.Helper()
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	_, err := chromedp.Run(ctx, chromedp.Poll[bool](expression,
		chromedp.WithPollingInterval(50*time.Millisecond), chromedp.WithPollingTimeout(patience)))
	b.must(err, expression)
}

// scheme chooses light or dark, as the person's system would.
func (b *tab) scheme(name string) {
	b.t.Helper()
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: name}},
	})
	require.NoError(b.t, err)
}

// offline takes the network away from the tab, or gives it back.
func (b *tab) offline(gone bool) {
	b.t.Helper()
	rule := []*network.Conditions{}
	if gone {
		rule = append(rule, &network.Conditions{Offline: true, DownloadThroughput: -1, UploadThroughput: -1})
	}
	_, err := chromedp.Call(b.ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{MatchedNetworkConditions: rule})
	require.NoError(b.t, err)
}

// picture writes what the tab shows to the folder THREEPOST_LOOK, when set.
func (b *tab) picture(name string) {
	folder := os.Getenv("THREEPOST_LOOK")
	if folder == "" {
		return
	}
	ctx, stop := context.WithTimeout(b.ctx, patience)
	defer stop()
	png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		b.t.Logf("no picture of %s: %v", name, err)
		return
	}
	path := filepath.Join(folder, filepath.Base(b.t.Name())+"-"+name+".png")
	require.NoError(b.t, os.WriteFile(path, png, 0o644))
}
