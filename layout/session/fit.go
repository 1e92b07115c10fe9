package session

import (
	"errors"
	"fmt"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/layout/warelist"
)

// Kinds of change at the kiln.
const (
	TooTall     = "taller"       // Pot or Ware, By
	TooWide     = "wider"        // Pot or Ware, By
	PostMissing = "post missing" // Height, Name, Count; spacers too
	ShelfOut    = "shelf out"    // Name, Count: cracked or missing, and not one that lies already
	LeaveOut    = "leave out"    // Pot
	OneMore     = "one more"     // Ware: a row, or a size in the short form
)

// Fitting looks for answers one after another, the cheapest first. None moves
// what stands already.
type Fitting struct {
	s       *Session
	kept    kept
	pot     string // the pot in question as it is called after the change; may be empty
	row     string // and the row it was of before
	change  []layout.Edit
	changed *layout.Load // the load after the change
	before  clearance.Report
	was     string           // room to the lid before
	queue   []func() []maybe // ways not tried yet
	ready   []maybe
	told    map[string]bool
	most    int          // pots that stand after the answer told that sets most
	shelf   bool         // shelves are short
	more    *layout.Ware // one more of this row is asked for
	work    int64        // units of the planner
}

// maybe is an answer that has yet to be checked.
type maybe struct {
	says, detail string
	edits        []layout.Edit // beyond the change itself
}

// kept is what stands in the kiln and stays.
type kept struct {
	pots    map[place]bool
	posts   map[int]bool // by level (into Built.Levels) whose shelf they carry
	shelves map[int]bool // by level
}

// place is where a pot stands; names may change hands between alike pots.
type place struct {
	level int
	at    plane.Vec
}

// planWork is the work of the planner's run, in its units: half a second on one
// core.
const planWork = 24000

// Fit looks for a way to go on at the kiln when something does not fit.
// standing is how many acts of the order (order.Order.Acts) are done: what
// stands stays. The load is not changed; each answer's edits include the change
// itself. It refuses, with a sentence, a change that means nothing.
func (s *Session) Fit(c Change, standing int) (*Fitting, error) {
	b, refused := s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	return s.fit(c, b, keptBy(b, s.Order(), standing))
}

// FitStanding is Fit where what stands is told level by level.
func (s *Session) FitStanding(c Change, stands planner.Stands) (*Fitting, error) {
	b, refused := s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	return s.fit(c, b, keptOf(b, stands))
}

func (s *Session) fit(c Change, b *stacks.Built, k kept) (*Fitting, error) {
	f := &Fitting{s: s, kept: k, before: s.Report(), told: map[string]bool{}}
	if mm, ok := roomToLid(b); ok {
		f.was = s.down(mm)
	}
	if err := f.prepare(c); err != nil {
		return nil, err
	}
	var err error
	if f.changed, err = edit.Apply(s.now, f.change...); err != nil {
		return nil, err
	}
	return f, nil
}

// keptBy is what stands after so many acts.
func keptBy(b *stacks.Built, o *order.Order, standing int) kept {
	k := kept{map[place]bool{}, map[int]bool{}, map[int]bool{}}
	pot := func(i int) { k.pots[place{b.Pots[i].Level, b.Pots[i].At}] = true }
	for i := range o.Acts {
		if i >= standing {
			break
		}
		a := &o.Acts[i]
		switch a.Kind {
		case order.ActPosts:
			k.posts[a.Carries] = true
		case order.ActShelf:
			k.shelves[a.Level] = true
		case order.ActPot, order.ActCones:
			pot(o.Levels[a.Order].Pots[a.Step].Pot)
		case order.ActPattern:
			l := &o.Levels[a.Order]
			for _, step := range l.Patterns[a.Pattern].Steps {
				pot(l.Pots[step].Pot)
			}
		}
	}
	return k
}

// prepare makes the edits of the change and the ways to go on.
func (f *Fitting) prepare(c Change) error {
	switch c.Kind {
	case TooTall, TooWide:
		by, err := measure.ParsePositive(c.By, f.s.now.Units)
		if err != nil {
			return err
		}
		if err := f.grow(c, by); err != nil {
			return err
		}
		f.queue = []func() []maybe{f.asItStands, f.mend, f.swap, f.without, f.plan}
	case PostMissing:
		if err := f.missing(c); err != nil {
			return err
		}
		f.queue = []func() []maybe{f.asItStands, f.mend, f.otherHeights, f.plan}
	case ShelfOut:
		if err := f.shelfOut(c); err != nil {
			return err
		}
		f.queue = []func() []maybe{f.asItStands, f.plan}
	case LeaveOut:
		if !f.s.stands(c.Pot) {
			return fmt.Errorf("%s is on the table", c.Pot)
		}
		f.pot = c.Pot
		f.queue = []func() []maybe{f.without, f.instead}
	case OneMore:
		return f.oneMore(c)
	default:
		return fmt.Errorf("%q is nothing that can be answered at the kiln", c.Kind)
	}
	return nil
}

// grow is the change of a pot or a row that is taller or wider than written. A
// pot of a row of several gets a row of its own, in its place.
func (f *Fitting) grow(c Change, by float64) error {
	name := c.Ware
	if c.Pot != "" {
		p, err := f.s.now.Find(c.Pot)
		if err != nil {
			return err
		}
		name = p.Ware
	}
	w, err := f.s.row(name)
	if err != nil {
		return err
	}
	f.row = w.Name
	grown, err := grownBy(*w, c.Kind, by)
	if err != nil {
		return err
	}
	if c.Pot == "" || w.Count == 1 {
		f.change = []layout.Edit{{Act: layout.SetWare, Ware: &grown}}
		if f.pot = c.Pot; f.pot == "" && w.Count == 1 {
			f.pot = name
		}
		return nil
	}
	return f.part(c, *w, grown)
}

// part takes one pot of a row out as a row of its own that stands where it
// stood. Its number goes to the last pot of the row, which is alike.
func (f *Fitting) part(c Change, w, grown layout.Ware) error {
	grown.Count = 1
	base := onOff(c.Kind == TooTall, "tall ", "wide ") + w.Name
	grown.Name = base
	for n := 2; f.s.now.WareOf(layout.Pot{Ware: grown.Name}) != nil || f.s.now.ConesOf(layout.Pot{Ware: grown.Name}) != nil; n++ {
		grown.Name = freeName(base, n)
	}
	f.pot = grown.Name
	p, _ := f.s.now.Find(c.Pot)
	i := f.s.potIndex(c.Pot)
	last := w.PotNumber(w.Count)
	fewer := w
	fewer.Count--
	if i < 0 { // it is on the table
		f.change = append(f.change, layout.Edit{Act: layout.SetWare, Ware: &grown})
		if p != last && f.s.stands(last.String()) {
			q := &f.s.seen.built.Pots[f.s.potIndex(last.String())]
			was, at, turn := standingOf(f.s.seen.built, f.s.potIndex(last.String())), q.At, q.Turn
			f.change = append(f.change, layout.Edit{Act: layout.Withdraw, Pot: last.String()},
				layout.Edit{Act: layout.SetPot, Pot: p.String(), Tower: was.tower, Level: was.number, At: &at, Turn: &turn})
		}
		f.change = append(f.change, layout.Edit{Act: layout.SetWare, Ware: &fewer})
		return nil
	}
	was := standingOf(f.s.seen.built, i)
	if p != last {
		if f.s.stands(last.String()) {
			f.change = append(f.change, layout.Edit{Act: layout.SwapPots, Pot: p.String(), Other: last.String()})
		} else {
			f.change = append(f.change, layout.Edit{Act: layout.Withdraw, Pot: p.String()})
		}
	}
	at, turn := was.at, was.turn
	f.change = append(f.change, layout.Edit{Act: layout.SetWare, Ware: &fewer}, layout.Edit{Act: layout.SetWare, Ware: &grown},
		layout.Edit{Act: layout.SetPot, Pot: grown.Name, Tower: was.tower, Level: was.number, At: &at, Turn: &turn})
	return nil
}

// grownBy is a row that is so much taller or wider.
func grownBy(w layout.Ware, kind string, by float64) (layout.Ware, error) {
	filled, _, err := silhouette.Fill(w)
	if err != nil {
		return w, err
	}
	switch {
	case kind == TooTall:
		setHeight(&w, filled.Height+by)
	case silhouette.Oblong(&w):
		w.Length, w.Width = filled.Length+by, filled.Width+by
	default:
		widen(&w, filled.Across+by)
	}
	_, _, err = silhouette.Fill(w)
	return w, err
}

// missing is the change of posts that are not in the box after all.
func (f *Fitting) missing(c Change) error {
	n := max(c.Count, 1)
	furniture := f.s.now.Furniture
	furniture.Posts = append([]layout.PostKind(nil), furniture.Posts...)
	k := furniture.Post(layout.Piece{Height: c.Height, Name: c.Name})
	if k == nil {
		return fmt.Errorf("the furniture lists no post of %s", f.s.postSaid(c.Height))
	}
	if n > k.Count {
		return fmt.Errorf("the furniture lists %d of %s, so %d cannot be missing", k.Count, f.s.postSaid(c.Height), n)
	}
	k.Count -= n
	f.change = []layout.Edit{{Act: layout.SetFurniture, Furniture: &furniture}}
	return nil
}

// oneMore looks for a place for one more pot without moving what stands.
func (f *Fitting) oneMore(c Change) error {
	text := c.Ware
	if text == "" {
		text = c.Pot
	}
	w, waits, err := f.s.onePot(strings.TrimSpace(text))
	if err != nil {
		return err
	}
	f.queue = []func() []maybe{func() []maybe {
		r, err := planner.RoomForOne(f.locked(f.s.now), w, jobSeed)
		if err != nil || !r.OK {
			return nil
		}
		edits := r.Edits
		if waits != "" {
			edits = withPot(edits, w, waits)
		}
		says := "Set " + article(w.Name) + " on " + theLevel(r.Level)
		if n := moved(edits) - 1; n > 0 {
			says += ", and move " + silhouette.Counted(n, "pot") + " a little"
		}
		return []maybe{{says: says, detail: warelist.Format(w, f.s.now.Units), edits: edits}}
	}, f.planOneMore}
	row := w
	f.more = &row
	if old := f.s.now.WareOf(layout.Pot{Ware: w.Name}); old != nil {
		row = *old
		if waits == "" {
			row.Count++
		}
	}
	return nil
}

// moved is how many pots edits set or move.
func moved(edits []layout.Edit) int {
	n := 0
	for _, e := range edits {
		if e.Act == layout.SetPot {
			n++
		}
	}
	return n
}

// theLevel says a level's bare name inside a sentence.
func theLevel(name string) string {
	switch name {
	case "bottom", "middle", "top":
		return "the " + name
	}
	return name
}

// locked is a load in which all that stands is locked, and every level that
// hands no longer reach.
func (f *Fitting) locked(l *layout.Load) *layout.Load {
	c := l.Clone()
	b := f.s.seen.built
	for i := range b.Levels {
		v := &b.Levels[i]
		level := &c.Towers[b.Towers[v.Tower].Index].Levels[v.Number-1]
		for _, up := range v.Above {
			level.Locked = level.Locked || f.kept.shelves[up]
		}
		for k := range level.Set {
			level.Set[k].Locked = level.Set[k].Locked || f.kept.pots[place{i, level.Set[k].At}]
		}
	}
	return c
}

// Next is the next answer: a way that was applied, built and checked, with no
// finding that was not there before, and that moves nothing that stands. False
// when there is none more.
func (f *Fitting) Next() (Answer, bool) {
	for {
		for len(f.ready) > 0 {
			m := f.ready[0]
			f.ready = f.ready[1:]
			if a, ok := f.answer(m); ok {
				return a, true
			}
		}
		if len(f.queue) == 0 {
			return Answer{}, false
		}
		way := f.queue[0]
		f.queue = f.queue[1:]
		f.ready = way()
	}
}

// answer checks a way and words it.
func (f *Fitting) answer(m maybe) (Answer, bool) {
	edits := append(append([]layout.Edit(nil), f.change...), m.edits...)
	if f.told[m.says] || f.touches(m.edits) {
		return Answer{}, false
	}
	b, r, ok := f.s.checked(edits)
	if !ok || !f.noWorse(r) {
		return Answer{}, false
	}
	after, err := f.s.after(edits)
	if err != nil {
		return Answer{}, false
	}
	same := fmt.Sprint(after.Towers) // another way to the same arrangement is none
	if f.told[same] {
		return Answer{}, false
	}
	f.told[m.says], f.told[same] = true, true
	a := Answer{Says: f.s.say(m.says), Detail: f.s.say(m.detail), Was: f.was, Edits: edits}
	if mm, ok := roomToLid(b); ok {
		a.Now = f.s.down(mm)
	}
	a.Set, _ = countPots(b.Load)
	f.most = max(f.most, a.Set)
	if a.Detail == "" && f.pot != "" {
		a.Detail = f.s.say(f.detail(b))
	}
	return a, true
}

// liesInTheMore tells whether a finding is of the one pot more that is asked
// for: of a bare size nobody knows the clay.
func (f *Fitting) liesInTheMore(n *layout.Finding) bool {
	for _, t := range n.Things {
		if f.more != nil && (t.Name == f.more.Name || t.Name == f.more.PotNumber(f.more.Count).String()) {
			return true
		}
	}
	return false
}

// noWorse tells whether a report has nothing that the load did not have before
// the change. The changed pot's new name makes new keys, so watches that lie in
// the ware itself are compared by rule.
func (f *Fitting) noWorse(r clearance.Report) bool {
	for i := range r.Findings {
		n := &r.Findings[i]
		if n.Grade == layout.Note || n.Accepted != "" {
			continue
		}
		old := f.before.Find(n.Key)
		if old != nil && old.Grade >= n.Grade && !worse(n, old) {
			continue
		}
		if ofTheWare(n.Rule) && (counts(f.before, n.Rule, n.Grade) || n.Grade == layout.Watch && f.liesInTheMore(n)) {
			continue
		}
		return false
	}
	return true
}
