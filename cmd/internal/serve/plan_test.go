package serve

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// linesOf reads a plan's answer without what stands beside the plan.
func linesOf(t *testing.T, body string) []planLine {
	t.Helper()
	var out []planLine
	for _, l := range linesAs[planLine](t, body) {
		if l.Of > 0 || l.Refusal != "" {
			out = append(out, l)
		}
	}
	return out
}

// TestAPlanStreamsAndIsTheSameAgain: the same text, seed and work give the
// same answer to the byte, on one core or two, and its edits make a load that
// passes the check.
func TestAPlanStreamsAndIsTheSameAgain(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "newcomer")
	ask := map[string]any{"text": text, "seed": 1, "work": 60000}
	a := r.ask("POST", "/api/plan", ask)
	require.Equal(t, 200, a.status, a.body)
	require.Equal(t, "application/x-ndjson; charset=utf-8", a.header.Get("Content-Type"))
	secured(t, a.header)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	require.Equal(t, a.body, r.ask("POST", "/api/plan", ask).body)

	lines := linesOf(t, a.body)
	load, err := document.Parse("", []byte(text))
	require.NoError(t, err)
	done, best := false, planLine{}
	for i, l := range lines {
		require.EqualValues(t, 1, l.Seed)
		require.Equal(t, 19, l.Of)
		if i > 0 {
			require.GreaterOrEqual(t, l.Value, lines[i-1].Value)
			require.GreaterOrEqual(t, l.Work, lines[i-1].Work)
		}
		if done {
			require.Nil(t, l.Edit, "after the end only what would let in the rest is told")
		}
		done = done || l.Done
		if l.Edit != nil {
			best = l
			require.Equal(t, layout.Arrange, l.Edit.Act)
			set, err := edit.Apply(load, *l.Edit)
			require.NoError(t, err)
			b, err := stacks.Build(set)
			require.NoError(t, err)
			require.Zero(t, clearance.Check(b).Problems)
		}
	}
	require.True(t, done)
	last := lines[len(lines)-1]
	require.EqualValues(t, 60000, last.Work)
	require.Equal(t, best.Set, last.Set)
	waits := 0
	for _, w := range last.Waits {
		require.NotEmpty(t, w.Why)
		waits += w.Count
	}
	require.Equal(t, last.Of-last.Set, waits)
}

func TestWhatWaitsAlone(t *testing.T) {
	r := start(t, nil)
	load, err := document.Parse("", []byte(testLoad(t, "reference/newcomer")))
	require.NoError(t, err)
	top := &load.Towers[len(load.Towers)-1]
	level := &top.Levels[len(top.Levels)-1]
	level.Set = level.Set[1:]
	a := r.ask("POST", "/api/plan", map[string]any{"text": string(document.Format(load)), "seed": 1, "work": 30000, "waiting": true})
	lines := linesOf(t, a.body)
	require.True(t, lines[len(lines)-1].Done)
	var e *layout.Edit
	for _, l := range lines {
		if l.Edit != nil {
			e = l.Edit
		}
	}
	require.NotNil(t, e)
	for i, tower := range load.Towers {
		for j, v := range tower.Levels {
			require.Equal(t, v.Posts, e.Towers[i].Levels[j].Posts)
			for _, p := range v.Set {
				require.Contains(t, e.Towers[i].Levels[j].Set, p)
			}
		}
	}
}

// TestClosingTheRequestStopsThePlan: with one seat, the next plan gets it.
func TestClosingTheRequestStopsThePlan(t *testing.T) {
	r := start(t, func(c *Config) {
		c.Limits.Plans, c.Limits.Read, c.Limits.Write = 1, 500*time.Millisecond, time.Second
	})
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	body, err := json.Marshal(map[string]any{"text": testLoad(t, "studio"), "seed": 1, "seconds": 600})
	require.NoError(t, err)
	q, err := http.NewRequestWithContext(ctx, "POST", r.url+"/api/plan", bytes.NewReader(body))
	require.NoError(t, err)
	q.Header.Set("Content-Type", "application/json")
	a, err := http.DefaultClient.Do(q)
	require.NoError(t, err)
	defer a.Body.Close()
	in := bufio.NewReader(a.Body)
	_, err = in.ReadString('\n')
	require.NoError(t, err)
	r.refuses(429, "Stop one of them", r.ask("POST", "/api/plan", map[string]any{"text": testLoad(t, "newcomer"), "work": 1}))
	stop()
	_, err = io.ReadAll(in)
	require.ErrorIs(t, err, context.Canceled)
	require.Eventually(t, func() bool {
		return r.ask("POST", "/api/plan", map[string]any{"text": testLoad(t, "newcomer"), "work": 1}).status == 200
	}, 30*time.Second, 50*time.Millisecond)
	require.Empty(t, r.log.String())
}

func TestATimedPlanEndsAndSaysItsWork(t *testing.T) {
	r := start(t, nil)
	begun := time.Now()
	lines := linesOf(t, r.ask("POST", "/api/plan", map[string]any{"text": testLoad(t, "newcomer"), "seed": 5, "seconds": 0.4}).body)
	require.Less(t, time.Since(begun), 20*time.Second)
	last := lines[len(lines)-1]
	require.True(t, last.Done)
	require.Positive(t, last.Work)
	require.EqualValues(t, 5, last.Seed)
}

func TestPlansThatCannotBe(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "newcomer")
	r.refuses(422, "count = 12", r.ask("POST", "/api/plan", map[string]any{"text": "x"}))
	r.refuses(400, "seconds", r.ask("POST", "/api/plan", map[string]any{"text": text, "seconds": 1e9}))
	r.refuses(400, "seconds", r.ask("POST", "/api/plan", map[string]any{"text": text, "seconds": -1}))
	r.refuses(400, "work", r.ask("POST", "/api/plan", map[string]any{"text": text, "work": -1}))
	r.refuses(400, "The request", r.ask("POST", "/api/plan", map[string]any{"text": text, "seed": -1}))
	load, err := document.Parse("", []byte(text))
	require.NoError(t, err)
	load.Furniture.Posts = nil
	lines := linesOf(t, r.ask("POST", "/api/plan", map[string]any{"text": string(document.Format(load)), "work": 5000}).body)
	require.Len(t, lines, 1)
	require.True(t, lines[0].Done)
	require.Contains(t, lines[0].Refusal, "posts")
}

func TestPapersAsPDFAndPictures(t *testing.T) {
	r := start(t, nil)
	ask := map[string]any{"text": testLoad(t, "reference/newcomer"), "parts": []string{"front", "boards", "levels"}, "paper": "Letter", "units": "in", "words": "UK"}
	a := r.ask("POST", "/api/pdf", ask)
	require.Equal(t, 200, a.status, a.body[:min(len(a.body), 300)])
	require.Equal(t, "application/pdf", a.header.Get("Content-Type"))
	secured(t, a.header)
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationStrict
	require.NoError(t, api.Validate(strings.NewReader(a.body), conf))
	sizes, err := api.PageDims(strings.NewReader(a.body), conf)
	require.NoError(t, err)
	for _, s := range sizes { // ANSI/ASME Y14.1: 8.5 x 11 in, 72 points each
		require.InDelta(t, 612, s.Width, 0.1)
		require.InDelta(t, 792, s.Height, 0.1)
	}
	require.Equal(t, a.body, r.ask("POST", "/api/pdf", ask).body, "the same load gives the same bytes")

	pictures := r.ask("POST", "/api/pages", ask).json(t)["pages"].([]any)
	require.Len(t, pictures, len(sizes))
	for _, p := range pictures {
		require.NotEmpty(t, p.(map[string]any)["name"])
		require.Contains(t, p.(map[string]any)["svg"], "<svg ")
	}
	measuring := r.ask("POST", "/api/pages", map[string]any{"text": testLoad(t, "studio"), "parts": []string{"measuring"}})
	require.Len(t, measuring.json(t)["pages"], 1)
}

func TestPapersThatCannotBe(t *testing.T) {
	r := start(t, nil)
	text := testLoad(t, "reference/newcomer")
	for _, c := range []struct {
		status   int
		sentence string
		ask      map[string]any
	}{
		{422, "count = 12", map[string]any{"text": "x"}},
		{422, "The load has no levels yet; plan it first.", map[string]any{"text": testLoad(t, "studio")}},
		{400, `"A5"`, map[string]any{"text": text, "paper": "A5"}},
		{400, "ells", map[string]any{"text": text, "units": "ells"}},
		{400, "AU", map[string]any{"text": text, "words": "AU"}},
		{400, `"lid" is no part`, map[string]any{"text": text, "parts": []string{"lid"}}},
	} {
		r.refuses(c.status, c.sentence, r.ask("POST", "/api/pdf", c.ask))
		r.refuses(c.status, c.sentence, r.ask("POST", "/api/pages", c.ask))
	}
}
