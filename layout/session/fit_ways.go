package session

import (
	"strings"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// ofTheWare are rules that a pot breaks wherever it stands.
func ofTheWare(r layout.RuleName) bool {
	switch r {
	case layout.FitsFiring, layout.GlazedFoot, layout.TallNarrow, layout.RunnyCookie:
		return true
	}
	return false
}

// counts tells whether a report has an unaccepted finding of a rule that is at
// least so grave.
func counts(r clearance.Report, rule layout.RuleName, g layout.Grade) bool {
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Rule == rule && f.Grade >= g {
			return true
		}
	}
	return false
}

// asItStands is the change without anything done about it.
func (f *Fitting) asItStands() []maybe {
	says := "It fits as it stands"
	if e := f.change[0]; e.Act == layout.SetFurniture {
		says = "Take another from the box: enough are left"
		if f.shelf {
			says = "Take another shelf: enough are left"
		}
	}
	return []maybe{{says: says}}
}

// Most that mends of mends are looked into.
const (
	mendDepth   = 3
	mendMenders = 8
)

// mend tries the mends of what the change breaks, and the mends of what those
// leave, posts before pots.
func (f *Fitting) mend() []maybe {
	var out []maybe
	left := mendMenders
	var look func(l *layout.Load, says []string, edits []layout.Edit, depth int)
	look = func(l *layout.Load, says []string, edits []layout.Edit, depth int) {
		b, err := stacks.Build(l)
		if err != nil || left == 0 {
			return
		}
		left--
		c := clearance.New(b)
		r := c.Check()
		broken := f.firstNew(r)
		if broken == nil {
			return
		}
		for _, m := range edit.NewMender(b, c, r).Mends(*broken, nil) {
			if withdraws(m.Edits) || f.touches(m.Edits) {
				continue
			}
			next, err := edit.Apply(l, m.Edits...)
			if err != nil {
				continue
			}
			all := append(append([]layout.Edit(nil), edits...), m.Edits...)
			words := append(append([]string(nil), says...), withoutLid(m.Say))
			after, err := stacks.Build(next)
			if err != nil {
				continue
			}
			if f.noWorse(clearance.Check(after)) {
				out = append(out, maybe{says: joined(words), detail: f.postsDetail(b, after, m.Edits), edits: all})
				continue
			}
			if depth+1 < mendDepth {
				look(next, words, all, depth+1)
			}
		}
	}
	look(f.changed, nil, nil, 0)
	return out
}

// firstNew is the gravest finding that the load did not have before.
func (f *Fitting) firstNew(r clearance.Report) *layout.Finding {
	for i := range r.Findings {
		n := &r.Findings[i]
		if n.Grade == layout.Note || n.Accepted != "" {
			continue
		}
		if old := f.before.Find(n.Key); old == nil || old.Grade < n.Grade || worse(n, old) {
			return n
		}
	}
	return nil
}

// withoutLid is a mend's words without what it leaves to the lid, which the
// answer tells by itself.
func withoutLid(say string) string {
	if i := strings.LastIndex(say, ": "); i > 0 && strings.Contains(say[i:], " left to the ") {
		return say[:i]
	}
	return say
}

// joined says acts one after another.
func joined(says []string) string {
	for i := 1; i < len(says); i++ {
		says[i] = strings.ToLower(says[i][:1]) + says[i][1:]
	}
	return list(says)
}

func withdraws(edits []layout.Edit) bool {
	for i := range edits {
		if edits[i].Act == layout.Withdraw {
			return true
		}
	}
	return false
}

// postsDetail tells new posts: "3 × (100 + 10 + 5). Left 2 takes 103, 12 above
// the tall mug. The box holds six 5s."
func (f *Fitting) postsDetail(before, after *stacks.Built, edits []layout.Edit) string {
	text := ""
	for i := range edits {
		e := &edits[i]
		if e.Act != layout.SetPosts {
			continue
		}
		v := f.s.levelIndex(e.Tower, e.Level)
		if v < 0 {
			continue
		}
		text += f.s.made(postsOf(after, after.Levels[v].Posts)) + ". "
		if under := levelUnder(after, v); under >= 0 {
			text += capital(f.s.Checker().LevelName(under)) + " takes " + f.s.down(after.TakesUnder(under, v)) + f.above(after, under) + ". "
		}
		if len(e.Posts) > 0 && len(before.Levels[v].Posts) > 0 {
			was := before.Posts[before.Levels[v].Posts[0]].MakeUp
			if m := e.Posts[0]; len(m) == len(was)+1 {
				text += f.boxHolds(before, m[len(m)-1])
			}
		}
	}
	return strings.TrimSpace(text)
}

// above says how much is left over the pot in question: ", 12 above the tall
// mug".
func (f *Fitting) above(b *stacks.Built, level int) string {
	if f.pot == "" {
		return ""
	}
	for i := range b.Pots {
		p := &b.Pots[i]
		if p.Level != level || p.Pot.String() != f.pot {
			continue
		}
		one := stacks.Built{Load: b.Load, Levels: b.Levels, Shelves: b.Shelves, Height: b.Height, Towers: b.Towers, Pots: b.Pots[i : i+1]}
		if h := roomsAbove(&one)[level]; h.any {
			return ", " + f.s.down(h.mm) + " above the " + p.Pot.Ware
		}
	}
	return ""
}

// boxHolds counts what is left of a piece before it is taken.
func (f *Fitting) boxHolds(before *stacks.Built, piece layout.Piece) string {
	stock := stacks.NewStock(&before.Load.Furniture)
	stock.Use(before)
	for i := range before.Load.Furniture.Posts {
		k := &before.Load.Furniture.Posts[i]
		if k.Height == piece.Height && k.Name == piece.Name {
			n := stock.Posts[i]
			return "The box holds " + number(n) + " " + f.s.postSaid(piece.Height) + onOff(n == 1, "", "s") + ". "
		}
	}
	return ""
}

// mostSwaps is how many pots are tried to change places with.
const mostSwaps = 60

// swap lets the pot in question change places with another kind that does not
// stand yet.
func (f *Fitting) swap() []maybe {
	if f.pot == "" {
		return nil
	}
	b, err := stacks.Build(f.changed)
	if err != nil {
		return nil
	}
	own := -1
	for i := range b.Pots {
		if b.Pots[i].Pot.String() == f.pot {
			own = i
		}
	}
	if own < 0 {
		return nil
	}
	names := clearance.New(b)
	var out []maybe
	tried := map[[2]int]bool{} // level and kind
	for i := range b.Pots {
		p := &b.Pots[i]
		if p.Cones != nil || p.Kind == b.Pots[own].Kind || p.Level == b.Pots[own].Level || len(out) >= mostSwaps || f.kept.pots[place{p.Level, p.At}] {
			continue
		}
		if key := [2]int{p.Level, p.Kind}; tried[key] {
			continue
		}
		edits := []layout.Edit{{Act: layout.SwapPots, Pot: f.pot, Other: p.Pot.String()}}
		next, err := edit.Apply(f.changed, edits...)
		if err != nil {
			continue
		}
		after, err := stacks.Build(next)
		if err != nil || !f.noWorse(clearance.Check(after)) {
			continue
		}
		tried[[2]int{p.Level, p.Kind}] = true
		out = append(out, maybe{says: "Swap it with " + names.Name(i), edits: edits})
	}
	return out
}

// without leaves the pot in question out.
func (f *Fitting) without() []maybe {
	if f.pot == "" {
		return nil
	}
	return []maybe{{says: "Leave it out", detail: "It goes back to the table; the rest stays.", edits: []layout.Edit{{Act: layout.Withdraw, Pot: f.pot}}}}
}

// instead sets a pot that waits where the one left out stood.
func (f *Fitting) instead() []maybe {
	i := f.s.potIndex(f.pot)
	if i < 0 {
		return nil
	}
	was := standingOf(f.s.seen.built, i)
	var out []maybe
	for k := range f.s.now.Ware {
		w := &f.s.now.Ware[k]
		for _, p := range w.Pots() {
			if f.s.stands(p.String()) {
				continue
			}
			at, turn := was.at, was.turn
			out = append(out, maybe{says: "Set " + article(w.Name) + " in its place", edits: []layout.Edit{{Act: layout.Withdraw, Pot: f.pot},
				{Act: layout.SetPot, Pot: p.String(), Tower: was.tower, Level: was.number, At: &at, Turn: &turn}}})
			break
		}
	}
	return out
}

// detail tells what is over the pot in question after an answer.
func (f *Fitting) detail(b *stacks.Built) string {
	for i := range b.Pots {
		if p := &b.Pots[i]; p.Pot.String() == f.pot && p.Level >= 0 {
			return capital(f.s.Checker().LevelName(p.Level)) + " takes " + f.s.takes(b, p.Level) + f.above(b, p.Level) + "."
		}
	}
	return ""
}
