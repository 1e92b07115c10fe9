package serve

import (
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/edit"
	"threepost/layout/session"
	"threepost/layout/stacks"
)

// laidOf gathers what an answer tells beside the plan, and the last plan.
func laidOf(t *testing.T, body string) (laid session.Laid, best planLine) {
	t.Helper()
	done := false
	for _, line := range strings.Split(strings.TrimSuffix(body, "\n"), "\n") {
		var l planLine
		require.NoError(t, json.Unmarshal([]byte(line), &l), line)
		if l.Edit != nil {
			require.False(t, done, "the plan is told before all else")
			best = l
		}
		done = done || l.Done
		had := laid
		require.NoError(t, json.Unmarshal([]byte(line), &laid), line)
		if had.Bound == nil && laid.Bound != nil || had.Plans == nil && laid.Plans != nil {
			require.True(t, done, "the plan is told before all else")
		}
	}
	require.True(t, done)
	return laid, best
}

// TestPlansStandBesideThePlan: after the plan come the bound, which no plan
// exceeds, and plans that differ, each sound, with the one that was told.
func TestPlansStandBesideThePlan(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "newcomer")
	laid, best := laidOf(t, r.ask("POST", "/api/plan", map[string]any{"text": text, "seed": 3, "work": 20000}).body)
	require.NotNil(t, laid.Bound)
	require.GreaterOrEqual(t, laid.Bound.Set, best.Set)
	require.Greater(t, len(laid.Plans), 1)
	load, err := document.Parse("", []byte(text))
	require.NoError(t, err)
	told := 0
	for i, p := range laid.Plans {
		set, err := edit.Apply(load, p.Edit)
		require.NoError(t, err)
		b, err := stacks.Build(set)
		require.NoError(t, err)
		require.Zero(t, clearance.Check(b).Problems)
		require.LessOrEqual(t, p.Set, laid.Bound.Set)
		require.LessOrEqual(t, p.Value, laid.Bound.Value+1e-6)
		require.Equal(t, len(b.Levels), p.Levels)
		require.Equal(t, i > 0, p.Differs != "")
		a, err := json.Marshal(p.Edit)
		require.NoError(t, err)
		e, err := json.Marshal(best.Edit)
		require.NoError(t, err)
		if string(a) == string(e) {
			told++
		}
	}
	require.Equal(t, 1, told)
}

// TestAPlanIsStoppedAndKept: who says that it is enough gets the plan so far,
// and what stands beside it.
func TestAPlanIsStoppedAndKept(t *testing.T) {
	r := start(t, nil)
	in := r.begin("/api/plan", map[string]any{"text": testLoad(t, "newcomer"), "seed": 1, "work": int64(1) << 39, "run": "mine"})
	first, err := in.ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, 204, r.ask("POST", "/api/plan/enough", map[string]any{"run": "mine"}).status)
	done := make(chan string, 1)
	go func() {
		rest, _ := io.ReadAll(in)
		done <- first + string(rest)
	}()
	select {
	case all := <-done:
		laid, best := laidOf(t, all)
		require.Positive(t, best.Set)
		require.NotNil(t, laid.Bound)
		require.NotEmpty(t, laid.Plans)
	case <-time.After(30 * time.Second):
		t.Fatal("the plan goes on")
	}
	r.refuses(404, "No plan of that name", r.ask("POST", "/api/plan/enough", map[string]any{"run": "mine"}))
	r.refuses(404, "No plan of that name", r.ask("POST", "/api/plan/enough", map[string]any{}))
	r.refuses(400, "name", r.ask("POST", "/api/plan", map[string]any{"text": testLoad(t, "newcomer"), "run": strings.Repeat("x", 65)}))
}

// TestTheSheetTellsWhatThePageKnows: bound and price that stood beside the plan
// are printed in the paper's units; without them nothing is worked out.
func TestTheSheetTellsWhatThePageKnows(t *testing.T) {
	r := start(t, nil)
	l, err := document.Parse("", []byte(testLoad(t, "reference/small-round")))
	require.NoError(t, err)
	level := &l.Towers[0].Levels[0]
	level.Set = level.Set[:len(level.Set)-2]
	ask := map[string]any{"text": string(document.Format(l)), "parts": []string{"front"}, "units": "mm"}
	require.NotContains(t, r.ask("POST", "/api/pages", ask).body, "Nobody")
	ask["beside"] = session.Laid{Bound: &session.LaidBound{Set: 31, Value: 1e6, From: 180, Count: 20, Levels: 2, Hold: 18},
		Price: &session.LaidPrice{Gap: 4, More: 1, Gaps: 3, Watches: 3, Ware: []session.LaidGain{{Ware: l.Ware[0].Name, Count: 1}}}}
	a := r.ask("POST", "/api/pages", ask)
	require.Equal(t, 200, a.status)
	require.Contains(t, a.body, "Nobody can set more")
	require.Contains(t, a.body, "1 more "+l.Ware[0].Name+" if 3 gaps shrink")
}
