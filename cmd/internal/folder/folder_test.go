package folder

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestMain lets the test binary play the writer that is killed.
func TestMain(m *testing.M) {
	if dir := os.Getenv("THREEPOST_SAVER"); dir != "" {
		saveForever(dir)
	}
	os.Exit(m.Run())
}

// load is a load document with a title; more makes it longer.
func load(title string, more int) string {
	return "# " + strings.Repeat("kept ", more) + "\nthreepost = 1\ntitle = \"" + title + `"
firing = { stage = "glaze", cone = "6" }
[kiln]
chamber = { shape = "round", across = 457, height = 457 }
opens = "top"
[furniture]
shelves = [{ name = "full", shape = "round", across = 410, thick = 16, count = 2 }]
posts = [{ height = 100, section = "square 38", count = 6 }]
[[ware]]
name = "mug"
count = 12
profile = [[0, 76], [95, 86]]
`
}

// clock is a clock that goes on by a step each time it is read.
func clock(start string, step time.Duration) func() time.Time {
	now, err := time.Parse(time.RFC3339, start)
	if err != nil {
		panic(err)
	}
	return func() time.Time { now = now.Add(step); return now }
}

// open opens a folder of its own.
func open(t *testing.T) *Folder {
	t.Helper()
	f, err := Open(t.TempDir(), clock("2026-10-14T09:00:00+02:00", time.Second))
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

// hand writes a file as another program does.
func hand(t *testing.T, f *Folder, name, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(filepath.Join(f.Dir(), name), []byte(text), 0o644))
}

func onDisk(t *testing.T, f *Folder, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(f.Dir(), name))
	require.NoError(t, err)
	return string(data)
}

func TestSampleOfTheseTestsIsALoad(t *testing.T) { require.NoError(t, readable("x", load("A", 3))) }

func TestSaveGoesFromRevisionToRevision(t *testing.T) {
	f := open(t)
	made, err := f.Create("October glaze, 2nd", load("A", 0))
	require.NoError(t, err)
	require.Equal(t, "october-glaze-2nd", made.ID)
	rev, err := f.Save(made.ID, made.Revision, load("B", 0), "title B")
	require.NoError(t, err)
	require.Equal(t, load("B", 0), onDisk(t, f, "october-glaze-2nd.toml"))
	read, err := f.Read(made.ID)
	require.NoError(t, err)
	require.Equal(t, rev, read.Revision)
	require.Nil(t, read.Unsaved)
	again, err := f.Save(made.ID, rev, load("B", 0), "nothing")
	require.NoError(t, err)
	require.Equal(t, rev, again)
	all, err := f.Versions(made.ID)
	require.NoError(t, err)
	require.Equal(t, []Version{
		{N: 2, When: "2026-10-14T09:00:02+02:00", What: "title B", Of: 12},
		{N: 1, When: "2026-10-14T09:00:01+02:00", What: "new load", Of: 12},
	}, all)
	v, text, err := f.Version(made.ID, 1)
	require.NoError(t, err)
	require.Equal(t, "new load", v.What)
	require.Equal(t, load("A", 0), text)
	_, _, err = f.Version(made.ID, 3)
	require.Equal(t, NoSuchLoad, KindOf(err))
}

// TestNothingIsOverwrittenSilently: another hand changes the file between two
// saves. Its text stays, and both texts are among the versions.
func TestNothingIsOverwrittenSilently(t *testing.T) {
	f := open(t)
	hand(t, f, "a.toml", load("first", 0))
	l, err := f.Read("a")
	require.NoError(t, err)
	rev, err := f.Save("a", l.Revision, load("page", 0), "mine")
	require.NoError(t, err)
	hand(t, f, "a.toml", load("other hand", 0))

	_, err = f.Save("a", rev, load("page 2", 0), "mine again")
	var c Conflict
	require.ErrorAs(t, err, &c)
	require.Equal(t, Changed, KindOf(err))
	require.Equal(t, load("other hand", 0), c.Text)
	require.Equal(t, Revision(c.Text), c.Revision)
	require.Equal(t, load("other hand", 0), onDisk(t, f, "a.toml"))
	l, err = f.Read("a")
	require.NoError(t, err)
	require.Nil(t, l.Unsaved, "it was told of; whoever keeps the other text is not asked again")

	_, err = f.Save("a", c.Revision, load("page 2", 0), "mine, knowing of the other")
	require.NoError(t, err)
	texts := map[string]State{}
	require.NoError(t, f.walk("a", func(e *entry) {
		if e.N > 0 {
			texts[e.Text] = e.State
		}
	}))
	require.Equal(t, map[string]State{
		load("first", 0): Found, load("page", 0): "", load("other hand", 0): Found, load("page 2", 0): "",
	}, texts)
}

func TestAFileThatIsGoneIsNotMadeAgainSilently(t *testing.T) {
	f := open(t)
	made, err := f.Create("a", load("A", 0))
	require.NoError(t, err)
	require.NoError(t, os.Remove(filepath.Join(f.Dir(), "a.toml")))
	_, err = f.Save("a", made.Revision, load("B", 0), "late")
	var c Conflict
	require.ErrorAs(t, err, &c)
	require.Empty(t, c.Revision)
	require.Contains(t, c.Sentence, "not in the folder any more")
	require.NoFileExists(t, filepath.Join(f.Dir(), "a.toml"))
	_, text, err := f.Version("a", 2)
	require.NoError(t, err)
	require.Equal(t, load("B", 0), text)
	_, err = f.Save("a", "", load("B", 0), "made again, knowingly")
	require.NoError(t, err)
	require.Equal(t, load("B", 0), onDisk(t, f, "a.toml"))
	// A new load takes no name whose journal tells of another.
	require.NoError(t, os.Remove(filepath.Join(f.Dir(), "a.toml")))
	other, err := f.Create("a", load("C", 0))
	require.NoError(t, err)
	require.Equal(t, "a-2", other.ID)
}

func TestATextThatIsNoLoadIsJournalledAndNotWritten(t *testing.T) {
	f := open(t)
	made, err := f.Create("a", load("A", 0))
	require.NoError(t, err)
	_, err = f.Save("a", made.Revision, "threepost = 1\nbroken [", "half typed")
	require.Equal(t, Unreadable, KindOf(err))
	require.Contains(t, err.Error(), "a.toml:2:")
	require.Equal(t, load("A", 0), onDisk(t, f, "a.toml"))
	l, err := f.Read("a")
	require.NoError(t, err)
	require.NotNil(t, l.Unsaved)
	require.Equal(t, Unread, l.Unsaved.State)
	_, text, err := f.Version("a", l.Unsaved.N)
	require.NoError(t, err)
	require.Equal(t, "threepost = 1\nbroken [", text)
	// The next good save makes it history.
	_, err = f.Save("a", made.Revision, load("B", 0), "good")
	require.NoError(t, err)
	l, err = f.Read("a")
	require.NoError(t, err)
	require.Nil(t, l.Unsaved)
	// And what cannot be a new load makes no file.
	_, err = f.Create("b", "x = 1")
	require.Equal(t, Unreadable, KindOf(err))
	_, err = f.Create("b", strings.Repeat("#", 5<<20))
	require.Equal(t, TooLarge, KindOf(err))
	_, err = f.Save("a", made.Revision, strings.Repeat("#", 5<<20), "")
	require.Equal(t, TooLarge, KindOf(err))
}

// TestASaveThatWasCutOffIsOffered: the journal has the text, the file not yet.
func TestASaveThatWasCutOffIsOffered(t *testing.T) {
	f := open(t)
	made, err := f.Create("a", load("A", 0))
	require.NoError(t, err)
	f.write = func(string, []byte) error { return syscall.ENOSPC }
	_, err = f.Save("a", made.Revision, load("B", 0), "the disk is full")
	require.Equal(t, NoRoom, KindOf(err))
	require.Equal(t, "The disk is full: a.toml is not saved and stands as it was. Make room and save again.", err.Error())
	require.Equal(t, load("A", 0), onDisk(t, f, "a.toml"))
	g, err := Open(f.Dir(), f.now) // the program starts again
	require.NoError(t, err)
	defer g.Close()
	l, err := g.Read("a")
	require.NoError(t, err)
	require.NotNil(t, l.Unsaved)
	require.Equal(t, "the disk is full", l.Unsaved.What)
	rev, err := g.Save("a", made.Revision, load("B", 0), "there is room again")
	require.NoError(t, err)
	require.Equal(t, Revision(load("B", 0)), rev)
	l, err = g.Read("a")
	require.NoError(t, err)
	require.Nil(t, l.Unsaved)
}

func TestATornJournalLosesItsLastLineOnly(t *testing.T) {
	f := open(t)
	made, err := f.Create("a", load("A", 0))
	require.NoError(t, err)
	rev, err := f.Save("a", made.Revision, load("B", 0), "second")
	require.NoError(t, err)
	path := filepath.Join(f.Dir(), ".threepost", "a.journal")
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, torn := range []string{`{"n":3,"when":"2026-10-14T09:00:09+02:00","what":"thi`, "\x00\x00\x00\x00", `{"n":3}` + "\x00", "garbage\n{}\n[1,2]\nnull\n"} {
		require.NoError(t, os.WriteFile(path, append(append([]byte(nil), whole...), torn...), 0o644))
		g, err := Open(f.Dir(), f.now)
		require.NoError(t, err)
		all, err := g.Versions("a")
		require.NoError(t, err)
		require.Len(t, all, 2, torn)
		// The next entry stands on a line of its own.
		_, err = g.Save("a", rev, load("C", 0), "third")
		require.NoError(t, err)
		all, err = g.Versions("a")
		require.NoError(t, err)
		require.Len(t, all, 3, torn)
		require.Equal(t, "third", all[0].What)
		require.NoError(t, os.WriteFile(filepath.Join(f.Dir(), "a.toml"), []byte(load("B", 0)), 0o644))
		g.Close()
	}
}

func TestTrimKeepsTheNewestAndOneADay(t *testing.T) {
	f := open(t)
	f.now = clock("2026-09-01T00:30:00+02:00", time.Hour)
	made, err := f.Create("a", load("0", 0))
	require.NoError(t, err)
	rev := made.Revision
	for i := 1; i <= trimAt; i++ {
		rev, err = f.Save("a", rev, load(fmt.Sprint(i), 0), fmt.Sprint("edit ", i))
		require.NoError(t, err)
	}
	all, err := f.Versions("a")
	require.NoError(t, err)
	// 151 versions, one an hour from 1 September, 1:30: 1 to 23 on that day, 24
	// to 47 on the next, the rest later. The newest 100 are 52 to 151.
	var ns []int
	for _, v := range all {
		ns = append(ns, v.N)
	}
	want := []int{}
	for n := 151; n >= 52; n-- {
		want = append(want, n)
	}
	require.Equal(t, append(want, 47, 23), ns)
	_, text, err := f.Version("a", 23)
	require.NoError(t, err)
	require.Equal(t, load("22", 0), text)
	l, err := f.Read("a")
	require.NoError(t, err)
	require.Nil(t, l.Unsaved)
	g, err := Open(f.Dir(), f.now)
	require.NoError(t, err)
	defer g.Close()
	_, err = g.Save("a", rev, load("after", 0), "after")
	require.NoError(t, err)
	all, err = g.Versions("a")
	require.NoError(t, err)
	require.Equal(t, 152, all[0].N, "numbers are never used again")
	require.Equal(t, Version{N: 151, When: all[1].When, What: "edit 150", Of: 12}, all[1])
}

func TestIDsAreFileNamesAndNothingElse(t *testing.T) {
	f := open(t)
	outside := filepath.Join(filepath.Dir(f.Dir()), "outside.toml")
	require.NoError(t, os.WriteFile(outside, []byte(load("secret", 0)), 0o644))
	defer os.Remove(outside)
	for _, id := range []string{"", ".", "..", "../outside", "..\\outside", "/etc/passwd", "a/b", `a\b`, "a\x00b", "a\nb", ".hidden", ".threepost/x",
		"C:x", "a:b", "a*", "a?", "con", "NUL", "com1", "LPT9.x", "a ", " a", "a.", "\xff\xfe", "a\u202eb", "a\u200bb", strings.Repeat("a", 181)} {
		require.Error(t, CheckID(id), id)
		_, err := f.Read(id)
		require.Equal(t, NoSuchLoad, KindOf(err), id)
		_, err = f.Save(id, "", load("A", 0), "x")
		require.Equal(t, NoSuchLoad, KindOf(err), id)
		_, err = f.Versions(id)
		require.Equal(t, NoSuchLoad, KindOf(err), id)
		require.Equal(t, NoSuchLoad, KindOf(f.Watch(context.Background(), id, time.Hour, func(string) error { return nil })), id)
	}
	for _, id := range []string{"october", "October glaze", "größe-2", "窯", "a.b", "studio.earlier", "console", "com10"} {
		require.NoError(t, CheckID(id), id)
	}
	entries, err := os.ReadDir(f.Dir())
	require.NoError(t, err)
	require.Empty(t, entries)
}

// TestLawEveryTitleMakesAName: a name made from any title is an id, and the
// file lies in the folder.
func TestLawEveryTitleMakesAName(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		name := slug(rapid.OneOf(rapid.String(), rapid.StringMatching(`[.\\/ a-zÄß0-9-]{0,90}`), rapid.SampledFrom([]string{"CON", "com1", "...", "İİİ"})).Draw(rt, "title"))
		require.NoError(rt, CheckID(name))
		require.True(rt, filepath.IsLocal(name+ending))
		require.NotContains(rt, name, "/")
	})
}

func TestLinksOutOfTheFolderAreNotFollowed(t *testing.T) {
	f := open(t)
	away := filepath.Join(t.TempDir(), "away.toml")
	require.NoError(t, os.WriteFile(away, []byte(load("away", 0)), 0o644))
	require.NoError(t, os.Symlink(away, filepath.Join(f.Dir(), "link.toml")))
	require.NoError(t, os.Symlink("../../../../../../etc/passwd", filepath.Join(f.Dir(), "up.toml")))
	hand(t, f, "inside.toml", load("inside", 0))
	require.NoError(t, os.Symlink("inside.toml", filepath.Join(f.Dir(), "alias.toml")))
	require.NoError(t, os.Mkdir(filepath.Join(f.Dir(), "folder.toml"), 0o755))
	for _, id := range []string{"link", "up", "folder"} {
		_, err := f.Read(id)
		require.Equal(t, NoSuchLoad, KindOf(err), "%s: %v", id, err)
		for _, base := range []string{"", Revision(load("away", 0))} {
			_, err = f.Save(id, base, load("B", 0), "x")
			require.Equal(t, NoSuchLoad, KindOf(err), "%s: %v", id, err)
		}
	}
	data, err := os.ReadFile(away)
	require.NoError(t, err)
	require.Equal(t, load("away", 0), string(data))
	l, err := f.Read("alias")
	require.NoError(t, err)
	_, err = f.Save("alias", l.Revision, load("B", 0), "through a link that stays inside")
	require.NoError(t, err)
	require.Equal(t, load("B", 0), onDisk(t, f, "inside.toml"))
	list, err := f.List()
	require.NoError(t, err)
	require.Len(t, list, 2)

	// A journal folder that leads away is not written into either.
	g := open(t)
	hand(t, g, "a.toml", load("A", 0))
	elsewhere := t.TempDir()
	require.NoError(t, os.Symlink(elsewhere, filepath.Join(g.Dir(), ".threepost")))
	_, err = g.Save("a", Revision(load("A", 0)), load("B", 0), "x")
	require.Error(t, err)
	require.NotZero(t, KindOf(err))
	entries, err := os.ReadDir(elsewhere)
	require.NoError(t, err)
	require.Empty(t, entries)
	require.Equal(t, load("A", 0), onDisk(t, g, "a.toml"))
}

func TestNamesThatDifferInCaseClash(t *testing.T) {
	f := open(t)
	hand(t, f, "October.toml", load("A", 0))
	made, err := f.Create("OCTOBER", load("B", 0))
	require.NoError(t, err)
	require.Equal(t, "october-2", made.ID)
	_, err = f.Save("oCTOBER", "", load("C", 0), "x")
	require.Equal(t, NotAllowed, KindOf(err))
	require.Contains(t, err.Error(), "in other letters, large or small")
	require.Equal(t, load("A", 0), onDisk(t, f, "October.toml"))
}

func TestListTellsReadableAndOthers(t *testing.T) {
	f := open(t)
	hand(t, f, "a.toml", load("A", 0))
	hand(t, f, "broken.toml", "threepost = 1\nx [")
	hand(t, f, "notes.txt", "no load")
	hand(t, f, ".hidden.toml", load("H", 0))
	old := time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)
	require.NoError(t, os.Chtimes(filepath.Join(f.Dir(), "broken.toml"), old, old))
	require.NoError(t, os.Chtimes(filepath.Join(f.Dir(), "a.toml"), old.Add(time.Hour), old.Add(time.Hour)))
	for range 2 { // the second time from what is remembered
		list, err := f.List()
		require.NoError(t, err)
		require.Len(t, list, 2)
		require.Equal(t, Entry{ID: "a", Title: "A", Of: 12, Changed: old.Add(time.Hour).Local().Format(time.RFC3339)}, list[0])
		require.Equal(t, "broken", list[1].Title)
		require.NotEmpty(t, list[1].Unreadable)
	}
	hand(t, f, "a.toml", load("A new title", 0))
	list, err := f.List()
	require.NoError(t, err)
	require.Equal(t, "A new title", list[0].Title)
}

func TestWatchTellsEveryHand(t *testing.T) {
	f := open(t)
	made, err := f.Create("a", load("A", 0))
	require.NoError(t, err)
	ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
	defer stop()
	seen := make(chan string)
	ended := make(chan error, 1)
	go func() {
		ended <- f.Watch(ctx, "a", 20*time.Millisecond, func(r string) error { seen <- r; return nil })
	}()
	require.Equal(t, made.Revision, <-seen)
	rev, err := f.Save("a", made.Revision, load("B", 0), "page")
	require.NoError(t, err)
	require.Equal(t, rev, <-seen)
	hand(t, f, "a.toml", load("C", 0))
	require.Equal(t, Revision(load("C", 0)), <-seen)
	require.NoError(t, os.Remove(filepath.Join(f.Dir(), "a.toml")))
	require.Empty(t, <-seen)
	hand(t, f, "a.toml", load("D", 0))
	require.Equal(t, Revision(load("D", 0)), <-seen)
	stop()
	require.ErrorIs(t, <-ended, context.Canceled)
	require.Equal(t, NoSuchLoad, KindOf(f.Watch(context.Background(), "none", time.Hour, func(string) error { return nil })))
}

// saveForever saves two texts in turn until it is killed.
func saveForever(dir string) {
	f, err := Open(dir, time.Now)
	if err != nil {
		os.Exit(1)
	}
	for i := 0; ; i++ {
		l, err := f.Read("a")
		if err != nil {
			os.Exit(2)
		}
		if _, err := f.Save("a", l.Revision, load(fmt.Sprint(i%7), 40000), "kill me"); err != nil {
			os.Exit(3)
		}
	}
}

// TestKillWhileSavingLosesNothing kills a program that saves at many moments:
// the file is whole, its text is in the journal, and the next save works.
func TestKillWhileSavingLosesNothing(t *testing.T) {
	f := open(t)
	_, err := f.Create("a", load("start", 0))
	require.NoError(t, err)
	for i := range 8 {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "THREEPOST_SAVER="+f.Dir())
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(60+17*i) * time.Millisecond)
		require.NoError(t, cmd.Process.Kill())
		var ended *exec.ExitError
		require.ErrorAs(t, cmd.Wait(), &ended)
		require.Equal(t, -1, ended.ExitCode(), "it was to be killed, and ended by itself")
		g, err := Open(f.Dir(), time.Now)
		require.NoError(t, err)
		l, err := g.Read("a")
		require.NoError(t, err)
		require.NoError(t, readable("a", l.Text), "the file holds parts of two")
		found := false
		require.NoError(t, g.walk("a", func(e *entry) { found = found || e.Text == l.Text }))
		require.True(t, found, "the file's text is among the versions")
		_, err = g.Save("a", l.Revision, load(fmt.Sprint("after ", i), 0), "after the kill")
		require.NoError(t, err)
		g.Close()
	}
}

func TestOpenRefusesWithASentence(t *testing.T) {
	_, err := Open(filepath.Join(t.TempDir(), "none"), time.Now)
	require.Equal(t, NoSuchLoad, KindOf(err))
	path := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(path, nil, 0o644))
	_, err = Open(path, time.Now)
	require.ErrorContains(t, err, "is a file; name the folder that it lies in")
}

func TestSystemFailuresAreSentences(t *testing.T) {
	for kind, err := range map[Kind]error{
		NotAllowed: &os.PathError{Op: "open", Path: "x", Err: syscall.EACCES}, NoRoom: &os.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC},
		NoSuchLoad: os.ErrNotExist, Broken: errors.New("input/output"),
	} {
		told := say("a.toml", fmt.Errorf("wrapped: %w", err))
		require.Equal(t, kind, KindOf(told))
		require.True(t, strings.HasSuffix(told.Error(), "."))
	}
	require.Equal(t, NotAllowed, KindOf(say("a.toml", syscall.EROFS)))
	require.Zero(t, KindOf(errors.New("another")))
}
