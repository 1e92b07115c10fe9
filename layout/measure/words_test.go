package measure

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSaySpeaksUK(t *testing.T) {
	for us, uk := range map[string]string{
		"The shelf of left 1 lies 19 under the probe.":       "The bat of left 1 lies 19 under the probe.",
		"Shelves first, then posts A, B and C.":              "Bats first, then props A, B and C.",
		"Post C stands half over the post below it.":         "Prop C stands half over the prop below it.",
		"6 half-shelves; the shelf's bow; SHELF":             "6 half-bats; the bat's bow; BAT",
		"The cones cannot be seen from the spyhole.":         "The cones cannot be seen from the peephole.",
		"Two spyholes, a bisque firing. Bisque":              "Two peepholes, a biscuit firing. Biscuit",
		"posted, postage, post2, self, shelfish, bisqueware": "posted, postage, post2, self, shelfish, bisqueware",
		`"post office mug" next to post B`:                   `"post office mug" next to prop B`,
		`a post of 4.5", a shelf of 16"`:                     `a prop of 4.5", a bat of 16"`,
		`("shelf") "post`:                                    `("shelf") "prop`,
		"3 × (50 + 25) — post…":                              "3 × (50 + 25) — prop…",
		"":                                                   "",
	} {
		require.Equal(t, uk, UK.Say(us))
		require.Equal(t, us, US.Say(us))
		require.Equal(t, us, Words("").Say(us))
		require.Equal(t, uk, UK.Say(uk), "said twice it is the same")
	}
}

func TestLawSayTouchesNothingElse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		low := strings.ToLower(s)
		for _, w := range []string{"shel", "post", "spyhole", "bisque"} {
			if strings.Contains(low, w) {
				return
			}
		}
		require.Equal(t, s, UK.Say(s))
	})
}

func TestParseWords(t *testing.T) {
	for text, want := range map[string]Words{"": US, "us": US, " UK ": UK} {
		got, err := ParseWords(text)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	_, err := ParseWords("au")
	requireSentence(t, err, "au")
}
