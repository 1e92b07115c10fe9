package session

import (
	"fmt"
	"reflect"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// keptOf is what stands, told level by level.
func keptOf(b *stacks.Built, stands planner.Stands) kept {
	k := kept{map[place]bool{}, map[int]bool{}, map[int]bool{}}
	for i := range b.Levels {
		v := &b.Levels[i]
		at := b.Towers[v.Tower].Index
		if at >= len(stands.Towers) {
			continue
		}
		switch t := stands.Towers[at]; {
		case v.Number <= t.Levels:
			k.posts[i], k.shelves[i] = true, true
		case v.Number == t.Levels+1 && t.Posts:
			k.posts[i] = true
		}
	}
	for i := range b.Pots {
		if p := &b.Pots[i]; p.Level >= 0 && stands.Pots[p.Pot] {
			k.pots[place{p.Level, p.At}] = true
		}
	}
	return k
}

// Work is what planning has cost until now, in the planner's units.
func (f *Fitting) Work() int64 { return f.work }

// stands is what stands in the load after the change, by the names that pots
// have then. The pot in question is in hand.
func (f *Fitting) stands(l *layout.Load) planner.Stands {
	out := planner.Stands{Towers: make([]planner.TowerStands, len(l.Towers)), Pots: map[layout.Pot]bool{}}
	for i := range l.Towers {
		t := &l.Towers[i]
		for k := range t.Levels {
			level := f.s.levelIndex(t.Name, k+1)
			switch st := &out.Towers[i]; {
			case f.kept.shelves[level]:
				st.Levels = k + 1
			case f.kept.posts[level] && st.Levels == k:
				st.Posts = true
			}
			for _, p := range t.Levels[k].Set {
				if f.kept.pots[place{level, p.At}] && p.Pot.String() != f.pot {
					out.Pots[p.Pot] = true
				}
			}
		}
	}
	return out
}

// plan plans all that does not stand anew, round what stands.
func (f *Fitting) plan() []maybe {
	return f.planFrom(f.changed, nil)
}

// planOneMore plans the rest anew with one more pot to set.
func (f *Fitting) planOneMore() []maybe {
	change := layout.Edit{Act: layout.SetWare, Ware: f.more}
	l, err := edit.Apply(f.s.now, change)
	if err != nil {
		return nil
	}
	return f.planFrom(l, []layout.Edit{change})
}

// planFrom plans the rest of a load anew, after edits beyond the change itself.
func (f *Fitting) planFrom(l *layout.Load, edits []layout.Edit) []maybe {
	s, err := planner.Rest(l, f.stands(l), jobSeed)
	if err != nil {
		return nil
	}
	for spent := 0; spent < planWork; spent += planWork / 8 {
		if s.Step(planWork / 8) {
			break
		}
	}
	_, _, spent := s.Progress()
	f.work += spent
	p, ok := s.Best()
	set, _ := countPots(f.s.now)
	switch {
	case !ok || p.Set == 0 || reflect.DeepEqual(p.Load.Towers, l.Towers):
		return nil
	case f.more != nil && (p.Set <= set || setOf(p.Load, f.more.Name) <= setOf(f.s.now, f.more.Name)):
		return nil
	case p.Set < set && p.Set <= f.most:
		return nil // there are answers that leave out less
	}
	m := maybe{says: fmt.Sprintf("Set what does not stand yet anew: %d of %d go in", p.Set, p.Of)}
	m.edits = append(append(m.edits, edits...), layout.Edit{Act: layout.Arrange, Towers: p.Load.Towers})
	detail := f.turnOf(p.Load).say(f.s)
	for _, w := range p.Waits {
		if f.s.now.WareOf(layout.Pot{Ware: w.Ware}) != nil || w.Ware == f.pot {
			detail += capital(silhouette.Counted(w.Count, w.Ware)) + onOff(w.Count == 1, " waits. ", " wait. ")
		}
	}
	if p.Set < set {
		detail = fmt.Sprintf("%s fewer than planned. ", silhouette.Counted(set-p.Set, "pot")) + detail
	}
	m.detail = strings.TrimSpace(detail)
	return []maybe{m}
}

// setOf is how many pots of a row stand in a load.
func setOf(l *layout.Load, ware string) int {
	n := 0
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				if p.Pot.Ware == ware {
					n++
				}
			}
		}
	}
	return n
}

// Turn is how an arrangement differs from the one that was.
type Turn struct {
	Posts []string // levels on other posts than before: "Left 3 stands on 3 × (100 + 10)"
	Gone  []string // levels that are not set any more: "left 4"
	Moved []string // pots that stand elsewhere: "mug 3", by their names now
	In    []string // pots that had no place before
	Out   []string // pots that have none any more
}

// Turn is how the load after an answer differs from the load as it is. A pot
// that took the place of an alike one did not move.
func (f *Fitting) Turn(a Answer) (Turn, error) {
	l, err := f.s.after(a.Edits)
	if err != nil {
		return Turn{}, err
	}
	return f.turnOf(l), nil
}

func (f *Fitting) turnOf(l *layout.Load) Turn {
	before := f.s.seen.built
	after, err := stacks.Build(l)
	if err != nil {
		return Turn{}
	}
	var out Turn
	names := clearance.New(after)
	is := map[string]int{}
	at := func(b *stacks.Built, level int) string {
		v := &b.Levels[level]
		return fmt.Sprint(b.Towers[v.Tower].Name, " ", v.Number)
	}
	for i := range before.Levels {
		is[at(before, i)] = i
	}
	for i := range after.Levels {
		posts := postsOf(after, after.Levels[i].Posts)
		was, ok := is[at(after, i)]
		delete(is, at(after, i))
		if !ok || !reflect.DeepEqual(postsOf(before, before.Levels[was].Posts), posts) {
			out.Posts = append(out.Posts, capital(names.LevelName(i))+" stands on "+f.s.made(posts))
		}
	}
	for i := range before.Levels {
		if _, gone := is[at(before, i)]; gone {
			out.Gone = append(out.Gone, f.s.Checker().LevelName(i))
		}
	}
	out.pots(before, after, f.pot, f.row, at)
	return out
}

// pots tells which pots moved, came and went.
func (t *Turn) pots(before, after *stacks.Built, own, ownRow string, at func(*stacks.Built, int) string) {
	type spot struct {
		level, row string
		at         plane.Vec
		turn       float64
	}
	where := func(b *stacks.Built, i int) spot {
		p := &b.Pots[i]
		row := p.Pot.Ware
		if p.Pot.String() == own {
			row = "" // its row is its own since the change
		}
		return spot{at(b, p.Level), row, p.At, p.Turn}
	}
	stood := map[spot]bool{}
	rows := map[string]int{} // pots of a row that have left their places
	for i := range before.Pots {
		if before.Pots[i].Level >= 0 {
			stood[where(before, i)] = true
		}
	}
	still := map[spot]bool{}
	for i := range after.Pots {
		still[where(after, i)] = true
	}
	var left []int
	for i := range before.Pots {
		p := &before.Pots[i]
		if s := where(before, i); p.Level >= 0 && !still[s] && !still[spot{s.level, "", s.at, s.turn}] {
			rows[s.row]++
			left = append(left, i)
		}
	}
	for i := range after.Pots {
		p := &after.Pots[i]
		s := where(after, i)
		if stood[s] || p.Pot.String() == own && stood[spot{s.level, ownRow, s.at, s.turn}] {
			continue
		}
		if row := s.row; rows[row] > 0 {
			rows[row]--
			t.Moved = append(t.Moved, p.Pot.String())
		} else if p.Pot.String() == own {
			rows[ownRow]--
			t.Moved = append(t.Moved, own)
		} else {
			t.In = append(t.In, p.Pot.String())
		}
	}
	for n := len(left) - 1; n >= 0; n-- {
		if row := where(before, left[n]).row; rows[row] > 0 {
			rows[row]--
			t.Out = append(t.Out, before.Pots[left[n]].Pot.String())
		}
	}
}

// mostTold is how many levels on other posts are told one by one.
const mostTold = 3

// say tells a turn in a few sentences, without what waits.
func (t Turn) say(s *Session) string {
	text := ""
	if len(t.Posts) > mostTold {
		text += capital(silhouette.Counted(len(t.Posts), "level")) + " stand on other posts. "
	} else {
		for _, p := range t.Posts {
			text += p + ". "
		}
	}
	for _, g := range t.Gone {
		text += capital(g) + " is not set. "
	}
	switch n := len(t.Moved); {
	case n == 1:
		text += capital(t.Moved[0]) + " stands elsewhere. "
	case n > 1:
		text += silhouette.Counted(n, "pot") + " stand elsewhere. "
	}
	return text
}

// shelfOut is the change of shelves that are cracked or not there.
func (f *Fitting) shelfOut(c Change) error {
	n := max(c.Count, 1)
	furniture := f.s.now.Furniture
	furniture.Shelves = append([]layout.ShelfKind(nil), furniture.Shelves...)
	k := furniture.Shelf(c.Name)
	if k == nil {
		return fmt.Errorf("the furniture lists no shelf %q", c.Name)
	}
	if n > k.Count {
		return fmt.Errorf("the furniture lists %s, so %d cannot be out", silhouette.Counted(k.Count, c.Name+" shelf"), n)
	}
	k.Count -= n
	f.shelf = true
	f.change = []layout.Edit{{Act: layout.SetFurniture, Furniture: &furniture}}
	return nil
}
