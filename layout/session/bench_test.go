package session

import (
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
)

// many is the studio load with as many pots as asked for: its levels again,
// each in a kiln so much higher. The levels stand in one tower of full shelves.
func many(t testing.TB, pots int) *Session {
	t.Helper()
	s := bareSample(t, "studio")
	l := s.now.Clone()
	l.Kiln.Probes, l.Cones = nil, nil
	l.Ware = []layout.Ware{{Name: "cup", Count: pots, Silhouette: layout.Cylinder, Height: 60, Across: 70,
		Handles: []layout.Handle{{Reach: 20, From: 10, To: 50}}, Clay: layout.Material{Name: "stoneware", Cone: "6"}}}
	l.Furniture.Shelves[0].Count = 20
	l.Furniture.Posts = []layout.PostKind{{Height: 100, Count: 90, Section: layout.Section{Kind: layout.SquareSection, Width: 38}}}
	tower := layout.Tower{Name: "stack", On: []layout.Support{{}}, Lines: []layout.Line{{At: plane.Vec{0, 290}}, {At: plane.Vec{251, -145}}, {At: plane.Vec{-251, -145}}}}
	n := 0
	for n < pots {
		v := layout.Level{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: []layout.MakeUp{{{Height: 100}}}}
		for x := -210.0; x <= 210 && n < pots; x += 84 {
			for y := -210.0; y <= 210 && n < pots; y += 84 {
				if plane.Length(plane.Vec{x, y}) < 250 {
					n++
					v.Set = append(v.Set, layout.Placement{Pot: layout.Pot{Ware: "cup", Number: n}, At: plane.Vec{x, y}, Turn: 45})
				}
			}
		}
		tower.Levels = append(tower.Levels, v)
	}
	l.Kiln.Height = 200 + 119*float64(len(tower.Levels))
	l.Towers = []layout.Tower{tower}
	s.now, s.seen = l, seen{}
	out, err := Open(textOf(t, s), "many.toml")
	require.NoError(t, err)
	require.Empty(t, out.State().Refused)
	require.Equal(t, pots, out.State().Set)
	return out
}

// BenchmarkMove is the re-check after moving one pot in 200, all that the page
// draws of it: budget 50 us native.
func BenchmarkMove(b *testing.B) {
	for _, c := range []struct {
		name string
		by   float64
	}{{"clear", 1}, {"tooClose", 20}} {
		b.Run(c.name, func(b *testing.B) {
			s := many(b, 200)
			h, err := s.Hold("cup 30")
			require.NoError(b, err)
			at := h.At
			for i := 0; b.Loop(); i++ {
				if _, err := s.Move(plane.Vec{at[0] + float64(i%3)*c.by, at[1]}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkWatch is the part of BenchmarkMove that computes gaps.
func BenchmarkWatch(b *testing.B) {
	s := many(b, 200)
	_, err := s.Hold("cup 30")
	require.NoError(b, err)
	for b.Loop() {
		s.watch(s.held)
	}
}

// BenchmarkApply is one edit with the whole new state.
func BenchmarkApply(b *testing.B) {
	for _, n := range []int{91, 200, 300} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := many(b, n)
			for i := 0; b.Loop(); i++ {
				if _, err := s.Apply([]layout.Edit{{Act: layout.SetPot, Pot: "cup 30", At: at(float64(i%2), 0)}}, ""); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkText is what a save costs.
func BenchmarkText(b *testing.B) {
	s := many(b, 200)
	for b.Loop() {
		if _, err := s.Text(); err != nil {
			b.Fatal(err)
		}
	}
}

// TestHeapAfter500Edits: 500 edits of 300 pots, moved, withdrawn, counted, keep
// the heap under 64 MB.
func TestHeapAfter500Edits(t *testing.T) {
	s := many(t, 300)
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	for i := range 500 {
		var err error
		edits := []layout.Edit{{Act: layout.SetPot, Pot: fmt.Sprintf("cup %d", i%300+1), At: at(float64(i%7), 1)}}
		if i%50 == 49 {
			_, err = s.Count("cup", 300+i%3)
		} else {
			var next *layout.Load
			if next, err = s.after(edits); err == nil {
				s.step(next, s.label(edits))
			}
		}
		require.NoError(t, err)
	}
	s.State()
	runtime.GC()
	runtime.ReadMemStats(&after)
	t.Logf("heap %.1f MB, of it %.1f MB by the edits", float64(after.HeapAlloc)/1e6, (float64(after.HeapAlloc)-float64(before.HeapAlloc))/1e6)
	require.Less(t, after.HeapAlloc, uint64(64<<20))
	require.Len(t, s.past, 500)
}
