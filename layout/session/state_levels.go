package session

import (
	"sort"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

func sortStable(x []int, less func(a, b int) bool) {
	sort.SliceStable(x, func(i, j int) bool { return less(x[i], x[j]) })
}

// tellLevels lists towers and their levels.
func (s *Session) tellLevels(st *State, b *stacks.Built, w *statics.Weights) {
	for t := range b.Towers {
		tower := &b.Towers[t]
		side := Side{Tower: tower.Name, Title: s.say(capital(tower.Name)), Levels: append([]int{}, tower.Levels...), Lines: []Line{}}
		for k, line := range s.now.Towers[tower.Index].Lines {
			letter := ""
			if k < len(tower.Letters) {
				letter = tower.Letters[k]
			}
			side.Lines = append(side.Lines, Line{Letter: letter, Number: k + 1, At: line.At})
		}
		st.Sides = append(st.Sides, side)
	}
	rooms := roomsAbove(b)
	for i := range b.Levels {
		v := &b.Levels[i]
		own := s.levelOf(b, i)
		name := s.Checker().LevelName(i)
		level := Level{Index: i, Tower: b.Towers[v.Tower].Name, Number: v.Number, Name: name, Title: title(name),
			Takes: "takes " + s.takes(b, i), MakeUp: s.standsOn(b, i), Under: s.makeUps(postsOf(b, v.Posts)),
			Mass: w.Levels[i].Ware, Share: w.Levels[i].WareShare, MassSaid: measure.FormatMass(w.Levels[i].Ware, s.now.Units),
			Locked: own.Locked, Standing: own.Standing, Pots: append([]int{}, v.Pots...), Kinds: kindsOn(b, i)}
		if r := rooms[i]; r.any {
			level.Room = &Room{MM: r.mm, Said: s.down(r.mm) + " above"}
			if r.lid {
				level.Room.Said = s.down(r.mm) + " to the " + s.lidWord()
			}
		}
		level.Balance = s.balance(b, w, i)
		st.Levels = append(st.Levels, level)
	}
}

// levelOf is a built level as the load has it.
func (s *Session) levelOf(b *stacks.Built, level int) *layout.Level {
	v := &b.Levels[level]
	return &b.Load.Towers[b.Towers[v.Tower].Index].Levels[v.Number-1]
}

// takes is the tallest pot of a level: one figure, or the least and the most
// where what lies over it differs.
func (s *Session) takes(b *stacks.Built, level int) string {
	each := b.TakesEach(level)
	least, most := s.down(each[0]), s.down(each[len(each)-1])
	if least == most {
		return most
	}
	return least + " and " + most
}

// standsOn is the make-up of the posts that stand on a level: "100+10".
func (s *Session) standsOn(b *stacks.Built, level int) string {
	var posts []int
	for i := range b.Posts {
		if standsOnLevel(b, i, level) {
			posts = append(posts, i)
		}
	}
	return s.makeUps(postsOf(b, posts))
}

// standsOnLevel tells whether a post's foot stands on a level.
func standsOnLevel(b *stacks.Built, post, level int) bool {
	p := &b.Posts[post]
	for _, up := range b.Levels[level].Above {
		if p.Level == up && p.Bottom-b.Levels[level].Top < 1 && b.Levels[level].Top-p.Bottom < 1 {
			return true
		}
	}
	return false
}

func postsOf(b *stacks.Built, posts []int) []layout.MakeUp {
	out := make([]layout.MakeUp, len(posts))
	for i, p := range posts {
		out[i] = b.Posts[p].MakeUp
	}
	return out
}

// makeUps says different make-ups once each: "100+10", "125, 150".
func (s *Session) makeUps(posts []layout.MakeUp) string {
	var out []string
	for _, m := range posts {
		said := s.makeUp(m, "+")
		seen := false
		for _, o := range out {
			seen = seen || o == said
		}
		if !seen {
			out = append(out, said)
		}
	}
	return strings.Join(out, ", ")
}

func (s *Session) makeUp(m layout.MakeUp, plus string) string {
	parts := make([]string, len(m))
	for i, p := range m {
		if parts[i] = s.postSaid(p.Height); p.Name != "" {
			parts[i] += " " + p.Name
		}
	}
	return strings.Join(parts, plus)
}

// headroom is the least room over the pots of a level.
type headroom struct {
	mm  float64
	lid bool // it is to the lid
	any bool // a pot stands there
}

// roomsAbove is the headroom of every level: to the shelf over each pot, or to
// the lid where none lies over it.
func roomsAbove(b *stacks.Built) []headroom {
	out := make([]headroom, len(b.Levels))
	for i := range b.Pots {
		p := &b.Pots[i]
		if p.Level < 0 {
			continue
		}
		h := &out[p.Level]
		under := false
		for _, up := range b.Levels[p.Level].Above {
			for _, k := range b.Levels[up].Shelves {
				sh := &b.Shelves[k]
				if !overlaps(p, sh.Outline) {
					continue
				}
				under = true
				bow := 0.0
				if sh.Kind != nil {
					bow = max(sh.Kind.Bow, -sh.Kind.Bow)
				}
				h.least(sh.Bottom-bow-p.Solid.Max[2], false)
			}
		}
		if !under {
			h.least(b.Height-p.Solid.Max[2], true)
		}
	}
	return out
}

func (h *headroom) least(mm float64, lid bool) {
	if !h.any || mm < h.mm {
		h.mm, h.lid, h.any = mm, lid, true
	}
}

// overlaps tells whether a pot lies in plan at least partly under an outline.
func overlaps(p *stacks.Pot, o plane.Outline) bool {
	for i := range p.Solid.Body.Parts {
		if o.Distance(p.Solid.Skeleton(i)) < p.Solid.Body.Parts[i].Profile.Max()-plane.Tolerance {
			return true
		}
	}
	return false
}

// balance is how the least steady shelf of a level lies on its posts.
func (s *Session) balance(b *stacks.Built, w *statics.Weights, level int) *Balance {
	worst := -1
	for _, k := range b.Levels[level].Shelves {
		if len(w.Shelves[k].Posts) > 0 && (worst < 0 || w.Shelves[k].Result.Margin < w.Shelves[worst].Result.Margin) {
			worst = k
		}
	}
	if worst < 0 {
		return nil
	}
	r := &w.Shelves[worst]
	out := &Balance{Point: r.Result.Balance, Edge: r.Result.Margin, Posts: []Load{}}
	for i, p := range r.Posts {
		mass := 0.0
		if i < len(r.Result.Reactions) {
			mass = r.Result.Reactions[i]
		}
		out.Posts = append(out.Posts, Load{Letter: b.Posts[p].Letter, At: b.Posts[p].At, Mass: mass, Said: measure.FormatMass(max(mass, 0), s.now.Units)})
	}
	if out.Edge < 0 {
		out.Said = "balance point " + s.up(-out.Edge) + " outside the posts: it tips"
	} else {
		out.Said = "balance point " + s.down(out.Edge) + " inside the posts"
	}
	out.Said = s.say(out.Said)
	return out
}

// tellPots lists what stands in the kiln.
func (s *Session) tellPots(st *State, b *stacks.Built) {
	grades := map[string]layout.Grade{}
	graded := map[string]bool{}
	for i := range st.Findings {
		f := &st.Findings[i]
		if f.Accepted != "" {
			continue
		}
		for _, id := range f.Pots {
			if !graded[id] || f.Grade > grades[id] {
				grades[id], graded[id] = f.Grade, true
			}
		}
	}
	letters := stacks.KindLetters(b)
	o := s.Order()
	c := s.Checker()
	for i := range b.Pots {
		p := &b.Pots[i]
		id := p.Pot.String()
		name := c.Name(i)
		pot := Pot{ID: id, Name: s.say(name), Title: s.say(title(name)), Ware: p.Pot.Ware, Level: p.Level, At: p.At, Turn: p.Turn,
			Turns: p.Body.Turns, Locked: p.Locked, Cones: p.Cones != nil, Order: o.Number(i), Letter: letters[p.Kind]}
		if p.Ware != nil {
			pot.Size = s.size(p.Ware)
			pot.Owner, pot.Ticket, pot.Glaze = p.Ware.Owner, p.Ware.Ticket, p.Ware.Glaze.Name
		}
		if graded[id] {
			pot.Grade = grades[id].String()
		}
		st.Pots = append(st.Pots, pot)
	}
}

// size is a row's measures, height first: "95 × 86", "62 × 260 × 160".
func (s *Session) size(w *layout.Ware) string {
	filled, _, err := silhouette.Fill(*w)
	if err != nil {
		filled = *w
	}
	if silhouette.Oblong(w) {
		return s.up(filled.Height) + " × " + s.up(filled.Length) + " × " + s.up(filled.Width)
	}
	return s.up(filled.Height) + " × " + s.up(filled.Across)
}
