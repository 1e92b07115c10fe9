package planner

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Wished is a wish of a load and what became of it.
type Wished struct {
	Key  string // what it is, whatever the units: "together Ida"
	Wish string // "Ida's pots together"
	Kept bool
	Says string // where it is not kept: how far it goes; else empty
	Cost string // what a plan without it sets more; empty before CostWishes, and where that is nothing

	without func(*layout.Load)
	sight   bool // cones in sight: weighed against the ware, so that it costs little or is not kept
}

// Wishes tells of every wish of a load that its arrangement can go against, or
// that a plan may have to pay for, whether it is kept. Rows that are left out
// are told among what waits. judge is the check of that load.
func Wishes(b *stacks.Built, judge *clearance.Checker) []Wished {
	w := &b.Load.Wishes
	var out []Wished
	add := func(x Wished) {
		x.Kept = x.Says == ""
		out = append(out, x)
	}
	say := func(mm float64, r measure.Round) string { return measure.SayLength(mm, b.Load.Units, r) }
	switch w.Tall {
	case layout.TallLow:
		add(Wished{Key: "tall", Wish: "tall ware low", Says: saysOrder(b, descends), without: func(l *layout.Load) { l.Wishes.Tall = layout.TallAnywhere }})
	case layout.TallHigh:
		add(Wished{Key: "tall", Wish: "tall ware high", Says: saysOrder(b, ascends), without: func(l *layout.Load) { l.Wishes.Tall = layout.TallAnywhere }})
	case layout.TallAlternate:
		add(Wished{Key: "tall", Wish: "tall and short levels in turn", Says: saysOrder(b, takesTurns), without: func(l *layout.Load) { l.Wishes.Tall = layout.TallAnywhere }})
	}
	if w.Inset > b.Load.Limits(layout.Inset).Plan {
		add(Wished{Key: "inset", Says: saysInset(b), Wish: "posts " + say(w.Inset, measure.Nearest) + " inside the edge", without: func(l *layout.Load) { l.Wishes.Inset = 0 }})
	}
	if w.RoomAbove > b.Load.Limits(layout.RoomAbove).Plan {
		add(Wished{Key: "room above", Says: saysRoom(b), Wish: say(w.RoomAbove, measure.Nearest) + " of room above", without: func(l *layout.Load) { l.Wishes.RoomAbove = 0 }})
	}
	switch w.Towers {
	case layout.OneTower:
		add(Wished{Key: "towers", Wish: "one tower", Says: saysTowers(b), without: func(l *layout.Load) { l.Wishes.Towers = layout.AnyTowers }})
	case layout.HalfTowers:
		add(Wished{Key: "towers", Wish: "towers side by side", Says: saysTowers(b), without: func(l *layout.Load) { l.Wishes.Towers = layout.AnyTowers }})
	}
	if w.Stagger {
		add(Wished{Key: "stagger", Wish: "shelves staggered", Says: saysLevel(b), without: func(l *layout.Load) { l.Wishes.Stagger = false }})
	}
	for i, o := range w.Together {
		add(saysTogether(b, i, o))
	}
	for i, o := range w.Apart {
		add(saysApart(b, i, o))
	}
	for i, o := range w.Off {
		add(saysOff(b, i, o))
	}
	if x, ok := sightWish(b, judge); ok {
		add(x)
	}
	if x, ok := lockedWish(b.Load); ok {
		add(x)
	}
	return out
}

// lockedWish is that locked levels and pots stay.
func lockedWish(l *layout.Load) (Wished, bool) {
	locked, stands := false, false
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			locked = locked || v.Locked
			stands = stands || v.Standing
			for _, p := range v.Set {
				locked = locked || p.Locked
			}
		}
	}
	return Wished{Key: "locked", Wish: "what is locked stays", Kept: true, without: unlock}, locked && !stands
}

// unlock frees all that is locked.
func unlock(l *layout.Load) {
	for t := range l.Towers {
		for v := range l.Towers[t].Levels {
			level := &l.Towers[t].Levels[v]
			level.Locked = false
			for p := range level.Set {
				level.Set[p].Locked = false
			}
		}
	}
}

// levelsWith are the levels on which pots that are meant stand, and how many
// they are in all.
func levelsWith(b *stacks.Built, is func(*layout.Ware) bool) (levels []int, pots int) {
	for i := range b.Levels {
		n := 0
		for _, pi := range b.Levels[i].Pots {
			if w := b.Pots[pi].Ware; w != nil && is(w) {
				n++
			}
		}
		if pots += n; n > 0 {
			levels = append(levels, i)
		}
	}
	return levels, pots
}

// sayLevels lists levels: "left 1, left 2 and right 1".
func sayLevels(b *stacks.Built, levels []int) string {
	var names []string
	for _, i := range levels {
		names = append(names, b.Levels[i].Name)
	}
	return listed(names)
}

func saysTogether(b *stacks.Built, i int, owner string) Wished {
	x := Wished{Key: "together " + owner, Wish: owner + "'s pots together", without: func(l *layout.Load) { l.Wishes.Together = dropped(l.Wishes.Together, i) }}
	levels, pots := levelsWith(b, func(w *layout.Ware) bool { return w.Owner == owner })
	if len(levels) > 1 {
		x.Says = fmt.Sprintf("The %d stand on %s.", pots, sayLevels(b, levels))
	}
	return x
}

func saysApart(b *stacks.Built, i int, owner string) Wished {
	x := Wished{Key: "apart " + owner, Wish: owner + "'s pots apart from others", without: func(l *layout.Load) { l.Wishes.Apart = dropped(l.Wishes.Apart, i) }}
	levels, _ := levelsWith(b, func(w *layout.Ware) bool { return w.Owner == owner })
	others, _ := levelsWith(b, func(w *layout.Ware) bool { return w.Owner != owner })
	var shared []int
	for _, a := range levels {
		for _, o := range others {
			if a == o {
				shared = append(shared, a)
			}
		}
	}
	if len(shared) > 0 {
		x.Says = fmt.Sprintf("Others' pots stand with them on %s.", sayLevels(b, shared))
	}
	return x
}

func saysOff(b *stacks.Built, i int, o layout.OffLevel) Wished {
	place := "the " + string(o.Level) + " level"
	if n := o.Level.Number(); n > 0 {
		place = fmt.Sprintf("level %d from the floor", n)
	}
	x := Wished{Key: "off " + string(o.Level) + " " + o.Ware, Wish: silhouette.Plural(o.Ware) + " off " + place, without: func(l *layout.Load) {
		l.Wishes.Off = append(append([]layout.OffLevel(nil), l.Wishes.Off[:i]...), l.Wishes.Off[i+1:]...)
	}}
	levels, _ := levelsWith(b, func(w *layout.Ware) bool { return w.Name == o.Ware })
	var there []int
	for _, v := range levels {
		lv := &b.Levels[v]
		if o.Level.Is(layout.FromFloor(b.Load.Towers, b.Towers[lv.Tower].Index, lv.Number-1), underTheLid(lv)) {
			there = append(there, v)
		}
	}
	if len(there) > 0 {
		x.Says = fmt.Sprintf("Some stand on %s.", sayLevels(b, there))
	}
	return x
}

// underTheLid says whether a built level lies under the lid, or partly.
func underTheLid(v *stacks.Level) bool { return v.UnderLid || len(v.Above) == 0 }

// saysLevel tells which shelves of towers side by side lie level; those lowest
// on the floor may.
func saysLevel(b *stacks.Built) string {
	for i := range b.Levels {
		for j := range i {
			x, y := &b.Levels[i], &b.Levels[j]
			if x.Tower == y.Tower || lowestOnFloor(b, x) || lowestOnFloor(b, y) || standsOver(b, x.Tower, y.Tower) || standsOver(b, y.Tower, x.Tower) {
				continue
			}
			if abs(x.Bottom-y.Bottom) < staggerRoom-1e-6 {
				return fmt.Sprintf("The shelves of %s lie nearly level.", sayLevels(b, []int{j, i}))
			}
		}
	}
	return ""
}

// lowestOnFloor says whether a level is the lowest of a tower on the floor.
func lowestOnFloor(b *stacks.Built, v *stacks.Level) bool {
	return layout.FromFloor(b.Load.Towers, b.Towers[v.Tower].Index, v.Number-1) == 1
}

// standsOver says whether a tower stands on another one.
func standsOver(b *stacks.Built, upper, lower int) bool {
	for _, on := range b.Load.Towers[b.Towers[upper].Index].On {
		if on.Tower == b.Load.Towers[b.Towers[lower].Index].Name {
			return true
		}
	}
	return false
}

// dropped is a list without one of its entries.
func dropped(list []string, i int) []string {
	return append(append([]string(nil), list[:i]...), list[i+1:]...)
}

// Work of finding out what wishes cost: of all together, and of each.
const (
	wishesWork = 60000
	leastWish  = 8000
	mostWish   = 20000
)

// CostWishes tells what each wish costs a plan of which something waits: it
// plans the load anew without that wish alone, with a little work for each, and
// tells what such a plan sets more. What it tells is what was found, so a wish
// may cost more than that. Of cones out of sight it tells what a plan that shows
// them sets less. more is asked before each wish; false ends it. It fails as
// Start does.
func CostWishes(p *Plan, more func() bool) error {
	if len(p.Wishes) == 0 {
		return nil
	}
	work := min(mostWish, max(leastWish, wishesWork/int64(len(p.Wishes))))
	for i := range p.Wishes {
		w := &p.Wishes[i]
		unseen := w.sight && !w.Kept
		if !unseen && p.Set >= p.Of {
			continue
		}
		if !more() {
			return nil
		}
		if unseen {
			cost, err := inSight(p)
			if err != nil {
				return err
			}
			w.Cost = cost
			continue
		}
		free := p.Load.Clone()
		w.without(free)
		s, err := Start(free, p.Seed)
		if err != nil {
			return err
		}
		if w.sight {
			s.Step(leastWish)
		} else {
			s.Step(work)
		}
		w.Cost = ""
		if q, ok := s.Best(); ok && q.worthMore(p) && q.asWished(p) {
			w.Cost = sayCost(p, q)
		}
	}
	return nil
}

// sayCost tells what a plan without a wish sets more; where it sets some less
// too, how much more it holds.
func sayCost(p, q *Plan) string {
	all := gains(p.Load, p, q)
	for _, g := range all {
		if g.Count < 0 && p.Value > 0 {
			return fmt.Sprintf("A plan without it holds %.0f %% more: %s.", math.Max(1, 100*(q.Value-p.Value)/p.Value), sayGains(all))
		}
	}
	return "A plan without it sets " + sayGains(all) + "."
}

// sayGains lists what is set more and less: "2 mugs more and 1 bowl less".
func sayGains(all []Gain) string {
	var more, less []string
	for _, g := range all {
		if g.Count > 0 {
			more = append(more, silhouette.Counted(g.Count, g.Ware))
		} else {
			less = append(less, silhouette.Counted(-g.Count, g.Ware))
		}
	}
	switch {
	case len(less) == 0:
		return listed(more) + " more"
	case len(more) == 0:
		return listed(less) + " less"
	}
	return listed(more) + " more, " + listed(less) + " less"
}

// listed joins with commas and a last "and".
func listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// Say tells a wish and what became of it in a line.
func (w Wished) Say() string {
	name := []rune(w.Wish)
	if len(name) > 0 {
		name[0] = unicode.ToUpper(name[0])
	}
	out := string(name) + ": kept."
	if !w.Kept {
		out = string(name) + ": not kept. " + w.Says
	}
	if w.Cost != "" {
		out += " " + w.Cost
	}
	return out
}
