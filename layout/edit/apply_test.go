package edit

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
)

// two is the calm load with jars 1 and 2 below and jar 3 above.
func two(t testing.TB) *layout.Load {
	l := calm()
	put(t, l, "jar 1", "stack", 1, 0, 0)
	put(t, l, "jar 2", "stack", 1, 100, 0)
	put(t, l, "jar 3", "stack", 2, 0, 0)
	vase := row("vase", 1)
	l.Ware = append(l.Ware, vase)
	l.Cones = []layout.ConePack{{Name: "front"}}
	return l
}

// TestEachAct applies every act and looks at what it changed.
func TestEachAct(t *testing.T) {
	level := func(l *layout.Load, n int) *layout.Level { return &l.Tower("stack").Levels[n-1] }
	for _, c := range []struct {
		what string
		edit layout.Edit
		see  func(l *layout.Load) bool
	}{
		{"set from the table", layout.Edit{Act: layout.SetPot, Pot: "vase", Tower: "stack", Level: 2, At: at(90.04, -20.06), Turn: deg(359.98)},
			func(l *layout.Load) bool {
				p := level(l, 2).Set[1]
				return p.Pot == layout.Pot{Ware: "vase"} && p.At == plane.Vec{90, -20.1} && p.Turn == 0
			}},
		{"set cones", layout.Edit{Act: layout.SetPot, Pot: "front", Tower: "stack", Level: 1, At: at(0, 100)},
			func(l *layout.Load) bool { return level(l, 1).Set[2].Pot == layout.Pot{Ware: "front"} }},
		{"move on its level", layout.Edit{Act: layout.SetPot, Pot: "jar 1", At: at(5, 6)},
			func(l *layout.Load) bool {
				return level(l, 1).Set[0].At == plane.Vec{5, 6} && len(level(l, 1).Set) == 2
			}},
		{"turn only", layout.Edit{Act: layout.SetPot, Pot: "jar 2", Turn: deg(-90)},
			func(l *layout.Load) bool {
				p := level(l, 1).Set[1]
				return p.Turn == 270 && p.At == plane.Vec{100, 0}
			}},
		{"move to another level", layout.Edit{Act: layout.SetPot, Pot: "jar 1", Tower: "stack", Level: 2, At: at(100, 0)},
			func(l *layout.Load) bool { return len(level(l, 1).Set) == 1 && level(l, 2).Set[1].Pot.Number == 1 }},
		{"a pot of one by its number", layout.Edit{Act: layout.SetPot, Pot: "vase 1", Tower: "stack", Level: 2, At: at(100, 0)},
			func(l *layout.Load) bool { return level(l, 2).Set[1].Pot == layout.Pot{Ware: "vase"} }},
		{"withdraw", layout.Edit{Act: layout.Withdraw, Pot: "jar 1"},
			func(l *layout.Load) bool { return len(level(l, 1).Set) == 1 && level(l, 1).Set[0].Pot.Number == 2 }},
		{"swap pots", layout.Edit{Act: layout.SwapPots, Pot: "jar 1", Other: "jar 3"},
			func(l *layout.Load) bool {
				return level(l, 1).Set[0].Pot.Number == 3 && level(l, 2).Set[0].Pot.Number == 1 && level(l, 1).Set[0].At == plane.Vec{}
			}},
		{"lock a pot", layout.Edit{Act: layout.LockPot, Pot: "jar 2", On: true},
			func(l *layout.Load) bool { return level(l, 1).Set[1].Locked }},
		{"lock a level", layout.Edit{Act: layout.LockLevel, Tower: "stack", Level: 2, On: true},
			func(l *layout.Load) bool { return level(l, 2).Locked && !level(l, 1).Locked }},
		{"set posts", layout.Edit{Act: layout.SetPosts, Tower: "stack", Level: 2, Posts: ups(100, 50, 10)},
			func(l *layout.Load) bool { return level(l, 2).Posts[0].Nominal() == 160 }},
		{"posts one by one", layout.Edit{Act: layout.SetPosts, Tower: "stack", Level: 2, Posts: []layout.MakeUp{up(150), up(150), up(100, 50)}},
			func(l *layout.Load) bool { return len(level(l, 2).Posts) == 3 }},
		{"move a line", layout.Edit{Act: layout.MoveLine, Tower: "stack", Line: 2, At: at(170.04, -100), Turn: deg(45)},
			func(l *layout.Load) bool {
				return l.Tower("stack").Lines[1] == layout.Line{At: plane.Vec{170, -100}, Turn: 45}
			}},
		{"add a level below", layout.Edit{Act: layout.AddLevel, Tower: "stack", Level: 1, NewLevel: &layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(50)}},
			func(l *layout.Load) bool { return len(l.Tower("stack").Levels) == 3 && len(level(l, 2).Set) == 2 }},
		{"add a level on top", layout.Edit{Act: layout.AddLevel, Tower: "stack", Level: 3, NewLevel: &layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(50)}},
			func(l *layout.Load) bool { return len(level(l, 3).Shelves) == 1 }},
		{"remove a level", layout.Edit{Act: layout.RemoveLevel, Tower: "stack", Level: 1},
			func(l *layout.Load) bool {
				return len(l.Tower("stack").Levels) == 1 && level(l, 1).Set[0].Pot.Number == 3
			}},
		{"swap levels", layout.Edit{Act: layout.SwapLevels, Tower: "stack", Level: 1, OtherLevel: 2},
			func(l *layout.Load) bool { return len(level(l, 1).Set) == 1 && len(level(l, 2).Set) == 2 }},
		{"move a shelf", layout.Edit{Act: layout.MoveShelf, Tower: "stack", Level: 1, Shelf: 1, At: at(1.26, 0), Turn: deg(10)},
			func(l *layout.Load) bool {
				return level(l, 1).Shelves[0].At == plane.Vec{1.3, 0} && level(l, 1).Shelves[0].Turn == 10
			}},
		{"arrange", layout.Edit{Act: layout.Arrange, Towers: []layout.Tower{{Name: "new"}}},
			func(l *layout.Load) bool { return len(l.Towers) == 1 && l.Towers[0].Name == "new" }},
		{"accept", layout.Edit{Act: layout.Accept, Finding: "x", Reason: " fired before "},
			func(l *layout.Load) bool {
				return l.Accepted[0] == layout.Accepted{Finding: "x", Reason: "fired before"}
			}},
		{"add ware", layout.Edit{Act: layout.SetWare, Ware: &layout.Ware{Name: "cup", Count: 2}},
			func(l *layout.Load) bool { return len(l.Ware) == 4 && l.Ware[3].Name == "cup" }},
		{"fewer of a row", layout.Edit{Act: layout.SetWare, Ware: &layout.Ware{Name: "jar", Count: 2}},
			func(l *layout.Load) bool { return len(level(l, 1).Set) == 2 && len(level(l, 2).Set) == 0 }},
		{"one of a row loses its number", layout.Edit{Act: layout.SetWare, Ware: &layout.Ware{Name: "jar", Count: 1}},
			func(l *layout.Load) bool { return len(level(l, 1).Set) == 1 && level(l, 1).Set[0].Pot.Number == 0 }},
		{"remove ware", layout.Edit{Act: layout.RemoveWare, Other: "jar"},
			func(l *layout.Load) bool { return len(l.Ware) == 2 && len(level(l, 1).Set) == 0 }},
		{"set a rule", layout.Edit{Act: layout.SetRule, Rule: layout.PotToPot, Limits: &layout.Limits{Problem: 2, Watch: 4, Plan: 4}},
			func(l *layout.Load) bool { return l.Limits(layout.PotToPot).Plan == 4 }},
	} {
		t.Run(c.what, func(t *testing.T) {
			l := two(t)
			was, _ := json.Marshal(l)
			after, err := Apply(l, c.edit)
			require.NoError(t, err)
			require.True(t, c.see(after))
			is, _ := json.Marshal(l)
			require.Equal(t, string(was), string(is), "the load given is not changed")
		})
	}
}

// TestRefusals: what has no meaning gets a sentence, and the load is not
// changed; a place in the middle of another pot is not refused.
func TestRefusals(t *testing.T) {
	nan := math.NaN()
	full := layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(50)}
	twice := []layout.Placement{{Pot: layout.Pot{Ware: "jar", Number: 1}}}
	for _, c := range []struct {
		edit layout.Edit
		want string
	}{
		{layout.Edit{Act: "paint"}, `"paint" is no act of an edit`},
		{layout.Edit{Act: layout.SetPot, Pot: "cup"}, `"cup" is neither a pot of the ware list nor a cone pack`},
		{layout.Edit{Act: layout.SetPot, Pot: "jar 13"}, `there is no "jar 13": the row "jar" has 12`},
		{layout.Edit{Act: layout.SetPot, Pot: "vase", At: at(0, 0)}, "vase is on the table; say on which tower and level it goes"},
		{layout.Edit{Act: layout.SetPot, Pot: "vase", Tower: "stack", Level: 1}, "say where vase goes on the level"},
		{layout.Edit{Act: layout.SetPot, Pot: "vase", Tower: "left", Level: 1, At: at(0, 0)}, `there is no tower "left"; the load has "stack"`},
		{layout.Edit{Act: layout.SetPot, Pot: "vase", Tower: "stack", Level: 3, At: at(0, 0)}, `"stack" has 2 levels, so there is no level 3`},
		{layout.Edit{Act: layout.SetPot, Pot: "vase", Tower: "stack", Level: 0, At: at(0, 0)}, `"stack" has 2 levels, so there is no level 0`},
		{layout.Edit{Act: layout.SetPot, Pot: "jar 1", At: at(nan, 0)}, "the place of jar 1 is not a place in the kiln; give x and y in mm"},
		{layout.Edit{Act: layout.SetPot, Pot: "jar 1", Turn: deg(math.Inf(1))}, "the turn of jar 1 is not an angle; give degrees clockwise"},
		{layout.Edit{Act: layout.Withdraw, Pot: "vase"}, "vase is on the table"},
		{layout.Edit{Act: layout.SwapPots, Pot: "jar 1", Other: "vase"}, "vase is on the table"},
		{layout.Edit{Act: layout.LockPot, Pot: "jar 9", On: true}, "jar 9 is on the table"},
		{layout.Edit{Act: layout.SetPosts, Tower: "stack", Level: 1, Posts: ups(77)}, "the furniture has no post of 77"},
		{layout.Edit{Act: layout.SetPosts, Tower: "stack", Level: 1, Posts: []layout.MakeUp{up(100), up(100)}}, `"stack" has 3 lines; give one make-up for all, or 3`},
		{layout.Edit{Act: layout.SetPosts, Tower: "stack", Level: 1, Posts: []layout.MakeUp{nil}}, `a post of level 1 of "stack" has no piece`},
		{layout.Edit{Act: layout.MoveLine, Tower: "stack", Line: 4, At: at(0, 0)}, `"stack" has 3 lines, so there is no line 4`},
		{layout.Edit{Act: layout.AddLevel, Tower: "stack", Level: 4, NewLevel: &full}, `"stack" has 2 levels; a new one goes in as 1 to 3`},
		{layout.Edit{Act: layout.AddLevel, Tower: "stack", Level: 1}, "a new level takes shelves and posts"},
		{layout.Edit{Act: layout.AddLevel, Tower: "stack", Level: 1, NewLevel: &layout.Level{Set: twice}}, `jar 1 is set twice: on level 1 of "stack" and on level 2 of "stack"`},
		{layout.Edit{Act: layout.SwapLevels, Tower: "stack", Level: 1, OtherLevel: 1}, `level 1 of "stack" cannot change places with itself`},
		{layout.Edit{Act: layout.MoveShelf, Tower: "stack", Level: 1, Shelf: 2}, `level 1 of "stack" has no shelf 2`},
		{layout.Edit{Act: layout.Arrange, Towers: []layout.Tower{{Name: "a"}, {Name: "a"}}}, `two towers are called "a"; give each its own name`},
		{layout.Edit{Act: layout.Arrange, Towers: make([]layout.Tower, 65)}, "an arrangement of 65 towers; a kiln takes 64 at most"},
		{layout.Edit{Act: layout.Arrange, Towers: []layout.Tower{{Name: "a", Levels: []layout.Level{{Set: append(twice, twice...)}}}}}, `jar 1 is set twice: on level 1 of "a" and on level 1 of "a"`},
		{layout.Edit{Act: layout.Accept, Finding: "x"}, `say why "x" may stand, so that it is known next time`},
		{layout.Edit{Act: layout.Accept, Reason: "x"}, "an acceptance names the finding that it lets stand"},
		{layout.Edit{Act: layout.SetWare}, "a row of ware takes a name"},
		{layout.Edit{Act: layout.SetWare, Ware: &layout.Ware{Name: "cup", Count: 1e9}}, "cup: a count of 1000000000; give 1 to 10000"},
		{layout.Edit{Act: layout.SetWare, Ware: &layout.Ware{Name: "front", Count: 1}}, `"front" is the name of a cone pack; give the ware another`},
		{layout.Edit{Act: layout.RemoveWare, Other: "cup"}, `there is no ware "cup" on the list`},
		{layout.Edit{Act: layout.SetRule, Rule: "x"}, `"x" is no rule with figures`},
		{layout.Edit{Act: layout.SetRule, Rule: layout.PotToPot, Limits: &layout.Limits{Plan: nan}}, `a figure of the rule "pot to pot" is not a number`},
	} {
		t.Run(c.want, func(t *testing.T) {
			after, err := Apply(two(t), c.edit)
			require.EqualError(t, err, c.want)
			require.Nil(t, after)
		})
	}
	_, err := Apply(two(t), layout.Edit{Act: layout.SetPot, Pot: "jar 1", At: at(100, 0)})
	require.NoError(t, err, "a tight gap is the check's matter")
}

// TestTowersAboveFollow: what stands on a level that moves up or goes.
func TestTowersAboveFollow(t *testing.T) {
	load := func() *layout.Load {
		l := calm()
		l.Towers = append(l.Towers, layout.Tower{Name: "upper", On: []layout.Support{{Tower: "stack", Level: 2}}, Lines: threeLines(200)})
		return l
	}
	full := layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(50)}
	l, err := Apply(load(), layout.Edit{Act: layout.AddLevel, Tower: "stack", Level: 1, NewLevel: &full})
	require.NoError(t, err)
	require.Equal(t, []layout.Support{{Tower: "stack", Level: 3}}, l.Tower("upper").On)
	l, err = Apply(load(), layout.Edit{Act: layout.RemoveLevel, Tower: "stack", Level: 2})
	require.NoError(t, err)
	require.Equal(t, []layout.Support{{Tower: "stack", Level: 1}}, l.Tower("upper").On)
	l, err = Apply(load(), layout.Edit{Act: layout.RemoveLevel, Tower: "stack", Level: 2}, layout.Edit{Act: layout.RemoveLevel, Tower: "stack", Level: 1})
	require.NoError(t, err)
	require.Equal(t, []layout.Support{{}}, l.Tower("upper").On, "on the floor, as the tower was")
}

// TestSwapLevelsTakesThePostsOver: with a third level, the posts over the two
// change places with the pots.
func TestSwapLevelsTakesThePostsOver(t *testing.T) {
	l := two(t)
	s := l.Tower("stack")
	s.Levels = append(s.Levels, layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(100)})
	l, err := Apply(l, layout.Edit{Act: layout.SwapLevels, Tower: "stack", Level: 1, OtherLevel: 2})
	require.NoError(t, err)
	s = l.Tower("stack")
	require.Equal(t, []float64{100, 100, 150}, []float64{s.Levels[0].Posts[0].Nominal(), s.Levels[1].Posts[0].Nominal(), s.Levels[2].Posts[0].Nominal()})
}

// TestEditsComeBackOutOfJSON: an edit is data.
func TestEditsComeBackOutOfJSON(t *testing.T) {
	e := layout.Edit{Act: layout.SetPot, Pot: "jar 1", Tower: "stack", Level: 2, At: at(1, 2), Turn: deg(0)}
	text, err := json.Marshal(e)
	require.NoError(t, err)
	var back layout.Edit
	require.NoError(t, json.Unmarshal(text, &back))
	a, err := Apply(two(t), e)
	require.NoError(t, err)
	b, err := Apply(two(t), back)
	require.NoError(t, err)
	require.Equal(t, a, b)
}

// TestNoEditPanics throws figures and names of all sorts at every act.
func TestNoEditPanics(t *testing.T) {
	acts := []layout.Act{layout.SetPot, layout.Withdraw, layout.SwapPots, layout.LockPot, layout.LockLevel, layout.SetPosts, layout.MoveLine,
		layout.AddLevel, layout.RemoveLevel, layout.SwapLevels, layout.MoveShelf, layout.Arrange, layout.Accept, layout.SetWare, layout.RemoveWare, layout.SetRule, ""}
	names := []string{"", "jar 1", "jar 3", "jar 99", "vase", "stack", "front", "nothing", " ", "jar"}
	rapid.Check(t, func(rt *rapid.T) {
		l := two(t)
		n := rapid.IntRange(1, 5).Draw(rt, "edits")
		for i := 0; i < n; i++ {
			name := func(label string) string { return rapid.SampledFrom(names).Draw(rt, label) }
			num := func(label string) int { return rapid.IntRange(-2, 5).Draw(rt, label) }
			e := layout.Edit{Act: rapid.SampledFrom(acts).Draw(rt, "act"), Pot: name("pot"), Other: name("other"), Tower: name("tower"),
				Level: num("level"), OtherLevel: num("other level"), Line: num("line"), Shelf: num("shelf"), Finding: name("finding"), Reason: name("reason")}
			if rapid.Bool().Draw(rt, "at") {
				e.At = at(rapid.Float64().Draw(rt, "x"), rapid.Float64().Draw(rt, "y"))
			}
			if rapid.Bool().Draw(rt, "level given") {
				e.NewLevel = &layout.Level{}
			}
			if after, err := Apply(l, e); err == nil {
				l = after
			} else if err.Error() == "" {
				rt.Fatal("a refusal without a sentence")
			}
		}
	})
}
