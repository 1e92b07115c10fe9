package stacks

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLawEveryNameFindsALetterOfItsOwn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z0-9 äß]{0,12}`), 1, 60).Draw(t, "names")
		taken := map[string]bool{}
		for _, name := range names {
			letter := free(append(initials(name), others(name)...), taken)
			require.Regexp(t, `^[a-z]{1,2}$`, letter)
			require.False(t, taken[letter])
			taken[letter] = true
		}
	})
}
