package kilnside

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/session"
)

// opened opens a reference arrangement as a session.
func opened(t testing.TB, name string) *session.Session {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "loads", "reference", name+".toml"))
	require.NoError(t, err)
	s, err := session.Open(string(text), name)
	require.NoError(t, err)
	return s
}

// saved is a reference arrangement as one file, with its steps.
func saved(t testing.TB, name string) (string, Steps) {
	t.Helper()
	of := opened(t, name)
	b, _ := of.Built()
	s := Of(b, of.Order(), "", "")
	s.WorkAhead(of, "")
	data, err := Saved(&s)
	require.NoError(t, err)
	return string(data), s
}

// TestSavedNeedsNothing: the file names no address, loads nothing, and its own
// policy forbids what it does not bring along.
func TestSavedNeedsNothing(t *testing.T) {
	text, _ := saved(t, "small-round")
	for _, outside := range []string{"http:", "https:", "//www", "src=\"/", "href=\"/", "url(\"/", "@import"} {
		require.NotContains(t, strings.ReplaceAll(text, "http://www.w3.org/2000/svg", ""), outside)
	}
	require.Contains(t, text, "default-src 'none'")
	require.Contains(t, text, "url(\"data:font/ttf;base64,")
	// W3C Content Security Policy Level 3: the hash is of the text between the
	// tags, base64 of its SHA-256.
	for _, one := range []struct{ tag, directive string }{{"script", "script-src"}, {"style", "style-src"}} {
		inner := regexp.MustCompile(`(?s)<`+one.tag+`>(.*?)</`+one.tag+`>`).FindAllStringSubmatch(text, -1)
		require.Len(t, inner, 1, one.tag)
		sum := sha256.Sum256([]byte(inner[0][1]))
		require.Contains(t, text, one.directive+" 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	require.NotRegexp(t, ` style="| on[a-z]+="`, text, "nothing that a strict policy refuses")
	require.Less(t, len(text), 700_000)
}

// TestSavedHoldsItsSteps reads them back out of the file.
func TestSavedHoldsItsSteps(t *testing.T) {
	text, s := saved(t, "small-round")
	inner := regexp.MustCompile(`(?s)<script type="application/json" id="steps">(.*?)</script>`).FindStringSubmatch(text)
	require.Len(t, inner, 2)
	var back Steps
	require.NoError(t, json.Unmarshal([]byte(inner[1]), &back))
	require.Len(t, back.Steps, len(s.Steps))
	require.Equal(t, s.Steps[9].Ticks, back.Steps[9].Ticks)
	require.Equal(t, s.Title, back.Title)
}

// TestSavedTitleIsText: a title that looks like a tag stays words.
func TestSavedTitleIsText(t *testing.T) {
	b, o := built(t, "newcomer")
	s := Of(b, o, "", "")
	s.Title = `</script><b>"x"`
	data, err := Saved(&s)
	require.NoError(t, err)
	require.NotContains(t, string(data), "</script><b>")
	require.Contains(t, string(data), "&lt;/script&gt;&lt;b&gt;")
}

// TestAnswersAhead: a spacer on each post where the box has three, and the room
// that is left is what it was less the spacer.
func TestAnswersAhead(t *testing.T) {
	_, s := saved(t, "small-round")
	posts, fits := 0, 0
	for i := range s.Steps {
		step := &s.Steps[i]
		for _, a := range step.Ahead {
			require.Contains(t, Usual("mm"), a.By)
			require.NotEmpty(t, a.Says)
			if a.Posts == nil {
				fits++
				require.LessOrEqual(t, a.Room.MM, step.Room.MM)
				require.GreaterOrEqual(t, a.Room.MM, 25.0, "the plan's room to the lid stays")
				continue
			}
			posts++
			require.Equal(t, "Put one 6 on each of A, B and C", a.Says)
			require.InDelta(t, step.Room.MM-6, a.Room.MM, 0.06)
		}
	}
	require.Positive(t, posts)
	require.Positive(t, fits)
}
