package steps

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/internal/sample"
)

var update = flag.Bool("update", false, "write the golden files anew")

// told builds a load and tells it.
func told(t testing.TB, l *layout.Load, units measure.Units, words measure.Words) (*stacks.Built, *order.Order, List) {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, _ := order.Of(b)
	return b, o, Of(b, o, units, words)
}

// text is a list as lines to read.
func text(list List) string {
	var out strings.Builder
	for _, l := range list.Levels {
		fmt.Fprintf(&out, "%s\n", l.Name)
		if l.First != "" {
			fmt.Fprintf(&out, "  %s\n", l.First)
		}
		for _, s := range l.Steps {
			fmt.Fprintf(&out, "  %-8s %s\n", s.Label, s.Sentence)
			for _, e := range s.Each {
				fmt.Fprintf(&out, "    %-6s %s\n", e.Label, e.Sentence)
			}
		}
	}
	return strings.ReplaceAll(out.String(), "\u00a0", " ")
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "run go test -update")
	require.Equal(t, string(want), got)
}

func TestStudioIsToldAsBefore(t *testing.T) {
	_, _, list := told(t, sample.October(), "", "")
	golden(t, "october.txt", text(list))
}

func TestAtticIsToldAsBefore(t *testing.T) {
	_, _, list := told(t, sample.Attic(), "", measure.UK)
	golden(t, "attic-uk.txt", text(list))
}

// ring is a load of one level whose places are easy to say by hand: a round
// shelf of 400, posts of 30 at 12, 4 and 8 standing 120 from the middle,
// under a second shelf.
const ring = `threepost = 1
units = "mm"
firing = { stage = "glaze", cone = "6" }
[kiln]
chamber = { shape = "round", across = 450, height = 400 }
spyholes = [{ at = "5:00", height = 90 }]
[furniture]
shelves = [{ name = "full", shape = "round", across = 400, thick = 16, mass = 4.4, count = 2 }]
posts = [
  { height = 10, section = "square 30", count = 3, spacer = true },
  { height = 25, section = "square 30", count = 3 },
  { height = 100, section = "square 30", count = 6 },
]
[[ware]]
name = "mug"
count = 12
height = 80
across = 80
handles = [{ reach = 30, from = 20, to = 60, thick = 14 }]
clay = { name = "buff", cone = "6" }
[[ware]]
name = "baker"
height = 50
length = 120
width = 60
clay = { name = "buff", cone = "6" }
[[ware]]
name = "jar"
height = 80
across = 60
flags = ["runny"]
clay = { name = "buff", cone = "6" }
[[cones]]
name = "cones"
pack = ["5", "6", "7"]
watched = true
spyhole = 1
[[tower]]
name = "stack"
on = ["floor"]
lines = [[0, 170], [147.2, -85], [-147.2, -85]]
[[tower.level]]
shelves = [{ kind = "full" }]
posts = "25"
[tower.level.set]
%s
[[tower.level]]
shelves = [{ kind = "full" }]
posts = "100 + 10"
`

// ringWith sets lines on the lower level.
func ringWith(t testing.TB, set string) *layout.Load {
	t.Helper()
	l, err := document.Parse("ring", []byte(fmt.Sprintf(ring, set)))
	require.NoError(t, err)
	return l
}

// sentence is the plain text of a step by its label.
func sentence(t testing.TB, list List, level int, label string) string {
	t.Helper()
	for _, s := range list.LevelOf(level).Steps {
		if s.Label == label {
			return strings.ReplaceAll(s.Sentence, "\u00a0", " ")
		}
	}
	require.Fail(t, "no step", "%s", label)
	return ""
}

// All figures by hand: the shelf top lies 25 + 16 = 41 up, 359 down; the next
// 41 + 110 + 16 = 167 up, 233 down. Posts stand 170 from the middle of a shelf
// of radius 200: 30 from its edge; the chamber's radius is 225: 55.
func TestSentencesByHand(t *testing.T) {
	_, _, list := told(t, ringWith(t, `"mug 1" = [0, 0, 60]`), "", "")
	require.Equal(t, "posts 3 × 25 on the floor. A at 8, B at 12, C at 4: 55 from the wall", sentence(t, list, 0, "A B C"))
	require.Equal(t, "posts 3 × (100 + 10). A at 8, B at 12, C at 4: 30 from the edge",
		strings.ReplaceAll(list.Levels[0].Steps[2].Sentence, "\u00a0", " "))
	require.Equal(t, "full shelf, 4.4 kg; hold at 3 and at 9", sentence(t, list, 0, "shelf"), "25 to the wall, more than the rule's 20")
	require.Equal(t, "mug, in the middle of the kiln, handle to 2", sentence(t, list, 0, "1"))
	require.Equal(t, "across A B C: light over every mug", sentence(t, list, 0, "stick"))
	require.Equal(t, "359 down to this shelf; next shelf 233", sentence(t, list, 0, "rim"))
	require.Equal(t, "full shelf, 4.4 kg; hold at 3 and at 9", sentence(t, list, 0, "next"))
	require.Equal(t, "none: this is the top, 233 to the lid", sentence(t, list, 1, "posts"))
	require.Equal(t, "233 down to this shelf", sentence(t, list, 1, "rim"))
	require.Equal(t, "stick over the rim: 233 to the shelf; 25 or more", sentence(t, list, 1, "lid"))
}

// Two mugs of 80 + 3 allowance on a line 92 apart leave 9, a pencil.
func TestNeighboursByHand(t *testing.T) {
	_, _, list := told(t, ringWith(t, `"mug 1" = [-92, 60, 0]
"mug 2" = [0, 60, 0]
jar = [0, -40, 0]
baker = [0, -130, 90]
cones = [100, -20, 0]`), "", "")
	all := text(list)
	require.Contains(t, all, "a pencil from 2", "92 - 83 = 9")
	require.Contains(t, all, "on a cookie")
	require.Contains(t, all, "length 12 to 6")
	require.Contains(t, all, "5 6 7 ")
	require.Contains(t, all, ", face the hole at 5")
}

func TestRingIsToldAsSeries(t *testing.T) {
	set := ""
	for i, at := range []string{"60, 145, 0", "140, 70, 60", "155, -20, 90"} {
		set += fmt.Sprintf("\"mug %d\" = [%s]\n", i+1, at)
	}
	b, o, list := told(t, ringWith(t, set), "", "")
	require.Len(t, o.Levels[0].Patterns, 1)
	s := list.Levels[0].Steps[3]
	require.Equal(t, Series, s.Kind)
	require.Equal(t, "1-3", s.Label)
	require.Regexp(t, `^3\x{a0}mugs round the edge clockwise from post\x{a0}B`, s.Sentence)
	require.Len(t, s.Each, 3)
	require.Equal(t, []int{0, 1, 2}, s.Pots)
	require.Equal(t, "mug 1", b.Pots[s.Pots[0]].Pot.String())
	for i, e := range s.Each {
		require.Equal(t, strconv.Itoa(i+1), e.Label)
		require.NotContains(t, e.Sentence, "mug")
	}
}

func TestTooHighIsSaid(t *testing.T) {
	l := ringWith(t, `"mug 1" = [0, 0, 0]`)
	l.Ware[0].Height = 130 // with its allowance of 2 it stands 132, the posts 110
	_, _, list := told(t, l, "", "")
	require.Equal(t, "across A B C: it does not lie down; a mug stands 22 too high", sentence(t, list, 0, "stick"))
	l.Ware[0].Height = 100 // 102: 8 left of 110, less than the plan's 12
	_, _, list = told(t, l, "", "")
	require.Equal(t, "across A B C: light over every mug, 8 at the least", sentence(t, list, 0, "stick"))
}

func TestFrontLoaderMeasuresUp(t *testing.T) {
	l := ringWith(t, `"mug 1" = [0, 0, 0]`)
	l.Kiln.Opens = layout.Front
	_, _, list := told(t, l, "", "")
	require.Equal(t, "41 up to this shelf; next shelf 167", sentence(t, list, 0, "hearth"))
	require.Equal(t, "233 over the shelf; 25 or more", sentence(t, list, 1, "ceiling"))
}

// 25.4 mm to the inch; posts to the nearest 1/16.
func TestInches(t *testing.T) {
	_, _, list := told(t, ringWith(t, `"mug 1" = [0, 0, 0]`), measure.Inches, "")
	require.Equal(t, "14 1/8 down to this shelf; next shelf 9 3/16", sentence(t, list, 0, "rim"), "359 is 14.13 in, 233 is 9.17 in")
	require.Contains(t, list.Levels[0].Steps[2].Sentence, "3\u00a0×\u00a0(3\u00a015/16\u00a0+\u00a03/8)", "100 is 3.94 in, 10 is 0.39 in")
	require.Contains(t, sentence(t, list, 0, "next"), "9.7 lb", "4.4 kg")
}

func TestUKWords(t *testing.T) {
	_, _, list := told(t, ringWith(t, `"mug 1" = [0, 0, 0]`), "", measure.UK)
	all := text(list)
	require.Contains(t, all, "props 3 × 25")
	require.Contains(t, all, "full bat")
	require.NotContains(t, all, "shelf,")
	require.NotContains(t, all, "posts 3")
}

// A post of other pieces is told by its letter.
func TestUnlikePostsAreToldApart(t *testing.T) {
	l := ringWith(t, `"mug 1" = [0, 0, 0]`)
	one := layout.MakeUp{{Height: 100}, {Height: 10}}
	two := layout.MakeUp{{Height: 100}, {Height: 10}, {Height: 10}}
	l.Towers[0].Levels[1].Posts = []layout.MakeUp{one, two, one}
	_, _, list := told(t, l, "", "")
	require.Contains(t, strings.ReplaceAll(list.Levels[0].Steps[2].Sentence, "\u00a0", " "), "2 × (100 + 10) on A and B, 1 × (100 + 10 + 10) on C")
}

func TestLettersOfManyPosts(t *testing.T) {
	require.Equal(t, "A B C D", tellLetters([]string{"A", "B", "C", "D"}))
	require.Equal(t, "A to\u00a0F", tellLetters([]string{"A", "B", "C", "D", "E", "F"}))
	require.Equal(t, "A B C D G", tellLetters([]string{"A", "B", "C", "D", "G"}))
}

// Law: the legends tell every pot once, and the phone's sequence every act
// once, in the order of Order.Acts.
func TestEverythingIsToldOnce(t *testing.T) {
	for name, l := range map[string]*layout.Load{
		"october": sample.October(), "attic": sample.Attic(), "stack": sample.Stack(), "barn": sample.Barn(),
	} {
		b, o, list := told(t, l, "", "")
		pots := map[int]int{}
		for _, lv := range list.Levels {
			last := 0
			for _, s := range lv.Steps {
				require.NotEmpty(t, s.Label, name)
				require.NotEmpty(t, s.Sentence, name)
				require.Equal(t, lv.Level, s.Level)
				for _, i := range s.Pots {
					pots[i]++
					if n := o.Number(i); n > 0 {
						require.Equal(t, last+1, n, "%s: numbers in order", name)
						last = n
					}
				}
			}
		}
		require.Len(t, pots, len(b.Pots), name)
		for i, n := range pots {
			require.Equal(t, 1, n, "%s: %s", name, b.Pots[i].Pot)
		}
		seq := list.Sequence()
		require.Len(t, seq, len(o.Acts), name)
		for i, s := range seq {
			require.Equal(t, i, s.Acts[0], name)
		}
	}
}

// Only pots already standing are named, and the style of the product holds:
// no full shouting, no refused words, no decimals of a millimetre.
func TestSentencesKeepTheStyle(t *testing.T) {
	number := regexp.MustCompile(`(?:from|between|touching|between \S+ and) (\d+)\b`)
	refused := regexp.MustCompile(`(?i)!|error|warning|invalid|please|\d\.\d+ (?:mm|from|down)`)
	for name, l := range map[string]*layout.Load{"october": sample.October(), "stack": sample.Stack(), "barn": sample.Barn()} {
		_, _, list := told(t, l, "", "")
		for _, lv := range list.Levels {
			for _, s := range lv.Steps {
				require.NotRegexp(t, refused, s.Sentence, name)
				for _, e := range append([]Step{s}, s.Each...) {
					n, err := strconv.Atoi(e.Label)
					if err != nil {
						continue
					}
					for _, m := range number.FindAllStringSubmatch(strings.ReplaceAll(e.Sentence, "\u00a0", " "), -1) {
						k, _ := strconv.Atoi(m[1])
						require.Less(t, k, n, "%s: %s", name, e.Sentence)
					}
				}
			}
		}
	}
}

func TestWhatRisesPastIsToldFirst(t *testing.T) {
	_, o, list := told(t, sample.October(), "", "")
	seen := false
	for k := range o.Levels {
		lo := &o.Levels[k]
		if len(lo.ShelvesFirst) == 0 {
			continue
		}
		seen = true
		lv := list.LevelOf(lo.Level)
		require.Regexp(t, `^First the shelf of .+: the .+ rises? past it\.$`, lv.First)
		require.Equal(t, lv.First, list.Told(lo.Level))
		if k > 0 {
			require.Contains(t, list.Told(o.Levels[k-1].Level, lo.Level), ", then the shelf of ")
		}
	}
	require.True(t, seen, "the studio's vase rises past the other side")
}

func BenchmarkOf(b *testing.B) {
	built, err := stacks.Build(sample.October())
	require.NoError(b, err)
	o, _ := order.Of(built)
	b.ReportAllocs()
	for b.Loop() {
		Of(built, o, "", "")
	}
}

// Two posts at one hour are told apart: before it and past it, not by letters
// alone.
func TestPostsAtOneHourAreToldApart(t *testing.T) {
	a, f, b := place{"A", "6", "53", 5.9}, place{"F", "6", "53", -5.9}, place{"B", "9", "60", 3}
	all := []place{a, f, b}
	for _, tt := range []struct {
		p    place
		want string
	}{{a, "just past 6"}, {f, "just before 6"}, {b, "at 9"}} {
		require.Equal(t, tt.want, strings.ReplaceAll(tt.p.when(all), "\u00a0", " "))
	}
	require.Equal(t, "at 6", strings.ReplaceAll(a.when([]place{a, b}), "\u00a0", " "))
}
