package edit

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// mended is one kind of mend: a load with a finding, and the button that must
// be offered for it.
type mended struct {
	what string
	rule layout.RuleName
	say  string
	load func(t *testing.T) *layout.Load
}

// jars stands two jars on the lower level, gap apart, the first at x. It lies
// 480 below the rim, where the plan is 9.
func jars(t *testing.T, x, gap float64) *layout.Load {
	l := calm()
	put(t, l, "jar 1", "stack", 1, x, 0)
	put(t, l, "jar 2", "stack", 1, x+80+gap, 0)
	return l
}

func loaded(t *testing.T, change func(l *layout.Load)) *layout.Load {
	l := calm()
	put(t, l, "jar 1", "stack", 1, 0, 0)
	change(l)
	return l
}

func mendCases() []mended {
	return []mended{
		{"slide the one", layout.PotToPot, "Slide it 5 mm toward 9 o'clock", func(t *testing.T) *layout.Load { return jars(t, 0, 4) }},
		{"slide the other", layout.PotToPot, "Slide the jar toward 3 by 5 mm toward 3 o'clock", func(t *testing.T) *layout.Load { return jars(t, 0, 4) }},
		{"the locked one stays", layout.PotToPot, "Slide it 5 mm toward 3 o'clock", func(t *testing.T) *layout.Load {
			l := jars(t, 0, 4)
			l.Towers[0].Levels[0].Set[0].Locked = true
			return l
		}},
		{"back to the table", layout.PotToPot, "Back to the table", func(t *testing.T) *layout.Load { return jars(t, 0, 1) }},
		{"from the wall and the edge", layout.PotToWall, "Slide it 5 mm toward 9 o'clock", func(t *testing.T) *layout.Load {
			l := calm()
			put(t, l, "jar 1", "stack", 1, 220, 0) // wall 300: 40 from its skin, less 20
			l.Kiln.Chamber.Across = 560
			return l
		}},
		{"from a post", layout.PotToPost, "Slide it 2 mm toward 6 o'clock", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) { l.Towers[0].Levels[0].Set[0].At = plane.Vec{0, 136} })
		}},
		{"in from the edge", layout.FootToEdge, "Slide it 4 mm toward 9 o'clock", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) { l.Ware[0].Foot = 80; l.Towers[0].Levels[0].Set[0].At = plane.Vec{218, 0} })
		}},
		{"turn a handle", layout.PotToPot, "Turn its handle to 1", func(t *testing.T) *layout.Load {
			l := calm()
			mug := row("mug", 2)
			mug.Handles = []layout.Handle{{Reach: 34, From: 20, To: 80, Thick: 14}}
			l.Ware = append(l.Ware, mug)
			put(t, l, "mug 1", "stack", 1, 0, 0)
			put(t, l, "jar 1", "stack", 1, 0, 96)
			l.Towers[0].Levels[0].Set[0].Turn = 20 // 35 clears the jar by 9: its end then lies 56 from the jar's middle, less 40 and 7
			return l
		}},
		{"out from under each other", layout.CanBeSet, "Slide it 13 mm toward 9 o'clock", interlocked},
		{"raise by a spacer", layout.RoomAbove, "Put one 10 on each of A, B and C: 200 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) { l.Ware[0].Height = 145; put(t, l, "low 1", "stack", 2, 0, 0) })
		}},
		{"raise by other posts", layout.RoomAbove, "Put 3×(100+60) in place of 3×150 under level 2: 200 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Ware[0].Height = 145
				l.Furniture.Posts = []layout.PostKind{{Height: 60, Section: square(40), Count: 3}, {Height: 100, Section: square(40), Count: 6}, {Height: 150, Section: square(40), Count: 3}}
				put(t, l, "low 1", "stack", 2, 0, 0)
			})
		}},
		{"raise here, lower there", layout.RoomAbove, "Put one 10 on each of A, B and C, and take the 10s out of level 1: 25 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Ware[0].Height = 145
				l.Kiln.Height = 290 + 100 + 25 // the low ware fills the room to the lid
				l.Towers[0].Levels[0].Posts = ups(100, 10)
				l.Kiln.Height += 10
				put(t, l, "low 1", "stack", 2, 0, 0)
			})
		}},
		{"swap levels", layout.RoomToLid, "Swap level 2 and level 1", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				tall := row("tall", 1)
				tall.Height = 130
				l.Ware[0].Height = 60
				l.Ware = append(l.Ware, tall)
				l.Kiln.Height = 290 + 130 + 10
				put(t, l, "tall", "stack", 2, 0, 0)
			})
		}},
		{"lower what stands too high", layout.RoomToLid, "Take the 10s out of level 2: 25 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Ware[0].Height = 60
				l.Towers[0].Levels[1].Posts = ups(150, 10)
				l.Kiln.Height = 300 + 100 + 15
				put(t, l, "low 1", "stack", 2, 0, 0)
			})
		}},
		{"raise the bottom shelf", layout.BottomShelf, "Put one 10 on each of A, B and C: 330 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Furniture.Posts = append(l.Furniture.Posts, layout.PostKind{Height: 20, Section: square(40), Count: 3})
				l.Towers[0].Levels[0].Posts = ups(20)
				l.Towers[0].Levels[0].Set = nil
				put(t, l, "jar 1", "stack", 2, 0, 0)
				l.Kiln.Height = 50 + 20 + 150 + 20 + 100 + 310
			})
		}},
		{"a shelf off the probe", layout.ToProbe, "Put 3×(50+10+10) in place of 3×100 under level 1: 410 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) { l.Kiln.Probes = []layout.Probe{{At: 60, Height: 316, Reach: 80, Diameter: 12}} })
		}},
		{"a line put back", layout.PostOverPost, "Put B back on its line", func(t *testing.T) *layout.Load { return moved(t, 16) }},
		{"a post moved in", layout.Inset, "Move post B 6 mm toward 6 o'clock, on every level", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Towers[0].Lines = threeLines(200)
				l.Towers[0].Lines[0].At = plane.Vec{0, 238}
			})
		}},
		{"heads made even", layout.PostHeights, "Put 3×(150+10) in place of 2×150, 1×(150+10) under level 2: 380 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Towers[0].Levels[1].Posts = []layout.MakeUp{up(150), up(150), up(150, 10)}
			})
		}},
		{"fewer pieces", layout.Pieces, "Put 3×150 in place of 3×(50+50+10+10+10+10+10) under level 2: 430 left to the lid", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Furniture.Posts[0].Count = 30
				l.Furniture.Posts[0].Spacer = true
				l.Towers[0].Levels[1].Posts = ups(50, 50, 10, 10, 10, 10, 10)
				l.Kiln.Height = 650
			})
		}},
		{"other pieces for short ones", layout.OwnedCount, "Put 2×150, 1×(100+50) in place of 3×150 under level 2", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) { l.Furniture.Posts[3].Count = 2 })
		}},
		{"supports that agree", layout.TowerFooting, "Take the 10s out of left 1", func(t *testing.T) *layout.Load {
			l := sides(t, 10)
			l.Tower("left side").Levels[0].Posts = ups(150, 10)
			l.Towers = append(l.Towers, layout.Tower{Name: "over", On: []layout.Support{{Tower: "left side", Level: 1}, {Tower: "right side", Level: 1}},
				Lines: l.Towers[0].Lines, Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: ups(100)}}})
			return l
		}},
		{"halves moved apart", layout.ShelfToShelf, "Move the shelf of left 1 by 4 mm toward 9 o'clock", func(t *testing.T) *layout.Load { return sides(t, 2) }},
		{"a shelf off the wall", layout.ShelfToWall, "Move the shelf of level 2 by 5 mm toward 9 o'clock", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) { l.Towers[0].Levels[1].Shelves[0].At = plane.Vec{33, 0} })
		}},
		{"another shelf for a cracked one", layout.SoundShelf, "Take a sound shelf instead", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				old := l.Furniture.Shelves[0]
				old.Name, old.Cracked = "old", true
				l.Furniture.Shelves[0].Name = "sound"
				l.Furniture.Shelves = append(l.Furniture.Shelves, old)
				l.Towers[0].Levels[0].Shelves[0].Kind = "old"
				l.Towers[0].Levels[1].Shelves[0].Kind = "sound"
			})
		}},
		{"cones moved into sight", layout.InSight, "Move the cones 100 mm toward half past 7", func(t *testing.T) *layout.Load {
			l := calm()
			l.Kiln.Spyholes = []layout.Spyhole{{At: 180, Height: 190}}
			l.Cones = []layout.ConePack{{Name: "pack", Watched: true}}
			put(t, l, "pack", "stack", 1, 0, 60)
			put(t, l, "jar 1", "stack", 1, 0, -100)
			return l
		}},
		{"a wider cookie", layout.RunnyCookie, "Put a wider cookie under each", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Ware[0].Flags.Runny, l.Ware[0].Stand = true, layout.Stand{Kind: layout.Cookie, Across: 70}
			})
		}},
		{"a stilt", layout.GlazedFoot, "Put a stilt under each", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				l.Firing.Cone, l.Ware[0].Glaze.Cone, l.Ware[0].Flags.GlazedFoot = "04", "04", true
			})
		}},
		{"a row out of the firing", layout.FitsFiring, "Put all 2 back on the table", func(t *testing.T) *layout.Load {
			l := jars(t, 0, 20)
			l.Ware[0].Clay.Cone = "04"
			return l
		}},
		{"fume apart", layout.Fuming, "Back to the table", func(t *testing.T) *layout.Load {
			return loaded(t, func(l *layout.Load) {
				shy := row("white", 1)
				shy.Flags.FumeShy, l.Ware[0].Flags.Fuming = true, true
				l.Ware = append(l.Ware, shy)
				put(t, l, "white", "stack", 1, 100, 0)
			})
		}},
	}
}

// sides is a full shelf with two halves over it, gap apart.
func sides(t *testing.T, gap float64) *layout.Load {
	l := calm()
	base := l.Towers[0]
	base.Levels = base.Levels[:1]
	left := []layout.Line{{At: plane.Vec{-30, 200}}, {At: plane.Vec{-30, -200}}, {At: plane.Vec{-200, 0}}}
	right := []layout.Line{{At: plane.Vec{30, 200}}, {At: plane.Vec{30, -200}}, {At: plane.Vec{200, 0}}}
	base.Lines = append(append([]layout.Line(nil), left...), right...)
	half := func(x, turn float64) []layout.Level {
		return []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "half", At: plane.Vec{x, 0}, Turn: turn}}, Posts: ups(150)}}
	}
	l.Towers = []layout.Tower{base,
		{Name: "left side", On: []layout.Support{{Tower: "stack", Level: 1}}, Lines: left, Levels: half(-gap/2, 270)},
		{Name: "right side", On: []layout.Support{{Tower: "stack", Level: 1}}, Lines: right, Levels: half(gap/2, 90)}}
	return l
}

// moved stands the upper level as a tower of its own, one post x off its line.
func moved(t *testing.T, x float64) *layout.Load {
	return loaded(t, func(l *layout.Load) {
		base := l.Towers[0]
		over := layout.Tower{Name: "upper", On: []layout.Support{{Tower: "stack", Level: 1}}, Lines: threeLines(200), Levels: base.Levels[1:]}
		over.Lines[0].At[1] += x
		base.Levels = base.Levels[:1]
		l.Towers = []layout.Tower{base, over}
	})
}

// interlocked is two measured pots of which each reaches under the other.
func interlocked(t *testing.T) *layout.Load {
	l := calm()
	low, top := row("lower", 1), row("upper", 1)
	low.Measured, top.Measured = true, true
	low.Profile = []layout.Knot{{Height: 0, Diameter: 40}, {Height: 18, Diameter: 40}, {Height: 20, Diameter: 100}, {Height: 30, Diameter: 100}, {Height: 32, Diameter: 40}, {Height: 60, Diameter: 40}, {Height: 70, Diameter: 100}, {Height: 80, Diameter: 100}}
	top.Profile = []layout.Knot{{Height: 0, Diameter: 40}, {Height: 43, Diameter: 40}, {Height: 45, Diameter: 100}, {Height: 55, Diameter: 100}, {Height: 57, Diameter: 40}, {Height: 100, Diameter: 40}}
	low.Height, low.Across, top.Across, low.Foot, top.Foot = 80, 100, 100, 40, 40
	l.Ware = append(l.Ware, low, top)
	put(t, l, "lower", "stack", 1, 0, 0)
	put(t, l, "upper", "stack", 1, 90, 0)
	return l
}

// TestEveryMendWorks: for each kind of finding the mend is offered, and when
// applied, built and checked by itself, the finding is gone and nothing new
// has come.
func TestEveryMendWorks(t *testing.T) {
	for _, c := range mendCases() {
		t.Run(c.what, func(t *testing.T) {
			l := c.load(t)
			b := built(t, l)
			was, _ := json.Marshal(l)
			r := clearance.Check(b)
			fs := of(r, c.rule)
			require.NotEmpty(t, fs, "%v", said(r))
			mends := Mends(b, fs[0])
			require.NotEmpty(t, mends, "%q has no mend", fs[0].Sentence)
			var says []string
			for _, m := range mends {
				says = append(says, m.Say)
				works(t, l, fs[0], m)
			}
			if c.say != "" {
				require.Contains(t, says, c.say)
			}
			t.Logf("%s -> %q", fs[0].Sentence, says)
			is, _ := json.Marshal(l)
			require.Equal(t, string(was), string(is), "the load is not changed")
		})
	}
}

func said(r clearance.Report) []string {
	var out []string
	for _, f := range r.Findings {
		out = append(out, f.Sentence)
	}
	return out
}

type tester interface {
	Fatalf(format string, args ...any)
}

// works applies a mend and judges the load after it, knowing nothing of how
// mends are found.
func works(t tester, l *layout.Load, f layout.Finding, m layout.Mend) {
	before, err := stacks.Build(l)
	if err != nil {
		t.Fatalf("%v", err)
	}
	after, err := Apply(l, m.Edits...)
	if err != nil {
		t.Fatalf("%q: %v", m.Say, err)
	}
	b, err := stacks.Build(after)
	if err != nil {
		t.Fatalf("%q: %v", m.Say, err)
	}
	old, now := clearance.Check(before), clearance.Check(b)
	if now.Find(f.Key) != nil {
		t.Fatalf("%q leaves %q", m.Say, f.Sentence)
	}
	if now.Problems > old.Problems || now.Problems == old.Problems && now.Watches > old.Watches {
		t.Fatalf("%q brings %v", m.Say, said(now))
	}
	for _, g := range now.Findings {
		if o := old.Find(g.Key); g.Grade != layout.Note && (o == nil || o.Grade < g.Grade) {
			t.Fatalf("%q brings %q", m.Say, g.Sentence)
		}
	}
	for t := range after.Towers {
		for v := range after.Towers[t].Levels {
			for _, p := range after.Towers[t].Levels[v].Set {
				if p.At != gridPlace(p.At) && !stood(l, p) {
					panic(fmt.Sprintf("%v is off the grid", p))
				}
			}
		}
	}
}

// stood tells whether a placement was there before.
func stood(l *layout.Load, p layout.Placement) bool {
	s, ok := find(l, p.Pot)
	return ok && s.in(l).At == p.At
}

// TestMendsOfCrowdsWork: every mend of a random load works.
func TestMendsOfCrowdsWork(t *testing.T) {
	offered := 0
	rapid.Check(t, func(rt *rapid.T) {
		l := calm()
		mug := row("mug", 12)
		mug.Handles = []layout.Handle{{Reach: 38, From: 20, To: 80, Thick: 14}}
		mug.Height = 140 + rapid.Float64Range(0, 9).Draw(rt, "height")
		l.Ware = append(l.Ware, mug)
		n := rapid.IntRange(2, 9).Draw(rt, "pots")
		for i := 0; i < n; i++ {
			p := layout.Placement{Pot: layout.Pot{Ware: []string{"jar", "mug"}[rapid.IntRange(0, 1).Draw(rt, "row")], Number: i + 1},
				At:   plane.Vec{rapid.Float64Range(-200, 200).Draw(rt, "x"), rapid.Float64Range(-200, 200).Draw(rt, "y")},
				Turn: rapid.Float64Range(0, 360).Draw(rt, "turn")}
			v := &l.Towers[0].Levels[rapid.IntRange(0, 1).Draw(rt, "level")]
			v.Set = append(v.Set, p)
		}
		b, err := stacks.Build(l)
		if err != nil {
			rt.Fatal(err)
		}
		for _, f := range CheckWithMends(b).Findings {
			for _, m := range f.Mends {
				offered++
				works(rt, l, f, m)
			}
		}
	})
	require.Positive(t, offered)
	t.Logf("%d mends were applied", offered)
}

// TestSnapIsOnTheGridAndClears: the page's snap, with a place in the middle of
// another jar.
func TestSnapIsOnTheGridAndClears(t *testing.T) {
	b := built(t, jars(t, 0, 20))
	to, ok := Snap(b, 1, plane.Vec{30, 0})
	require.True(t, ok)
	require.Equal(t, plane.Vec{89, 0}, to, "80 and the deep plan's 9 from the other's middle")
	_, ok = Snap(b, 7, plane.Vec{})
	require.False(t, ok, "there is no such pot")
}
