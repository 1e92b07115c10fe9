package whole

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// ofTheWare are the rules that a pot breaks wherever it stands: a watch of
// theirs no arrangement avoids.
func ofTheWare(r layout.RuleName) bool {
	switch r {
	case layout.FitsFiring, layout.GlazedFoot, layout.TallNarrow, layout.RunnyCookie:
		return true
	}
	return false
}

// TestReferencesPass: each reference is its sample with places, nothing else
// changed; it passes the check with no problem and no watch that could be
// avoided, sets no pot twice, takes no more furniture than is owned, and can
// be set.
func TestReferencesPass(t *testing.T) {
	for _, name := range samples() {
		t.Run(name, func(t *testing.T) {
			b := reference(t, name)
			l := b.Load
			for _, f := range clearance.Check(b).Findings {
				require.NotEqual(t, layout.Problem, f.Grade, f.Sentence)
				if f.Grade == layout.Watch {
					require.True(t, ofTheWare(f.Rule), "avoidable watch: %s", f.Sentence)
					require.Empty(t, f.Accepted, "a reference passes without leave")
				}
			}
			_, cycles := order.Of(b)
			require.Empty(t, cycles)
			for _, f := range stacks.Used(b) {
				require.LessOrEqual(t, f.Short(), 0, "%s: %d of %d", f.Name, f.Count, f.Owned)
			}

			bare := l.Clone()
			bare.Towers = nil
			want := read(t, name)
			require.Equal(t, want.Ware, l.Ware, "the ware lists differ")
			require.Equal(t, string(document.Format(want)), string(document.Format(bare)), "more than places was changed")

			times := map[layout.Pot]int{}
			for i := range b.Pots {
				times[b.Pots[i].Pot]++
			}
			set, of := 0, 0
			for _, w := range l.Ware {
				for _, p := range w.Pots() {
					require.LessOrEqual(t, times[p], 1, p.String())
					set, of = set+times[p], of+1
				}
			}
			require.GreaterOrEqual(t, float64(set), 0.98*float64(of), "%d of %d set", set, of)
			t.Logf("%d of %d set on %d levels, %d posts", set, of, len(b.Levels), len(b.Posts))
		})
	}
}

// TestReferencesComeBackFromAFileAsTheyAre: written and read again, the load is
// the same, and its file keeps its bytes and its comments.
func TestReferencesComeBackFromAFileAsTheyAre(t *testing.T) {
	for _, name := range samples() {
		l, data := read(t, "reference/"+name), bytesOf(t, "reference/"+name)
		again, err := document.Parse("reference/"+name, document.Format(l))
		require.NoError(t, err)
		require.Equal(t, l, again, name)
		kept, err := document.Update(data, l)
		require.NoError(t, err)
		require.Equal(t, string(data), string(kept), name)
	}
}
