package edit

import (
	"fmt"
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
)

// Caps of what an edit may bring in, far beyond any kiln.
const (
	maxCount  = 10000 // pots of a row
	maxTowers = 64
	maxLevels = 64
)

// Apply is the load after the edits, in their order. The load given is not
// changed. It refuses, with a sentence, an edit that has no meaning: a pot,
// tower, level or line that does not exist, a pot that would stand twice, a
// figure that is no number. Then the load returned is nil.
//
// Places are put on the grid of 0.1 mm and turns on that of 0.1 degree.
func Apply(l *layout.Load, edits ...layout.Edit) (*layout.Load, error) {
	c := l.Clone()
	for i := range edits {
		if err := apply(c, &edits[i]); err != nil {
			return nil, err
		}
	}
	return c, nil
}

func apply(l *layout.Load, e *layout.Edit) error {
	switch e.Act {
	case layout.SetPot:
		return setPot(l, e)
	case layout.Withdraw:
		return withdraw(l, e)
	case layout.SwapPots:
		return swapPots(l, e)
	case layout.LockPot:
		return lockPot(l, e)
	case layout.LockLevel:
		v, err := levelOf(l, e.Tower, e.Level)
		if err == nil {
			v.Locked = e.On
		}
		return err
	case layout.SetPosts:
		return setPosts(l, e)
	case layout.MoveLine:
		return moveLine(l, e)
	case layout.AddLevel:
		return addLevel(l, e)
	case layout.RemoveLevel:
		return removeLevel(l, e)
	case layout.SwapLevels:
		return swapLevels(l, e)
	case layout.MoveShelf:
		return moveShelf(l, e)
	case layout.Arrange:
		return arrange(l, e)
	case layout.Accept:
		return accept(l, e)
	case layout.SetWare:
		return setWare(l, e)
	case layout.RemoveWare:
		return removeWare(l, e)
	case layout.SetRule:
		return setRule(l, e)
	case layout.SetKiln, layout.SetFurniture, layout.SetFiring, layout.SetCones, layout.SetWishes, layout.SetTitle, layout.SetUnits:
		return setUp(l, e)
	}
	return fmt.Errorf("%q is no act of an edit", e.Act)
}

// towerOf finds a tower by name.
func towerOf(l *layout.Load, name string) (*layout.Tower, error) {
	if t := l.Tower(name); t != nil {
		return t, nil
	}
	if len(l.Towers) == 0 {
		return nil, fmt.Errorf("there is no tower %q; the kiln is empty", name)
	}
	names := make([]string, len(l.Towers))
	for i := range l.Towers {
		names[i] = fmt.Sprintf("%q", l.Towers[i].Name)
	}
	return nil, fmt.Errorf("there is no tower %q; the load has %s", name, strings.Join(names, ", "))
}

// levelOf finds a level of a tower by its number from 1.
func levelOf(l *layout.Load, tower string, level int) (*layout.Level, error) {
	t, err := towerOf(l, tower)
	if err != nil {
		return nil, err
	}
	if level < 1 || level > len(t.Levels) {
		return nil, fmt.Errorf("%q has %s, so there is no level %d", tower, levels(len(t.Levels)), level)
	}
	return &t.Levels[level-1], nil
}

func levels(n int) string {
	if n == 1 {
		return "one level"
	}
	return fmt.Sprintf("%d levels", n)
}

// grid puts a figure on the grid of 0.1, never as minus zero.
func grid(x float64) float64 {
	if y := math.Round(x*10) / 10; y != 0 {
		return y
	}
	return 0
}

func gridPlace(v plane.Vec) plane.Vec { return plane.Vec{grid(v[0]), grid(v[1])} }

func gridTurn(deg float64) float64 { return plane.NormalTurn(grid(plane.NormalTurn(deg))) }

// farthest is how far from the kiln's middle a place may lie, mm.
const farthest = 1e5

// checkPlace refuses places and turns that are no numbers.
func checkPlace(what string, at *plane.Vec, turn *float64) error {
	if at != nil && !(math.Abs(at[0]) <= farthest && math.Abs(at[1]) <= farthest) {
		return fmt.Errorf("the place of %s is not a place in the kiln; give x and y in mm", what)
	}
	if turn != nil && !(math.Abs(*turn) <= farthest) {
		return fmt.Errorf("the turn of %s is not an angle; give degrees clockwise", what)
	}
	return nil
}

// accept lets a watch stand, with a reason.
func accept(l *layout.Load, e *layout.Edit) error {
	reason := strings.TrimSpace(e.Reason)
	switch {
	case e.Finding == "":
		return fmt.Errorf("an acceptance names the finding that it lets stand")
	case reason == "":
		return fmt.Errorf("say why %q may stand, so that it is known next time", e.Finding)
	}
	for i := range l.Accepted {
		if l.Accepted[i].Finding == e.Finding {
			l.Accepted[i].Reason = reason
			return nil
		}
	}
	l.Accepted = append(l.Accepted, layout.Accepted{Finding: e.Finding, Reason: reason})
	return nil
}

// setRule changes a rule of this load, or gives it back to the table.
func setRule(l *layout.Load, e *layout.Edit) error {
	known := false
	for _, r := range layout.RuleNames() {
		known = known || r == e.Rule
	}
	if !known {
		return fmt.Errorf("%q is no rule with figures", e.Rule)
	}
	if e.Limits == nil {
		delete(l.Rules, e.Rule)
		return nil
	}
	for _, x := range []float64{e.Limits.Problem, e.Limits.Watch, e.Limits.Plan} {
		if !(math.Abs(x) <= farthest) {
			return fmt.Errorf("a figure of the rule %q is not a number", e.Rule)
		}
	}
	if l.Rules == nil {
		l.Rules = layout.Rules{}
	}
	l.Rules[e.Rule] = *e.Limits
	return nil
}
