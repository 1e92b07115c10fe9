package session

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
)

// TestLawMachine: after any calls in any order the text reads back to the same
// state, refusals change nothing, and undoing everything gives the first text.
func TestLawMachine(t *testing.T) {
	names := []string{"newcomer", "small-round", "bisque"}
	if os.Getenv("THREEPOST_LONG") != "" {
		names = samples()
	} else {
		t.Log("three samples of six; all with THREEPOST_LONG=1")
	}
	rapid.Check(t, func(t *rapid.T) {
		s := sample(t, names[rapid.IntRange(0, len(names)-1).Draw(t, "sample")])
		first := textOf(t, s)
		steps := 0
		n := rapid.IntRange(1, 5).Draw(t, "calls")
		for range n {
			before, revision := textOf(t, s), s.Revision()
			err := oneCall(t, s)
			if err != nil {
				require.NotEmpty(t, err.Error())
				require.Equal(t, before, textOf(t, s), "a refusal changes nothing: %s", err)
				require.Equal(t, revision, s.Revision())
				continue
			}
			if s.Revision() > revision {
				steps = len(s.past)
			}
		}
		text := textOf(t, s)
		again, err := Open(text, s.Name())
		require.NoError(t, err)
		got, want := *again.State(), *s.State()
		want.Revision, want.Undo, want.Redo, want.Offer = got.Revision, got.Undo, got.Redo, got.Offer
		for i := range want.Findings {
			want.Findings[i].Mends = nil
		}
		require.Equal(t, jsonOf(t, got), jsonOf(t, want))
		for range steps {
			_, err := s.Undo()
			require.NoError(t, err)
		}
		require.Equal(t, first, textOf(t, s))
	})
}

func jsonOf(t require.TestingT, v any) string {
	out, err := json.Marshal(v)
	require.NoError(t, err)
	return string(out)
}

// oneCall makes a random call.
func oneCall(t *rapid.T, s *Session) error {
	state := s.State()
	pick := func(n int, what string) int { return rapid.IntRange(0, max(n-1, 0)).Draw(t, what) }
	pot, other := "nothing", "nothing"
	if len(state.Pots) > 0 {
		pot, other = state.Pots[pick(len(state.Pots), "pot")].ID, state.Pots[pick(len(state.Pots), "other")].ID
	}
	tower, level := "nowhere", 1
	if len(state.Levels) > 0 {
		v := state.Levels[pick(len(state.Levels), "level")]
		tower, level = v.Tower, v.Number
	}
	row := "nothing"
	if len(state.Ware) > 0 {
		row = state.Ware[pick(len(state.Ware), "row")].Name
	}
	where := &plane.Vec{rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y")}
	apply := func(e ...layout.Edit) error { _, err := s.Apply(e, ""); return err }
	var err error
	switch rapid.IntRange(0, 19).Draw(t, "call") {
	case 0:
		err = apply(layout.Edit{Act: layout.SetPot, Pot: pot, Tower: tower, Level: level, At: where})
	case 1:
		err = apply(layout.Edit{Act: layout.Withdraw, Pot: pot})
	case 2:
		err = apply(layout.Edit{Act: layout.SwapPots, Pot: pot, Other: other})
	case 3:
		err = apply(layout.Edit{Act: layout.LockPot, Pot: pot, On: true}, layout.Edit{Act: layout.LockLevel, Tower: tower, Level: level, On: true})
	case 4:
		err = apply(layout.Edit{Act: layout.RemoveLevel, Tower: tower, Level: level})
	case 5:
		err = apply(layout.Edit{Act: layout.SwapLevels, Tower: tower, Level: level, OtherLevel: pick(5, "with") + 1})
	case 6:
		_, err = s.Count(row, pick(30, "count"))
	case 7:
		_, err = s.Duplicate(row)
	case 8:
		_, err = s.Remove(row)
	case 9:
		f := Fields{Name: row, Count: "3"}
		for _, r := range state.Ware {
			if r.Name == row {
				f = r.Fields
			}
		}
		f.Height, f.Name = rapid.SampledFrom([]string{"120", "4 in", "", "x", "90.5"}).Draw(t, "height"), rapid.SampledFrom([]string{row, "cup", "mug"}).Draw(t, "name")
		_, err = s.Row(row, f)
	case 10:
		if _, err = s.Hold(pot); err == nil {
			if _, err = s.Over(tower, level); err == nil {
				_, err = s.Move(*where)
			}
		}
		if err == nil {
			_, err = s.Drop(rapid.Bool().Draw(t, "snap"))
		} else {
			s.Cancel()
		}
	case 11:
		var l *Lifted
		if l, err = s.Lift(tower, level); err == nil {
			_, err = s.Stop(pick(len(l.Stops), "stop"))
			require.NoError(t, err)
			if _, err = s.Put(); err != nil {
				s.Cancel()
			}
		}
	case 12:
		if _, err = s.Undo(); err == nil {
			_, err = s.Redo()
		}
	case 13:
		_, err = s.SetUnits(rapid.SampledFrom([]string{"mm", "in", "cubits"}).Draw(t, "units"))
	case 14:
		_, err = s.SetUp("title", []byte(jsonOf(t, rapid.SampledFrom([]string{"A", "", "with \"quotes\"", "line\nbreak"}).Draw(t, "title"))))
	case 15:
		k := s.Setup().Kiln
		k.Height = rapid.SampledFrom([]string{"700", "27 in", "-1", ""}).Draw(t, "high")
		_, err = s.SetUp("kiln", []byte(jsonOf(t, k)))
	case 16:
		r := s.Rows(rapid.SampledFrom([]string{"12 mugs 95 x 86", "vase 220 x 110\nnonsense", "3 cups 80 x 70, owner Ida"}).Draw(t, "rows"))
		err = apply(r.Edits...)
	case 17:
		if _, err = s.Profile(row); err == nil {
			if _, err = s.Measure("height", "133"); err == nil {
				_, err = s.Keep()
			}
		}
	case 18:
		_, err = s.SetUp("rule", []byte(jsonOf(t, RuleFields{Name: "pot to pot", Plan: rapid.SampledFrom([]string{"8", "", "1/2 in", "x"}).Draw(t, "plan")})))
	case 19:
		w := s.Setup().Wishes
		w.LeaveOut = []string{row}
		_, err = s.SetUp("wishes", []byte(jsonOf(t, w)))
	}
	return err
}
