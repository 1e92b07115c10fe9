package planner

import "threepost/layout"

// restOfKept is what of a load stays, from the floor up, for planning the levels
// over it anew: every tower up to its last level that stands in the kiln, is
// locked or has a locked pot, and what that stands on. Lower levels that are not
// locked keep shelf and posts, and their pots are set anew. It is nil where that
// much cannot stand by itself.
func restOfKept(c *context) *rest {
	stands := Stands{Towers: make([]TowerStands, len(c.load.Towers)), Pots: map[layout.Pot]bool{}}
	for i, t := range c.load.Towers {
		for j, v := range t.Levels {
			whole := v.Locked || v.Standing
			if whole {
				stands.Towers[i].Levels = j + 1
			}
			for _, p := range v.Set {
				if whole || p.Locked {
					stands.Pots[p.Pot] = true
					stands.Towers[i].Levels = j + 1
				}
			}
		}
	}
	stands.support(c.load)
	r := &rest{of: c.load, stands: stands, excused: map[string]bool{}, planning: true}
	if r.read() != nil {
		return nil
	}
	clear(r.excused) // a problem of what stays is for the person to mend
	c.left = r.left
	return r
}

// support adds the levels that towers which stand stand on.
func (st *Stands) support(l *layout.Load) {
	for changed := true; changed; {
		changed = false
		for i := range l.Towers {
			if st.Towers[i].Levels == 0 {
				continue
			}
			for _, on := range l.Towers[i].On {
				for k := range l.Towers {
					if l.Towers[k].Name == on.Tower && st.Towers[k].Levels < min(on.Level, len(l.Towers[k].Levels)) {
						st.Towers[k].Levels = min(on.Level, len(l.Towers[k].Levels))
						changed = true
					}
				}
			}
		}
	}
}

// planOver goes on from a refill of what stays: the levels over it are planned
// anew on the furniture that is left. Either may be the better plan; where the
// load as it is arranged passes no check, this may be the only one.
func (s *Search) planOver() {
	refused := s.refused
	s.surveyRest()
	s.tasks = append(s.tasks, func() {
		s.tasks = append(s.tasks, func() { // after the designs that the survey queued
			if s.refused = refused; s.best != nil {
				s.refused = ""
			}
		})
	})
}
