package order

import (
	"math"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout/stacks"
)

// fewest is how many alike pots in a row are told as a series.
const fewest = 3

// patternsOf finds the series of a level: pots of one row, set one after the
// other in one zone, round the edge each beside the one before. It notes the
// series in the steps.
func patternsOf(b *stacks.Built, l *LevelOrder, center plane.Vec) []Pattern {
	var out []Pattern
	for first := 0; first < len(l.Pots); {
		last, way := first, 0
		for last+1 < len(l.Pots) {
			turn, ok := follows(b, &l.Pots[last], &l.Pots[last+1], center)
			if !ok || (way != 0 && turn != way) {
				break
			}
			way = turn
			last++
		}
		if last-first+1 < fewest {
			// The last of a run too short may begin a series the other way round.
			first = max(first+1, last)
			continue
		}
		p := Pattern{Zone: l.Pots[first].Zone, Ware: b.Pots[l.Pots[first].Pot].Pot.Ware, Clockwise: way > 0}
		for i := first; i <= last; i++ {
			l.Pots[i].Pattern = len(out)
			p.Steps = append(p.Steps, i)
		}
		describe(b, l, &p, center)
		out = append(out, p)
		first = last + 1
	}
	return out
}

// follows tells whether step c carries on a series from step a, and which way
// round: 1 clockwise, -1 the other way, 0 where it does not matter.
func follows(b *stacks.Built, a, c *Step, center plane.Vec) (turn int, ok bool) {
	pa, pc := &b.Pots[a.Pot], &b.Pots[c.Pot]
	if a.Cones || c.Cones || a.Zone != c.Zone || pa.Kind != pc.Kind {
		return 0, false
	}
	if a.Zone != Ring {
		return 0, true
	}
	on := plane.NormalTurn(plane.Bearing(plane.Sub(pc.At, center)) - plane.Bearing(plane.Sub(pa.At, center)))
	switch {
	case on > 0 && on <= 100:
		return 1, true
	case on >= 260:
		return -1, true
	}
	return 0, false
}

// describe tells where a series runs and how its handles point.
func describe(b *stacks.Built, l *LevelOrder, p *Pattern, center plane.Vec) {
	first, last := &l.Pots[p.Steps[0]], &l.Pots[p.Steps[len(p.Steps)-1]]
	p.First, p.Last = first.Number, last.Number
	p.FromClock, p.ToClock = first.Clock, last.Clock
	p.GapMin = math.Inf(1)
	note := func(gap float64) { p.GapMin, p.GapMax = math.Min(p.GapMin, gap), math.Max(p.GapMax, gap) }
	for _, i := range p.Steps {
		for _, n := range l.Pots[i].Neighbours {
			if n.Kind == NearPot || n.Kind == NearPost {
				note(n.Gap)
				break
			}
		}
	}
	if math.IsInf(p.GapMin, 1) { // none is near enough to a pot or post to be told by it
		for _, i := range p.Steps[1:] {
			note(gapBefore(b, l, i))
		}
	}
	if p.Zone == Ring {
		p.From, p.By, p.To = letters(b, l, p, center)
	}
	p.Handles, p.Clock = handles(b, l, p, center)
}

// gapBefore is the gap of step i to the nearest pot set before it, mm.
func gapBefore(b *stacks.Built, l *LevelOrder, i int) float64 {
	least := math.Inf(1)
	for j := range i {
		gap, _ := solid.Gap(&b.Pots[l.Pots[j].Pot].Solid, &b.Pots[l.Pots[i].Pot].Solid)
		least = math.Min(least, gap)
	}
	return least
}

// beside is how far round, degrees, a post may stand before the first pot of a
// ring, or past the last, and still name its end.
const beside = 45

// letters names the posts at which a ring starts and ends and those it passes.
func letters(b *stacks.Built, l *LevelOrder, p *Pattern, center plane.Vec) (from string, by []string, to string) {
	way := 1.0
	if !p.Clockwise {
		way = -1
	}
	start := plane.Bearing(plane.Sub(b.Pots[l.Pots[p.Steps[0]].Pot].At, center))
	end := plane.Bearing(plane.Sub(b.Pots[l.Pots[p.Steps[len(p.Steps)-1]].Pot].At, center))
	along := func(bearing float64) float64 { return plane.NormalTurn(float64(way * (bearing - start))) }
	length := along(end)
	type passed struct {
		letter string
		at     float64
	}
	var pass []passed
	before, past := beside+1.0, beside+1.0
	for _, post := range l.PostsOn {
		at := along(plane.Bearing(plane.Sub(b.Posts[post.Post].At, center)))
		if back := 360 - at; back <= beside && back < before {
			from, before = post.Letter, back
		}
		if on := at - length; on >= 0 && on <= beside && on < past {
			to, past = post.Letter, on
		}
		if at > 0 && at < length {
			pass = append(pass, passed{post.Letter, at})
		}
	}
	for len(pass) > 0 {
		k := 0
		for i := range pass {
			if pass[i].at < pass[k].at {
				k = i
			}
		}
		by = append(by, pass[k].letter)
		pass = append(pass[:k], pass[k+1:]...)
	}
	return from, by, to
}

// handles tells how the handles of a series point, if they agree.
func handles(b *stacks.Built, l *LevelOrder, p *Pattern, center plane.Vec) (HandleWay, float64) {
	n := len(p.Steps)
	way := func(from, to plane.Vec) float64 { return plane.Bearing(plane.Sub(to, from)) }
	at := func(k int) plane.Vec { return b.Pots[l.Pots[p.Steps[k]].Pot].At }
	var before, after, in, out, one int
	first := l.Pots[p.Steps[0]].Handle
	for k, i := range p.Steps {
		s := &l.Pots[i]
		if !s.HasHandle {
			return NoHandles, 0
		}
		if k > 0 && between(s.Handle, way(at(k), at(k-1))) <= 30 {
			before++
		}
		if k+1 < n && between(s.Handle, way(at(k), at(k+1))) <= 30 {
			after++
		}
		inward := way(at(k), center)
		if between(s.Handle, inward) <= 40 {
			in++
		}
		if between(s.Handle, inward) >= 140 {
			out++
		}
		if between(s.Handle, first) <= 15 {
			one++
		}
	}
	switch {
	case before == n-1:
		return HandlesToBefore, 0
	case after == n-1:
		return HandlesToAfter, 0
	case one == n:
		return HandlesOneWay, first
	case in == n:
		return HandlesInward, 0
	case out == n:
		return HandlesOutward, 0
	}
	return HandlesAsDrawn, 0
}
