package whole

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/order"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// TestLawEveryPotCanBeSetInOrder goes through every act of loading each
// reference. Pots go straight down from over the rim, beside the pots, posts,
// shelves and probes that are in the kiln at that moment, and keep the hand's
// room all the way; only one that stands under a probe goes down beside that and
// across below it. Into a front-loader they are carried straight in at some
// height under the ceiling, and let down. The wall is as far at every height.
// Shelves go straight down and meet nothing. Every piece goes in once, a shelf
// after its posts and a pot after its shelf.
func TestLawEveryPotCanBeSetInOrder(t *testing.T) {
	for _, name := range samples() {
		t.Run(name, func(t *testing.T) { settable(t, reference(t, name)) })
		if !long() {
			continue
		}
		for seed := uint64(2); seed < 8; seed++ {
			t.Run(fmt.Sprintf("%s seed %d", name, seed), func(t *testing.T) {
				s, err := planner.Start(read(t, name), seed)
				require.NoError(t, err)
				s.Step(15000)
				p, ok := s.Best()
				require.True(t, ok)
				b, err := stacks.Build(p.Load)
				require.NoError(t, err)
				settable(t, b)
			})
		}
	}
	if !long() {
		t.Log("the references only; THREEPOST_LONG=1 goes through six more plans of each sample")
	}
}

// settable loads a kiln.
func settable(t *testing.T, b *stacks.Built) {
	o, cycles := order.Of(b)
	require.Empty(t, cycles)
	k := &kiln{b: b, hand: handRoom(b.Load), least: math.Inf(1)}
	lo, _ := b.Chamber.Bounds()
	straight, highest := 0, 0.0
	in := map[string]map[int]bool{"pot": {}, "post": {}, "shelf": {}}
	once := func(what string, i int) {
		require.False(t, in[what][i], "%s %d goes in twice", what, i)
		in[what][i] = true
	}
	for _, a := range o.Acts {
		switch a.Kind {
		case order.ActPosts:
			for _, i := range a.Posts {
				once("post", i)
				k.posts = append(k.posts, i)
			}
		case order.ActShelf:
			once("shelf", a.Shelf)
			for i := range b.Posts {
				for _, s := range b.Posts[i].Shelves {
					require.True(t, s != a.Shelf || in["post"][i], "a shelf goes in before its post")
				}
			}
			if b.Load.Kiln.Opens != layout.Front {
				k.lay(t, a.Shelf)
			}
			k.shelves = append(k.shelves, a.Shelf)
		}
		for _, i := range potsOf(o, a) {
			once("pot", i)
			pot := &b.Pots[i]
			require.True(t, in["shelf"][pot.Shelf], "%s goes in before its shelf", pot.Pot)
			require.GreaterOrEqual(t, solid.WallClearance(&pot.Solid, b.Chamber), k.hand)
			if b.Load.Kiln.Opens == layout.Front {
				lift := k.setFromFront(t, pot, lo[1])
				if highest = math.Max(highest, lift); lift == 2 {
					straight++
				}
			} else {
				k.setFromAbove(t, pot)
			}
			k.pots = append(k.pots, i)
		}
	}
	require.Len(t, in["pot"], len(b.Pots))
	require.Len(t, in["post"], len(b.Posts))
	require.Len(t, in["shelf"], len(b.Shelves))
	t.Logf("%d pots, %d gaps measured, the least on any way %.2f; hand room %.1f", len(b.Pots), k.moments, k.least, k.hand)
	if b.Load.Kiln.Opens == layout.Front {
		t.Logf("%d go straight in from the front, 2 over their place, the others lifted by at most %.0f", straight, highest)
	}
}

// under is the newcomer's load with bowls whose profile was measured, and a low
// cup beneath the rim of each bowl of the bottom shelf, listed after the bowls.
func under(t *testing.T) *stacks.Built {
	l := read(t, "reference/newcomer")
	bowl := l.WareOf(layout.Pot{Ware: "bowl", Number: 1})
	bowl.Measured, bowl.Foot = true, 60
	bowl.Profile = []layout.Knot{{Height: 0, Diameter: 60}, {Height: 35, Diameter: 70}, {Height: 75, Diameter: 150}}
	cup := layout.Ware{Name: "cup", Silhouette: layout.Cylinder, Height: 22, Across: 50}
	set := l.Towers[0].Levels[0].Set
	for _, p := range set {
		if p.Pot.Ware == "bowl" {
			cup.Count++
			far := plane.Length(p.At)
			in := (far - 71) / far
			set = append(set, layout.Placement{Pot: layout.Pot{Ware: "cup", Number: cup.Count}, At: plane.Vec{p.At[0] * in, p.At[1] * in}})
		}
	}
	for i, p := range set {
		if p.Pot.Ware == "mug" {
			set = append(set[:i], set[i+1:]...)
			break
		}
	}
	l.Towers[0].Levels[0].Set = set
	l.Ware = append(l.Ware, cup)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	for _, f := range clearance.Check(b).Findings {
		require.NotEqual(t, layout.PotToPot, f.Rule, f.Sentence)
		require.NotEqual(t, layout.CanBeSet, f.Rule, f.Sentence)
	}
	return b
}

// TestWareUnderRimsGoesInFirst: the samples have no measured profiles, so their
// pots go in in any order. Here each cup has to stand before its bowl: the way
// of the order is free, and the other way round the cup meets the bowl.
func TestWareUnderRimsGoesInFirst(t *testing.T) {
	b := under(t)
	settable(t, b)
	o, _ := order.Of(b)
	told := 0
	for _, l := range o.Levels {
		for _, s := range l.Pots {
			for _, first := range s.After {
				told++
				require.Equal(t, "cup", b.Pots[first].Pot.Ware)
				require.Equal(t, "bowl", b.Pots[s.Pot].Pot.Ware)
				k := &kiln{b: b, hand: handRoom(b.Load), pots: []int{s.Pot}}
				g, _, _ := k.letDown(&b.Pots[first], b.Height)
				require.Negative(t, g, "%s before %s", b.Pots[first].Pot, b.Pots[s.Pot].Pot)
			}
		}
	}
	require.GreaterOrEqual(t, told, 4)
}
