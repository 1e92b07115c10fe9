package session

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/stacks"
)

// touches tells whether edits move something that stands already.
func (f *Fitting) touches(edits []layout.Edit) bool {
	b := f.s.seen.built
	stands := func(id string) bool {
		if id == f.pot {
			return false
		}
		for i := range f.changed.Towers {
			t := &f.changed.Towers[i]
			for k := range t.Levels {
				for _, p := range t.Levels[k].Set {
					if p.Pot.String() == id {
						return f.kept.pots[place{f.s.levelIndex(t.Name, k+1), p.At}]
					}
				}
			}
		}
		return false
	}
	begun := func(level int) bool { // posts, shelf or pots of it stand
		return level < 0 || f.kept.posts[level] || f.kept.shelves[level]
	}
	for i := range edits {
		e := &edits[i]
		v := f.s.levelIndex(e.Tower, e.Level)
		switch e.Act {
		case layout.SetPot, layout.Withdraw:
			if stands(e.Pot) {
				return true
			}
		case layout.SwapPots:
			if stands(e.Pot) || stands(e.Other) {
				return true
			}
		case layout.SetPosts:
			if begun(v) && (v < 0 || f.kept.shelves[v] || !f.tops(v, e.Posts)) {
				return true
			}
		case layout.MoveShelf, layout.RemoveLevel, layout.AddLevel:
			if begun(v) {
				return true
			}
		case layout.SwapLevels:
			if f.swapTouches(e, begun) {
				return true
			}
		case layout.MoveLine:
			for x := range b.Levels {
				if b.Towers[b.Levels[x].Tower].Name == e.Tower && begun(x) {
					return true
				}
			}
		case layout.Arrange:
			if !f.keepsAll(e.Towers) {
				return true
			}
		}
	}
	return false
}

// tops tells whether posts that stand, their shelf not yet on them, need only
// other pieces on top: each keeps its lowest piece where it stands, so that no
// hand goes down between pots.
func (f *Fitting) tops(level int, posts []layout.MakeUp) bool {
	under := f.s.seen.built.Levels[level].Posts
	if len(posts) != 1 && len(posts) != len(under) {
		return false
	}
	for k, i := range under {
		now := posts[min(k, len(posts)-1)]
		was := f.s.seen.built.Posts[i].MakeUp
		if len(now) == 0 || len(was) == 0 || now[0] != was[0] {
			return false
		}
	}
	return true
}

// swapTouches tells whether two levels cannot change places: a pot stands on
// one of them, or the posts over it do.
func (f *Fitting) swapTouches(e *layout.Edit, begun func(int) bool) bool {
	other := e.Other
	if other == "" {
		other = e.Tower
	}
	for _, x := range []int{f.s.levelIndex(e.Tower, e.Level), f.s.levelIndex(other, e.OtherLevel)} {
		if x < 0 || f.anyStands(x) {
			return true
		}
		for _, up := range aboveOf(f.s.seen.built, x) {
			if begun(up) {
				return true
			}
		}
	}
	return false
}

func aboveOf(b *stacks.Built, level int) []int {
	if level < 0 {
		return nil
	}
	return append([]int(nil), b.Levels[level].Above...)
}

// anyStands tells whether a pot of a level stands already.
func (f *Fitting) anyStands(level int) bool {
	for p := range f.kept.pots {
		if p.level == level {
			return true
		}
	}
	return false
}

// keepsAll tells whether an arrangement has every pot that stands where it
// stands, and every level that is begun as it is.
func (f *Fitting) keepsAll(towers []layout.Tower) bool {
	b := f.s.seen.built
	is := map[place]string{}
	for i := range towers {
		for k := range towers[i].Levels {
			for _, p := range towers[i].Levels[k].Set {
				is[place{f.s.levelIndex(towers[i].Name, k+1), p.At}] = p.Pot.Ware
			}
		}
	}
	for i := range b.Pots {
		p := &b.Pots[i]
		if at := (place{p.Level, p.At}); f.kept.pots[at] && is[at] != p.Pot.Ware && is[at] != f.pot {
			return false
		}
	}
	for level := range b.Levels {
		if !f.kept.posts[level] && !f.kept.shelves[level] {
			continue
		}
		own := f.s.levelOf(b, level)
		v := &b.Levels[level]
		found := false
		for i := range towers {
			if towers[i].Name == b.Towers[v.Tower].Name && v.Number <= len(towers[i].Levels) {
				now := towers[i].Levels[v.Number-1].Posts
				found = fmt.Sprint(now) == fmt.Sprint(own.Posts) || !f.kept.shelves[level] && f.tops(level, now)
			}
		}
		if !found {
			return false
		}
	}
	return true
}
