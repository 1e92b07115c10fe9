package session

import (
	"errors"
	"fmt"
	"math"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// lift is a shelf in hand.
type lift struct {
	level int // into Built.Levels: whose shelf it is
	under int // the level its posts stand on, or -1: the floor
	stops []stop
	at    int
	was   int
	stock *stacks.Stock // what is left when its own posts are out of the kiln
	posts *stacks.Catalogue
}

// stop is a height that a lifted shelf can have, and what the load is then.
type stop struct {
	height stacks.Height
	rise   float64
	report clearance.Report
	built  *stacks.Built // nil where it cannot be built
	grade  layout.Grade
	word   string // of the gravest finding that is new there
	mended bool   // the mend was looked for
	mend   *Act
}

// mostStops is how many stops are told: those nearest to where the shelf hangs.
const mostStops = 16

// same is how near two heights count as one, mm.
const same = 0.05

// Lift takes the shelf of a level (from 1) in hand, with everything over it.
// Its stops are the heights that its posts can have from what the other levels
// leave in the box. Whatever was in hand is put back first.
func (s *Session) Lift(tower string, level int) (*Lifted, error) {
	s.putBack()
	b, refused := s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	v := s.levelIndex(tower, level)
	if v < 0 {
		return nil, fmt.Errorf("there is no level %d of %q", level, tower)
	}
	n := len(b.Levels[v].Posts)
	if n == 0 {
		return nil, fmt.Errorf("no post stands under the shelf of %s", s.Checker().LevelName(v))
	}
	l := &lift{level: v, under: levelUnder(b, v), stock: stacks.NewStock(&s.now.Furniture)}
	l.stock.Use(b)
	for _, p := range b.Levels[v].Posts {
		l.stock.Return(b.Posts[p].MakeUp, 1)
	}
	l.posts = stacks.NewCatalogue(&s.now.Furniture, stacks.Bounds{Pieces: int(s.now.Limits(layout.Pieces).Problem), UpTo: b.Height})
	s.stops(l, b, n)
	s.lift = l
	return s.tellLift(), nil
}

// levelUnder is the level that the posts of a level stand on, or -1.
func levelUnder(b *stacks.Built, level int) int {
	for i := range b.Levels {
		for _, up := range b.Levels[i].Above {
			if up != level {
				continue
			}
			for _, p := range b.Levels[level].Posts {
				if standsOnLevel(b, p, i) {
					return i
				}
			}
		}
	}
	return -1
}

// tallOf is the height of a level's tallest post by real heights, mm.
func tallOf(b *stacks.Built, level int) float64 {
	h := 0.0
	for _, p := range b.Levels[level].Posts {
		h = math.Max(h, b.Posts[p].Top-b.Posts[p].Bottom)
	}
	return h
}

// carried are the levels that rise with a level: itself and all that stand on
// it.
func carried(b *stacks.Built, level int) map[int]bool {
	out := map[int]bool{level: true}
	for more := true; more; {
		more = false
		for i := range b.Levels {
			v := &b.Levels[i]
			if out[i] {
				continue
			}
			up := false
			if v.Number > 1 {
				for k := range b.Levels {
					up = up || out[k] && b.Levels[k].Tower == v.Tower && b.Levels[k].Number == v.Number-1
				}
			} else {
				for _, on := range b.Towers[v.Tower].On {
					up = up || out[on]
				}
			}
			if up {
				out[i], more = true, true
			}
		}
	}
	return out
}

// stops lists the heights a shelf can have: all that keep every limit of room
// by figures alone, the next beyond them on each side, and where it hangs; then
// each is judged by the whole check.
func (s *Session) stops(l *lift, b *stacks.Built, n int) {
	now := tallOf(b, l.level)
	above, lid := math.Inf(1), math.Inf(1)
	if l.under >= 0 {
		if h := roomsAbove(b)[l.under]; h.any && !h.lid {
			above = h.mm
		}
	}
	up := carried(b, l.level)
	for i := range b.Pots {
		if p := &b.Pots[i]; up[p.Level] {
			lid = math.Min(lid, b.Height-p.Solid.Max[2])
		}
	}
	for i := range b.Shelves {
		if up[b.Shelves[i].Level] {
			lid = math.Min(lid, b.Height-b.Shelves[i].Top)
		}
	}
	var all []stacks.Height
	hangs := -1
	for _, h := range l.posts.Heights(n, l.stock) {
		if math.Abs(h.Real-now) < same {
			hangs = len(all)
		}
		all = append(all, h)
	}
	if hangs < 0 { // made of more than the catalogue knows, or of more than is owned
		own := stacks.Height{Real: now, Posts: postsOf(b, b.Levels[l.level].Posts)}
		for hangs = 0; hangs < len(all) && all[hangs].Real < now; hangs++ {
		}
		all = append(all[:hangs:hangs], append([]stacks.Height{own}, all[hangs:]...)...)
	} else {
		all[hangs].Posts = postsOf(b, b.Levels[l.level].Posts) // as it hangs, not as it might
	}
	fits := func(h stacks.Height) bool {
		rise := h.Real - now
		return above+rise >= s.now.Limits(layout.RoomAbove).Problem-1e-6 && lid-rise >= s.now.Limits(layout.RoomToLid).Problem-1e-6
	}
	lo, hi := hangs, hangs
	for lo > 0 && fits(all[lo]) {
		lo--
	}
	for hi < len(all)-1 && fits(all[hi]) {
		hi++
	}
	for hi-lo+1 > mostStops {
		if hangs-lo > hi-hangs {
			lo++
		} else {
			hi--
		}
	}
	for i := hi; i >= lo; i-- {
		st := stop{height: all[i], rise: all[i].Real - now}
		s.judge(l, &st, i == hangs)
		if i == hangs {
			l.at, l.was = len(l.stops), len(l.stops)
			st.rise = 0
		}
		l.stops = append(l.stops, st)
	}
}

// judge builds and checks the load with the shelf at a stop.
func (s *Session) judge(l *lift, st *stop, hangs bool) {
	if hangs {
		st.built, st.report = s.seen.built, s.Report()
		return
	}
	next, err := edit.Apply(s.now, s.postsEdit(l.level, st.height.Posts))
	if err == nil {
		st.built, err = stacks.Build(next)
	}
	if err != nil {
		st.grade, st.word = layout.Problem, "cannot stand"
		return
	}
	st.report = clearance.Check(st.built)
	before := s.Report()
	for i := range st.report.Findings {
		f := &st.report.Findings[i]
		if old := before.Find(f.Key); f.Grade > st.grade && f.Accepted == "" && (old == nil || old.Grade < f.Grade || worse(f, old)) {
			st.grade, st.word = f.Grade, s.stopWord(f)
		}
	}
}

// worse tells whether a figure is farther from what it missed than before.
func worse(f, old *layout.Finding) bool {
	return math.Abs(f.Have-f.Need) > math.Abs(old.Have-old.Need)+0.05
}

// stopWord says in a few words why a stop does not clear.
func (s *Session) stopWord(f *layout.Finding) string {
	switch f.Rule {
	case layout.RoomAbove:
		if f.Have < 0 {
			return "too low by " + s.up(-f.Have)
		}
		return s.down(f.Have) + " above"
	case layout.RoomToLid, layout.InsideKiln:
		if f.Grade == layout.Problem {
			return s.lidWord() + " stays open"
		}
		return s.down(f.Have) + " to the " + s.lidWord()
	case layout.ProbeLevel, layout.ToProbe:
		return "at the probe"
	case layout.InSight:
		return "hides the cones"
	}
	return string(f.Rule)
}

// postsEdit is the edit that gives a level other posts, one make-up a post.
func (s *Session) postsEdit(level int, posts []layout.MakeUp) layout.Edit {
	return s.mending().mender.PostsEdit(level, posts)
}

// Stop moves the lifted shelf to a stop, by its place in Lifted.Stops.
func (s *Session) Stop(index int) (*Lifted, error) {
	switch {
	case s.lift == nil:
		return nil, errors.New("no shelf is in hand")
	case index < 0 || index >= len(s.lift.stops):
		return nil, fmt.Errorf("the shelf has %d stops", len(s.lift.stops))
	}
	s.lift.at = index
	return s.tellLift(), nil
}

// StopNear moves the lifted shelf to the stop whose posts are nearest to a
// height, mm.
func (s *Session) StopNear(height float64) (*Lifted, error) {
	if s.lift == nil {
		return nil, errors.New("no shelf is in hand")
	}
	best := s.lift.at
	for i := range s.lift.stops {
		if math.Abs(s.lift.stops[i].height.Real-height) < math.Abs(s.lift.stops[best].height.Real-height) {
			best = i
		}
	}
	return s.Stop(best)
}

// Put leaves the lifted shelf at its stop: one edit. Where it hung it changes
// nothing.
func (s *Session) Put() (*State, error) {
	l := s.lift
	if l == nil {
		return nil, errors.New("no shelf is in hand")
	}
	if l.at == l.was {
		s.putBack()
		return s.State(), nil
	}
	st := &l.stops[l.at]
	if st.built == nil {
		return nil, errors.New("nothing can stand up with the shelf there; take another stop")
	}
	e := s.postsEdit(l.level, st.height.Posts)
	way := onOff(st.rise > 0, "raise", "lower")
	return s.Apply([]layout.Edit{e}, way+" the shelf of "+s.Checker().LevelName(l.level)+" by "+measure.SayLengthTo(math.Abs(st.rise), s.now.Units, measure.Nearest, measure.PostGrain))
}

// LiftedBuilt is the load with the lifted shelf at its stop, for pictures; nil
// when no shelf is in hand or nothing can stand up so.
func (s *Session) LiftedBuilt() *stacks.Built {
	if s.lift == nil {
		return nil
	}
	return s.lift.stops[s.lift.at].built
}
