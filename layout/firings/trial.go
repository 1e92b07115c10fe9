package firings

import (
	"strings"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// part is so many pots of a lot, offered to a firing.
type part struct{ lot, count int }

// trial is one kiln planned for one class.
type trial struct {
	kiln, class int
	load        *layout.Load // planned, with exactly the pots that stand in it
	offered     []part
	set         map[int]int // by lot
	pots        int
	value       float64
	musts       float64 // value of the must-go pots set
	waits       bool    // some of what was offered has no place, though it would go in an emptier kiln
	bare        bool    // its cone packs stay on the table
	report      clearance.Report
	used        *stacks.Stock // what is left of the furniture it was given
}

// sliceOf is the work between two looks at whoever watches.
const sliceOf = 2500

// try plans a kiln for a class with what is offered and a box of furniture. It
// is nil when nothing can be planned there; why says so.
func (s *splitter) try(k, c int, offered []part, box layout.Furniture, work int64) (*trial, string) {
	l := s.loadFor(k, c, offered, box)
	search, err := planner.Start(l, s.asked.Seed)
	if err != nil {
		return nil, err.Error()
	}
	for left := work; left > 0; left -= sliceOf {
		if s.stopped || s.asked.Tell != nil && !s.asked.Tell(Progress{len(s.firings), s.setPots, s.of}) {
			s.stopped = true
			return nil, ""
		}
		if search.Step(min(left, sliceOf)) {
			break
		}
	}
	p, ok := search.Best()
	if !ok {
		return nil, refused(search)
	}
	return s.tell(k, c, offered, p), ""
}

func refused(search *planner.Search) string {
	if why := search.Refused(); why != "" {
		return why
	}
	return "No plan was found with this work."
}

// aloneWork is the work of looking whether one pot goes in a kiln at all.
const aloneWork = 4000

// alone says why one pot of a lot does not go in an empty kiln, or nothing.
func (s *splitter) alone(k, c, lot int) string {
	key := [3]int{k, c, lot}
	if why, there := s.solo[key]; there {
		return why
	}
	l := s.loadFor(k, c, []part{{lot, 1}}, s.boxOf(k))
	l.Towers, l.Cones = nil, nil
	why := ""
	search, err := planner.Start(l, s.asked.Seed)
	if err != nil {
		why = err.Error()
	} else {
		search.Step(aloneWork)
		p, ok := search.Best()
		switch {
		case !ok:
			why = refused(search)
		case p.Set == 0 && len(p.Waits) > 0:
			why = p.Waits[0].Reason
		}
	}
	s.solo[key] = why
	return why
}

// loadFor is the load of a kiln for a class with these pots, not planned yet.
// What stays in the kiln stays in the first firing of it.
func (s *splitter) loadFor(k, c int, offered []part, box layout.Furniture) *layout.Load {
	l := s.studio.Kilns[k].Load.Clone()
	f := s.classes[c].firing
	own := s.classes[c].kilns[k]
	if !own {
		l.Firing = layout.Firing{Stage: f.Stage, Cone: f.Cone, Peak: f.Peak}
	}
	l.Cones = s.packs(k, c)
	if s.times[k] > 0 {
		l.Firing.Date = ""
	}
	if s.studio.Share {
		renamedFurniture(l, &s.box)
	}
	l.Furniture = box
	l.Ware, l.Wishes.LeaveOut = nil, nil
	keeps := s.keeps(k)
	for _, p := range offered {
		w := s.lots[p.lot].ware
		w.Count = p.count
		s.holding(p.lot, &w)
		l.Ware = append(l.Ware, w)
	}
	l.Wishes = wishesFor(l, s.renamed[k])
	if keeps {
		s.renumberKept(k, l)
	} else {
		l.Towers = nil
	}
	l.Accepted = acceptedFor(l, own && keeps)
	if s.bare {
		l.Cones = nil
	}
	return l
}

// keeps tells whether the next firing of a kiln holds what stays there now.
func (s *splitter) keeps(k int) bool { return s.times[k] == 0 && stays(s.studio.Kilns[k].Load) }

// packs are the cone packs of a firing of a class in a kiln.
func (s *splitter) packs(k, c int) []layout.ConePack {
	packs := s.studio.Kilns[k].Load.Cones
	if s.classes[c].kilns[k] {
		return append([]layout.ConePack(nil), packs...)
	}
	return packsFor(packs, s.classes[c].firing)
}

// packsFor are the cone packs for another cone: those that hold it stay, the
// others become its pack. A ring without cones stays.
func packsFor(packs []layout.ConePack, f layout.Firing) []layout.ConePack {
	out := append([]layout.ConePack(nil), packs...)
	for i := range out {
		holds := len(out[i].Cones) == 0 || !f.Cone.Known()
		for _, c := range out[i].Cones {
			holds = holds || c == f.Cone
		}
		if !holds {
			out[i].Cones = f.Cone.Pack()
		}
	}
	return out
}

// acceptedFor are the accepted watches that still mean something: all where the
// arrangement stays, else those about the ware itself.
func acceptedFor(l *layout.Load, all bool) []layout.Accepted {
	if all {
		return l.Accepted
	}
	var out []layout.Accepted
	for _, a := range l.Accepted {
		rule, about, _ := strings.Cut(a.Finding, ": ")
		switch layout.RuleName(rule) {
		case layout.FitsFiring, layout.GlazedFoot, layout.RunnyCookie, layout.TallNarrow:
			row, _, _ := strings.Cut(about, ", ")
			if l.WareOf(layout.Pot{Ware: row}) != nil {
				out = append(out, a)
			}
		}
	}
	return out
}

// renumberKept gives the pots that stay the first numbers of their rows, and
// takes all others off the levels: alike pots are interchangeable.
func (s *splitter) renumberKept(k int, l *layout.Load) {
	now := map[layout.Pot]layout.Pot{}
	for _, w := range l.Ware {
		for i := range s.lots {
			if it := &s.lots[i]; it.from == k && it.ware.Name == w.Name {
				for n, p := range it.kept {
					p.Ware = w.Name
					now[p] = w.PotNumber(n + 1)
				}
			}
		}
	}
	packs := map[string]bool{}
	for _, c := range l.Cones {
		packs[c.Name] = true
	}
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			v := &l.Towers[i].Levels[j]
			var set []layout.Placement
			for _, p := range v.Set {
				if name := s.renamed[k][p.Pot.Ware]; name != "" {
					p.Pot.Ware = name
				}
				to, stays := now[p.Pot]
				if packs[p.Pot.Ware] && p.Pot.Number == 0 {
					to, stays = p.Pot, true
				}
				if stays {
					p.Pot = to
					set = append(set, p)
				}
			}
			v.Set = set
		}
	}
}

// tell reads a plan: what it sets of each lot, and the load with nothing but
// that in its ware list.
func (s *splitter) tell(k, c int, offered []part, p *planner.Plan) *trial {
	t := &trial{kiln: k, class: c, offered: offered, set: map[int]int{}, value: p.Value}
	t.load, t.bare = p.Load, s.bare
	if s.bare {
		t.load.Cones = s.packs(k, c)
	}
	counts := map[string]int{}
	for _, tower := range t.load.Towers {
		for _, v := range tower.Levels {
			for _, pl := range v.Set {
				counts[pl.Pot.Ware]++
			}
		}
	}
	var ware []layout.Ware
	for _, o := range offered {
		l := &s.lots[o.lot]
		n := counts[l.ware.Name]
		if n < o.count {
			// Alike pots: where one found a place, an emptier kiln takes the others.
			t.waits = t.waits || n > 0 || s.alone(k, c, o.lot) == ""
		}
		if n == 0 {
			continue
		}
		t.set[o.lot] = n
		t.pots += n
		if l.must() {
			t.musts += float64(float64(n) * s.worth(k, o.lot))
		}
		w := l.ware
		w.Count = n
		ware = append(ware, w)
	}
	t.load.Ware = ware
	renumber(t.load)
	t.load.Accepted = acceptedFor(t.load, s.classes[c].kilns[k] && s.keeps(k))
	if b, err := stacks.Build(t.load); err == nil {
		t.report = clearance.Check(b)
		t.used = stacks.NewStock(&t.load.Furniture)
		t.used.Use(b)
	}
	return t
}

// renumber gives the set pots of every row the numbers from 1 on, in the order
// of their numbers.
func renumber(l *layout.Load) {
	for i := range l.Ware {
		w := &l.Ware[i]
		var set []*layout.Placement
		for j := range l.Towers {
			for v := range l.Towers[j].Levels {
				for p := range l.Towers[j].Levels[v].Set {
					if pl := &l.Towers[j].Levels[v].Set[p]; pl.Pot.Ware == w.Name {
						set = append(set, pl)
					}
				}
			}
		}
		sortByNumber(set)
		for n, pl := range set {
			pl.Pot = w.PotNumber(n + 1)
		}
	}
}

// worth is what one pot of a lot is worth in a kiln.
func (s *splitter) worth(k, lot int) float64 {
	return s.worthIn(s.studio.Kilns[k].Load, lot)
}

// worthIn is what one pot of a lot is worth in a load: kiln space in litres, or
// its own value. A lot that makes no body is worth nothing there: no plan has it.
func (s *splitter) worthIn(l *layout.Load, lot int) float64 {
	b, err := stacks.BodyOf(l, &s.lots[lot].ware)
	if err != nil {
		return 0
	}
	return b.Value
}
