package planner

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
)

// explained plans a load for so much work and has its waiting rows explained.
func explained(t *testing.T, l *layout.Load, work int64) (*Search, *Plan) {
	t.Helper()
	s := searched(t, l, 1, work)
	p, ok := s.Best()
	require.True(t, ok)
	s.Explain(p)
	return s, p
}

// letIn is what a row is told.
func letIn(p *Plan, ware string) string {
	for _, w := range p.Waits {
		if w.Ware == ware {
			return w.LetIn
		}
	}
	return ""
}

// Cups of 107 and bottles of 122 share a level under 150, dear saucers go on
// top. If the cups' level were 25 lower, at 125, the bottles would stand with the
// saucers, 25 under the lid; but of the posts of 125 only two are owned.
func onePostShort() *layout.Load {
	l := single(410, 330, 2, map[float64]int{25: 3, 125: 2, 150: 3}, cylinder("cup", 7, 105, 100), cylinder("saucer", 2, 30, 100), cylinder("bottle", 3, 120, 100))
	for i, value := range []float64{1, 5, 1.1} {
		l.Ware[i].Value = value
	}
	return l
}

// TestOneMorePostLetsThemIn: the exact sentence, with what the post frees.
func TestOneMorePostLetsThemIn(t *testing.T) {
	t.Parallel()
	_, p := explained(t, onePostShort(), 6000)
	require.Equal(t, 2, setOf(p, "saucer"))
	require.Len(t, p.Waits, 1)
	w := p.Waits[0]
	require.Equal(t, fmt.Sprintf("One more post of 125 frees 25 mm on level 1: %d %ss go in.", w.Count, w.Ware), w.LetIn)

	l := onePostShort()
	l.Furniture.Posts[1].Count = 3 // and so they do
	require.Equal(t, 12, planned(t, l, 1, 6000).Set)
}

// TestOneMoreShelfLetsThemIn: posts in plenty and one shelf too few.
func TestOneMoreShelfLetsThemIn(t *testing.T) {
	t.Parallel()
	l := sample(t, "small-round")
	l.Furniture.Shelves[0].Count = 2
	_, p := explained(t, l, 20000)
	require.NotEmpty(t, p.Waits)
	told := 0
	for _, w := range p.Waits {
		if regexp.MustCompile(`^One more full shelf( with three posts of \d+)? lets in \d+ `).MatchString(w.LetIn) {
			told++
		}
	}
	require.Positive(t, told, "%v", p.Waits)
}

// TestNothingSimpleLetsItIn: a post nearly as high as the kiln that is worth
// next to nothing; and nothing is said of one that is higher.
func TestNothingSimpleLetsItIn(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware = append(l.Ware, cylinder("totem", 1, l.Kiln.Height-60, 60), cylinder("monument", 1, 2*l.Kiln.Height, 100))
	l.Ware[len(l.Ware)-2].Value = 0.01
	_, p := explained(t, l, 6000)
	require.Equal(t, "Nothing simple that was tried lets it in.", letIn(p, "totem"))
	require.Empty(t, letIn(p, "monument"))
}

// TestWhatCouldWaitInstead: one level of cups and no room for a jar as wide as
// the shelf but in their stead.
func TestWhatCouldWaitInstead(t *testing.T) {
	l := single(410, 160, 1, map[float64]int{25: 3}, cylinder("jar", 1, 90, 180), cylinder("cup", 9, 90, 100))
	l.Ware[1].Value, l.Ware[0].Value = 1, 1.5
	_, p := explained(t, l, 6000)
	require.Zero(t, setOf(p, "jar"))
	require.Regexp(t, `^No furniture that was tried lets it in; 1 jar goes in if [2-5] cups wait instead\.$`, letIn(p, "jar"))
}

// TestLawWhatIsToldToLetInDoes: every purchase that is planned with is owned by
// its plan, which passes the whole check, sets as many more as are counted, and
// sets no less in all. The load, the plan's arrangement and the search are left
// as they are.
func TestLawWhatIsToldToLetInDoes(t *testing.T) {
	t.Parallel()
	told := 0
	for name, spoil := range map[string]func(*layout.Load){
		"newcomer":    func(l *layout.Load) { l.Ware[0].Count = 24 },
		"small-round": func(l *layout.Load) { l.Furniture.Shelves[0].Count = 2 },
	} {
		l := sample(t, name)
		spoil(l)
		s := searched(t, l, 1, 20000)
		p, ok := s.Best()
		require.True(t, ok)
		before, spent := string(document.Format(p.Load)), s.spent
		on, ok := s.footing(p)
		require.True(t, ok, name)
		for _, x := range s.promising(on) {
			x.search.look(x.near, x.field, on, 2000)
			require.Less(t, x.search.spent, int64(6000), "the work is bounded")
			q := x.search.found()
			require.NotNil(t, q, x.say)
			requireSound(t, q)
			require.GreaterOrEqual(t, q.Value, p.Value-1e-9, "%s: what stands without it stands with it", x.say)
			sum := 0
			for ware, n := range gainsOf(l, p, q) {
				require.Equal(t, n, setOf(q, ware)-setOf(p, ware))
				sum += n
			}
			require.Equal(t, q.Set-p.Set, sum)
			told++
		}
		s.Explain(p)
		require.Equal(t, before, string(document.Format(p.Load)))
		require.Equal(t, spent, s.spent)
		q, _ := s.Best()
		require.Equal(t, before, string(document.Format(q.Load)), "the search goes on as it was")
	}
	require.GreaterOrEqual(t, told, 4)
}

// TestExplainIsTheSameEachTime, to the letter, and in plain words.
func TestExplainIsTheSameEachTime(t *testing.T) {
	t.Parallel()
	l := sample(t, "newcomer")
	l.Ware[0].Count = 24
	var first []Wait
	for range 2 {
		_, p := explained(t, l, 12000)
		require.NotEmpty(t, p.Waits)
		for _, w := range p.Waits {
			require.Regexp(t, `^((One|Three) more .* (lets?|frees?) .*|Planning longer lets in .*|Nothing simple that was tried lets (it|them) in|No furniture that was tried lets .*)\.$`, w.LetIn)
		}
		if first == nil {
			first = p.Waits
		}
		require.Equal(t, first, p.Waits)
	}
}
