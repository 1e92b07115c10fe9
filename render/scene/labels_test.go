package scene

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"threepost/layout/measure"
)

// TestLawWeightsAddUp: what the posts of a shelf carry is what lies on them.
func TestLawWeightsAddUp(t *testing.T) {
	for _, name := range samples() {
		s := Build(reference(t, name), Options{})
		share := 0.0
		for i := range s.Balances {
			b := &s.Balances[i]
			sum := 0.0
			for _, p := range b.Posts {
				sum += p.Mass
			}
			require.InDelta(t, b.Carried, sum, 1e-6)
			share += b.Share
		}
		require.InDelta(t, 1, share, 1e-6, name)
	}
}

func TestTriangleIsSeenFromAbove(t *testing.T) {
	b := Balance{At: mgl64.Vec2{0, 0}, Posts: []PostShare{
		{Letter: "A", At: mgl64.Vec2{0, -100}}, {Letter: "B", At: mgl64.Vec2{-100, 100}}, {Letter: "C", At: mgl64.Vec2{100, 100}},
	}}
	posts, point := b.Triangle(20)
	require.Equal(t, []mgl64.Vec2{{10, 20}, {0, 0}, {20, 0}}, posts)
	require.Equal(t, mgl64.Vec2{10, 10}, point)
	posts, _ = (&Balance{}).Triangle(20)
	require.Empty(t, posts)
}

func TestBalanceInWords(t *testing.T) {
	b := Balance{Mass: 4.8, Margin: 96.7, Posts: []PostShare{{Letter: "A", Mass: 9.1}, {Letter: "B", Mass: 0.5}}}
	require.Equal(t, "left 2: 4.8 kg of ware, balance point 96 inside the posts; A carries 9.1 kg, B 500 g", b.Words("left 2", measure.MM))
	b.Tips = true
	require.Contains(t, b.Words("left 2", measure.MM), "balance point outside the posts")
}

// TestEveryLevelAndLetterIsLabelled, once each.
func TestEveryLevelAndLetterIsLabelled(t *testing.T) {
	for _, name := range samples() {
		b := reference(t, name)
		count := map[LabelKind]int{}
		for _, l := range Build(b, Options{}).Labels {
			count[l.Kind]++
			require.NotEmpty(t, l.Text)
			require.NotEmpty(t, l.Name)
		}
		require.Equal(t, len(b.Levels), count[LevelLabel])
		require.Equal(t, len(b.Shelves), count[MassLabel])
		require.Equal(t, len(b.Letters), count[LetterLabel])
		require.Equal(t, len(b.Probes), count[ProbeLabel])
		require.Equal(t, len(b.Spies), count[SpyLabel])
	}
}

// TestSightsAgreeWithTheCheck: cones of a load without findings are seen.
func TestSightsAgreeWithTheCheck(t *testing.T) {
	n := 0
	for _, name := range samples() {
		for _, s := range Sights(reference(t, name)) {
			n++
			require.True(t, s.Clear, name)
		}
	}
	require.Positive(t, n)
}
