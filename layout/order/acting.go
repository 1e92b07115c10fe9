package order

import (
	"math"

	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// actsOf lists everything hands do, level by level as the sequence says.
func actsOf(b *stacks.Built, o *Order, s sequence, floor []int) []Act {
	var acts []Act
	orderOf := make([]int, len(b.Levels))
	for k := range o.Levels {
		orderOf[o.Levels[k].Level] = k
	}
	for _, st := range s.stages {
		if st.pots {
			acts = append(acts, settingActs(b, o, orderOf[st.level])...)
		} else {
			acts = append(acts, layingActs(b, st.level, floor)...)
		}
	}
	return acts
}

// act is an act with nothing named.
func act(kind ActKind, level int) Act {
	return Act{Kind: kind, Level: level, Order: -1, Carries: -1, Shelf: -1, Step: -1, Pattern: -1, Next: -1}
}

// layingActs lays the shelves of a level, its posts first where they stand on
// the floor.
func layingActs(b *stacks.Built, level int, floor []int) []Act {
	var acts []Act
	posts := act(ActPosts, -1)
	posts.Carries = level
	for _, i := range floor {
		if b.Posts[i].Level == level {
			posts.Posts = append(posts.Posts, i)
		}
	}
	if len(posts.Posts) > 0 {
		acts = append(acts, posts)
	}
	for _, s := range b.Levels[level].Shelves {
		a := act(ActShelf, level)
		a.Shelf = s
		a.Down = b.Height - b.Shelves[s].Top
		acts = append(acts, a)
	}
	if len(b.Levels[level].Shelves) > 0 {
		a := act(ActMeasure, level)
		a.Down = b.Height - b.Levels[level].Top
		a.Next = nextOver(b, level)
		acts = append(acts, a)
	}
	return acts
}

// nextOver is the lowest of the levels over a level, or -1.
func nextOver(b *stacks.Built, level int) int {
	next := -1
	for _, x := range b.Levels[level].Above {
		if next < 0 || b.Levels[x].Top < b.Levels[next].Top {
			next = x
		}
	}
	return next
}

// settingActs sets a level: posts, pots, cones, then the stick.
func settingActs(b *stacks.Built, o *Order, k int) []Act {
	l := &o.Levels[k]
	acts := postActs(l, k)
	for i := 0; i < len(l.Pots); i++ {
		s := &l.Pots[i]
		a := act(ActPot, l.Level)
		a.Order, a.Step = k, i
		switch {
		case s.Cones:
			a.Kind = ActCones
		case s.Pattern >= 0:
			steps := l.Patterns[s.Pattern].Steps
			a.Kind, a.Pattern = ActPattern, s.Pattern
			i = steps[len(steps)-1]
		}
		acts = append(acts, a)
	}
	return append(acts, stickActs(b, l, k)...)
}

// postActs sets the posts that stand on a level, those under one shelf
// together.
func postActs(l *LevelOrder, k int) []Act {
	var acts []Act
	for _, p := range l.PostsOn {
		at := -1
		for i := range acts {
			if acts[i].Carries == p.Carries {
				at = i
			}
		}
		if at < 0 {
			a := act(ActPosts, l.Level)
			a.Order, a.Carries = k, p.Carries
			at = len(acts)
			acts = append(acts, a)
		}
		acts[at].Posts = append(acts[at].Posts, p.Post)
	}
	return acts
}

// stickActs proves the heights: a stick over the posts under each next shelf,
// or over the rim.
func stickActs(b *stacks.Built, l *LevelOrder, k int) []Act {
	var acts []Act
	for _, p := range postActs(l, k) {
		p.Kind = ActStick
		head := math.Inf(1)
		for _, i := range p.Posts {
			head = math.Min(head, b.Posts[i].Top)
		}
		p.Room = head - tallestUnder(b, l, p.Carries)
		acts = append(acts, p)
	}
	if b.Levels[l.Level].UnderLid {
		a := act(ActLid, l.Level)
		a.Order, a.Room = k, b.Height-tallestUnder(b, l, -1)
		acts = append(acts, a)
	}
	return acts
}

// tallestUnder is how high the pots of a level reach that stand at least
// partly under the shelves of another level, or anywhere for -1; the level's
// own top where there are none. In mm over the floor.
func tallestUnder(b *stacks.Built, l *LevelOrder, over int) float64 {
	top := b.Levels[l.Level].Top
	for _, s := range l.Pots {
		pot := &b.Pots[s.Pot]
		under := over < 0
		if over >= 0 {
			skeleton, r := plan(pot)
			for _, i := range b.Levels[over].Shelves {
				under = under || b.Shelves[i].Outline.SignedDistance(skeleton) < r
			}
		}
		if under {
			top = math.Max(top, pot.Solid.Top())
		}
	}
	return top
}

// eventsOf is the same as pieces put in one by one, for the balance.
func eventsOf(b *stacks.Built, o *Order) []statics.Event {
	var events []statics.Event
	for _, a := range o.Acts {
		switch a.Kind {
		case ActPosts:
			for _, i := range a.Posts {
				events = append(events, statics.Event{Kind: statics.SetPost, Index: i})
			}
		case ActShelf:
			events = append(events, statics.Event{Kind: statics.SetShelf, Index: a.Shelf})
		case ActPot, ActCones:
			events = append(events, statics.Event{Kind: statics.SetPot, Index: o.Levels[a.Order].Pots[a.Step].Pot})
		case ActPattern:
			l := &o.Levels[a.Order]
			for _, i := range l.Patterns[a.Pattern].Steps {
				events = append(events, statics.Event{Kind: statics.SetPot, Index: l.Pots[i].Pot})
			}
		}
	}
	return events
}
