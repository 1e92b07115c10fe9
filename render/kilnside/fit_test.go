package kilnside

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/clearance"
	"threepost/layout/session"
	"threepost/layout/stacks"
)

// stepOf is the first step of a kind on a level.
func stepOf(t testing.TB, s *Steps, level string, kind Kind) *Step {
	t.Helper()
	for i := range s.Steps {
		step := &s.Steps[i]
		if step.Level >= 0 && s.Levels[step.Level].Title == level && step.Kind == kind {
			return step
		}
	}
	require.Fail(t, "no such step", "%s, %s", level, kind)
	return nil
}

// doneBefore are the ticks of all steps before one.
func doneBefore(s *Steps, n int) map[string]bool {
	done := map[string]bool{}
	for i := range s.Steps[:n-1] {
		for _, k := range s.Steps[i].Ticks {
			done[k] = true
		}
	}
	return done
}

// TestTooTallIsAnsweredByPosts: at the stick over level 3 an espresso cup is 12
// too tall. A 6 goes on each post, the room to the lid falls by 6, what was
// ticked stays ticked, and the stick has to be laid again.
func TestTooTallIsAnsweredByPosts(t *testing.T) {
	of := opened(t, "small-round")
	b, _ := of.Built()
	s := Of(b, of.Order(), "", "")
	at := stepOf(t, &s, "Level 3", Stick)
	pot := ""
	for _, a := range at.Ask {
		if a.Which == "An espresso cup" {
			pot = a.Pot
		}
	}
	require.NotEmpty(t, pot)
	got, err := Fit(of, &s, at.N, session.Change{Kind: session.TooTall, Pot: pot, By: "12"}, 0, "")
	require.NoError(t, err)
	require.NotNil(t, got)
	require.Equal(t, "Put one 6 on each of A, B and C", got.Answer.Says)
	require.InDelta(t, got.Was.MM-6, got.Now.MM, 0.06)
	require.NotNil(t, got.Posts)
	require.False(t, got.Still)
	carried := map[string]bool{}
	for _, k := range got.Ticks {
		carried[k] = true
	}
	for i := range got.Steps.Steps {
		step := &got.Steps.Steps[i]
		all := true
		for _, k := range step.Ticks {
			all = all && carried[k]
		}
		if all {
			continue
		}
		require.Equal(t, Stick, step.Kind, "the first thing to do anew")
		require.Equal(t, "Level 3", got.Steps.Levels[step.Level].Title)
		break
	}
}

// TestLawAnswersKeepWhatIsTicked: whatever is asked at whatever step, every
// answer builds, brings no problem, and keeps each pot that stood but the one in
// question.
func TestLawAnswersKeepWhatIsTicked(t *testing.T) {
	of := opened(t, "small-round")
	b, _ := of.Built()
	s := Of(b, of.Order(), "", "")
	answers, every := 0, 4
	if os.Getenv("THREEPOST_LONG") != "" {
		every = 1
	} else {
		t.Log("every fourth step; all with THREEPOST_LONG=1")
	}
	for i := 0; i < len(s.Steps); i += every {
		step := &s.Steps[i]
		if len(step.Ask) == 0 {
			continue
		}
		pot := step.Ask[0].Pot
		for _, c := range []session.Change{
			{Kind: session.TooTall, Pot: pot, By: "12"}, {Kind: session.TooWide, Pot: pot, By: "12"}, {Kind: session.LeaveOut, Pot: pot},
		} {
			for nth := range 2 {
				got, err := Fit(of, &s, step.N, c, nth, "")
				require.NoError(t, err)
				if got == nil {
					break
				}
				answers++
				after, err := stacks.Build(got.Load)
				require.NoError(t, err)
				require.LessOrEqual(t, clearance.Check(after).Problems, of.Report().Problems, got.Answer.Says)
				has := got.Steps.places()
				for k := range s.Steps[:step.N-1] {
					for n, thing := range s.Steps[k].things {
						if s.Steps[k].Kind != Posts && s.Steps[k].Pots[n] != pot {
							require.Contains(t, has, thing.where, "%s at step %d", got.Answer.Says, step.N)
						}
					}
				}
			}
		}
	}
	require.Greater(t, answers, 12)
}

// TestTicksOfWhatDidNotChangeStay: leaving a pot out takes away its tick and no
// other.
func TestTicksOfWhatDidNotChangeStay(t *testing.T) {
	of := opened(t, "newcomer")
	b, _ := of.Built()
	s := Of(b, of.Order(), "", "")
	last := &s.Steps[len(s.Steps)-1]
	pot := stepOf(t, &s, "Left 2", Pots).Ask[0].Pot
	done := doneBefore(&s, last.N)
	got, err := Fit(of, &s, stepOf(t, &s, "Left 2", Pots).N, session.Change{Kind: session.LeaveOut, Pot: pot}, 0, "")
	require.NoError(t, err)
	require.NotNil(t, got)
	gone := 0
	now := map[string]bool{}
	for i := range got.Steps.Steps {
		for _, k := range got.Steps.Steps[i].Ticks {
			now[k] = true
		}
	}
	for k := range done {
		if !now[k] {
			gone++
		}
	}
	require.Equal(t, 1, gone)
}

func TestStandingCountsActs(t *testing.T) {
	b, o := built(t, "front-loader")
	s := Of(b, o, "", "")
	require.Zero(t, s.Standing(1))
	for i := range s.Steps {
		step := &s.Steps[i]
		if len(step.Acts) > 0 {
			require.Equal(t, step.Acts[0], s.Standing(step.N), step.Title)
		}
		if step.Kind == Pots && len(step.Acts) == 0 {
			require.Less(t, s.Standing(step.N), len(o.Acts), "a later part of a series")
			require.Equal(t, s.Standing(step.N-1), s.Standing(step.N))
		}
	}
}

func TestFitRefusesWithASentence(t *testing.T) {
	of := opened(t, "newcomer")
	b, _ := of.Built()
	s := Of(b, of.Order(), "", "")
	_, err := Fit(of, &s, 6, session.Change{Kind: session.TooTall, Pot: "mug 99", By: "6"}, 0, "")
	require.ErrorContains(t, err, "mug 99")
	_, err = Fit(of, &s, 6, session.Change{Kind: session.TooTall, Pot: "vase", By: "a bit"}, 0, "")
	require.ErrorContains(t, err, "a bit")
}
