package planner

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/measure"
)

// waits tells of every row with pots left over why they wait.
func (s *Search) waits(best *candidate) []Wait {
	var out []Wait
	set := map[string]int{}
	for _, t := range best.towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				set[p.Pot.Ware]++
			}
		}
	}
	for k, kd := range s.context.kinds {
		if kd.ware == nil {
			if set[kd.name] == 0 {
				out = append(out, Wait{Ware: kd.name, Count: 1, Reason: "No spyhole shows it clear of the wall and the posts."})
			}
			continue
		}
		n := kd.ware.Count - set[kd.name]
		if n <= 0 {
			continue
		}
		w := Wait{Ware: kd.name, Count: n, Reason: s.whyWaits(k, n, best)}
		out = append(out, w)
	}
	return out
}

// stands begins a sentence on the height of n pots.
func stands(n int) string {
	if n == 1 {
		return "It stands"
	}
	return "They stand"
}

// whyWaits is the reason that pots of a kind have no place in a plan.
func (s *Search) whyWaits(k, n int, best *candidate) string {
	c := s.context
	kd := c.kinds[k]
	for _, name := range c.load.Wishes.LeaveOut {
		if name == kd.name {
			return "Left out as wished."
		}
	}
	if reason, ok := s.barred[k]; ok {
		return reason
	}
	if reason, ok := s.unstood[k]; ok {
		return reason
	}
	say := func(mm float64, r measure.Round) string { return measure.FormatLength(mm, c.load.Units, r) }
	tallest, fits, left := 0.0, 0, 0
	for _, st := range best.frame.storeys {
		tallest = max(tallest, st.tallest())
		if st.fits(kd.body.Height) {
			fits++
		}
		if c.takes(st, k) {
			left++
		}
	}
	switch {
	case fits == 0 && kd.body.Height+c.limits[layout.RoomToLid].Plan > c.load.Kiln.Height:
		return fmt.Sprintf("%s %s high, and the kiln takes %s.", stands(n), say(kd.body.Height, measure.Up),
			say(c.load.Kiln.Height-c.limits[layout.RoomToLid].Plan, measure.Down))
	case fits == 0:
		return fmt.Sprintf("%s %s high, and the tallest level takes %s.", stands(n), say(kd.body.Height, measure.Up), say(tallest, measure.Down))
	}
	wide := true
	for _, st := range best.frame.storeys {
		if st.fits(kd.body.Height) && s.capacity(st.site, k, st.deep) > 0 {
			wide = false
		}
	}
	gap := say(c.limits[layout.PotToPot].Plan, measure.Up)
	if wide {
		return fmt.Sprintf("No shelf that takes its height is wide enough for it at %s to the edge and the posts.",
			say(c.limits[layout.FootToEdge].Plan, measure.Up))
	}
	switch {
	case left == 0:
		return fmt.Sprintf("The wishes keep %s off every level that takes %s.", them(n), say(kd.body.Height, measure.Up))
	case left == 1 && fits > 1:
		return fmt.Sprintf("The one level that takes %s and that the wishes leave is full at a gap of %s.", say(kd.body.Height, measure.Up), gap)
	case left < fits:
		return fmt.Sprintf("The %d levels that take %s and that the wishes leave are full at a gap of %s.", left, say(kd.body.Height, measure.Up), gap)
	case fits == 1:
		return fmt.Sprintf("The one level that takes %s is full at a gap of %s.", say(kd.body.Height, measure.Up), gap)
	}
	return fmt.Sprintf("The %d levels that take %s are full at a gap of %s.", fits, say(kd.body.Height, measure.Up), gap)
}
