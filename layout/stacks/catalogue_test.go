package stacks

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/measure"
)

// box is furniture of square posts by height and count; spacers by a minus.
func box(rows ...[2]float64) *layout.Furniture {
	f := &layout.Furniture{}
	for _, r := range rows {
		f.Posts = append(f.Posts, layout.PostKind{
			Height: math.Abs(r[0]), Spacer: r[0] < 0, Count: int(r[1]),
			Section: layout.Section{Kind: layout.SquareSection, Width: 38},
		})
	}
	return f
}

func reals(list []Height) []float64 {
	var out []float64
	for _, h := range list {
		out = append(out, h.Real)
	}
	return out
}

// Worked by hand. Three of each: 75, 50, 25. Three posts of two pieces at most
// make the three heights, 75+25 and 75+50; 50+25 is 75 again. 50+50 would take
// six. Six posts have only 75 together: three of 75, three of 50+25.
func TestHeightsWorkedByHand(t *testing.T) {
	f := box([2]float64{75, 3}, [2]float64{50, 3}, [2]float64{25, 3})
	require.Equal(t, []float64{25, 50, 75, 100, 125}, reals(Heights(f, 3, 2, 0)))
	require.Equal(t, []float64{25, 50, 75, 100, 125, 150}, reals(Heights(f, 3, 3, 0)))
	require.Equal(t, []float64{75}, reals(Heights(f, 6, 3, 0)))
	six := Heights(f, 6, 3, 0)[0]
	require.Equal(t, "3×75, 3×(50+25)", SayPosts(six.Posts, measure.MM))
	require.Equal(t, 9, six.Pieces)
	require.False(t, six.Same())
	require.Equal(t, []float64{25, 50}, reals(Heights(f, 3, 3, 60)), "no taller than asked")
	require.Empty(t, Heights(f, 0, 3, 0))
	require.Empty(t, Heights(&layout.Furniture{}, 3, 3, 0))
}

// The newcomer's box: six each of 13, 25, 50, 100, 150, 200 and six spacers of
// 6. Every height is one that hands would put together, largest below.
func TestFewestPiecesFirstAndSpacersOnTop(t *testing.T) {
	f := box([2]float64{-6, 6}, [2]float64{13, 6}, [2]float64{25, 6}, [2]float64{50, 6}, [2]float64{100, 6}, [2]float64{150, 6}, [2]float64{200, 6})
	c := NewCatalogue(f, Bounds{})
	var ways []string
	for _, m := range c.MakeUps(200) {
		ways = append(ways, joinPieces(m, measure.MM))
	}
	require.Equal(t, []string{"200", "150+50", "100+100", "150+25+25", "100+50+50"}, ways)
	require.Equal(t, "106", measure.FormatFile(c.MakeUps(106)[0].Nominal()))
	require.Equal(t, "100+6", joinPieces(c.MakeUps(106)[0], measure.MM))
	require.Empty(t, c.MakeUps(12), "two spacers are no post")
	for _, h := range c.Heights(3, nil) {
		require.True(t, h.Same(), "six of each: three alike are always there: %v", h)
		for _, m := range h.Posts {
			spacers := false
			for _, p := range m {
				require.False(t, spacers && p.Height != 6, "spacers on top: %v", m)
				spacers = p.Height == 6
			}
		}
	}
	under, over := c.Nearest(102)
	require.Equal(t, [2]float64{100, 106}, [2]float64{under, over})
}

func TestSlenderPostsAreLeftOut(t *testing.T) {
	f := box([2]float64{200, 6})
	require.Equal(t, []float64{200}, reals(Heights(f, 3, 3, 0)), "400 is over 10 times 38")
	f.Posts[0].Section.Width = 40
	require.Equal(t, []float64{200, 400}, reals(Heights(f, 3, 3, 0)))
}

// Real heights count: two sets called 150, of which only each alone, or both
// within 0.1, stand under one shelf.
func TestMatchedSetsAreNotMixed(t *testing.T) {
	f := box([2]float64{150, 3}, [2]float64{150, 3})
	f.Posts[0].Name, f.Posts[0].Real = "old", 148.6
	require.Equal(t, []float64{148.6, 150}, reals(Heights(f, 3, 1, 0)))
	require.Empty(t, Heights(f, 4, 1, 0))
	f.Posts[0].Real = 149.95
	require.Equal(t, []float64{150}, reals(Heights(f, 6, 1, 0)))
	require.Equal(t, "3×150, 3×150 (old)", SayPosts(Heights(f, 6, 1, 0)[0].Posts, measure.MM))
}

// 110 can be 100+10 or 100+5+5, but 160 needs all the tens: the only
// assignment takes the fives for 110, and leaves three for 105.
func TestTheOnlyAssignmentOfScarceSpacersIsFound(t *testing.T) {
	f := box([2]float64{-5, 9}, [2]float64{-10, 3}, [2]float64{100, 6}, [2]float64{150, 3})
	c := NewCatalogue(f, Bounds{})
	got, err := c.Assign(nil, []Demand{{110, 3}, {105, 3}, {160, 3}}, measure.MM)
	require.NoError(t, err)
	require.Equal(t, "3×(100+5+5)", SayPosts(got[0], measure.MM))
	require.Equal(t, "3×(100+5)", SayPosts(got[1], measure.MM))
	require.Equal(t, "3×(150+10)", SayPosts(got[2], measure.MM))

	f.Posts[0].Count = 8
	_, err = c.Assign(nil, []Demand{{110, 3}, {105, 3}, {160, 3}}, measure.MM)
	var short *Shortage
	require.ErrorAs(t, err, &short)
	require.False(t, short.CutOff)
	require.NotEmpty(t, short.Missing)
}

func TestShortagesAreSaid(t *testing.T) {
	f := box([2]float64{75, 6})
	c := NewCatalogue(f, Bounds{})
	_, err := c.Assign(nil, []Demand{{75, 3}, {75, 3}, {75, 3}}, measure.MM)
	require.EqualError(t, err, "The load takes 9 posts 75; you own 6.")
	_, err = c.Assign(nil, []Demand{{90, 3}}, measure.MM)
	require.EqualError(t, err, "No posts make 90 mm; the next heights are 75 mm and 150 mm.")
	_, err = c.Assign(nil, []Demand{{75, 100000}}, measure.MM)
	require.EqualError(t, err, "a level of 100000 posts; a level takes 64 at most")
	got, err := c.Assign(nil, []Demand{{75, 0}, {75, 6}}, measure.MM)
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Empty(t, got[0])
}

// Assign against trying everything, on small boxes: it finds an assignment
// exactly when there is one, and none has fewer pieces.
func TestAssignIsExact(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		f := box(
			[2]float64{-5, float64(rapid.IntRange(0, 4).Draw(t, "fives"))},
			[2]float64{-10, float64(rapid.IntRange(0, 3).Draw(t, "tens"))},
			[2]float64{50, float64(rapid.IntRange(0, 5).Draw(t, "fifties"))},
			[2]float64{60, float64(rapid.IntRange(0, 3).Draw(t, "sixties"))},
			[2]float64{100, float64(rapid.IntRange(0, 4).Draw(t, "hundreds"))},
		)
		c := NewCatalogue(f, Bounds{})
		var demands []Demand
		for i := rapid.IntRange(1, 3).Draw(t, "levels"); i > 0; i-- {
			demands = append(demands, Demand{
				Height: rapid.SampledFrom([]float64{50, 60, 65, 100, 105, 110}).Draw(t, "height"),
				Posts:  rapid.IntRange(1, 2).Draw(t, "posts"),
			})
		}
		var flat []float64
		for _, d := range demands {
			for i := 0; i < d.Posts; i++ {
				flat = append(flat, d.Height)
			}
		}
		best := everyWay(c, NewStock(f), flat)
		got, err := c.Assign(nil, demands, measure.MM)
		if best < 0 {
			none++
			require.Error(t, err)
			return
		}
		found++
		require.NoError(t, err)
		pieces := 0
		s := NewStock(f)
		for i, posts := range got {
			require.Len(t, posts, demands[i].Posts)
			for _, m := range posts {
				require.InDelta(t, demands[i].Height, m.Nominal(), 1e-9)
				require.True(t, s.Take(m, 1))
				pieces += len(m)
			}
		}
		require.Empty(t, s.Missing())
		require.Equal(t, best, pieces)
	})
	require.Positive(t, found)
	require.Positive(t, none)
}

// everyWay is the fewest pieces for posts of the heights, or -1.
func everyWay(c *Catalogue, s *Stock, heights []float64) int {
	if len(heights) == 0 {
		return 0
	}
	best := -1
	for _, m := range c.MakeUps(heights[0]) {
		s.Take(m, 1)
		if len(s.Missing()) == 0 {
			if rest := everyWay(c, s, heights[1:]); rest >= 0 && (best < 0 || rest+len(m) < best) {
				best = rest + len(m)
			}
		}
		s.Return(m, 1)
	}
	return best
}

func TestHeightsOfWhatIsLeft(t *testing.T) {
	f := box([2]float64{100, 6}, [2]float64{50, 3})
	c := NewCatalogue(f, Bounds{})
	s := NewStock(f)
	require.True(t, s.Take(layout.MakeUp{{Height: 100}}, 4))
	require.Equal(t, []float64{50, 100}, reals(c.Heights(3, s)), "two of 100 and one of 50+50")
	require.True(t, s.Return(layout.MakeUp{{Height: 100}}, 4))
	require.Equal(t, []float64{50, 100, 150, 200, 250}, reals(c.Heights(3, s)))
	require.False(t, s.Take(layout.MakeUp{{Height: 99}}, 1))
}

func TestBadFurnitureMakesNoHeights(t *testing.T) {
	f := box([2]float64{100, 6}, [2]float64{0, 6}, [2]float64{50, -3}, [2]float64{70, 1e9})
	f.Posts = append(f.Posts, layout.PostKind{Height: math.NaN(), Count: 3, Section: f.Posts[0].Section},
		layout.PostKind{Height: 40, Count: 3}, layout.PostKind{Height: 100, Count: 99, Section: f.Posts[0].Section})
	for _, h := range Heights(f, 3, 1, 0) {
		require.Contains(t, []float64{70, 100}, h.Real)
	}
	c := NewCatalogue(f, Bounds{Pieces: 1})
	_, err := c.Assign(nil, []Demand{{100, 8}}, measure.MM)
	var short *Shortage
	require.True(t, errors.As(err, &short), "a second row that cannot be told apart does not count")
}

func BenchmarkCatalogue(b *testing.B) {
	f := manySizes()
	for b.Loop() {
		NewCatalogue(f, Bounds{UpTo: 600})
	}
}

func BenchmarkHeights(b *testing.B) {
	c := NewCatalogue(manySizes(), Bounds{UpTo: 600})
	for b.Loop() {
		c.Heights(3, nil)
	}
}

func BenchmarkAssignSixLevels(b *testing.B) {
	c := NewCatalogue(manySizes(), Bounds{UpTo: 600})
	demands := []Demand{{25, 6}, {125, 3}, {255, 3}, {110, 3}, {155, 3}, {85, 3}, {85, 3}}
	for b.Loop() {
		if _, err := c.Assign(nil, demands, measure.MM); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAssignThatCannotBe(b *testing.B) {
	c := NewCatalogue(manySizes(), Bounds{UpTo: 600})
	demands := []Demand{{25, 6}, {205, 3}, {255, 3}, {205, 3}, {155, 3}, {205, 3}, {105, 3}}
	for b.Loop() {
		if _, err := c.Assign(nil, demands, measure.MM); err == nil {
			b.Fatal("found")
		}
	}
}

// manySizes is a studio's box of posts: twelve sizes.
func manySizes() *layout.Furniture {
	return box([2]float64{-5, 9}, [2]float64{-10, 9}, [2]float64{13, 6}, [2]float64{25, 9}, [2]float64{50, 6}, [2]float64{75, 6},
		[2]float64{100, 9}, [2]float64{125, 6}, [2]float64{150, 6}, [2]float64{175, 3}, [2]float64{200, 3}, [2]float64{250, 3})
}
