//go:build !js

package pagetest

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The page's program is ended from outside, after an edit. The page starts it
// again and nothing is lost.
func TestPageProgramIsKilled(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	before := h.read("newcomer")
	pot := b.firstPot()
	b.withdraw(pot)
	b.eventually(func() bool { return h.read("newcomer") != before }, "the edit is saved")
	edited := h.read("newcomer")
	set := b.state().Set
	ask[bool](b, "(window.tpOld = threepost, threepost.stop(), true)")
	b.wait("!!window.threepost && threepost !== tpOld")
	b.opened()
	require.Equal(t, set, b.state().Set)
	require.Equal(t, fmt.Sprint(set), b.text(".count b"))
	require.Equal(t, edited, h.read("newcomer"))
	b.press("3D")
	b.drawn()
}

// firstPot is the name of a pot that stands.
func (b *tab) firstPot() string {
	for _, p := range b.state().Pots {
		if !p.Cones {
			return p.ID
		}
	}
	b.t.Fatal("no pot stands")
	return ""
}

// withdraw takes a pot back to the table by the hands of the page: chosen in
// the top view, then the link beside its gaps.
func (b *tab) withdraw(id string) {
	b.t.Helper()
	for _, p := range b.state().Pots {
		if p.ID == id {
			b.onTop(p)
		}
	}
	b.click(fmt.Sprintf(`[data-view=top] [data-id="pot:%s"]`, id))
	b.press("Back to the table")
}

func TestFileIsChangedByAnotherHand(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	text := h.read("newcomer")
	h.write("newcomer", strings.Replace(text, "title = ", "title = \"Changed elsewhere\" # was ", 1))
	b.wait(`document.querySelector(".bar h1").innerText === "Changed elsewhere"`)
	// What the page saves next keeps the other hand's words.
	b.withdraw(b.firstPot())
	b.eventually(func() bool {
		now := h.read("newcomer")
		return strings.Contains(now, "Changed elsewhere") && strings.Contains(now, "# was") && now != text
	}, "the other hand's title and comment are kept")
}

func TestFileThatCannotBeReadIsTold(t *testing.T) {
	h := open(t, "newcomer")
	h.write("broken", "threepost = 1\ntitle = \"Broken\"\nfiring = { stage = \"glaze\", cone = \"6\" }\n[kiln]\nchamber = { shape = \"round\", acros = 457 }\nheight = 457\n")
	b := h.visit("/?load=broken", 1280, 800)
	b.wait(`!!document.querySelector("[data-page=broken] [role=alert]")`)
	says := b.text("[role=alert]")
	require.Contains(t, says, "acros")
	require.Contains(t, says, ":5:", "the line is told")
	b.audit("broken file")
	b.picture("broken")
}

func TestPictureIsLostAndComesBack(t *testing.T) {
	h := open(t, "newcomer")
	b := h.visit("/?load=newcomer", 1280, 800)
	b.opened()
	b.drawn()
	ask[bool](b, `(() => { const c = document.querySelector("canvas[data-view='3d']");
		window.tpLose = c.getContext("webgl2").getExtension("WEBGL_lose_context"); tpLose.loseContext(); return true; })()`)
	b.wait(`document.querySelector("canvas[data-view='3d']").getContext("webgl2").isContextLost()`)
	ask[bool](b, "(tpLose.restoreContext(), true)")
	b.wait(`!document.querySelector("canvas[data-view='3d']").getContext("webgl2").isContextLost()`)
	b.drawn()
	require.Greater(t, len(b.colours("canvas[data-view='3d']")), 20, "the load is drawn again")
}

// Requests that no page of ours makes. The server's own tests have many more.
func TestHostileRequestsAreRefused(t *testing.T) {
	h := open(t, "newcomer")
	put := `{"base":"","text":"threepost = 1","what":""}`
	for name, c := range map[string]struct {
		method, path, body string
		change             func(*http.Request)
	}{
		"another host":      {"GET", "/api/room", "", func(r *http.Request) { r.Host = "kiln.example" }},
		"another origin":    {"PUT", "/api/loads/newcomer", put, func(r *http.Request) { r.Header.Set("Origin", "http://kiln.example") }},
		"a form of a page":  {"PUT", "/api/loads/newcomer", put, func(r *http.Request) { r.Header.Set("Content-Type", "text/plain") }},
		"out of the folder": {"GET", "/api/loads/..%2f..%2fetc%2fpasswd", "", nil},
		"a hidden file":     {"GET", "/api/loads/.threepost", "", nil},
		"a body too long":   {"PUT", "/api/loads/newcomer", `{"text":"` + strings.Repeat("x", 5<<20) + `"}`, nil},
	} {
		before := h.read("newcomer")
		answer := h.get(c.method, c.path, strings.NewReader(c.body), func(r *http.Request) {
			r.Header.Set("Content-Type", "application/json")
			if c.change != nil {
				c.change(r)
			}
		})
		require.GreaterOrEqual(t, answer.StatusCode, 400, name)
		require.Less(t, answer.StatusCode, 500, name)
		require.Equal(t, before, h.read("newcomer"), name)
	}
}
