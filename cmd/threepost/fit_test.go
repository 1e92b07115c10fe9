package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/cmd/internal/files"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/session"
	"threepost/layout/stacks"
)

// TestFitTells: the answers in their order, with what each moves and leaves to
// the lid; nothing is written.
func TestFitTells(t *testing.T) {
	path := reference(t, "studio")
	before := read(t, path)
	golden(t, "fit.txt", threepost(t, "fit", path, "--loaded", "left 1", "--taller", "soup bowl 4: 6 mm")+
		threepost(t, "fit", path, "--loaded", "left 1", "--loaded", "right 2", "--no-post", "75")+
		threepost(t, "fit", path, "--loaded", "bottom", "--no-shelf", "half")+
		threepost(t, "fit", path, "--without", "soup bowl 4")+
		threepost(t, "fit", path, "--one-more", "60 x 50"), path)
	require.Equal(t, before, read(t, path))
	require.Equal(t, []string{"studio.toml"}, inFolder(t, path))
}

// TestLawFitKeepsWhatStands: every way, taken into a file of its own, passes the
// check as the load did, and what was loaded stands there as before.
func TestLawFitKeepsWhatStands(t *testing.T) {
	path := reference(t, "newcomer")
	before := parsed(t, path)
	for _, fact := range [][]string{{"--taller", "mug 3: 4 mm"}, {"--taller", "bowl: 3"}, {"--wider", "bowl 2: 3 mm"}, {"--no-post", "2 of 100"}, {"--without", "vase"}, {"--one-more", "60 x 50"}} {
		args := append([]string{"fit", path, "--loaded", "bottom", "--json"}, fact...)
		var told fitAnswer
		require.NoError(t, json.Unmarshal([]byte(threepost(t, args...)), &told))
		require.NotEmpty(t, told.Answers, "%v", fact)
		require.Equal(t, 19, told.Of)
		for i, w := range told.Answers {
			out := filepath.Join(t.TempDir(), "after.toml")
			threepost(t, append(args, "--take", string(rune('1'+i)), "--out", out)...)
			after := parsed(t, out)
			b, err := stacks.Build(after)
			require.NoError(t, err)
			require.Zero(t, clearance.Check(b).Problems, "%v: %s", fact, w.Says)
			set, _ := countPots(after)
			require.Equal(t, w.Set, set, "%v: %s", fact, w.Says)
			is := map[[3]float64]bool{}
			for _, p := range after.Towers[0].Levels[0].Set {
				is[[3]float64{p.At[0], p.At[1], p.Turn}] = true
			}
			missing := 0
			for _, p := range before.Towers[0].Levels[0].Set {
				if !is[[3]float64{p.At[0], p.At[1], p.Turn}] {
					missing++ // the pot in hand may go elsewhere
				}
			}
			require.LessOrEqual(t, missing, 1, "%v: %s", fact, w.Says)
			require.Equal(t, before.Towers[0].Levels[0].Posts, after.Towers[0].Levels[0].Posts)
		}
	}
	require.Equal(t, document.Format(before), document.Format(parsed(t, path)), "only the files that were asked for are written")
}

// TestFitTakesIntoTheLoad keeps the arrangement before beside it, and comments.
func TestFitTakesIntoTheLoad(t *testing.T) {
	path := reference(t, "newcomer")
	write(t, path, "# the second shelf is the new one\n"+read(t, path))
	before := read(t, path)
	require.Contains(t, threepost(t, "fit", path, "--without", "vase", "--take", "1"), "Way 1 is written to "+path+".")
	require.Equal(t, before, read(t, filepath.Join(filepath.Dir(path), "newcomer.earlier.toml")))
	require.Contains(t, read(t, path), "# the second shelf is the new one")
	for _, tower := range parsed(t, path).Towers {
		for _, v := range tower.Levels {
			for _, p := range v.Set {
				require.NotEqual(t, "vase", p.Pot.Ware)
			}
		}
	}
}

// TestFitCountsWhatTheLoadSaysStands without being told again.
func TestFitCountsWhatTheLoadSaysStands(t *testing.T) {
	path := reference(t, "newcomer")
	l := parsed(t, path)
	l.Towers[0].Levels[0].Standing = true
	write(t, path, string(document.Format(l)))
	require.Contains(t, threepost(t, "fit", path, "--without", "vase"), "What stands stays: bottom, with 5 pots.\n")
}

// TestFitWithoutAnAnswerEndsWith1 and says what to do.
func TestFitWithoutAnAnswerEndsWith1(t *testing.T) {
	path := reference(t, "newcomer")
	e := typed("", "fit", path, "--loaded", "bottom", "--one-more", "440 x 100")
	require.Equal(t, exitProblems, e.code)
	require.Contains(t, strings.Join(strings.Fields(e.out), " "), "No way was found that keeps what stands and breaks no rule. Take a level down and ask again.")
	e = typed("", "fit", path, "--one-more", "440 x 100", "--json")
	require.Equal(t, exitProblems, e.code)
	var a fitAnswer
	require.NoError(t, json.Unmarshal([]byte(e.out), &a))
	require.Empty(t, a.Answers)
	require.Equal(t, "No way was found that breaks no rule. Plan the load anew: threepost plan.", a.Why)

	// A way is asked for, and there is none: nothing is written, here or beside it.
	before := read(t, path)
	e = typed("", "fit", path, "--loaded", "bottom", "--one-more", "440 x 100", "--take", "1")
	require.Equal(t, exitProblems, e.code, e.errs)
	require.Equal(t, before, read(t, path))
	require.NoFileExists(t, files.Earlier(path))
}

// TestFitRefusesInASentence what means nothing, and writes nothing.
func TestFitRefusesInASentence(t *testing.T) {
	path := reference(t, "newcomer")
	keep := []string{path}
	for _, c := range []struct {
		sentence string
		args     []string
	}{
		{"fit takes one of --taller, --wider,", nil},
		{"here are 2", []string{"--without", "vase", "--one-more", "60 x 50"}},
		{`--taller wants a pot or a row, a colon, and by how much: "mug 3: 4 mm"`, []string{"--taller", "vase"}},
		{`"vaze" is neither a pot of the ware list nor a cone pack`, []string{"--taller", "vaze: 4"}},
		{`there is no "mug 99": the row "mug" has`, []string{"--wider", "mug 99: 4"}},
		{`--taller: "4 ells"`, []string{"--taller", "vase: 4 ells"}},
		{`--taller: "-4" is not more than 0`, []string{"--taller", "vase: -4"}},
		{`"vaze" is neither`, []string{"--without", "vaze"}},
		{"the furniture lists no post of 81", []string{"--no-post", "81"}},
		{"so 999 cannot be missing", []string{"--no-post", "999 of 100"}},
		{`--no-post: "tall"`, []string{"--no-post", "tall"}},
		{`the furniture lists no shelf "third"`, []string{"--no-shelf", "third"}},
		{`the load has no level "left 9"; it has bottom, left 1`, []string{"--without", "vase", "--loaded", "left 9"}},
		{"--out goes with --take", []string{"--without", "vase", "--out", "x.toml"}},
		{"--take is from 1 to 6", []string{"--without", "vase", "--take", "7"}},
		{"--take 5: 1 way in all", []string{"--without", "vase", "--take", "5"}},
	} {
		refused(t, exitUsage, c.sentence, keep, append([]string{"fit", path}, c.args...)...)
	}
	bare := sample(t, "newcomer")
	refused(t, exitUsage, "has no levels yet; plan it first", []string{bare}, "fit", bare, "--without", "vase")
	require.Equal(t, []string{"newcomer.toml"}, inFolder(t, path))
}

// TestFactsAreRead as a person types them.
func TestFactsAreRead(t *testing.T) {
	l := parsed(t, reference(t, "newcomer"))
	l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: 152, Name: "set B", Section: l.Furniture.Posts[0].Section, Count: 3})
	for _, c := range []struct {
		f    facts
		want session.Change
	}{
		{facts{taller: "mug 3: 4 mm"}, session.Change{Kind: session.TooTall, Pot: "mug 3", By: "4 mm"}},
		{facts{taller: "mug: 1/4 in"}, session.Change{Kind: session.TooTall, Ware: "mug", By: "1/4 in"}},
		{facts{wider: " vase :6"}, session.Change{Kind: session.TooWide, Ware: "vase", Pot: "vase", By: "6"}},
		{facts{noPost: "2 of 100"}, session.Change{Kind: session.PostMissing, Height: 100, Count: 2}},
		{facts{noPost: "10 cm"}, session.Change{Kind: session.PostMissing, Height: 100, Count: 1}},
		{facts{noPost: "3 of set B"}, session.Change{Kind: session.PostMissing, Height: 152, Name: "set B", Count: 3}},
		{facts{noShelf: "2 of half"}, session.Change{Kind: session.ShelfOut, Name: "half", Count: 2}},
		{facts{without: "vase"}, session.Change{Kind: session.LeaveOut, Pot: "vase"}},
		{facts{oneMore: "110 x 95"}, session.Change{Kind: session.OneMore, Ware: "110 x 95"}},
	} {
		got, err := c.f.change(l)
		require.NoError(t, err)
		require.Equal(t, c.want, got)
	}
}
