//go:build !js

package pagetest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// done presses Done and waits for the next act. A knuckle that bounces counts
// once, so the page lets a third of a second pass between two.
func (b *tab) done() {
	b.t.Helper()
	was := ask[string](b, "document.querySelector('#kiln').innerText")
	b.wait(fmt.Sprintf(`(() => { if (document.querySelector("#kiln").innerText !== %s) return true; document.querySelector("button.done").click(); return false; })()`, quoted(was)))
	time.Sleep(400 * time.Millisecond) // the page takes no second press before
}

func TestStepsAtTheKilnKeepTheirTicks(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/kiln/newcomer", 390, 844)
	b.wait(`!!document.querySelector("#kiln.at-step h1")`)
	b.picture("first")
	for range 4 {
		b.done()
	}
	here := b.text("#kiln h1")
	b.picture("fifth")
	b.do(chromedp.Reload())
	b.wait(fmt.Sprintf(`document.querySelector("#kiln.at-step h1")?.innerText === %s`, quoted(here)))

	// Without the network the steps go on.
	b.offline(true)
	b.done()
	require.NotEqual(t, here, b.text("#kiln h1"))
	b.offline(false)
	b.press("Back")
	b.wait(fmt.Sprintf(`document.querySelector("#kiln.at-step h1")?.innerText === %s`, quoted(here)))
}

// A pot is taller than written. The answer keeps what stands, is written to the
// load, and the load has no new problem.
func TestItDoesNotFit(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/kiln/newcomer", 390, 844)
	b.wait(`!!document.querySelector("#kiln.at-step h1")`)
	for range 40 {
		if ask[bool](b, `!!document.querySelector("button.fit") && !!document.querySelector("#kiln .picture g.pot.now")`) {
			break
		}
		b.done()
	}
	before := h.read("newcomer")
	b.press("It doesn’t fit")
	b.wait(`!!document.querySelector("#kiln.asking")`)
	time.Sleep(400 * time.Millisecond)
	b.picture("ask")
	b.press("6 mm")
	b.wait(`!!document.querySelector("#kiln.answer button.done")`)
	time.Sleep(400 * time.Millisecond)
	b.picture("answer")
	says := b.text("#kiln h1")
	require.NotEmpty(t, says)
	b.click("button.done")
	b.eventually(func() bool { return h.read("newcomer") != before }, "the change is written to the load: "+says)
	l, err := document.Parse("newcomer", []byte(h.read("newcomer")))
	require.NoError(t, err)
	built, err := stacks.Build(l)
	require.NoError(t, err)
	report := clearance.Check(built)
	require.Zero(t, report.Problems, "%s: %v", says, report.Findings)
}

// The saved page is one file: opened from disk, with no network at all, it
// ticks off and keeps its ticks.
func TestSavedPageNeedsNoNetwork(t *testing.T) {
	h := open(t, "newcomer")
	file := filepath.Join(t.TempDir(), "newcomer.html")
	h.run("steps", h.file("newcomer"), "--out", file)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	for _, bad := range []string{"http://", "https://", `src="/`, `href="/`} {
		for at := 0; ; {
			i := strings.Index(string(text[at:]), bad)
			if i < 0 {
				break
			}
			at += i
			require.True(t, strings.HasPrefix(string(text[at:]), "http://www.w3.org/"), "the file names %q", text[at:at+40])
			at++
		}
	}
	b := newTab(t, 390, 844)
	b.offline(true)
	b.do(chromedp.Navigate("file://" + file))
	b.wait(`!!document.querySelector("#kiln.at-step h1")`)
	for range 3 {
		b.done()
	}
	here := b.text("#kiln h1")
	b.picture("saved")
	b.do(chromedp.Reload())
	b.wait(fmt.Sprintf(`document.querySelector("#kiln.at-step h1")?.innerText === %s`, quoted(here)))
	b.audit("saved page")
}
