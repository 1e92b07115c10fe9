package sheet

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
	"threepost/render/internal/sample"
)

func frontOf(t *testing.T, l *layout.Load, opt Options) []drawing.Page {
	t.Helper()
	opt.Parts = Parts{Front: true}
	return makeUp(t, l).pages(t, opt)
}

// What the issue asks of the front page, on the studio's load. Heights are
// summed by hand from the make-ups: 25 + 19 = 44, 686 - 44 = 642 down; on the
// left 44 + 125 + 19 = 188, 498 down; and so on up.
func TestFrontPageTellsTheLoad(t *testing.T) {
	pages := frontOf(t, sample.October(), Options{})
	require.Len(t, pages, 1, "the studio's load goes on one A4 page")
	text := running(pages...)
	for _, want := range []string{
		"October glaze", "Glaze · cone 6 · 1222 °C", "Kiln Heron, 712 across, 686 deep, in mm · 14 October", "78 pots, 7 levels",
		"Take this paper off before switching on",
		"38 to the lid", "43 to the lid", "3×(100+10)", "3×(200+50+5)", "3×125", "3×(75+10)", "3×(150+5)",
		"6×25 under the full shelf, on A to F",
		"Every foot wiped; the vase on its cookie", "Cones face the holes at 7 and at 5", "Probe clear, 25 all round",
		"over the rice bowls of left 3. Right 3 has 43.",
		"Waits: 14", "Watches: 1, accepted", "“Fired here in June, Wen.”",
		"Set by", "Switched on by", "Cautions.",
	} {
		require.Contains(t, text, want)
	}
	lines := strings.Split(said(pages...), "\n")
	for _, down := range []string{"95", "224", "498", "642", "260", "364", "468"} {
		require.Contains(t, lines, down)
	}
	require.Contains(t, lines, "38 left to the lid")
	require.Contains(t, lines, "left 1, at 7")
}

func TestSizesOfType(t *testing.T) {
	for _, page := range frontOf(t, sample.October(), Options{}) {
		for _, text := range drawing.Texts(page) {
			require.GreaterOrEqual(t, text.Style.Size, 12.0, text.Words)
			if strings.Contains(text.Words, "×(") {
				require.Equal(t, 20.0, text.Style.Size, "make-ups are 20 pt")
			}
		}
	}
}

func TestLevelsStandInOrderOnTheirHairlines(t *testing.T) {
	page := frontOf(t, sample.October(), Options{})[0]
	y := map[string]float64{}
	for _, text := range drawing.Texts(page) {
		if text.Style.Size == frame.LevelSize {
			y[text.Words] = text.At.Y
		}
	}
	require.True(t, y["left 3"] < y["left 2"] && y["left 2"] < y["left 1"] && y["left 1"] < y["bottom"], "level 1 is at the bottom: %v", y)
	require.True(t, y["right 3"] < y["right 2"] && y["right 2"] < y["right 1"])
}

// Each side of a full shelf takes what the half shelf over it leaves.
func TestAFullShelfIsToldAtBothSides(t *testing.T) {
	m := makeUp(t, sample.October())
	columns := columnsOf(m.b)
	require.Len(t, columns, 2)
	require.Equal(t, []string{"left side"}, columns[0].names)
	left, right := columns[0].labels[0], columns[1].labels[0]
	require.Equal(t, "bottom", m.b.Levels[left.level].Name)
	require.Equal(t, left.level, right.level)
	require.InDelta(t, 113, left.takes, 1e-9, "169 - 44 - 12")
	require.InDelta(t, 143, right.takes, 1e-9, "199 - 44 - 12")
	require.Len(t, columns[0].labels, 4)
	require.Equal(t, 3, left.posts[0].count)
	require.Equal(t, []string{"16\u00a0tumblers"}, what(m.b, left.pots))
	require.True(t, columns[0].labels[3].lid)
	require.InDelta(t, 38, columns[0].labels[3].room, 0.5, "591 + 55 + 2 of 686 leaves 38")
}

func TestOneTowerHasOneSide(t *testing.T) {
	columns := columnsOf(makeUp(t, sample.Attic()).b)
	require.Len(t, columns, 1)
	require.Len(t, columns[0].labels, 3)
	text := running(frontOf(t, sample.Attic(), Options{})...)
	require.Contains(t, text, "3×(6 + 1/2)")
	require.Contains(t, text, "cone 05 · 1888 °F", "05 and 5 are never told apart by the figure alone")
	require.Contains(t, text, "Kiln 17 1/2 across, 18 deep, in inches")
	require.Contains(t, text, "06 05 04", "no pack is set: the firing's cones can be written")
}

func TestAFrontLoaderIsMeasuredUp(t *testing.T) {
	m := makeUp(t, sample.Barn())
	require.Len(t, columnsOf(m.b), 3)
	text := running(m.pages(t, Options{Parts: Parts{Front: true}})...)
	for _, want := range []string{"233 to the ceiling", "570 up", "Before the door closes", "Up from the hearth", "Door closes without pressing",
		"Kiln Barn, 1500 × 700, 900 high", "12×50 under left 1, middle 1 and right 1, on A to L", "Every pot bone dry"} {
		require.Contains(t, text, want)
	}
	require.NotContains(t, text, "the lid")
	require.NotContains(t, text, "down")
}

// A full shelf over two half towers stands at both sides and carries the room
// to the lid once.
func TestAFullShelfOverTwoTowers(t *testing.T) {
	l := sample.October()
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			l.Towers[i].Levels[j].Set = nil
		}
	}
	l.Furniture.Shelves[0].Count = 2
	l.Furniture.Posts[6].Count = 9
	l.Towers[1].Levels = l.Towers[1].Levels[:1]
	l.Towers[2].Levels = l.Towers[2].Levels[:1]
	l.Towers[2].Levels[0].Posts = l.Towers[1].Levels[0].Posts
	l.Towers = append(l.Towers, layout.Tower{
		Name: "top", On: []layout.Support{{Tower: "left side", Level: 1}, {Tower: "right side", Level: 1}},
		Lines:  l.Towers[0].Lines,
		Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{{{Height: 200}}}}},
	})
	m := makeUp(t, l)
	columns := columnsOf(m.b)
	require.Len(t, columns, 2)
	for _, c := range columns {
		require.Len(t, c.labels, 3)
		require.Equal(t, "top", m.b.Towers[m.b.Levels[c.labels[2].level].Tower].Name)
		require.Equal(t, 3, c.labels[1].posts[0].count, "three of its six posts stand on each side")
	}
	require.Len(t, lidRooms(columns), 1)
}

func TestWordsOfTheUK(t *testing.T) {
	text := running(frontOf(t, sample.October(), Options{Words: measure.UK})...)
	require.Contains(t, text, "1 full bat")
	require.Contains(t, text, "3 props 200")
	require.Contains(t, text, "Each prop over the prop below it")
	require.NotRegexp(t, regexp.MustCompile(`\b(post|posts|shelf|shelves)\b`), text)
}

func TestAtMostFiveFindingsAreTold(t *testing.T) {
	m := makeUp(t, sample.October())
	m.r = clearance.Report{Problems: 1, Watches: 5, Accepted: 2}
	add := func(g layout.Grade, sentence, accepted string) {
		m.r.Findings = append(m.r.Findings, layout.Finding{Grade: g, Sentence: sentence, Accepted: accepted})
	}
	add(layout.Problem, "The first problem.", "")
	for _, s := range []string{"one", "two", "three", "four", "five"} {
		add(layout.Watch, "Watch "+s+".", "")
	}
	add(layout.Watch, "Accepted a.", "seen")
	add(layout.Watch, "Accepted b.", "seen")
	add(layout.Note, "A note.", "")
	text := running(m.pages(t, Options{Parts: Parts{Front: true}})...)
	require.Contains(t, text, "1 problem, 7 watches")
	for _, want := range []string{"The first problem.", "Watch four.", "And 3 more: see the check."} {
		require.Contains(t, text, want)
	}
	for _, absent := range []string{"Watch five.", "Accepted a.", "A note."} {
		require.NotContains(t, text, absent)
	}
}

func TestALidThatDoesNotCloseIsSaid(t *testing.T) {
	l := sample.Attic()
	l.Kiln.Height = 400
	text := running(frontOf(t, l, Options{})...)
	require.Contains(t, text, "3/4 too high for the", "large, beside the list")
	require.NotContains(t, text, "-3/4")
}

// Nothing is left out however long the content is; it goes on a second page.
func TestLongContentGoesOn(t *testing.T) {
	pages := frontOf(t, sample.Stack(), Options{})
	require.Greater(t, len(pages), 1)
	text := said(pages...)
	for _, name := range []string{"level 1", "level 6", "level 12"} {
		require.Contains(t, strings.Split(text, "\n"), name)
	}
	for _, want := range []string{"Fetch", "Before the lid closes", "Cautions. ", "Cones", "Set by", "continued"} {
		require.Contains(t, text, want)
	}
	require.Equal(t, len(pages), strings.Count(text, "Take this paper off before switching on"))
	require.Contains(t, text, "3×60 (set b)")
}

// Where the checklist finds no room on the front, it stands under the last
// boards, and the front says so; without a board list it goes on a page of its
// own. Nothing is told twice, nothing is lost.
func TestTheChecklistMovesUnderTheBoards(t *testing.T) {
	b, err := stacks.Build(manyLevels())
	require.NoError(t, err)
	require.Len(t, columnsOf(b), 2)
	m := makeUp(t, manyLevels())
	alone := m.pages(t, Options{Parts: Parts{Front: true}})
	require.Len(t, alone, 2)
	require.Contains(t, running(alone[1]), "continued")
	pages := m.pages(t, Options{Parts: Parts{Front: true, Boards: true}})
	text := running(pages...)
	require.NotContains(t, text, "continued")
	require.Contains(t, running(pages[0]), "Before the lid closes: the checks stand under the last boards.")
	last := running(pages[len(pages)-1])
	for _, want := range []string{"Boards to carry out", "Before the lid closes", "This paper is off the kiln", "Set by", "Cautions."} {
		require.Contains(t, last, want)
	}
	require.Equal(t, 1, strings.Count(text, "This paper is off the kiln"))
	require.Equal(t, 1, strings.Count(text, "Cautions."))
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	for i, page := range pages {
		require.Empty(t, drawing.Check(fonts, page, rules()), "page %d", i+1)
	}
}

// manyLevels is October's load with its left side stacked six levels high.
func manyLevels() *layout.Load {
	l := sample.October()
	l.Kiln.Height = 2300
	l.Furniture.Shelves[1].Count += 4
	for i := range l.Furniture.Posts {
		l.Furniture.Posts[i].Count += 30
	}
	t := &l.Towers[1]
	for len(t.Levels) < 6 {
		v := t.Levels[1]
		v.Set = nil
		t.Levels = append(t.Levels, v)
	}
	return l
}

// A page holds what would not go with full labels once they count the pots.
func TestBriefLabelsSpareAPage(t *testing.T) {
	m := makeUp(t, sample.October())
	b := m.b
	s := frame.New(fontsOf(t), drawing.A4(), b.Load, "", "")
	l := columnsOf(b)[0].labels[0]
	l.pots = allPots(b)
	full, brief := tagOf(s, b, l, 48, false), tagOf(s, b, l, 48, true)
	require.Len(t, full.text, mostLines)
	require.Len(t, brief.text, 1)
	require.Less(t, brief.high, full.high)
	require.Equal(t, 78, wares(b, l.pots))
	l.pots = columnsOf(b)[0].labels[0].pots
	require.Equal(t, tagOf(s, b, l, 48, false), tagOf(s, b, l, 48, true), "one kind is named as before")
}

// Law: hairlines keep the order and the distance of their labels, stay within
// the strip, and stand at their shelf when nothing presses.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		tags, wanted := make([]tag, n), make([]float64, n)
		sum, y := 0.0, 200.0
		for i := range tags {
			tags[i].high = rapid.Float64Range(8, 25).Draw(t, "high")
			sum += tags[i].high
			y -= rapid.Float64Range(1, 40).Draw(t, "step")
			wanted[i] = y
		}
		top, bottom := 0.0, max(210, sum+1)
		at := spread(tags, wanted, top, bottom)
		limit := bottom
		for i := range at {
			if at[i] > limit+1e-9 {
				t.Fatalf("%d hangs lower than %v: %v", i, limit, at)
			}
			limit = at[i] - tags[i].high
		}
		if limit < top-1e-9 {
			t.Fatalf("over the top: %v", at)
		}
	})
	free := spread([]tag{{high: 20}, {high: 20}}, []float64{150, 90}, 0, 200)
	require.Equal(t, []float64{150, 90}, free)
}

func TestLettersAreJoined(t *testing.T) {
	for _, c := range []struct {
		letters []string
		want    string
	}{
		{[]string{"C", "A", "B"}, "A to C"}, {[]string{"A"}, "A"}, {[]string{"B", "A"}, "A and B"},
		{[]string{"A", "C", "E"}, "A, C and E"}, {[]string{"A", "A", "B", "C"}, "A to C"}, {[]string{"Z", "AA", "Y"}, "Y, Z and AA"}, {nil, ""},
	} {
		require.Equal(t, c.want, letterWords(c.letters))
	}
}

func TestMakeUpsBreakAfterPlus(t *testing.T) {
	s := makeUp(t, sample.October()).front(t, measure.MM).s
	lines := breakPosts(s, "3×(200+150+50+5)", 40)
	require.Greater(t, len(lines), 1)
	require.Equal(t, "3×(200+150+50+5)", strings.Join(lines, ""))
	for _, line := range lines {
		require.LessOrEqual(t, s.Fonts.Width(frame.Strong(frame.PostsSize), line), 40.0)
	}
}

func TestMixedMakeUpsAreToldApart(t *testing.T) {
	l := sample.Attic()
	l.Towers[0].Levels[1].Posts = []layout.MakeUp{
		{{Height: 152.4}, {Height: 12.7}}, {{Height: 101.6}, {Height: 50.8}, {Height: 12.7}}, {{Height: 152.4}, {Height: 12.7}},
	}
	b, err := stacks.Build(l)
	require.NoError(t, err)
	groups := columnsOf(b)[0].labels[0].posts
	require.Len(t, groups, 2)
	require.Equal(t, 2, groups[0].count)
	require.Equal(t, 1, groups[1].count)
}

// rightHalf is what is said in the right column, whatever stands beside it.
func rightHalf(pages ...drawing.Page) string {
	var all []string
	for _, p := range pages {
		for _, x := range drawing.Texts(p) {
			if x.At.X >= p.Width/2 {
				all = append(all, x.Words)
			}
		}
	}
	return strings.Join(strings.Fields(strings.Join(all, " ")), " ")
}

// What is said beside the plan stands under what waits, each sentence whole, on
// either paper and however long; nothing meets or leaves the page.
func TestWhatIsSaidBesideThePlan(t *testing.T) {
	fonts, err := drawing.LoadFonts()
	require.NoError(t, err)
	bound := "78 set. Nobody can set more than 83 here, because 20 pots stand 180 or higher and the 2 levels that go in so tall hold 18 at most."
	price := "2 more mugs if 11 gaps shrink to 4 mm. Price: 11 watches."
	for _, paper := range []drawing.Paper{drawing.A4(), drawing.Letter()} {
		for _, beside := range [][]string{{bound}, {bound, price}, {bound, price, strings.Repeat("A long sentence about shelves. ", 12)}} {
			pages := frontOf(t, sample.October(), Options{Paper: paper, Words: measure.UK, Beside: beside})
			text := running(pages...)
			for _, says := range beside {
				require.Contains(t, text+" "+rightHalf(pages...), strings.TrimSpace(measure.UK.Say(says)))
			}
			require.Less(t, strings.Index(text, "Waits: 14"), strings.Index(text, "Nobody can set more"))
			for i, page := range pages {
				require.Empty(t, drawing.Check(fonts, page, rules()), "page %d with %d sentences", i+1, len(beside))
			}
		}
	}
	// A front page that has no room for them is one page still: the board list
	// tells them.
	m := makeUp(t, sample.October())
	plain, told := m.pages(t, Options{}), m.pages(t, Options{Beside: []string{bound, price}})
	require.Len(t, told, len(plain))
	require.NotContains(t, running(told[0]), "Nobody can set more")
	require.Contains(t, running(told[1]), "Boards to carry out")
	require.Contains(t, running(told[1]), bound+" "+price)
	for _, page := range told[:2] {
		require.Empty(t, drawing.Check(fonts, page, rules()))
	}
}
