package kilnside

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// TestLawEverythingOnce: every pot, cone pack, post and shelf is in exactly one
// step, and every act of the order, in its order.
func TestLawEverythingOnce(t *testing.T) {
	for _, name := range samples() {
		b, o := built(t, name)
		s := Of(b, o, "", "")
		pots, acts, marks := map[string]int{}, []int{}, map[string]int{}
		for i := range s.Steps {
			step := &s.Steps[i]
			require.Equal(t, i+1, step.N, name)
			acts = append(acts, step.Acts...)
			for _, p := range step.Pots {
				pots[p]++
			}
			for _, m := range step.Now {
				marks[m]++
			}
		}
		require.Len(t, pots, len(b.Pots), name)
		for p, n := range pots {
			require.Equal(t, 1, n, "%s: %s", name, p)
		}
		require.Len(t, acts, len(o.Acts), name)
		for i, a := range acts {
			require.Equal(t, i, a, name)
		}
		w := &way{b: b}
		for i := range b.Posts {
			require.Equal(t, 1, marks[w.postID(i)], "%s: %s", name, w.postID(i))
		}
		for i := range b.Shelves {
			require.Equal(t, 1, marks[w.shelfID(i)], "%s: %s", name, w.shelfID(i))
		}
	}
}

// TestLawStepsCanBeSet: no pot comes before one that has to stand first, before
// the posts of its level, or before the shelf it stands on; no shelf before its
// posts. What has to stand first is order's before-relation.
func TestLawStepsCanBeSet(t *testing.T) {
	for _, name := range samples() {
		b, o := built(t, name)
		s := Of(b, o, "", "")
		at := map[string]int{}
		for i := range s.Steps {
			for k, m := range s.Steps[i].Now {
				at[m] = i*100 + k
			}
		}
		w := &way{b: b}
		for k := range o.Levels {
			for _, step := range o.Levels[k].Pots {
				own := at[w.potID(step.Pot)]
				for _, first := range step.After {
					require.Less(t, at[w.potID(first)], own, "%s: %s", name, b.Pots[step.Pot].Pot)
				}
				for _, shelf := range b.Levels[o.Levels[k].Level].Shelves {
					require.Less(t, at[w.shelfID(shelf)], own, name)
				}
				for _, p := range o.Levels[k].PostsOn {
					require.Less(t, at[w.postID(p.Post)], own, name)
				}
			}
		}
		for i := range b.Posts {
			for _, shelf := range b.Posts[i].Shelves {
				require.Less(t, at[w.postID(i)], at[w.shelfID(shelf)], name)
			}
		}
	}
}

// TestOneActAStep: few pots, a title and a sentence that one screen holds, a
// picture whose marks are there, and a word of what comes next.
func TestOneActAStep(t *testing.T) {
	refused := regexp.MustCompile(`(?i)!|error|warning|invalid|please`)
	for _, name := range samples() {
		b, o := built(t, name)
		s := Of(b, o, "", "")
		for i := range s.Steps {
			step := &s.Steps[i]
			where := fmt.Sprintf("%s, step %d, %s", name, step.N, step.Title)
			require.LessOrEqual(t, len(step.Pots), mostPots, where)
			require.Len(t, step.Each, len(step.Pots), where)
			require.LessOrEqual(t, utf8.RuneCountInString(step.Title), 44, where)
			require.LessOrEqual(t, utf8.RuneCountInString(sentence(step)), 200, where)
			require.NotEmpty(t, step.Title, where)
			require.NotEmpty(t, step.Ticks, where)
			require.NotRegexp(t, refused, step.Title+sentence(step)+step.Next, where)
			require.Equal(t, i == len(s.Steps)-1, step.Next == "", where)
			if step.Picture < 0 {
				require.Empty(t, step.Now, where)
				continue
			}
			ids := map[string]bool{}
			for _, m := range s.Pictures[step.Picture].Marks {
				ids[m.ID] = true
			}
			for _, m := range step.Now {
				require.True(t, ids[m], "%s: %s is drawn", where, m)
			}
			require.Greater(t, step.View[2], 0.0, where)
			require.Greater(t, step.View[3], 0.0, where)
		}
	}
}

// TestLawTicksAreNames: no two steps share a tick, so one that is done is not
// two.
func TestLawTicksAreNames(t *testing.T) {
	for _, name := range samples() {
		b, o := built(t, name)
		s := Of(b, o, "", "")
		seen := map[string]int{}
		for i := range s.Steps {
			for _, k := range s.Steps[i].Ticks {
				require.Zero(t, seen[k], "%s: steps %d and %d", name, seen[k], i+1)
				seen[k] = i + 1
			}
		}
	}
}

// TestRoomIsTheLeastOverThePlace: worked out anew from the pots whose plan lies
// over the same half, by the towers' own names in the studio's kiln.
func TestRoomIsTheLeastOverThePlace(t *testing.T) {
	b, o := built(t, "studio")
	s := Of(b, o, "", "")
	least := map[string]float64{}
	all := b.Height
	for i := range b.Pots {
		p := &b.Pots[i]
		room := b.Height - p.Solid.Top()
		tower := b.Towers[b.Levels[p.Level].Tower].Name
		if old, ok := least[tower]; !ok || room < old {
			least[tower] = room
		}
		all = math.Min(all, room)
	}
	for i := range s.Steps {
		step := &s.Steps[i]
		want := all
		if step.Level >= 0 {
			if tower := strings.Split(s.Levels[step.Level].ID, ":")[0]; tower != "base" {
				want = least[tower]
			}
		}
		require.InDelta(t, want, step.Room.MM, 0.06, step.Title)
		require.Equal(t, fmt.Sprint(int(math.Floor(want+1e-6))), step.Room.Said, step.Title)
	}
}

// TestPathsGoRoundTheShape: path data of a half round shelf, by hand: across
// 200, its flat side on y = 0, the arc over the top.
func TestPathsGoRoundTheShape(t *testing.T) {
	o, err := plane.HalfRound(200, 100)
	require.NoError(t, err)
	d := outline(o)
	require.Regexp(t, `^M`, d)
	require.Contains(t, d, "A100 100 0 0 0")
	require.True(t, strings.HasSuffix(d, "Z"))
	round, err := plane.Round(50)
	require.NoError(t, err)
	require.Equal(t, 2, strings.Count(outline(round), "A25 25"), "a circle in two arcs: SVG draws none for one that ends where it began")
}

func TestInchesAndUKWords(t *testing.T) {
	b, o := built(t, "newcomer")
	s := Of(b, o, measure.Inches, measure.UK)
	text := listing(s)
	require.Contains(t, text, "Props A")
	require.Contains(t, text, "half bat")
	require.Contains(t, text, "down from the rim")
	require.NotRegexp(t, `(?i)\bshelf\b|\bposts?\b`, strings.ReplaceAll(text, "from post to post", ""))
	require.Contains(t, text, "lb.", "masses in pounds")
	require.Equal(t, "in", s.Units)
	require.Equal(t, []string{"1/8", "1/4", "1/2"}, Usual(measure.Inches))
}

// TestFrontLoader: the ceiling is the lid, and no rod lies over a rim.
func TestFrontLoader(t *testing.T) {
	b, o := built(t, "front-loader")
	s := Of(b, o, "", "")
	require.Equal(t, "ceiling", s.Lid)
	text := listing(s)
	require.Contains(t, text, "over the hearth")
	require.NotContains(t, text, "from the rim")
	require.Contains(t, text, "A photo from the front")
	require.Contains(t, text, "close the door")
}

// TestEmptyLoadHasNoSteps but what comes before: nothing panics.
func TestEmptyLoadHasNoSteps(t *testing.T) {
	l, err := document.Parse("", []byte("threepost = 1\nfiring = { stage = \"glaze\", cone = \"6\" }\n[kiln]\nchamber = { shape = \"round\", across = 450, height = 400 }\n"))
	require.NoError(t, err)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, _ := order.Of(b)
	s := Of(b, o, "", "")
	for _, step := range s.Steps {
		require.Equal(t, -1, step.Level)
	}
	_, err = json.Marshal(s)
	require.NoError(t, err)
}

// TestSameBytes: the steps are the same each time.
func TestSameBytes(t *testing.T) {
	b, o := built(t, "studio")
	one, err := json.Marshal(Of(b, o, "", ""))
	require.NoError(t, err)
	two, err := json.Marshal(Of(b, o, "", ""))
	require.NoError(t, err)
	require.True(t, bytes.Equal(one, two))
	require.Less(t, len(one), 250_000, "a phone fetches them at once")
}
