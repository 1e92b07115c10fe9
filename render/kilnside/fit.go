package kilnside

import (
	"threepost/layout"
	"threepost/layout/edit"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/session"
	"threepost/layout/stacks"
)

// Fitted is an answer to "it does not fit" with what the page at the kiln needs
// to go on with.
type Fitted struct {
	Answer session.Answer
	Load   *layout.Load // as it is after the answer
	Steps  Steps
	Was    Room     // to the lid, over the place where hands are
	Now    Room     // the same after it
	Posts  *Picture // the posts that change; nil when none do
	Ticks  []string // what is done once the answer is
	Still  bool     // there is nothing to do: all fits as it stands
	Work   int64    // what planning it cost, in the planner's units
}

// Fit is the answer of number nth, from 0, when hands are at step n and
// something does not fit: it keeps what the steps before it have set. It is nil
// when there are fewer answers; the error is a sentence about a change that
// means nothing.
func Fit(of *session.Session, steps *Steps, n int, change session.Change, nth int, words measure.Words) (*Fitted, error) {
	f, err := of.Fit(change, steps.Standing(n))
	if err != nil {
		return nil, err
	}
	before, _ := of.Built()
	for {
		a, ok := f.Next()
		if !ok {
			return nil, nil
		}
		load := of.Load()
		if len(a.Edits) > 0 {
			if load, err = edit.Apply(load, a.Edits...); err != nil {
				continue
			}
		}
		b, err := stacks.Build(load)
		if err != nil {
			continue
		}
		o, cycles := order.Of(b)
		if len(cycles) > 0 {
			continue
		}
		after := Of(b, o, measure.Units(steps.Units), words)
		if !after.Keeps(steps, n, change.Pot) {
			continue
		}
		if nth > 0 {
			nth--
			continue
		}
		a.Says, a.Detail = words.Say(a.Says), words.Say(a.Detail)
		w := &way{b: b, units: measure.Units(steps.Units), words: words}
		out := &Fitted{Answer: a, Load: load, Steps: after, Posts: Changed(before, b, w.near), Ticks: after.Carry(steps, n), Work: f.Work()}
		out.Still = out.Posts == nil && samePlaces(before, b, change.Pot)
		at := ""
		if level := steps.Steps[n-1].Level; level >= 0 {
			at = steps.Levels[level].ID
		}
		out.Was, out.Now = steps.Steps[n-1].Room, after.RoomAt(at)
		return out, nil
	}
}
