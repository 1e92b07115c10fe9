package planner

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// sample reads a load of testdata/loads.
func sample(t testing.TB, name string) *layout.Load {
	t.Helper()
	path := "../../testdata/loads/" + name + ".toml"
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	l, err := document.Parse(path, data)
	require.NoError(t, err)
	return l
}

// shortOr is what a test takes by default, or all of it with THREEPOST_LONG=1;
// what was left out is told.
func shortOr[T any](t testing.TB, what string, short, long T) T {
	t.Helper()
	if os.Getenv("THREEPOST_LONG") != "" {
		return long
	}
	t.Logf("%s: %v; with THREEPOST_LONG=1 %v", what, short, long)
	return short
}

// samples are the names of the loads of testdata/loads.
func samples() []string {
	return []string{"newcomer", "small-round", "studio", "oval", "front-loader", "bisque"}
}

// planned searches a load for that much work.
func planned(t testing.TB, l *layout.Load, seed uint64, work int64) *Plan {
	t.Helper()
	s, err := Start(l, seed)
	require.NoError(t, err)
	s.Step(work)
	p, ok := s.Best()
	require.True(t, ok, "no plan: %s", s.Refused())
	return p
}

// requireSound checks a plan again from its document text, as another program
// would read it.
func requireSound(t testing.TB, p *Plan) *stacks.Built {
	t.Helper()
	l, err := document.Parse("plan", document.Format(p.Load))
	require.NoError(t, err)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	r := clearance.Check(b)
	for _, f := range r.Findings {
		require.NotEqual(t, layout.Problem, f.Grade, f.Sentence)
		if _, sight := isUnseen(f); f.Grade == layout.Watch && !sight { // in sight is a wish (sight.go)
			require.True(t, ofTheWare(f.Rule), "avoidable watch: %s", f.Sentence)
		}
	}
	return b
}

// setOf counts the pots of a row that a plan sets.
func setOf(p *Plan, ware string) int {
	n := 0
	for _, t := range p.Load.Towers {
		for _, v := range t.Levels {
			for _, pl := range v.Set {
				if pl.Pot.Ware == ware {
					n++
				}
			}
		}
	}
	return n
}
