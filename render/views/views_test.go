package views

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// dump writes a picture as text, one mark a line.
func dump(w *strings.Builder, p Picture) {
	fmt.Fprintf(w, "picture %g x %g %q per %.4f at %g %g turn %g\n", p.W, p.H, p.Label, p.Frame.Per, p.Frame.X0, p.Frame.Y0, p.Frame.Turn)
	dumpMarks(w, p.Marks, "  ")
}

func dumpMarks(w *strings.Builder, marks []Mark, in string) {
	for _, m := range marks {
		name := ""
		if m.ID != "" {
			name = fmt.Sprintf(" <%s> %q", m.ID, m.Label)
		}
		switch m.Kind {
		case TextKind:
			fmt.Fprintf(w, "%stext %g %g %s %g %g [%s] %q%s\n", in, m.X, m.Y, m.Anchor, m.Size, m.Turn, m.Class, m.Text, name)
		case GroupKind:
			fmt.Fprintf(w, "%sgroup [%s]%s\n", in, m.Class, name)
			dumpMarks(w, m.Marks, in+"  ")
		default:
			fmt.Fprintf(w, "%spath [%s]%s %s\n", in, m.Class, name, m.D)
		}
	}
}

func golden(t *testing.T, name, have string) {
	t.Helper()
	path := filepath.Join("testdata", name+".txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(have), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, string(want) == have, "%s differs; if the change is wanted, run the test with -update and look at it", path)
}

// all are the pictures of a load in the sizes that the page has.
func all(e *Easel, s Subject) map[string]Picture {
	last := len(s.Built.Levels) - 1
	out := map[string]Picture{
		"elevation": e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: last}),
		"compact":   e.Elevation(s, ElevationOptions{W: 344, H: 380, Active: 0}),
		"phone":     e.Elevation(s, ElevationOptions{W: 328, H: 500, Active: -1}),
		"wide":      e.Elevation(s, ElevationOptions{W: 1000, H: 800, Active: 1}),
		"beside":    e.Beside(s, BesideOptions{W: 320, H: 300, Differs: []int{last}}),
		"small":     e.Small(s, SmallOptions{W: 117, H: 112, Done: []int{0}, Active: last}),
	}
	for v := range s.Built.Levels {
		out[fmt.Sprintf("top %d", v)] = e.Top(s, TopOptions{W: 600, H: 560, Level: v})
		out[fmt.Sprintf("phone top %d", v)] = e.Top(s, TopOptions{W: 340, H: 420, Level: v})
		out[fmt.Sprintf("turned top %d", v)] = e.Top(s, TopOptions{W: 900, H: 700, Level: v, Turn: 180})
		out[fmt.Sprintf("act %d", v)] = e.Act(s, ActOptions{W: 340, H: 380, Level: v, Now: s.Built.Levels[v].Pots})
	}
	return out
}

// TestNoTextOverlapsOrLeaves: no text of any picture of any sample meets
// another or leaves its picture, in mm and in inches.
func TestNoTextOverlapsOrLeaves(t *testing.T) {
	for _, units := range []measure.Units{measure.MM, measure.Inches} {
		e := easel(t)
		e.Units = units
		for _, name := range names {
			for what, p := range all(e, sample(t, name)) {
				for _, c := range Check(e.Fonts, p) {
					t.Errorf("%s in %s, %s: %s", name, units, what, c)
				}
			}
		}
	}
}

func TestGoldens(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		var w strings.Builder
		dump(&w, e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: 1}))
		dump(&w, e.Elevation(s, ElevationOptions{W: 344, H: 380, Active: 1}))
		dump(&w, e.Top(s, TopOptions{W: 600, H: 560, Level: len(s.Built.Levels) / 2}))
		golden(t, name, w.String())
	}
}

// The studio's kiln is 712 wide and 686 high; every shelf of the elevation
// must lie where the load says, to the picture's own scale.
func TestShelvesLieAtTheirHeights(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	p := e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: -1})
	for v := range s.Built.Levels {
		m := find(p.Marks, shelfID(s.Built, v), "shelf")
		require.NotNil(t, m)
		sh := &s.Built.Shelves[s.Built.Levels[v].Shelves[0]]
		lo, _ := sh.Outline.Bounds()
		x, y := p.Frame.Px(plane.Vec{lo[0], sh.Top})
		require.True(t, strings.HasPrefix(m.Marks[0].D, string(*new(trace).move(x, y))), "%s: %s", m.ID, m.Marks[0].D)
	}
	// 25 posts + 19 shelf + 75+10 posts + 19: the top of left 1 lies 148 up.
	require.InDelta(t, 148, s.Built.Levels[1].Top, 1e-9)
}

// find is the first mark with an id and a class word.
func find(marks []Mark, id, class string) *Mark {
	for i := range marks {
		if marks[i].ID == id && has(marks[i].Class, class) {
			return &marks[i]
		}
		if m := find(marks[i].Marks, id, class); m != nil {
			return m
		}
	}
	return nil
}

// texts are all texts of marks.
func texts(marks []Mark) []string {
	var out []string
	for _, m := range marks {
		if m.Kind == TextKind {
			out = append(out, m.Text)
		}
		out = append(out, texts(m.Marks)...)
	}
	return out
}

// By the file: 75+10 stand on the bottom left, 125 right; the left side's
// posts are 200+50+5, 75+10 and 25+10+10, the right's 100+5+5, 75+5, 150+5.
func TestLabelsTellBothSides(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	said := texts(e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: -1}).Marks)
	for _, want := range []string{"Left side", "Right side", "bottom", "6 × 25", "75+10", "200+50+5", "25+10+10", "125", "100+5+5", "75+5", "150+5",
		"takes 243", "takes 113", "26 to lid", "A", "B", "E", "F"} {
		require.Contains(t, said, want)
	}
	require.NotContains(t, said, "C", "C stands behind A")
	compact := texts(e.Elevation(s, ElevationOptions{W: 344, H: 380, Active: -1}).Marks)
	require.Contains(t, compact, "243")
	require.NotContains(t, compact, "200+50+5")
	require.Contains(t, compact, "Figures at the shelves: the tallest pot each takes.")
	front := texts(e.Elevation(sample(t, "front-loader"), ElevationOptions{W: 508, H: 440, Active: -1}).Marks)
	require.Contains(t, strings.Join(front, "|"), "to ceiling")
}

// TestEveryPotIsAGroup: the page moves one pot by moving one group.
func TestEveryPotIsAGroup(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		for v := range s.Built.Levels {
			p := e.Top(s, TopOptions{W: 600, H: 560, Level: v})
			for _, i := range s.Built.Levels[v].Pots {
				n := 0
				for _, m := range p.Marks {
					if m.ID == PotID(&s.Built.Pots[i]) {
						n++
						require.Equal(t, GroupKind, m.Kind)
						require.NotEmpty(t, m.Label)
					}
				}
				require.Equal(t, 1, n, s.Built.Pots[i].Pot.String())
			}
		}
	}
}

func TestHalvesAreDrawnAsOne(t *testing.T) {
	s := sample(t, "studio")
	b := s.Built
	for v := range b.Levels {
		beside := Beside(b, v)
		if b.Towers[b.Levels[v].Tower].Name == "base" {
			require.Empty(t, beside, "halves lie over the full shelf, not beside it")
			continue
		}
		require.Len(t, beside, 1)
		require.NotEqual(t, b.Levels[v].Tower, b.Levels[beside[0]].Tower)
	}
	e := easel(t)
	said := texts(e.Top(s, TopOptions{W: 600, H: 560, Level: 1}).Marks)
	require.Contains(t, said, "Left 1")
	require.Contains(t, said, "Right 1")
	// Left 1 lies at 148, right 1 at 25+19+125+19 = 188.
	require.Contains(t, said, "40 higher, takes 98")
	require.Empty(t, Beside(b, -1))
	require.Empty(t, Beside(b, 99))
}

// TestTurnedIsTheSamePlanTurned: half a turn takes every place to the other
// side of the middle.
func TestTurnedIsTheSamePlanTurned(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	up, down := e.Top(s, TopOptions{W: 600, H: 560, Level: 1}), e.Top(s, TopOptions{W: 600, H: 560, Level: 1, Turn: 180})
	v := plane.Vec{120, 45}
	x0, y0 := up.Frame.Px(plane.Vec{})
	x, y := up.Frame.Px(v)
	u0, w0 := down.Frame.Px(plane.Vec{})
	u, w := down.Frame.Px(v)
	require.InDelta(t, (x-x0)/up.Frame.Per, -(u-u0)/down.Frame.Per, 1e-6)
	require.InDelta(t, (y-y0)/up.Frame.Per, -(w-w0)/down.Frame.Per, 1e-6)
}

// Law: MM takes Px back.
func TestLawFrameThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Frame{Per: rapid.Float64Range(0.01, 5).Draw(t, "per"), X0: rapid.Float64Range(-500, 500).Draw(t, "x0"),
			Y0: rapid.Float64Range(-500, 500).Draw(t, "y0"), Turn: rapid.Float64Range(0, 360).Draw(t, "turn")}
		v := plane.Vec{rapid.Float64Range(-400, 400).Draw(t, "x"), rapid.Float64Range(-400, 400).Draw(t, "y")}
		x, y := f.Px(v)
		back := f.MM(x, y)
		if plane.Distance(v, back) > 1e-6 {
			t.Fatalf("%v came back as %v", v, back)
		}
		dx, dy := f.Move(v)
		if math.Abs(hypot(dx, dy)-plane.Length(v)*f.Per) > 1e-6 {
			t.Fatalf("a move of %v became %v", plane.Length(v), hypot(dx, dy))
		}
	})
}

// Law: labels that are spread keep their order and their room, and stay where
// they wish when there is room.
func TestLawSpreadKeepsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		want, room := make([]float64, n), make([]float64, n)
		at := 0.0
		for i := range n {
			at += rapid.Float64Range(0, 60).Draw(t, "step")
			want[i] = at
			if i > 0 {
				room[i] = rapid.Float64Range(5, 40).Draw(t, "room")
			}
		}
		free := true
		for i := 1; i < n; i++ {
			free = free && want[i]-want[i-1] >= room[i]
		}
		got := spreadOut(want, room, -1000, 2000)
		sum := 0.0
		for i := range got {
			sum += got[i] - want[i]
			if i > 0 && got[i]-got[i-1] < room[i]-1e-9 {
				t.Fatalf("%d stands %v after the one before, wants %v", i, got[i]-got[i-1], room[i])
			}
			if free && math.Abs(got[i]-want[i]) > 1e-9 {
				t.Fatalf("%d left its place without need", i)
			}
		}
		// Least squares under "keep apart" leaves the mean where it was.
		if math.Abs(sum) > 1e-6*float64(n)*1000 {
			t.Fatalf("the labels drift by %v", sum)
		}
	})
}

// Circles of paths are within 0.03 % of round: the constant of four cubics.
func TestArcsAreRound(t *testing.T) {
	tr := new(trace).move(100, 0)
	tr.arc(0, 0, 100, 90, 90+360)
	nums := strings.FieldsFunc(strings.Map(func(r rune) rune {
		if r == 'M' || r == 'C' || r == 'L' || r == 'Z' {
			return ' '
		}
		return r
	}, string(*tr)), func(r rune) bool { return r == ' ' })
	require.Len(t, nums, 2+8*6)
	px, py := 100.0, 0.0
	for i := 2; i < len(nums); i += 6 {
		var c [6]float64
		for k := range c {
			_, err := fmt.Sscan(nums[i+k], &c[k])
			require.NoError(t, err)
		}
		x, y := (px+3*c[0]+3*c[2]+c[4])/8, (py+3*c[1]+3*c[3]+c[5])/8
		require.InDelta(t, 100, math.Hypot(x, y), 0.03)
		require.InDelta(t, 100, math.Hypot(c[4], c[5]), 0.01)
		px, py = c[4], c[5]
	}
}

func TestFiguresOfPathsAreShort(t *testing.T) {
	for v, want := range map[float64]string{1: "1", 1.5: "1.5", -0.004: "0", 2.346: "2.35", -12.05: "-12.05", math.NaN(): "0", 100.999: "101"} {
		tr := trace{}
		tr.number(v)
		require.Equal(t, want, string(tr))
	}
}

// TestFindingsAreHatched: a pot that is moved onto another wears the hatch, an
// accepted watch none.
func TestFindingsAreHatched(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	name := s.Built.Pots[s.Built.Levels[1].Pots[0]].Pot.String()
	about := func(g layout.Grade, accepted string) Subject {
		c := s
		c.Findings = []layout.Finding{{Grade: g, Accepted: accepted, Things: []layout.Thing{{Kind: layout.ThingPot, Name: name}}}}
		return c
	}
	for _, c := range []struct {
		grade    layout.Grade
		accepted string
		want     string
	}{{layout.Problem, "", "problem"}, {layout.Watch, "", "watch"}, {layout.Watch, "it is a test tile", ""}, {layout.Note, "", ""}} {
		m := find(e.Top(about(c.grade, c.accepted), TopOptions{W: 600, H: 560, Level: 1}).Marks, "pot:"+name, "pot")
		require.NotNil(t, m)
		for _, word := range []string{"watch", "problem"} {
			require.Equal(t, word == c.want, has(m.Class, word))
			hatched := false
			for _, part := range m.Marks {
				hatched = hatched || (has(part.Class, "hatch") && has(part.Class, word))
			}
			require.Equal(t, word == c.want, hatched)
		}
	}
}

func TestHeldMarks(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	level := 5
	pots := s.Built.Levels[level].Pots
	var mug, other int
	for k, i := range pots {
		if s.Built.Pots[i].Pot.Ware == "mug" {
			mug, other = i, pots[(k+1)%len(pots)]
			break
		}
	}
	top := TopOptions{W: 616, H: 560, Level: level, Held: s.Built.Pots[mug].Pot.String()}
	at := s.Built.Pots[mug].At
	ring := plane.Add(at, plane.Vec{14, 0})
	marks := e.Held(s, top, HeldOptions{Pot: mug, At: at, Turn: 10, Ring: &ring, Bar: &[2]plane.Vec{at, s.Built.Pots[other].At},
		Flag: "2 mm, too close", Grade: layout.Problem, Pair: other, Leader: &Leader{To: other, Says: "4 goes in before 5", After: "after 4"}})
	var classes []string
	for _, m := range marks {
		classes = append(classes, m.Class)
	}
	said := strings.Join(classes, "|")
	for _, want := range []string{"ring", "lead problem", "end problem", "flag problem", "pot problem", "leader dotted"} {
		require.Contains(t, said, want)
	}
	require.Contains(t, texts(marks), "2 mm, too close")
	require.Contains(t, texts(marks), "after 4")
	for _, c := range Check(e.Fonts, Picture{W: 616, H: 560, Marks: marks}) {
		require.NotEqual(t, drawing.Outside, c.Kind, c.String())
	}
	require.Empty(t, e.Held(s, top, HeldOptions{Pot: -1}))
	require.Empty(t, e.Held(s, top, HeldOptions{Pot: mug, At: at, Pair: -1}))
}

func TestLiftedTellsEveryStop(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		for v := range s.Built.Levels {
			z := s.Built.Levels[v].Bottom
			stops := []Stop{{z - 20, "100", layout.Problem, false}, {z, "100+10+10", layout.Note, true}, {z + 5, "125", layout.Watch, false}, {z + 10, "125+5", layout.Note, false}}
			p := e.Lifted(s, LiftedOptions{W: 660, H: 560, Level: v, Hung: z - 20, Stops: stops})
			for i := range stops {
				require.NotNil(t, find(p.Marks, fmt.Sprintf("stop:%d", i), "stop"))
			}
			for _, c := range Check(e.Fonts, p) {
				t.Errorf("%s, %d: %s", name, v, c)
			}
		}
	}
}

// TestOddSizesAreDrawn: no size and no load makes a picture panic or leave a
// figure that JSON cannot hold.
func TestOddSizesAreDrawn(t *testing.T) {
	e := easel(t)
	empty := sample(t, "newcomer").Built.Load.Clone()
	empty.Towers = nil
	bare := subject(t, empty)
	full := sample(t, "oval")
	for _, s := range []Subject{bare, full, {Built: full.Built}} {
		for _, size := range [][2]float64{{0, 0}, {1, 1}, {40, 600}, {2560, 60}, {360, 300}, {-5, 100}} {
			w, h := size[0], size[1]
			for _, p := range []Picture{
				e.Elevation(s, ElevationOptions{W: w, H: h, Active: 99}),
				e.Lifted(s, LiftedOptions{W: w, H: h, Level: len(s.Built.Levels) - 1, Stops: []Stop{{Z: 100, Made: "5"}}}),
				e.Top(s, TopOptions{W: w, H: h, Level: len(s.Built.Levels) - 1, Turn: 77}),
				e.Top(s, TopOptions{W: w, H: h, Level: -1}),
				e.Plank(PlankOptions{W: w, H: h, Items: waiting(t, s)}),
				e.Box(BoxOptions{W: w, H: h, Posts: boxOf(s)}),
				e.Aside(AsideOptions{W: w, H: h, Ware: &s.Built.Load.Ware[0]}),
				e.Profile(ProfileOptions{W: w, H: h, Ware: &s.Built.Load.Ware[0]}),
				e.Balance(BalanceOptions{W: w, H: h}),
				e.First(FirstOptions{W: w, H: h, Chamber: layout.Shape{Kind: layout.Round}}),
				e.Small(s, SmallOptions{W: w, H: h, Done: []int{-3, 77}, Active: 55}),
				e.Act(s, ActOptions{W: w, H: h, Level: len(s.Built.Levels) - 1, Posts: []int{-1, 5000}}),
			} {
				_, err := json.Marshal(p)
				require.NoError(t, err)
				require.NotNil(t, p.Marks)
			}
		}
	}
}

// Of the tiles and pots on the plank all stand on its top and to one scale:
// a pot twice as high is drawn twice as high.
func TestPlankIsToScale(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	bodies, _ := stacks.Bodies(s.Built.Load)
	p := e.Plank(PlankOptions{W: 800, H: 136, Items: waiting(t, s)})
	require.InDelta(t, 136-captionHigh, p.Frame.Y0, 1e-9)
	for i := range s.Built.Load.Ware {
		require.NotNil(t, find(p.Marks, "ware:"+s.Built.Load.Ware[i].Name, "row"))
	}
	require.Greater(t, p.W, 800.0, "eleven rows are wider than 800 px: the page scrolls")
	for _, c := range Check(e.Fonts, p) {
		t.Error(c)
	}
	mug := e.Aside(AsideOptions{W: 64, H: 48, Ware: &s.Built.Load.Ware[0], Body: bodies[0]})
	require.InDelta(t, 45/95.0, mug.Frame.Per, 0.01, "95 high fills 45 px")
}

func TestBalanceRing(t *testing.T) {
	e := easel(t)
	posts := []BalancePost{{"A", plane.Vec{-100, -100}, "1 kg"}, {"B", plane.Vec{100, -100}, "2 kg"}, {"C", plane.Vec{0, 100}, "3 kg"}, {"D", plane.Vec{0, 0}, "4 kg"}}
	require.Len(t, hull(posts), 3, "D stands inside")
	p := e.Balance(BalanceOptions{W: 260, H: 260, Posts: posts, Large: true})
	require.Subset(t, texts(p.Marks), []string{"A", "B", "C", "1 kg", "2 kg", "3 kg"})
	for _, c := range Check(e.Fonts, p) {
		t.Error(c)
	}
	require.Contains(t, e.Balance(BalanceOptions{W: 30, H: 30, Posts: posts, Out: true}).Marks[0].Class, "out")
}

// The page-first-run kiln: 580 across the flats, 685 high.
func TestFirstTellsItsMeasures(t *testing.T) {
	e := easel(t)
	p := e.First(FirstOptions{W: 360, H: 540, Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 580}, Height: 685, Across: 540, Thick: 18, Under: 50})
	require.Subset(t, texts(p.Marks), []string{"685", "290", "half of 580", "first shelf at 50"})
	for _, c := range Check(e.Fonts, p) {
		t.Error(c)
	}
}

func TestWordsFollowTheRegion(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	e.Words = measure.UK
	said := strings.Join(texts(e.Top(s, TopOptions{W: 600, H: 560, Level: 1}).Marks), "|")
	require.NotContains(t, said, "spyhole")
}

// TestDrawingAlone: one easel may be shared; a picture drawn twice is the same.
func TestSamePictureTwice(t *testing.T) {
	e, s := easel(t), sample(t, "studio")
	draw := func() string {
		var w strings.Builder
		dump(&w, e.Top(s, TopOptions{W: 600, H: 560, Level: 5}))
		dump(&w, e.Elevation(s, ElevationOptions{W: 508, H: 440, Active: 3}))
		return w.String()
	}
	require.Equal(t, draw(), draw())
}
