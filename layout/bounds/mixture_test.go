package bounds

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// spread sets discs of the kinds at random where they go on a shelf, a gap from
// each other, round three posts when there are any, at their own distance from
// those, and counts them.
func spread(t *rapid.T, o plane.Outline, kinds []Kind, gap, post, beside float64) []int {
	type disc struct {
		at   plane.Vec
		r    float64
		post bool
	}
	lo, hi := o.Bounds()
	draw := func() plane.Vec {
		return plane.Vec{rapid.Float64Range(lo[0], hi[0]).Draw(t, "x"), rapid.Float64Range(lo[1], hi[1]).Draw(t, "y")}
	}
	var set []disc
	free := func(at plane.Vec, r, between float64) bool {
		for _, d := range set {
			keeps := between
			if d.post && between > 0 {
				keeps = beside
			}
			if plane.Distance(at, d.at) < r+d.r+keeps {
				return false
			}
		}
		return true
	}
	for post > 0 && len(set) < 3 {
		at := draw()
		if o.Depth(at) >= post && free(at, post, 0) {
			set = append(set, disc{at, post, true})
		}
	}
	counts := make([]int, len(kinds))
	for i, k := range kinds {
		for range rapid.IntRange(0, 25).Draw(t, "tries") {
			if at := draw(); o.Depth(at) >= k.Room && free(at, k.Size, gap) {
				set = append(set, disc{at, k.Size, false})
				counts[i]++
			}
		}
	}
	return counts
}

// A kiln of levels with mixed discs round posts, the lower ones deep and with a
// wider gap, never holds more than the bound, by count or by value.
func TestLawMostIsNeverBelowAMixture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		across := rapid.Float64Range(150, 500).Draw(t, "across")
		o := []plane.Outline{outline(t)(plane.Round(across)), outline(t)(plane.HalfRound(across, across/2)),
			outline(t)(plane.Rectangle(across, across*0.8)), outline(t)(plane.Oval(across, across*0.7))}[rapid.IntRange(0, 3).Draw(t, "shape")]
		const gap, wide, thick, lid = 6.0, 9.0, 15.0, 25.0
		post := rapid.Float64Range(8, 19).Draw(t, "post")
		l := &Load{Stocks: []int{9}, Posts: 1e9, Lid: lid, Storey: func(h float64) float64 { return h + 12 },
			Post: Post{Radius: post}}
		// Pots keep the narrow gap from posts on every level.
		slice := Slice{Over: gap / 2, Post: math.Pi * (post + gap/2) * (post + gap/2)}
		deepSlice := Slice{Over: wide / 2, Deep: true, Post: math.Pi * (post + gap - wide/2) * (post + gap - wide/2)}
		for range rapid.IntRange(1, 4).Draw(t, "kinds") {
			size := rapid.Float64Range(12, across/6).Draw(t, "size")
			l.Kinds = append(l.Kinds, Kind{Height: rapid.Float64Range(30, 200).Draw(t, "height"), Size: size,
				Room: size + rapid.Float64Range(0, 6).Draw(t, "inset"), Value: rapid.Float64Range(0.1, 5).Draw(t, "value")})
			l.Post.Apart = append(l.Post.Apart, size+post+gap)
			slice.Areas = append(slice.Areas, math.Pi*(size+gap/2)*(size+gap/2))
			deepSlice.Areas = append(deepSlice.Areas, math.Pi*(size+wide/2)*(size+wide/2))
		}
		l.Slices = []Slice{slice, deepSlice}
		l.Apart = func(i, j int) float64 { return l.Kinds[i].Size + l.Kinds[j].Size + gap }
		l.DeepApart = func(i, j int) float64 { return l.Kinds[i].Size + l.Kinds[j].Size + wide }
		place := Place{Name: "stack", Outlines: []plane.Outline{o}, Thick: thick, Columns: []int{0}, Shelves: 1}
		l.Places = []Place{place}
		l.DeepFrom = rapid.Float64Range(100, 600).Draw(t, "deep from")
		place.Deep = true
		l.Places = append(l.Places, place)
		set, value := 0, 0.0
		z := 0.0 // from the rim down to where the pots of a level stand
		for i := range rapid.IntRange(1, 4).Draw(t, "levels") {
			takes := l.Kinds[rapid.IntRange(0, len(l.Kinds)-1).Draw(t, "takes")].Height
			on := post
			if i == 0 {
				z, on = takes+lid, 0
			} else {
				z += thick + l.Storey(takes)
			}
			var fit []Kind
			for _, k := range l.Kinds {
				if k.Height > takes {
					k.Room = 1e9
				}
				fit = append(fit, k)
			}
			between := gap
			if z > l.DeepFrom {
				between = wide
			}
			for k, n := range spread(t, o, fit, between, on, gap) {
				l.Kinds[k].Count += n
				set += n
				value += float64(n) * l.Kinds[k].Value
			}
		}
		l.Columns = []float64{z + thick}
		for i := range l.Kinds { // more than goes in
			l.Kinds[i].Count *= 2
		}
		b := Most(l)
		require.GreaterOrEqual(t, b.Count, set)
		require.GreaterOrEqual(t, b.Value, value-1e-6)
	})
}

// More of anything never lowers the bound of alike pots.
func TestLawMostGrowsWithWhatThereIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := kiln(t, rapid.Float64Range(100, 900).Draw(t, "height"), rapid.IntRange(1, 60).Draw(t, "pots"))
		l.Post = Post{Radius: 15, Apart: []float64{68}}
		l.Posts = rapid.Float64Range(0, 2000).Draw(t, "posts")
		before := Most(l)
		switch rapid.IntRange(0, 3).Draw(t, "more") {
		case 0:
			l.Columns[0] += rapid.Float64Range(0, 300).Draw(t, "height more")
		case 1:
			l.Stocks[0]++
		case 2:
			l.Posts += rapid.Float64Range(0, 900).Draw(t, "posts more")
		case 3:
			l.Kinds[0].Count++
		}
		after := Most(l)
		require.GreaterOrEqual(t, after.Count, before.Count)
		require.GreaterOrEqual(t, after.Value, before.Value-1e-3)
	})
}

// Posts take room: a shelf that holds seven and has three posts on it holds
// fewer, and the one on top, without posts, seven.
func TestMostWithPostsAmongThePots(t *testing.T) {
	l := kiln(t, 379, 100)
	require.Equal(t, 21, Most(l).Count)
	l.Post = Post{Radius: 40, Apart: []float64{93}}
	require.Less(t, Most(l).Count, 21)
}

// Both rooms over one shelf share it: what goes on the whole shelf is all there
// is, whichever room it is in.
func TestMostOfTwoRoomsShareTheirShelf(t *testing.T) {
	l := kiln(t, 200, 30)
	l.Columns = []float64{200, 200}
	l.Stocks[0] = 1
	whole := l.Places[0]
	whole.Columns = []int{0, 1}
	l.Places = []Place{whole}
	for i, out := range []plane.Vec{{1, 0}, {-1, 0}} {
		p := whole
		p.Shelves, p.Columns, p.Sides, p.Beside = 0.5, []int{i}, []Side{{Out: out}}, []int{2 - i}
		l.Places = append(l.Places, p)
	}
	require.Equal(t, 7, Most(l).Count)
}
