package clearance

import (
	"sort"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/stacks"
)

// Report is what a check found, graver findings first, then by rule in the
// order of the table, then by key.
type Report struct {
	Findings []layout.Finding `json:"findings"`
	Problems int              `json:"problems"`
	Watches  int              `json:"watches"`  // open ones
	Accepted int              `json:"accepted"` // watches that were accepted with a reason
	Notes    int              `json:"notes"`
}

// Check judges a built load by every rule.
func Check(b *stacks.Built) Report { return New(b).Check() }

// Find is the finding with that key, or nil.
func (r *Report) Find(key string) *layout.Finding {
	for i := range r.Findings {
		if r.Findings[i].Key == key {
			return &r.Findings[i]
		}
	}
	return nil
}

// newReport sorts findings, marks accepted watches and counts.
func newReport(findings []layout.Finding, accepted []layout.Accepted) Report {
	reasons := make(map[string]string, len(accepted))
	for _, a := range accepted {
		reason := a.Reason
		if reason == "" {
			reason = "accepted"
		}
		reasons[a.Finding] = reason
	}
	r := Report{Findings: findings}
	for i := range findings {
		f := &findings[i]
		switch f.Grade {
		case layout.Problem:
			r.Problems++
		case layout.Watch:
			if f.Accepted = reasons[f.Key]; f.Accepted != "" {
				r.Accepted++
			} else {
				r.Watches++
			}
		default:
			r.Notes++
		}
	}
	rank := map[layout.RuleName]int{}
	for i, rule := range ruleOrder() {
		rank[rule] = i
	}
	sort.SliceStable(findings, func(i, j int) bool { return before(&findings[i], &findings[j], rank) })
	return r
}

// before orders findings: problems first, then as the table goes, then by key.
func before(a, b *layout.Finding, rank map[layout.RuleName]int) bool {
	if a.Grade != b.Grade {
		return a.Grade > b.Grade
	}
	if ra, rb := rank[a.Rule], rank[b.Rule]; ra != rb {
		return ra < rb
	}
	return natural(a.Key, b.Key)
}

// ruleOrder is the order in which findings of one grade are told.
func ruleOrder() []layout.RuleName {
	return append([]layout.RuleName{
		layout.InsideKiln, layout.FitsFiring, layout.GlazedFoot, layout.RunnyCookie, layout.SoundShelf, layout.TowerFooting,
	}, append(layout.RuleNames(),
		layout.PostUnder, layout.ProbeLevel, layout.OneShelf, layout.CanBeSet, layout.Fuming, layout.InSight,
		layout.OwnedCount, layout.Waits)...)
}

// natural compares texts with their numbers as numbers: "mug 2" before
// "mug 10".
func natural(a, b string) bool {
	for a != "" && b != "" {
		na, nb := leading(a), leading(b)
		if na > 0 && nb > 0 {
			x, _ := strconv.Atoi(a[:na])
			y, _ := strconv.Atoi(b[:nb])
			if x != y {
				return x < y
			}
			if na != nb {
				return na < nb
			}
			a, b = a[na:], b[nb:]
			continue
		}
		if a[0] != b[0] {
			return a[0] < b[0]
		}
		a, b = a[1:], b[1:]
	}
	return len(a) < len(b)
}

// leading is how many digits a text begins with, at most nine.
func leading(s string) int {
	n := 0
	for n < len(s) && n < 9 && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// keyOf is the stable name of a finding: its rule and the things it is about,
// sorted where their order has no meaning.
func keyOf(rule layout.RuleName, labels ...string) string {
	return string(rule) + ": " + strings.Join(labels, ", ")
}
