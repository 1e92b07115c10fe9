package packing

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
)

// Six stand round the place of the seventh: there is room for one of their
// size in the middle, not for one 2 mm larger, and nothing has moved.
func TestInsertInTheMiddle(t *testing.T) {
	p := scene([]plane.Outline{round(t, 2*3.01*50)}, []thing{pot(50, 6), pot(49.5, 1), pot(52, 1)}, 0, 0)
	r := Result{}
	for k := 0; k < 6; k++ {
		v := plane.FromBearing(100.4, 60*float64(k))
		r.Set = append(r.Set, newGround(&p).round(Standing{Kind: 0, Want: 0, At: v}))
	}
	require.True(t, Valid(&p, r.Set))
	out, ok := Insert(p, r, 1, 1, 100)
	require.True(t, ok)
	require.Len(t, out.Set, 7)
	require.Equal(t, r.Set, out.Set[:6])
	require.True(t, Valid(&p, out.Set))
	no, ok := Insert(p, r, 2, 1, 100)
	require.False(t, ok)
	require.Equal(t, r.Set, no.Set)
	require.Len(t, r.Set, 6)
}

// Squeeze moves the others together; Insert finds no room.
func TestSqueeze(t *testing.T) {
	p := scene([]plane.Outline{rectangle(t, 330, 110)}, []thing{pot(50, 3)}, 5, 2)
	r := Result{Set: []Standing{{At: plane.Vec{-90, 0}}, {At: plane.Vec{60, 0}}}}
	require.True(t, Valid(&p, r.Set))
	_, ok := Insert(p, r, 0, 1, 1000)
	require.False(t, ok)
	out, ok := Squeeze(p, r, 0, 1, 1000)
	require.True(t, ok)
	require.Len(t, out.Set, 3)
	require.True(t, Valid(&p, out.Set))
	// one that is locked keeps the third out: 165 - 52 - 60 < 105
	r.Set[1].Fixed = true
	r.Set[1].At = plane.Vec{30, 0}
	out, ok = Squeeze(p, r, 0, 1, 1000)
	require.False(t, ok)
	require.Equal(t, r.Set, out.Set)
}

// A yes is always valid and leaves everything where it was; and where a thing
// of the arrangement has just been taken away, there is room for it.
func TestInsertLaws(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		p := anyScene(r, t)
		full, err := Fill(p, 1, 100)
		require.NoError(t, err)
		if len(full.Set) == 0 {
			return
		}
		k := rapid.IntRange(0, len(full.Set)-1).Draw(r, "taken")
		taken := full.Set[k]
		rest := full.Clone()
		rest.Set = append(rest.Set[:k], rest.Set[k+1:]...)
		out, ok := Insert(p, rest, taken.Want, 1, 2000)
		if len(p.Kinds[taken.Kind].Parts[0]) == 1 && !p.Kinds[taken.Kind].Turns {
			require.True(t, ok, "a disc finds the room it had")
		}
		if ok {
			require.True(t, Valid(&p, out.Set))
			require.Equal(t, rest.Set, out.Set[:len(out.Set)-1])
		}
	})
}
