package session

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
)

// firstPot is the first pot of the load that is no cone pack.
func firstPot(s *Session) string {
	for _, p := range s.State().Pots {
		if !p.Cones {
			return p.ID
		}
	}
	return ""
}

// TestLawHeldGap: what a held pot is told is what the check of the whole load
// finds after it was set down there: the same pairs, the same gaps.
func TestLawHeldGap(t *testing.T) {
	s := sample(t, "studio")
	rapid.Check(t, func(t *rapid.T) {
		pots := s.State().Pots
		p := pots[rapid.IntRange(0, len(pots)-1).Draw(t, "pot")]
		_, err := s.Hold(p.ID)
		require.NoError(t, err)
		var h *Held
		if rapid.Bool().Draw(t, "elsewhere") {
			v := s.State().Levels[rapid.IntRange(0, len(s.State().Levels)-1).Draw(t, "level")]
			_, err = s.Over(v.Tower, v.Number)
			require.NoError(t, err)
		}
		h, err = s.Nudge(rapid.Float64Range(-40, 40).Draw(t, "x"), rapid.Float64Range(-40, 40).Draw(t, "y"), rapid.Float64Range(-30, 30).Draw(t, "turn"))
		require.NoError(t, err)
		nears := s.watch(s.held)
		_, err = s.Drop(false)
		require.NoError(t, err)
		defer func() {
			if s.Revision()%2 == 1 {
				_, err := s.Undo()
				require.NoError(t, err)
			}
		}()
		r := s.Report()
		for _, n := range nears {
			if n.Rule != layout.PotToPot || n.Grade == layout.Note {
				continue
			}
			f := pairFinding(r, p.ID, n.Thing.Name)
			require.NotNil(t, f, "%s beside %s at %v: %g", p.ID, n.Thing.Name, h.At, n.Gap)
			require.InDelta(t, n.Gap, f.Have, 1e-9)
			require.Equal(t, n.Grade, f.Grade)
		}
		for i := range r.Findings {
			f := &r.Findings[i]
			if f.Rule == layout.PotToPot && f.Grade != layout.Note && about(f, p.ID) {
				require.NotNil(t, nearNamed(nears, f, p.ID), f.Sentence)
			}
		}
	})
}

func pairFinding(r clearance.Report, a, b string) *layout.Finding {
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Rule == layout.PotToPot && about(f, a) && about(f, b) {
			return f
		}
	}
	return nil
}

func about(f *layout.Finding, pot string) bool {
	for _, t := range f.Things {
		if t.Name == pot {
			return true
		}
	}
	return false
}

func nearNamed(nears []clearance.Near, f *layout.Finding, not string) *clearance.Near {
	for i := range nears {
		if nears[i].Thing.Name != not && about(f, nears[i].Thing.Name) {
			return &nears[i]
		}
	}
	return nil
}

// TestRingClears: where a ring is told, the pot set down on it keeps every plan
// figure that sliding can keep.
func TestRingClears(t *testing.T) {
	s := sample(t, "studio")
	rings := 0
	for _, p := range s.State().Pots {
		_, err := s.Hold(p.ID)
		require.NoError(t, err)
		h, err := s.Nudge(9, -7, 0)
		require.NoError(t, err)
		if h.Ring == nil {
			continue
		}
		rings++
		require.Contains(t, h.Mend.Say, "Let go: ")
		ring := *h.Ring
		_, err = s.Drop(true)
		require.NoError(t, err)
		i := s.potIndex(p.ID)
		require.Equal(t, ring, s.seen.built.Pots[i].At)
		for _, n := range s.Checker().Watch(i, ring, p.Turn) {
			require.True(t, n.Gap >= n.Plan-1e-6 || n.Rule == layout.RoomAbove || n.Rule == layout.RoomToLid, "%s: %s %g", p.ID, n.Name, n.Gap)
		}
		require.Contains(t, s.State().Undo, "move the ")
		_, err = s.Undo()
		require.NoError(t, err)
	}
	require.Greater(t, rings, 40)
}

// TestGapLineIsTheGap: the line that is drawn is as long as the gap that is
// told, for everything beside the pot.
func TestGapLineIsTheGap(t *testing.T) {
	s := sample(t, "studio")
	seen := map[layout.ThingKind]bool{}
	for _, p := range s.State().Pots {
		for _, by := range []plane.Vec{{0, 0}, {4, 0}, {0, 5}, {-6, 2}, {12, -9}, {60, 60}, {-80, 10}} {
			_, err := s.Hold(p.ID)
			require.NoError(t, err)
			h, err := s.Nudge(by[0], by[1], 0)
			require.NoError(t, err)
			if h.Gap == nil {
				continue
			}
			nears := s.watch(s.held)
			first := nears[0]
			for _, n := range nears {
				if n.Grade > first.Grade {
					first = n
				}
			}
			if first.Gap < 0 || first.Rule == layout.RoomAbove || first.Thing.Kind == layout.ThingShelf {
				continue // overlaps, and shelves, are drawn to the edge
			}
			d := h.Gap.From.Sub(h.Gap.To)
			long := math.Sqrt(d[0]*d[0] + d[1]*d[1] + d[2]*d[2])
			require.InDelta(t, first.Gap, long, 0.02, "%s: %s", p.ID, first.Name)
			seen[first.Thing.Kind] = true
		}
	}
	require.True(t, seen[layout.ThingPot] && seen[layout.ThingPost] && seen[layout.ThingWall], "%v", seen)
}

func TestHeldFromTheTable(t *testing.T) {
	s := sample(t, "studio")
	h, err := s.Hold("water bottle") // a row: the one that waits
	require.NoError(t, err)
	require.Equal(t, -1, h.Level)
	require.Equal(t, "Held, over no level.", h.Place)
	require.Nil(t, h.Gap)
	_, err = s.Drop(false)
	require.EqualError(t, err, "carry it over a level first, or put it back")
	h, err = s.Over("left side", 1)
	require.NoError(t, err)
	require.Equal(t, 1, h.Level)
	h, err = s.Move(plane.Vec{-150.04, 20.06})
	require.NoError(t, err)
	require.Equal(t, plane.Vec{-150, 20.1}, h.At)
	require.NotEmpty(t, h.Nears)
	st, err := s.Drop(false)
	require.NoError(t, err)
	require.Equal(t, 92, st.Set)
	require.Equal(t, "set a water bottle on left 1", st.Undo)
	st, err = s.Undo()
	require.NoError(t, err)
	require.Equal(t, 91, st.Set)
}

// TestHeldKeys: arrows move by whole mm, brackets turn; what is put back was
// never moved.
func TestHeldKeys(t *testing.T) {
	s := sample(t, "studio")
	before := textOf(t, s)
	id := firstPot(s)
	_, err := s.Nudge(1, 0, 0)
	require.EqualError(t, err, "no pot is in hand")
	h, err := s.Hold(id)
	require.NoError(t, err)
	was := h.At
	h, err = s.Nudge(1, -5, 5)
	require.NoError(t, err)
	require.InDelta(t, was[0]+1, h.At[0], 1e-9)
	require.InDelta(t, was[1]-5, h.At[1], 1e-9)
	require.InDelta(t, 5, h.Turn, 1e-9)
	_, err = s.Move(plane.Vec{math.NaN(), 0})
	require.EqualError(t, err, "that is not a place in the kiln")
	_, err = s.Nudge(0, 0, math.Inf(1))
	require.EqualError(t, err, "that is not an angle; give degrees clockwise")
	s.Cancel()
	require.Nil(t, s.Holding())
	require.Equal(t, before, textOf(t, s))
	require.Equal(t, 0, s.Revision())
}

// TestHeldWords: the sentences of look "Words" 1 to 3, on a shelf of three pots
// of which one is a wide bowl that is measured.
func TestHeldWords(t *testing.T) {
	s, err := Open(wordsLoad, "words.toml")
	require.NoError(t, err)
	require.Empty(t, s.State().Refused)
	_, err = s.Hold("cup")
	require.NoError(t, err)
	h, err := s.Move(plane.Vec{83, 0})
	require.NoError(t, err)
	require.Equal(t, "watch", h.Grade)
	require.Equal(t, "The cup stands 3 mm from the jar. Plan 6.", h.Sentence)
	require.Equal(t, "3 mm, plan 6", h.Word)
	require.Equal(t, "jar", h.Pair)
	h, err = s.Move(plane.Vec{82, 0})
	require.NoError(t, err)
	require.Equal(t, "problem", h.Grade)
	require.Equal(t, "The cup stands 2 mm from the jar. Under 3 they may fuse.", h.Sentence)
	require.Equal(t, "Let go: 4 mm toward 3 o'clock", h.Mend.Say)
	h, err = s.Move(plane.Vec{79, 0})
	require.NoError(t, err)
	require.Equal(t, "touches", h.Word)
	h, err = s.Move(plane.Vec{-94, 0}) // under the rim of the bowl at -160
	require.NoError(t, err)
	require.Equal(t, "clears", h.Grade, "%+v", h.Nears)
	require.Contains(t, h.Order, " goes in before ")
	require.Contains(t, h.Order, "standing, no hand fits.")
	require.Equal(t, "bowl", h.Before)
}

// wordsLoad is a shelf with a jar in the middle, a cup, and a flaring bowl.
const wordsLoad = `threepost = 1
title = "words"
units = "mm"
firing = { stage = "glaze", cone = "6" }
[kiln]
chamber = { shape = "round", across = 800, height = 450 }
opens = "top"
[furniture]
shelves = [{ name = "full", shape = "round", across = 700, thick = 20, count = 2 }]
posts = [{ height = 50, section = "square 38", count = 6 }]
[[ware]]
name = "jar"
height = 100
across = 80
silhouette = "cylinder"
allow_high = 0
allow_wide = 0
[[ware]]
name = "cup"
height = 40
across = 80
silhouette = "cylinder"
allow_high = 0
allow_wide = 0
[[ware]]
name = "bowl"
height = 120
across = 200
profile = [[0, 50], [60, 60], [120, 200]]
measured = true
allow_high = 0
allow_wide = 0
[[tower]]
name = "stack"
on = ["floor"]
lines = [[0, 300], [260, -150], [-260, -150]]
[[tower.level]]
shelves = [{ kind = "full" }]
posts = "50"
[tower.level.set]
"jar" = [0, 0, 0]
"cup" = [150, 100, 0]
"bowl" = [-190, 0, 0]
`
