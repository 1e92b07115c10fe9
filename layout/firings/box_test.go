package firings

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
)

// pieces counts a box: shelves by name, posts by height and name, and the rest.
func pieces(boxes ...layout.Furniture) map[any]int {
	type post struct {
		height float64
		name   string
	}
	out := map[any]int{}
	for _, f := range boxes {
		for _, r := range f.Shelves {
			out[r.Name] += r.Count
		}
		for _, r := range f.Posts {
			out[post{r.Height, r.Name}] += r.Count
		}
		for _, r := range f.Cookies {
			out[[2]float64{r.Across, 0}] += r.Count
		}
		for _, r := range f.Stilts {
			out[[2]float64{r.Across, 1}] += r.Count
		}
	}
	return out
}

// drawBox draws furniture with counts of 1 to 12.
func drawBox(t *rapid.T) layout.Furniture {
	count := func() int { return rapid.IntRange(1, 12).Draw(t, "count") }
	var f layout.Furniture
	for i := range rapid.IntRange(0, 3).Draw(t, "shelves") {
		f.Shelves = append(f.Shelves, layout.ShelfKind{Name: string(rune('a' + i)), Thick: 15, Count: count()})
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "posts") {
		f.Posts = append(f.Posts, layout.PostKind{Height: float64(25 * (i + 1)), Count: count()})
	}
	if rapid.Bool().Draw(t, "cookies") {
		f.Cookies = append(f.Cookies, layout.CookieKind{Across: 110, Count: count()})
		f.Stilts = append(f.Stilts, layout.StiltKind{Across: 60, Count: count()})
	}
	return f
}

// TestLawSharesAreTheBox: whatever the share, both parts together are the box.
func TestLawSharesAreTheBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		box := drawBox(t)
		a, b := shareOf(box, rapid.Float64Range(0, 1).Draw(t, "share"))
		require.Equal(t, pieces(box), pieces(a, b))
	})
}

// TestLawOneBoxOwnsNoMoreThanTheLoads: a shared box holds of every row no less
// than any load lists and no more than the loads list together; rows of one name
// that differ are told apart.
func TestLawOneBoxOwnsNoMoreThanTheLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		studio := Studio{Kilns: []Kiln{{"A", kiln("6")}, {"B", kiln("6")}}}
		for i := range studio.Kilns {
			studio.Kilns[i].Load.Furniture = drawBox(t)
		}
		s := &splitter{studio: studio}
		box := pieces(s.oneBox())
		a, b := pieces(studio.Kilns[0].Load.Furniture), pieces(studio.Kilns[1].Load.Furniture)
		for key, n := range box {
			require.Equal(t, max(a[key], b[key]), n)
		}
		require.Len(t, box, len(pieces(studio.Kilns[0].Load.Furniture, studio.Kilns[1].Load.Furniture)))
	})
}

func TestRowsThatDifferAreToldApart(t *testing.T) {
	a, b := kiln("6"), kiln("6")
	b.Furniture.Shelves[0].Thick = 20
	b.Furniture.Posts[0].Real = 24.5
	box := (&splitter{studio: Studio{Kilns: []Kiln{{"A", a}, {"B", b}}}}).oneBox()
	require.Equal(t, []string{"full", "other full"}, []string{box.Shelves[0].Name, box.Shelves[1].Name})
	require.Equal(t, "other set", box.Posts[3].Name)

	// What stands in the second kiln is called as in the box.
	b.Towers = []layout.Tower{{Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{{{Height: 25}}}}}}}
	l := b.Clone()
	renamedFurniture(l, &box)
	require.Equal(t, "other full", l.Towers[0].Levels[0].Shelves[0].Kind)
	require.Equal(t, layout.Piece{Height: 25, Name: "other set"}, l.Towers[0].Levels[0].Posts[0][0])
}
