package firings

import (
	"sort"

	"threepost/layout"
)

// share is a trial with the furniture that is its own while others burn.
type share struct {
	*trial
	box layout.Furniture
}

// roundTogether makes the firings of all kilns that burn at the same time. A
// shared box is divided in several ways; the one that lets in most holds.
func (s *splitter) roundTogether() bool {
	var best []share
	for _, try := range s.divisions() {
		now := try()
		if s.stopped {
			return false
		}
		if better(now, best) {
			best = now
		}
	}
	round := 1
	for _, m := range s.firings {
		round = max(round, m.round+1)
	}
	for _, h := range best {
		if len(s.firings) == s.asked.Most {
			break
		}
		h.load.Furniture = h.box
		s.take(h.trial, h.box, round)
	}
	return len(best) > 0
}

// better compares rounds: must-go pots, then value.
func better(a, b []share) bool {
	sum := func(all []share) (musts, value float64) {
		for _, h := range all {
			musts += h.musts
			value += h.value
		}
		return musts, value
	}
	ma, va := sum(a)
	mb, vb := sum(b)
	if differ(ma, mb) {
		return ma > mb
	}
	return va > vb+1e-9
}

// divisions are the ways to give the kilns of a round their furniture: each its
// own; or of a shared box the larger kiln first and the smaller what is left,
// the other way round, and by their room.
func (s *splitter) divisions() []func() []share {
	large := make([]int, len(s.studio.Kilns))
	for k := range large {
		large[k] = k
	}
	sort.SliceStable(large, func(i, j int) bool { return s.litres(large[i]) > s.litres(large[j]) })
	if !s.studio.Share {
		return []func() []share{func() []share { return s.inTurn(large, nil) }}
	}
	small := make([]int, 0, len(large))
	for i := len(large) - 1; i >= 0; i-- {
		small = append(small, large[i])
	}
	return []func() []share{
		func() []share { return s.inTurn(large, s.greedy) },
		func() []share { return s.inTurn(small, s.greedy) },
		func() []share { return s.inTurn(large, s.byRoom) },
	}
}

// giving is what of a shared box a kiln may use, and what is left for those
// after it once it is planned.
type giving func(kiln int, after []int, left layout.Furniture) (box layout.Furniture, rest func(*trial) (own, left layout.Furniture))

// greedy gives a kiln the whole box and the next what is left of it.
func (s *splitter) greedy(_ int, after []int, left layout.Furniture) (layout.Furniture, func(*trial) (own, rest layout.Furniture)) {
	return left, func(t *trial) (own, rest layout.Furniture) {
		if len(after) == 0 {
			return left, layout.Furniture{}
		}
		return taken(left, t.used), without(left, t.used)
	}
}

// byRoom gives a kiln the part of the box that its room is of that of all kilns
// that have none yet.
func (s *splitter) byRoom(k int, after []int, left layout.Furniture) (layout.Furniture, func(*trial) (own, rest layout.Furniture)) {
	all := s.litres(k)
	for _, o := range after {
		all += s.litres(o)
	}
	own, rest := left, layout.Furniture{}
	if all > 0 {
		own, rest = shareOf(left, s.litres(k)/all)
	}
	return own, func(*trial) (layout.Furniture, layout.Furniture) { return own, rest }
}

// inTurn plans the kilns one after another as if all were fired at once: what
// one holds the next does not. It leaves the waiting list as it was.
func (s *splitter) inTurn(order []int, give giving) []share {
	var out []share
	left := s.box
	for i, k := range order {
		busy := map[int]bool{}
		for o := range s.studio.Kilns {
			busy[o] = o != k
		}
		box := s.studio.Kilns[k].Load.Furniture
		var rest func(*trial) (layout.Furniture, layout.Furniture)
		if give != nil {
			box, rest = give(k, order[i+1:], left)
		}
		t := s.next(busy, func(int) layout.Furniture { return box }, false)
		if s.stopped {
			return nil
		}
		if t == nil || t.used == nil {
			continue // it stays cold, and what it might have used is for the others
		}
		h := share{t, box}
		if rest != nil {
			h.box, left = rest(t)
		}
		for lot, n := range t.set {
			s.lots[lot].left -= n
		}
		out = append(out, h)
	}
	for _, h := range out {
		for lot, n := range h.set {
			s.lots[lot].left += n
		}
	}
	return out
}
