//go:build !js

package pagetest

import (
	"encoding/json"
	"os"
	"strings"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// axeFile is where `make browser` puts the accessibility rules, axe-core.
const axeFile = "../../../build/axe/package/axe.min.js"

// violation is one finding of the audit.
type violation struct {
	ID     string
	Impact string
	Help   string
	Nodes  []struct{ HTML string }
}

// audit runs axe-core over what the tab shows now and fails on every serious or
// critical violation of WCAG 2.1 A and AA.
//
// Source of the rules: W3C, Web Content Accessibility Guidelines 2.1, as tested
// by axe-core.
func (b *tab) audit(state string) {
	b.t.Helper()
	rules, err := os.ReadFile(axeFile)
	if err != nil {
		missing(b.t, "axe-core", "make browser fetches it")
	}
	b.do(chromedp.Evaluate[chromedp.Void](string(rules)))
	answer := ask[string](b, `axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"], resultTypes: ["violations"] })
		.then((r) => JSON.stringify(r.violations.map((v) => ({ ID: v.id, Impact: v.impact, Help: v.help, Nodes: v.nodes.map((n) => ({ HTML: n.html })) }))))`)
	var found []violation
	require.NoError(b.t, json.Unmarshal([]byte(answer), &found))
	var serious []string
	for _, v := range found {
		line := v.Impact + " " + v.ID + ": " + v.Help
		for i, n := range v.Nodes {
			if i < 3 {
				line += "\n    " + n.HTML
			}
		}
		if v.Impact == "serious" || v.Impact == "critical" {
			serious = append(serious, line)
		} else {
			b.t.Logf("%s: %s", state, line)
		}
	}
	require.Empty(b.t, serious, "%s:\n%s", state, strings.Join(serious, "\n"))
}
