package clearance

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

var update = flag.Bool("update", false, "write the golden sentences anew")

// bad is a load in which about everything is wrong at once.
func bad() *layout.Load {
	l := sides(10, 0)
	l.Kiln.Probes = []layout.Probe{{At: 300, Height: 300, Reach: 60, Diameter: 12}}
	l.Kiln.Spyholes = []layout.Spyhole{{At: 150, Height: 350}}
	l.Firing.Cone = "6"
	l.Cones = []layout.ConePack{{Name: "front", Watched: true}, {Name: "back"}}
	add := func(name string, count int, change func(w *layout.Ware)) {
		w := jar()
		w.Name, w.Count = name, count
		change(&w)
		l.Ware = append(l.Ware, w)
	}
	add("mug", 6, func(w *layout.Ware) {
		w.Across, w.Height = 70, 146
		w.Handles = []layout.Handle{{Reach: 30, From: 20, To: 80, Thick: 14}}
	})
	add("vase", 1, func(w *layout.Ware) { w.Height, w.Foot, w.Flags.Runny = 300, 60, true })
	add("bowl", 3, func(w *layout.Ware) { w.Clay.Cone, w.Flags.Refire = "04", true })
	add("dish", 2, func(w *layout.Ware) { w.Clay = layout.Material{}; w.Glaze.Cone = "5"; w.Flags.GlazedFoot = true })
	add("tile", 1, func(w *layout.Ware) { w.Dry = layout.BoneDry; w.Height, w.Across = 20, 60 })
	put(l, "mug", 1, 0, 1, 0, 100)
	put(l, "mug", 2, 0, 1, 0, 30)
	put(l, "mug", 3, 0, 1, 110, 0)
	put(l, "mug", 4, 0, 1, 60, 148)
	put(l, "jar", 1, 0, 1, -120, -120)
	put(l, "jar", 2, 0, 1, 235, 60)
	put(l, "vase", 0, 1, 1, -60, 0)
	put(l, "bowl", 1, 1, 1, -140, -60)
	put(l, "bowl", 2, 1, 1, -140, 60)
	put(l, "dish", 1, 2, 1, 42, 0)
	put(l, "dish", 2, 2, 1, 126, 0)
	put(l, "front", 0, 2, 1, 110, 110)
	put(l, "tile", 1, 2, 1, 35, -150)
	l.Furniture.Shelves[1].Cracked = true
	l.Furniture.Posts[3].Count = 2
	l.Towers[2].Lines[2].At = plane.Vec{240, 0}
	return l
}

// TestSentences compares the sentences of a bad load with those that were read
// and found good; go test -update writes them anew.
func TestSentences(t *testing.T) {
	for _, c := range []struct {
		file string
		in   measure.Units
	}{{"bad.txt", measure.MM}, {"bad-inches.txt", measure.Inches}} {
		l := bad()
		l.Units = c.in
		var b strings.Builder
		for _, f := range check(t, l).Findings {
			b.WriteString(f.Grade.String() + " | " + f.Key + "\n    " + f.Sentence + "\n")
			require.NotContains(t, f.Sentence, "!")
			require.Equal(t, strings.ToUpper(f.Sentence[:1]), f.Sentence[:1])
			require.True(t, strings.HasSuffix(f.Sentence, "."), f.Sentence)
			for _, word := range []string{"error", "warning", "invalid"} {
				require.NotContains(t, strings.ToLower(f.Sentence), word)
			}
		}
		path := filepath.Join("testdata", c.file)
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), b.String())
	}
}

// TestPotsAreNamedAsPeoplePoint: one-offs by name, alike pots by the post
// beside them, else by the clock and the level.
func TestPotsAreNamedAsPeoplePoint(t *testing.T) {
	l := calm()
	vase := jar()
	vase.Name, vase.Count = "vase", 1
	l.Ware = append(l.Ware, vase)
	put(l, "vase", 0, 0, 1, 0, 0)
	put(l, "jar", 1, 0, 1, 100, 140)  // beside the post at 12, but not the nearest to it
	put(l, "jar", 2, 0, 1, 0, 120)    // 20 before the post at 12
	put(l, "jar", 3, 0, 1, -100, 0)   // toward 9
	put(l, "jar", 4, 0, 1, -190, 0)   // toward 9 too
	put(l, "jar", 5, 0, 2, 100, -100) // alone on its level
	c := New(built(t, l))
	post := ""
	for _, p := range c.b.Posts {
		if p.Line == 0 {
			post = p.Letter
		}
	}
	for i, want := range []string{
		"the vase", "the jar toward 1 o'clock on level 1", "the jar next to post " + post,
		"the inner jar toward 9 o'clock on level 1", "the outer jar toward 9 o'clock on level 1", "the jar on level 2",
	} {
		require.Equal(t, want, strings.ReplaceAll(strings.ReplaceAll(c.Name(i), "the bottom", "level 1"), "the top", "level 2"))
	}
	require.Equal(t, "the jar toward 12", c.NameFrom(0, 2))
	require.Equal(t, "the vase", c.NameFrom(2, 0))
}
