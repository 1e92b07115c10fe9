package session

import (
	"errors"
	"fmt"
	"reflect"
	"strings"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// mostWays is how many plans lie beside a load at most.
const mostWays = 6

// ways are the plans that lie beside the load.
type ways struct {
	asked *layout.Load // the load that was planned, without its towers
	bound *LaidBound
	price *LaidPrice
	costs []LaidWish // of the wishes, for the plan that was told
	plans []wayLaid
	close *layout.Load   // the closer arrangement
	fresh []layout.Tower // what stood when a price came without plans: it is of that
}

// wayLaid is one plan, worked out when it is looked at.
type wayLaid struct {
	laid   LaidPlan
	load   *layout.Load
	built  *stacks.Built
	report clearance.Report
}

// Lay puts what a run of the planner found beside the load, or adds to it. The
// load is not changed. It refuses arrangements that have no meaning.
func (s *Session) Lay(l Laid) (*State, error) {
	w := s.ways
	if l.Text != "" {
		asked, err := document.Parse(s.name, []byte(l.Text))
		if err != nil {
			return nil, err
		}
		w = &ways{asked: asked}
	}
	if w == nil {
		return nil, errors.New("no load was told for which these plans are")
	}
	next := *w
	if l.Bound != nil {
		next.bound = l.Bound
	}
	if l.Price != nil {
		next.price, next.close, next.fresh = l.Price, nil, s.now.Towers
		if l.Price.Edit != nil {
			load, err := next.arranged(l.Price.Edit)
			if err != nil {
				return nil, err
			}
			next.close = load
		}
	}
	if l.Wishes != nil {
		next.costs = l.Wishes
	}
	if len(l.Plans) > 0 {
		next.plans = nil
		for i := range l.Plans[:min(len(l.Plans), mostWays)] {
			load, err := next.arranged(&l.Plans[i].Edit)
			if err != nil {
				return nil, err
			}
			b, err := stacks.Build(load)
			if err != nil {
				return nil, err
			}
			next.plans = append(next.plans, wayLaid{laid: l.Plans[i], load: load, built: b})
		}
	}
	s.ways, s.seen.state = &next, nil
	return s.State(), nil
}

// arranged is the load that was planned with an arrangement, as its document
// reads.
func (w *ways) arranged(e *layout.Edit) (*layout.Load, error) {
	if e.Act != layout.Arrange {
		return nil, errors.New("a plan is an arrangement of the whole kiln")
	}
	next, err := edit.Apply(w.asked, *e)
	if err != nil {
		return nil, err
	}
	next, err = document.Parse("", document.Format(next))
	return next, bare(err)
}

// stand is which of the plans stands in the kiln; -1: none. Locks are of no
// account.
func (w *ways) stand(l *layout.Load) int {
	for i := range w.plans {
		if sameTowers(w.plans[i].load.Towers, l.Towers) {
			return i
		}
	}
	return -1
}

// priced tells whether an arrangement is the one whose price is known.
func (w *ways) priced(l *layout.Load) bool {
	for i := range w.plans {
		if w.plans[i].laid.Told {
			return sameTowers(w.plans[i].load.Towers, l.Towers)
		}
	}
	return sameTowers(w.fresh, l.Towers)
}

// sameTowers tells whether two arrangements are one but for locks.
func sameTowers(a, b []layout.Tower) bool {
	return reflect.DeepEqual(unlocked(a), unlocked(b))
}

func unlocked(t []layout.Tower) []layout.Tower {
	t = layout.CloneTowers(t)
	for i := range t {
		for v := range t[i].Levels {
			l := &t[i].Levels[v]
			l.Locked = false
			for k := range l.Set {
				l.Set[k].Locked = false
			}
		}
	}
	return t
}

// sameAsked tells whether two loads ask the same of a planner: all but what
// stands where, and how the load is called and told.
func sameAsked(a, b *layout.Load) bool {
	bare := func(l *layout.Load) *layout.Load {
		c := *l
		c.Towers, c.Accepted, c.Title, c.Units = nil, nil, "", ""
		return &c
	}
	return reflect.DeepEqual(bare(a), bare(b))
}

// TakeWay makes one of the plans, counted from 0, the load: one edit. It
// refuses a plan that moves what is locked.
func (s *Session) TakeWay(i int) (*State, error) {
	if s.ways == nil || i < 0 || i >= len(s.ways.plans) {
		return nil, errors.New("there is no such plan beside the load")
	}
	if s.ways.stand(s.now) == i {
		s.putBack()
		return s.State(), nil // it stands already
	}
	return s.takeTowers(s.ways.plans[i].load, "take plan "+fmt.Sprint(i+1))
}

// ShowCloser makes the closer arrangement the load: one edit, whose tight gaps
// are found as watches.
func (s *Session) ShowCloser() (*State, error) {
	if s.ways == nil || s.ways.close == nil {
		return nil, errors.New("closer gaps let nothing more in")
	}
	return s.takeTowers(s.ways.close, "show the closer gaps")
}

// takeTowers takes over an arrangement and keeps the locks.
func (s *Session) takeTowers(from *layout.Load, what string) (*State, error) {
	if !sameAsked(s.ways.asked, s.now) {
		return nil, errors.New("the plans were made for the load as it was; plan it again")
	}
	if why := s.moves(from); why != "" {
		return nil, errors.New(why)
	}
	s.putBack()
	towers := layout.CloneTowers(from.Towers)
	keepLocks(s.now.Towers, towers)
	next, err := s.after([]layout.Edit{{Act: layout.Arrange, Towers: towers}})
	if err != nil {
		return nil, err
	}
	s.offer = nil
	s.step(next, what)
	return s.State(), nil
}

// moves tells what of the load is locked or stands and would be moved by an
// arrangement; "" when nothing.
func (s *Session) moves(to *layout.Load) string {
	for i := range s.now.Towers {
		t := &s.now.Towers[i]
		other := to.Tower(t.Name)
		for v := range t.Levels {
			l := &t.Levels[v]
			var there *layout.Level
			if other != nil && v < len(other.Levels) {
				there = &other.Levels[v]
			}
			switch {
			case l.Standing && !sameStanding(l, there):
				return s.levelSaid(t.Name, v+1) + " stands in the kiln already, and this plan changes it"
			case l.Locked && !sameStanding(l, there):
				return s.levelSaid(t.Name, v+1) + " is locked, and this plan changes it; unlock it first"
			}
			for k := range l.Set {
				if p := &l.Set[k]; p.Locked && !(there != nil && hasPlacement(there, p)) {
					return p.Pot.String() + " is locked, and this plan moves it; unlock it first"
				}
			}
		}
	}
	return ""
}

// sameStanding tells whether a level stands in another arrangement as it does.
func sameStanding(l, there *layout.Level) bool {
	if there == nil || !reflect.DeepEqual(l.Shelves, there.Shelves) || !reflect.DeepEqual(l.Posts, there.Posts) {
		return false
	}
	for k := range l.Set {
		if !hasPlacement(there, &l.Set[k]) {
			return false
		}
	}
	return len(l.Set) == len(there.Set) || !l.Standing
}

func hasPlacement(l *layout.Level, p *layout.Placement) bool {
	for _, q := range l.Set {
		if q.Pot == p.Pot && q.At == p.At && q.Turn == p.Turn {
			return true
		}
	}
	return false
}

// keepLocks locks in new towers what is locked in the old ones; moves has found
// it there.
func keepLocks(old, new []layout.Tower) {
	locked := map[string]bool{}
	levels := map[string]bool{}
	key := func(t string, v int) string { return fmt.Sprint(strings.ToLower(t), ":", v) }
	for i := range old {
		for v := range old[i].Levels {
			levels[key(old[i].Name, v)] = old[i].Levels[v].Locked
			for _, p := range old[i].Levels[v].Set {
				locked[p.Pot.String()] = p.Locked
			}
		}
	}
	for i := range new {
		for v := range new[i].Levels {
			l := &new[i].Levels[v]
			l.Locked = levels[key(new[i].Name, v)]
			for k := range l.Set {
				l.Set[k].Locked = locked[l.Set[k].Pot.String()]
			}
		}
	}
}
