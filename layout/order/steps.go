package order

import (
	"sort"

	"threepost/geometry/plane"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// postsOn lists the posts that stand on a level, by letter.
func postsOn(b *stacks.Built, level int, standing [][]int) []PostStep {
	var out []PostStep
	for _, s := range b.Levels[level].Shelves {
		for _, i := range standing[s] {
			p := &b.Posts[i]
			clock := plane.Bearing(p.At)
			out = append(out, PostStep{
				Post: i, Letter: p.Letter, Clock: clock, Carries: p.Level,
				Inset: ray(&b.Shelves[s].Outline, p.At, clock),
			})
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, c := out[i].Letter, out[j].Letter
		return len(a) < len(c) || (len(a) == len(c) && a < c)
	})
	return out
}

// levelOrder works out one level.
func levelOrder(b *stacks.Built, level int, standing [][]int) (LevelOrder, []Cycle) {
	r := relationOf(b, level)
	like := likingOf(b, level)
	out := LevelOrder{Level: level, PostsOn: postsOn(b, level, standing), Worst: -1}
	setting := settingOf(b, level, r, like)
	look := newLooker(b, level, out.PostsOn)
	place := map[int]int{} // into the level's list
	for i, p := range r.pots {
		place[p] = i
	}
	number := map[int]int{}
	count := 0
	for _, p := range setting {
		s := stepOf(b, p, look, number)
		s.Zone = like.zone[place[p]]
		for _, j := range r.first[place[p]] {
			s.After = append(s.After, r.pots[j])
		}
		if !s.Cones {
			count++
			s.Number = count
		}
		number[p] = s.Number
		out.Pots = append(out.Pots, s)
	}
	out.Patterns = patternsOf(b, &out, like.center)
	m := statics.LevelLoading(b, level, setting)
	out.Margin, out.Tips = m.Margin, m.Tips
	if m.Step >= 0 {
		out.Worst = m.After.Index
	}
	return out, r.cycles(b, level)
}

// stepOf describes where a pot goes, beside those already standing.
func stepOf(b *stacks.Built, p int, look *looker, number map[int]int) Step {
	pot := &b.Pots[p]
	s := Step{
		Pot: p, Cones: pot.Cones != nil, Tall: tallNarrow(b.Load, pot),
		Clock: plane.Bearing(pot.At), Pattern: -1, HandleTo: -1,
		Neighbours: look.of(p, number),
	}
	if pot.Shelf >= 0 {
		o := &b.Shelves[pot.Shelf].Outline
		s.Out = outward(o, pot, plane.Vec{})
		s.EdgeGap, s.EdgeToward = nearestEdge(o, pot)
	}
	if bearing, spout, ok := handleOf(pot); ok {
		s.HasHandle, s.Spout, s.Handle = true, spout, bearing
		s.HandleTo = look.handleTo(p, bearing)
	}
	return s
}
