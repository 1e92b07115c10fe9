//go:build !js

package pagetest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"threepost/layout/session"
)

// row is a row of the table as the program has it, or none.
func (b *tab) row(name string) *session.Row {
	b.t.Helper()
	for _, r := range b.state().Ware {
		if r.Name == name {
			return &r
		}
	}
	return nil
}

// holds waits until the program's state holds something: an expression over s.
func (b *tab) holds(expression string) {
	b.t.Helper()
	b.wait(`((s) => ` + expression + `)(JSON.parse(threepost.call("state", "{}")).ok)`)
}

// cell writes into a cell of the table as a person does and leaves it by Enter.
func (b *tab) cell(name, text string) {
	b.t.Helper()
	cell := fmt.Sprintf(`input[aria-label=%s]`, quoted(name))
	b.click(cell)
	ask[bool](b, fmt.Sprintf(`(document.querySelector(%s).select(), true)`, quoted(cell)))
	b.keys(text + kb.Enter)
}

// paste gives text to an element as the clipboard does.
func (b *tab) paste(selector, text string) {
	b.t.Helper()
	b.click(selector)
	ask[bool](b, fmt.Sprintf(`(() => { const data = new DataTransfer(); data.setData("text/plain", %s);
		document.querySelector(%s).dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true })); return true; })()`, quoted(text), quoted(selector)))
}

func TestRowsAreTypedChangedAndTakenBack(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	before := h.read("newcomer")
	b.press("Rows")
	b.click("#tb-new")
	b.keys("3 tumblers 95 x 80")
	b.wait(`/95/.test(document.querySelector("#tb-reading").innerText)`)
	b.keys(kb.Enter)
	b.holds(`s.ware.length === 4 && s.ware[3].count === 3`)
	name := b.state().Ware[3].Name

	// What cannot be a height is refused, and stays in the cell with its sentence.
	b.cell("height of "+name, "tall")
	b.wait(`!!document.querySelector(".tb-row .field.refused .in-said")`)
	require.Equal(t, "tall", ask[string](b, fmt.Sprintf(`document.querySelector('input[aria-label=%s]').value`, quoted("height of "+name))))
	require.Contains(t, b.text(".tb-row .in-said"), "tall")
	require.Equal(t, "95", b.row(name).Fields.Height)
	b.picture("refused")
	b.cell("height of "+name, "90")
	b.wait(`!document.querySelector(".tb-row .field.refused")`)
	require.Equal(t, "90", b.row(name).Fields.Height)

	b.press("one more, count of " + name)
	b.holds(`s.ware[3].count === 4`)
	b.press("Duplicate")
	b.holds(`s.ware.length === 5`)
	b.press("Undo")
	b.holds(`s.ware.length === 4`)
	b.press("Redo")
	b.holds(`s.ware.length === 5`)
	b.press("Undo")
	b.cell("owner of "+name, "Ida")
	b.holds(`s.ware[3].fields.owner === "Ida"`)
	b.click(".tb-find")
	b.keys("ida")
	b.wait(`document.querySelectorAll(".tb-row").length === 1`)
	require.Equal(t, name, ask[string](b, `document.querySelector(".tb-row .tb-name input").value`))
	b.picture("found")
	b.click(`.tb-row .tb-pic`)
	b.press("Remove")
	b.holds(`s.ware.length === 3`)

	// Undo goes back to the first row typed, and before it.
	for b.state().Undo != "" {
		b.press("Undo")
	}
	b.eventually(func() bool { return h.read("newcomer") == before }, "undo goes back to the file as it was")
}

func TestRowsArePastedBroughtAndTakenOut(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.press("Rows")
	b.paste("#tb-new", "name\tcount\theight\tacross\nplate\t2\t25\t180\njar\tmany\t120\t100\n")
	b.wait(`document.querySelectorAll(".tb-read li").length === 1 && document.querySelectorAll(".tb-refused li").length === 1`)
	require.Contains(t, b.text(".tb-refused"), "line 3")
	b.picture("pasted")
	b.press("Add the row")
	b.holds(`s.ware.some((w) => w.name === "plate" && w.count === 2)`)
	require.Contains(t, ask[string](b, `document.querySelector(".tb-paste textarea").value`), "jar\tmany", "the line that cannot be read stays")
	b.press("Leave them")

	file := filepath.Join(t.TempDir(), "shelf.csv")
	require.NoError(t, os.WriteFile(file, []byte("name,count,height,across,owner\n\"cup, tall\",2,110,70,Ida\nsaucer,2,20,120,Ida\n"), 0o600))
	b.do(chromedp.SetUploadFiles(chromedp.CSS(`.tb-place input[type=file]`), []string{file}))
	b.press("Add 2 rows")
	b.holds(`s.ware.length === 6 && s.ware.some((w) => w.name.startsWith("cup") && w.fields.owner === "Ida")`)

	folder := t.TempDir()
	_, err := chromedp.Call(b.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder})
	require.NoError(t, err)
	b.press("Export CSV")
	var out string
	b.eventually(func() bool {
		list, _ := filepath.Glob(filepath.Join(folder, "*.csv"))
		if len(list) == 1 {
			text, _ := os.ReadFile(list[0])
			out = string(text)
		}
		return out != ""
	}, "the CSV file is written")
	for _, name := range []string{"mug", "bowl", "vase", "plate", "saucer", "Ida"} {
		require.Contains(t, out, name)
	}
	// What was taken out can be read again, row for row.
	read := called[struct {
		Rows     []struct{ Said string }
		Refusals []struct{ Say string }
	}](b, "rows", `{"text":`+quoted(out)+`}`)
	require.Empty(t, read.Refusals)
	require.Len(t, read.Rows, 6)
}

// standing is a pot by name as it stands now.
func (b *tab) standing(id string) *session.Pot {
	b.t.Helper()
	for _, p := range b.state().Pots {
		if p.ID == id {
			return &p
		}
	}
	return nil
}

// A pot goes from its level to the table, from the plank into the top view, and
// over the elevation to another level.
func TestPotGoesToTheTableAndBack(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	before := h.read("newcomer")
	bowl := b.standing("bowl 5")
	b.onTop(*bowl)
	from := b.middleOf(*bowl)
	plank := b.at(".tb-plank")
	b.drag(true, from, spot{plank.X, plank.Y})
	b.holds(`s.set === 18`)
	require.Nil(t, b.standing("bowl 5"))

	waits := b.at(`.tb-plank [data-id="pot:bowl 5"], .tb-plank [data-id="ware:bowl"]`)
	b.drag(true, waits, spot{waits.X, waits.Y - 60}, from)
	b.holds(`s.set === 19`)
	require.Zero(t, b.state().Problems)
	require.Equal(t, bowl.Level, b.standing("bowl 5").Level)
	b.press("Undo")
	b.holds(`s.set === 18`)
	b.press("Undo")
	b.holds(`s.set === 19`)

	// To another level: over the elevation, then down in the top view.
	other := b.standing("vase")
	l := b.state().Levels[other.Level]
	at := b.at(fmt.Sprintf(`.el-picture [data-id="level:%s:%d"].label`, l.Tower, l.Number))
	from = b.middleOf(*bowl)
	b.drag(false, from, at)
	b.wait(fmt.Sprintf(`document.querySelector(".si-place")?.innerText.includes(%s)`, quoted(l.Title)))
	b.picture("over")
	b.letGo(at)
	b.wait(`!document.querySelector(".si-keys")`)
	b.holds(fmt.Sprintf(`s.pots.find((p) => p.id === "bowl 5").level === %d`, other.Level))
	b.press("Undo")
	b.eventually(func() bool { return h.read("newcomer") == before }, "undo brings all back")
}

func TestSwapLockSpreadAndRoom(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	one, two := b.standing("mug 5"), b.standing("mug 6")
	b.onTop(*one)
	b.click(`[data-view=top] [data-id="pot:mug 5"]`)
	b.press("Swap")
	b.wait(`!!document.querySelector(".si-swap")`)
	b.click(`[data-view=top] [data-id="pot:mug 6"]`)
	b.wait(`!document.querySelector(".si-swap")`)
	require.Equal(t, two.At, b.standing("mug 5").At)
	require.Equal(t, one.At, b.standing("mug 6").At)
	b.press("Undo")
	b.holds(`s.redo !== ""`)

	b.click(`[data-view=top] [data-id="pot:mug 5"]`)
	b.press("Lock here")
	b.holds(`s.pots.find((p) => p.id === "mug 5").locked`)
	require.Contains(t, b.text(".si-place"), "Locked")
	b.press("Unlock")
	b.holds(`!s.pots.find((p) => p.id === "mug 5").locked`)
	b.press("Undo")
	b.holds(`s.pots.find((p) => p.id === "mug 5").locked`)

	l := b.state().Levels[one.Level]
	b.click(fmt.Sprintf(`.el-picture [data-id="level:%s:%d"].label`, l.Tower, l.Number))
	b.picture("level")
	revision := b.state().Revision
	b.pressIn("Spread", ".si-acts")
	b.wait(`!!document.querySelector(".said p").innerText`)
	said := b.text(".said p")
	require.True(t, b.state().Revision > revision || strings.Contains(said, "already") || strings.Contains(said, "no "), "%s", said)
	require.Zero(t, b.state().Problems)
	b.picture("spread")

	b.press("Room for one more")
	b.click(".tb-room input")
	b.keys("cup 60 x 50" + kb.Enter)
	b.press("Set it there")
	b.holds(`s.of === 20 && s.set === 20 && s.problems === 0`)
	b.press("Undo")
	b.holds(`s.of === 19`)
}

// A pot is set exactly where it is held, with a watch; its mend is looked at,
// done and taken back; then the watch is accepted, for good.
func TestWatchIsMendedOrAcceptedWithAReason(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	mug := b.standing("mug 5")
	b.onTop(*mug)
	b.click(`[data-view=top] [data-id="pot:mug 5"]`)
	b.keys(kb.ArrowDown)
	b.wait(`!!document.querySelector(".si-keys")`)
	for range 40 {
		grade := called[session.Held](b, "nudge", `{"dx":0,"dy":0,"turn":0}`).Grade
		if grade == "watch" {
			break
		}
		require.NotEqual(t, "problem", grade)
		b.keys(kb.ArrowDown)
	}
	b.picture("near")
	b.press("Set it here")
	b.holds(`s.watches === 1 && s.problems === 0`)
	b.wait(`!!document.querySelector(".fd-one .act")`)
	at := b.at(".fd-one .act")
	b.do(chromedp.MouseEvent(chromedp.MouseMoved, at.X, at.Y))
	b.wait(`!!document.querySelector("[data-view=top] .ring")`)
	b.picture("ghost")
	b.do(chromedp.MouseClickXY(at.X, at.Y))
	b.holds(`s.watches === 0 && s.problems === 0`)
	b.press("Undo")
	b.holds(`s.watches === 1`)

	b.press("Accept with a reason")
	b.wait(`!!document.activeElement.closest(".fd-accept")`)
	b.keys("Both are bare where they face")
	b.press("Accept this watch")
	b.holds(`s.watches === 0 && s.accepted === 1`)
	b.eventually(func() bool { return strings.Contains(h.read("newcomer"), "Both are bare where they face") }, "the reason is saved")
	b.do(chromedp.Reload())
	b.opened()
	require.Equal(t, 1, b.state().Accepted)
	b.press("Show what was accepted: 1")
	require.Contains(t, b.text(".fd"), "Both are bare where they face")
}

func TestUnitsAndWordsAreTheReaders(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.pressIn("in", ".bar")
	b.holds(`s.units === "in"`)
	require.Contains(t, b.row("mug").Size, "/", "sizes are told in fractions of an inch")
	b.press("Rows")
	b.click("#tb-new")
	b.keys("cup 4 x 3 3/8" + kb.Enter)
	b.holds(`s.ware.length === 4`)
	b.pressIn("mm", ".bar")
	b.holds(`s.units === "mm"`)
	require.Equal(t, "101.6", b.row("cup").Fields.Height, "an inch is 25.4 mm by definition (ISO 31-1)")
	b.click(".bar .firing")
	b.press("Bat, prop")
	b.holds(`s.words === "UK"`)
	b.press("Back to the load")
	b.wait(`!!document.querySelector(".el")`)
	seen := ask[string](b, `document.querySelector("#app").innerText`)
	require.NotRegexp(t, `(?i)\b(shelf|shelves|posts?)\b`, seen)
	require.Regexp(t, `(?i)\b(bat|bats|props?)\b`, seen)
	b.picture("uk")
}

// Let go with Alt a pot stays to a px where the hand has it, too near or not.
func TestAltSetsAPotExactlyWhereItIsHeld(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	mug, beside := b.standing("mug 5"), b.standing("mug 6")
	b.onTop(*mug)
	from, to := b.middleOf(*mug), b.middleOf(*beside)
	near := spot{from.X + (to.X-from.X)*0.2, from.Y + (to.Y-from.Y)*0.2}
	b.drag(false, from, near)
	b.wait(`!!document.querySelector(".si-nears li.problem")`)
	held := called[session.Held](b, "nudge", `{"dx":0,"dy":0,"turn":0}`)
	b.do(chromedp.MouseEvent(chromedp.MouseReleased, near.X, near.Y, chromedp.ButtonLeft, chromedp.ButtonModifiers(chromedp.ModifierAlt)))
	b.wait(`!document.querySelector(".si-keys")`)
	require.Equal(t, held.At, b.standing("mug 5").At)
	require.Positive(t, b.state().Problems)
	b.press("Undo")
	b.holds(`s.problems === 0`)
}
