package desk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout/session"
	"threepost/render/views"
)

// firstPot is a pot of a sample and its level.
func firstPot(t testing.TB, d *Desk, ware string) (session.Pot, session.Level) {
	t.Helper()
	s := ask[session.State](t, d, "state", m{})
	for _, p := range s.Pots {
		if !p.Cones && (ware == "" || p.Ware == ware) {
			return p, s.Levels[p.Level]
		}
	}
	require.FailNow(t, "no pot is set", ware)
	return session.Pot{}, session.Level{}
}

// TestPxInTheTopViewAreTheSessionsMM: a pot dragged by px tells the same as one
// that the session moves by mm, and is set down there.
func TestPxInTheTopViewAreTheSessionsMM(t *testing.T) {
	for _, turned := range []bool{false, true} {
		d, plain := laid(t, "studio"), laid(t, "studio")
		pot, lv := firstPot(t, d, "mug")
		pic := ask[views.Picture](t, d, "top", m{"w": 560, "h": 560, "tower": lv.Tower, "level": lv.Number, "turned": turned})
		x0, y0 := pic.Frame.Px(pot.At)
		ask[Held](t, d, "hold", m{"pot": pot.ID, "view": "top", "x": x0 + 3, "y": y0 - 2})
		got := ask[Held](t, d, "move", m{"x": x0 + 3 + 11, "y": y0 - 2 - 7})

		to := pic.Frame.MM(x0+11, y0-7)
		_, err := plain.s.Hold(pot.ID)
		require.NoError(t, err)
		want, err := plain.s.Move(to)
		require.NoError(t, err)
		require.InDelta(t, want.At[0], got.At[0], 0.11)
		require.InDelta(t, want.At[1], got.At[1], 0.11)
		want, err = plain.s.Move(got.At)
		require.NoError(t, err)
		require.Equal(t, want.Nears, got.Nears)
		require.Equal(t, want.Sentence, got.Sentence)
		dx, dy := pic.Frame.Move(plane.Sub(got.At, pot.At))
		require.Equal(t, [2]float64{dx, dy}, [2]float64{got.DX, got.DY})
		require.NotEmpty(t, got.Marks)

		s := ask[session.State](t, d, "drop", m{"snap": false})
		for _, p := range s.Pots {
			if p.ID == pot.ID {
				require.Equal(t, got.At, p.At)
			}
		}
	}
}

// TestAPotTakenFarOffComesToThePointer: also one from the table, which has no
// place yet.
func TestAPotFromTheTableComesToThePointer(t *testing.T) {
	d := laid(t, "studio")
	pot, lv := firstPot(t, d, "mug")
	ask[session.State](t, d, "apply", m{"edits": []m{{"act": "withdraw", "pot": pot.ID}}})
	pic := ask[views.Picture](t, d, "top", m{"w": 560, "h": 560, "tower": lv.Tower, "level": lv.Number})
	h := ask[Held](t, d, "hold", m{"ware": pot.Ware, "view": "top"})
	require.Equal(t, -1, h.Level)
	ask[Held](t, d, "over", m{"tower": lv.Tower, "level": lv.Number})
	x, y := pic.Frame.Px(pot.At)
	h = ask[Held](t, d, "move", m{"x": x, "y": y})
	require.InDelta(t, pot.At[0], h.At[0], 0.06)
	require.InDelta(t, pot.At[1], h.At[1], 0.06)
	s := ask[session.State](t, d, "drop", m{"snap": true})
	require.NotEmpty(t, s.Undo)
}

func TestSnapLandsWhereThePlanFiguresHold(t *testing.T) {
	d := laid(t, "studio")
	pot, lv := firstPot(t, d, "mug")
	ask[views.Picture](t, d, "top", m{"w": 560, "h": 560, "tower": lv.Tower, "level": lv.Number})
	ask[Held](t, d, "hold", m{"pot": pot.ID, "view": "keys"})
	var h Held
	for range 200 { // until it stands too near to something
		h = ask[Held](t, d, "nudge", m{"dx": 0.5, "dy": 0.5})
		if h.Ring != nil && h.Grade != "clears" {
			break
		}
	}
	require.NotNil(t, h.Ring, "a ring shows where it clears")
	ask[session.State](t, d, "drop", m{"snap": true})
	c := ask[session.Chosen](t, d, "select", m{"pot": pot.ID})
	require.InDelta(t, 0, plane.Distance(*h.Ring, c.At), 1e-9)
	for _, n := range c.Nears {
		require.Equal(t, "clears", n.Grade, n.Name)
	}
}

func TestAShelfStopsWhereItIsDraggedTo(t *testing.T) {
	d := laid(t, "studio")
	s := ask[session.State](t, d, "state", m{})
	ask[views.Picture](t, d, "elevation", m{"w": 520, "h": 420})
	lv := s.Levels[len(s.Levels)-1]
	l := ask[Lifted](t, d, "lift", m{"tower": lv.Tower, "level": lv.Number})
	require.NotNil(t, l.Elevation)
	require.NotEmpty(t, l.Stops)
	was := l.At
	frame := l.Elevation.Frame
	for i := range l.Stops {
		z := d.s.State().Levels[lv.Index]
		_ = z
		b, _ := d.s.Built()
		under := b.Levels[lv.Index].Bottom + l.Stops[i].Height - l.Stops[was].Height
		_, y := frame.Px(plane.Vec{0, under})
		got := ask[Lifted](t, d, "stop", m{"y": y})
		require.Equal(t, i, got.At, "dragged to the height of stop %d", i)
		frame = got.Elevation.Frame
	}
	ask[session.State](t, d, "cancel", m{})
	require.Nil(t, d.s.LiftedBuilt())
}

func TestPicturesAreKeptWithinReason(t *testing.T) {
	d := laid(t, "studio")
	p := ask[views.Picture](t, d, "elevation", m{"w": 1e12, "h": -4})
	require.Equal(t, float64(mostSize), p.W)
	require.False(t, math.IsNaN(p.H))
}
