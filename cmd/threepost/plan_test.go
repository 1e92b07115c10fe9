package main

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
	"threepost/layout/planner"
)

// work is enough for a full first plan of the newcomer's 19 pots.
const work = "6000"

// TestPlanTellsAndWrites plans three bowls on one shelf, of which there is
// little to choose, so that the words are held and not the search.
func TestPlanTellsAndWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "three.toml")
	threepost(t, "new", path, "--kiln", "457 x 200", "--cone", "6", "--shelves", "1 round 410 x 16", "--posts", "3 of 25")
	threepost(t, "add", path, "3 bowls 75 x 150", "vase 220 x 110")
	golden(t, "plan.txt", threepost(t, "plan", path, "--work", "2500"), path)
	require.Contains(t, threepost(t, "check", path), "No problem, 1 watch. 3 of 4 pots set, 1 level.", "the clay is not told")
}

func TestPlanOfTheNewcomer(t *testing.T) {
	path := sample(t, "newcomer")
	first := read(t, path)
	out := threepost(t, "plan", path, "--work", work)
	require.Contains(t, out, "Written to "+path+".")
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path), "no earlier arrangement, no copy of one")
	l := parsed(t, path)
	require.NotEmpty(t, l.Towers)
	set, of := countPots(l)
	require.Equal(t, 19, of)
	require.GreaterOrEqual(t, set, 14)
	require.NotEqual(t, first, read(t, path))

	// A second plan keeps the first beside it, to the byte.
	before := read(t, path)
	threepost(t, "plan", path, "--work", work, "--seed", "7")
	require.Equal(t, []string{"newcomer.earlier.toml", "newcomer.toml"}, inFolder(t, path))
	require.Equal(t, before, read(t, filepath.Join(filepath.Dir(path), "newcomer.earlier.toml")))
}

func TestPlanDryWritesNothing(t *testing.T) {
	path := sample(t, "newcomer")
	before := read(t, path)
	out := threepost(t, "plan", path, "--work", work, "--dry")
	require.NotContains(t, out, "Written")
	require.Contains(t, out, "Seed 1, work ")
	require.Equal(t, before, read(t, path))
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
}

func TestPlanOutLeavesTheLoad(t *testing.T) {
	path := reference(t, "newcomer")
	before := read(t, path)
	other := filepath.Join(t.TempDir(), "other.toml")
	threepost(t, "plan", path, "--work", work, "--out", other)
	require.Equal(t, before, read(t, path))
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
	require.Equal(t, []string{"other.toml"}, inFolder(t, other))
	require.NotEmpty(t, parsed(t, other).Towers)
}

// TestPlanOutUnderAnotherSpelling names the load itself, spelt otherwise: the
// earlier arrangement is kept as ever.
func TestPlanOutUnderAnotherSpelling(t *testing.T) {
	path := reference(t, "newcomer")
	before := read(t, path)
	t.Chdir(filepath.Dir(path))
	threepost(t, "plan", "newcomer.toml", "--work", work, "--out", "./newcomer.toml")
	require.Equal(t, before, read(t, "newcomer.earlier.toml"))
}

// TestPlanRepeats plans with the seed and the work that a run printed: the file
// is the same, to the byte.
func TestPlanRepeats(t *testing.T) {
	path, again := sample(t, "newcomer"), sample(t, "newcomer")
	var a, b planned
	require.NoError(t, json.Unmarshal([]byte(threepost(t, "plan", path, "--work", work, "--seed", "3", "--json")), &a))
	threepost(t, "plan", again, "--work", work, "--seed", "3")
	require.Equal(t, read(t, path), read(t, again))

	again = sample(t, "newcomer")
	require.NoError(t, json.Unmarshal([]byte(threepost(t, "plan", again, "--work", jsonNumber(a.Work), "--seed", "3", "--json")), &b))
	require.Equal(t, read(t, path), read(t, again), "work %d gave the plan, and printed gives another", a.Work)
}

func jsonNumber(n int64) string {
	text, _ := json.Marshal(n)
	return string(text)
}

// TestPlanThatTimeEnds repeats a run that the clock ended.
func TestPlanThatTimeEnds(t *testing.T) {
	path, again := sample(t, "small-round"), sample(t, "small-round")
	var a planned
	require.NoError(t, json.Unmarshal([]byte(threepost(t, "plan", path, "--seconds", "0.3", "--json")), &a))
	threepost(t, "plan", again, "--work", jsonNumber(a.Work))
	require.Equal(t, read(t, path), read(t, again), "work %d", a.Work)
}

func TestPlanWithoutEnoughWork(t *testing.T) {
	path := sample(t, "studio")
	before := read(t, path)
	e := typed("", "plan", path, "--work", "1")
	require.Equal(t, exitProblems, e.code)
	require.Contains(t, e.out, "No plan was found with this work. Give it more with --work.")
	require.Equal(t, before, read(t, path))
	e = typed("", "plan", path, "--seconds", "0.0001", "--json")
	require.True(t, json.Valid([]byte(e.out)), e.out)

	e = typed("", "plan", path, "--work", "1", "--json")
	require.Equal(t, exitProblems, e.code)
	var a planned
	require.NoError(t, json.Unmarshal([]byte(e.out), &a), "JSON, whatever the end: %s", e.out)
	require.Zero(t, a.Set)
	require.Equal(t, 92, a.Of)
}

// TestPlanKeepsWhatStands plans around the levels that stand in the kiln.
func TestPlanKeepsWhatStands(t *testing.T) {
	path := reference(t, "newcomer")
	text := read(t, path)
	l := parsed(t, path)
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			l.Towers[i].Levels[j].Standing = i == 0
		}
	}
	o := &opened{path: path, text: []byte(text), load: parsed(t, path)}
	require.NoError(t, o.save(path, l))
	threepost(t, "plan", path, "--work", work, "--seed", "5")
	require.Equal(t, l.Towers[0], parsed(t, path).Towers[0])
}

// TestPlanThroughALink writes the file that a link leads to.
func TestPlanThroughALink(t *testing.T) {
	path := sample(t, "newcomer")
	link := filepath.Join(t.TempDir(), "link.toml")
	if err := os.Symlink(path, link); err != nil {
		t.Logf("no links here, nothing to try: %v", err)
		return
	}
	threepost(t, "plan", link, "--work", work)
	require.NotEmpty(t, parsed(t, path).Towers)
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
}

// TestPlanTellsHeightsAsTheSheetDoes: a front-loader is measured up from the
// hearth, and a shelf's height is said to the nearest step: 18 in less 1 in and
// 16 mm is 16.37 in, 16 3/8 on a ruler in eighths.
func TestPlanTellsHeightsAsTheSheetDoes(t *testing.T) {
	begin := func(more ...string) string {
		path := filepath.Join(t.TempDir(), "x.toml")
		require.Contains(t, threepost(t, append([]string{"new", path, "--cone", "6"}, more...)...), "Add pots")
		return path
	}
	front := begin("--kiln", "rectangle 500 x 500 x 500", "--front")
	threepost(t, "add", front, "mug 100 x 85, clay buff cone 6")
	require.Regexp(t, `level 1 +41 up, takes`, threepost(t, "plan", front, "--work", "20000", "--dry"))
	inches := begin("--kiln", "18 x 18", "--units", "in")
	threepost(t, "add", inches, "mug 4 x 3, clay buff cone 6")
	require.Regexp(t, `level 1 +16 3/8 down, takes`, threepost(t, "plan", inches, "--work", "20000", "--dry"))
}

// TestNoPots: a load without pots plans to an empty shelf, tells no blank line,
// and there are no papers to print of it.
func TestNoPots(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.toml")
	require.Contains(t, threepost(t, "new", path, "--kiln", "18 x 18", "--units", "in", "--cone", "6"), `"12 mugs 4 x 3 3/8"`)
	require.NotRegexp(t, `\n\s*\n`, threepost(t, "plan", path, "--work", "1000"))
	refused(t, exitUsage, "has no pots on its levels", []string{path}, "papers", path)
}

// TestPlanTellsThreeWays tells plans that differ, writes the one that is taken,
// and prints the bound and the price of closer gaps beside it.
func TestPlanTellsThreeWays(t *testing.T) {
	path := sample(t, "newcomer")
	threepost(t, "add", path, "20 cups 80 x 80, clay pale cone 6")
	out := threepost(t, "plan", path, "--work", "9000", "--ways", "--take", "2")
	require.Regexp(t, `plan 1    \d+ set on \d levels, (no watch|\d+ watch(es)?), \d+ pieces of furniture\. [A-Z]`, out)
	require.Regexp(t, `plan 2    \d+ set on \d levels, .* instead of .*\.`, out)
	require.Regexp(t, `\d+ set. (Nobody can set more|Nothing shows)`, out)
	l := parsed(t, path)
	set, _ := countPots(l)
	var a planned
	again := sample(t, "newcomer")
	threepost(t, "add", again, "20 cups 80 x 80, clay pale cone 6")
	require.NoError(t, json.Unmarshal([]byte(threepost(t, "plan", again, "--work", "9000", "--ways", "--dry", "--json")), &a))
	require.Len(t, a.Ways, 3)
	require.Equal(t, set, a.Ways[1].Set)
	require.Equal(t, a.Set, a.Ways[0].Set)
	require.NotNil(t, a.Bound)
	require.GreaterOrEqual(t, a.Bound.Set, a.Set)
	require.NotNil(t, a.Closer)
	require.Equal(t, 4.0, a.Closer.Gap)
	require.Equal(t, exitUsage, typed("", "plan", path, "--take", "4").code)
}

// TestPlanTellsWhatIsWorthBuying only when it is asked, in words and in JSON.
func TestPlanTellsWhatIsWorthBuying(t *testing.T) {
	path := sample(t, "newcomer")
	threepost(t, "add", path, "1 monument 900 x 80, clay pale cone 6")
	require.NotContains(t, threepost(t, "plan", path, "--work", "2000", "--dry"), "purchase")
	told := threepost(t, "plan", path, "--work", "2000", "--dry", "--buy")
	require.Regexp(t, `(?m)^(None of \d+ purchases sets more|So say plans with \d+ purchases), by 10000 units of work each\.$`, told)
	var a planned
	require.NoError(t, json.Unmarshal([]byte(threepost(t, "plan", path, "--work", "2000", "--dry", "--buy", "--json")), &a))
	require.NotNil(t, a.Buy)
	require.Positive(t, a.Buy.Tried)
	require.NotEmpty(t, a.Buy.Says)
	for _, s := range a.Buy.Says {
		require.Contains(t, told, s)
	}
}

// TestPlanTellsWhyEachLevelHasItsHeight, once for every storey, in words and in
// JSON, and only when it is asked for.
func TestPlanTellsWhyEachLevelHasItsHeight(t *testing.T) {
	path := sample(t, "newcomer")
	require.NotContains(t, threepost(t, "plan", path, "--work", "2000", "--dry"), "why   ")
	told := threepost(t, "plan", path, "--work", "2000", "--dry", "--why")
	require.Regexp(t, `(?m)^why       .* stands on [36]×25: plans keep 25 over the floor\.$`, told)
	require.Regexp(t, `(?m)^why       .* to the lid: `, told)
	var a planned
	require.NoError(t, json.Unmarshal([]byte(threepost(t, "plan", path, "--work", "2000", "--dry", "--why", "--json")), &a))
	require.Greater(t, len(a.Heights), len(a.Levels), "a storey of each level, and the rooms to the lid")
	for _, h := range a.Heights {
		require.NotEmpty(t, h.Cause)
		require.NotEmpty(t, h.Says)
		require.Positive(t, h.Height)
	}
}

// TestBuyingStopsWhenAPersonStopsIt, and tells how far it came.
func TestBuyingStopsWhenAPersonStopsIt(t *testing.T) {
	l, err := document.Parse("", []byte(read(t, sample(t, "newcomer"))))
	require.NoError(t, err)
	l.Ware[0].Count = 40
	s, err := planner.Start(l, 1)
	require.NoError(t, err)
	s.Step(3000)
	p, ok := s.Best()
	require.True(t, ok)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	b, err := (&terminal{errs: io.Discard}).buying(ctx, l, p)
	require.NoError(t, err)
	require.Zero(t, b.Tried)
	require.Equal(t, 12, b.Of)
	require.Equal(t, []string{"Stopped before the first of 12 purchases was planned with."}, b.Say())
}
