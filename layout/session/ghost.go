package session

import (
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// Try tells what edits would make of the load, which is not changed.
func (s *Session) Try(edits []layout.Edit) (*Ghost, error) {
	next, err := s.after(edits)
	if err != nil {
		return nil, err
	}
	after, err := stacks.Build(next)
	if err != nil {
		return nil, err
	}
	r := clearance.Check(after)
	g := &Ghost{Problems: r.Problems, Watches: r.Watches, Says: headline(r), Pots: []GhostPot{}, Levels: []GhostLevel{}}
	before, _ := s.Built()
	if before == nil {
		before = &stacks.Built{Load: s.now}
	}
	g.pots(before, after)
	g.levels(before, after)
	return g, nil
}

// headline counts what is open: "No problem, 2 watches, 1 accepted".
func headline(r clearance.Report) string {
	text := head(r.Problems)
	switch {
	case r.Watches == 1:
		text += ", 1 watch"
	case r.Watches > 1:
		text += ", " + strconv.Itoa(r.Watches) + " watches"
	}
	if r.Accepted > 0 {
		text += ", " + strconv.Itoa(r.Accepted) + " accepted"
	}
	return text
}

// standing is where a pot stands, for comparing two loads.
type standing struct {
	tower  string
	number int
	at     plane.Vec
	turn   float64
}

func standingOf(b *stacks.Built, i int) standing {
	p := &b.Pots[i]
	v := &b.Levels[p.Level]
	return standing{b.Towers[v.Tower].Name, v.Number, p.At, p.Turn}
}

// pots lists the pots whose place differs.
func (g *Ghost) pots(before, after *stacks.Built) {
	was := map[layout.Pot]int{}
	for i := range before.Pots {
		was[before.Pots[i].Pot] = i
	}
	is := map[layout.Pot]bool{}
	levelNow := map[standing]int{}
	for i := range before.Levels {
		v := &before.Levels[i]
		levelNow[standing{tower: before.Towers[v.Tower].Name, number: v.Number}] = i
	}
	for i := range after.Pots {
		p := &after.Pots[i]
		is[p.Pot] = true
		now := standingOf(after, i)
		level, ok := levelNow[standing{tower: now.tower, number: now.number}]
		if !ok {
			level = -1
		}
		k, stood := was[p.Pot]
		switch {
		case !stood:
			g.Pots = append(g.Pots, GhostPot{ID: p.Pot.String(), Level: level, From: p.At, To: p.At, Turn: p.Turn, In: true})
		case standingOf(before, k) != now:
			g.Pots = append(g.Pots, GhostPot{ID: p.Pot.String(), Level: level, From: before.Pots[k].At, To: p.At, Turn: p.Turn})
		}
	}
	for i := range before.Pots {
		if p := &before.Pots[i]; !is[p.Pot] {
			g.Pots = append(g.Pots, GhostPot{ID: p.Pot.String(), Level: -1, From: p.At, To: p.At, Turn: p.Turn, Out: true})
		}
	}
}

// levels lists the levels that hang higher or lower.
func (g *Ghost) levels(before, after *stacks.Built) {
	for i := range after.Levels {
		v := &after.Levels[i]
		for k := range before.Levels {
			w := &before.Levels[k]
			if w.Number == v.Number && before.Towers[w.Tower].Name == after.Towers[v.Tower].Name && w.Top != v.Top {
				g.Levels = append(g.Levels, GhostLevel{Tower: after.Towers[v.Tower].Name, Level: v.Number, Rise: v.Top - w.Top})
			}
		}
	}
}
