package planner

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// verify builds the load of a frame, checks every rule over it, and takes out
// pots until no problem and no avoidable watch is left. It is nil when the
// furniture itself stands wrong.
func (s *Search) verify(f *frame) *candidate {
	for range 40 {
		l := *s.context.load
		l.Towers = s.arrangement(f)
		b, err := stacks.Build(&l)
		if err != nil {
			return nil
		}
		report := clearance.Check(b)
		s.spent += int64(1 + len(b.Pots)/10)
		out, hopeless, watches, unseen := s.culprits(f, b, report)
		if hopeless {
			return nil
		}
		if len(out) == 0 {
			if s.mustSee {
				watches += unseen
			}
			c := &candidate{frame: f, towers: l.Towers, report: report, watch: watches, unseen: unseen,
				pieces: len(b.Posts) + len(b.Shelves)}
			c.deaf, c.roams = s.unheard(f)
			for _, st := range f.storeys {
				m, v := s.worth(st.set)
				c.musts += m
				c.value += v
				m, v = s.worth(st.fixed)
				c.musts += m
				c.value += v
			}
			for _, p := range b.Posts {
				c.pieces += len(p.Pieces)
			}
			return c
		}
		s.withdraw(f, l.Towers, out)
	}
	return nil
}

// ofTheWare are rules that a pot breaks wherever it stands.
func ofTheWare(r layout.RuleName) bool {
	switch r {
	case layout.FitsFiring, layout.GlazedFoot, layout.TallNarrow, layout.RunnyCookie:
		return true
	}
	return false
}

// culprits lists the pots to take out, and counts the watches that remain and
// the packs out of sight.
func (s *Search) culprits(f *frame, b *stacks.Built, report clearance.Report) (out map[string]bool, hopeless bool, watches, unseen int) {
	out = map[string]bool{}
	for _, fd := range report.Findings {
		if fd.Grade == layout.Note || fd.Accepted != "" {
			continue
		}
		pack, hidden := isUnseen(fd)
		if hidden && !s.keepsSight(f, pack) {
			unseen++
			continue
		}
		var pots []string
		for _, t := range fd.Things {
			if t.Kind == layout.ThingPot || t.Kind == layout.ThingCones {
				pots = append(pots, t.Name)
			}
		}
		if ofTheWare(fd.Rule) {
			if fd.Grade == layout.Problem {
				s.bar(fd, pots)
				for _, p := range pots {
					out[p] = true
				}
			}
			continue
		}
		if fd.Rule == layout.OwnedCount && len(pots) == 0 {
			if extra := s.surplus(f, b); len(extra) > 0 {
				for _, p := range extra {
					out[p] = true
				}
				continue
			}
		}
		pick := ""
		for _, p := range pots {
			if !s.isFixed(f, p) {
				pick = p
			}
		}
		switch {
		case pick != "":
			already := false
			for _, p := range pots {
				already = already || out[p]
			}
			if hidden && pick == pack { // no pot of the plan hides it
				unseen++
			} else if !already {
				out[pick] = true
			}
		case hidden:
			unseen++
		case s.rest != nil && s.rest.excused[fd.Key]:
			watches++ // it lies in what stands, whatever is planned
		case fd.Grade == layout.Problem:
			hopeless = true
		default:
			watches++
		}
	}
	return out, hopeless, watches, unseen
}

// surplus lists pots that stand on more cookies or stilts than are owned, the
// last of the list first, as many as have to wait. Their rows are marked with
// the reason.
func (s *Search) surplus(f *frame, b *stacks.Built) []string {
	stock := stacks.NewStock(&b.Load.Furniture)
	stock.Use(b)
	var out []string
	for _, m := range stock.Missing() {
		kind := layout.Cookie
		switch m.Kind {
		case stacks.FetchCookie:
		case stacks.FetchStilt:
			kind = layout.Stilt
		default:
			continue
		}
		short := m.Count - max(m.Owned, 0)
		for i := len(b.Pots) - 1; i >= 0 && short > 0; i-- {
			p := &b.Pots[i]
			if p.Body.Stand.Kind != kind || m.Listed >= 0 && p.Body.Stand.Across != m.Size || s.isFixed(f, p.Pot.String()) {
				continue
			}
			s.unstood[p.Kind] = whyUnstood(m, b.Load.Units)
			out = append(out, p.Pot.String())
			short--
		}
	}
	return out
}

// whyUnstood tells why pots wait for cookies or stilts.
func whyUnstood(m stacks.Fetch, units measure.Units) string {
	if m.Owned > 0 {
		owned := m
		owned.Count = m.Owned
		return fmt.Sprintf("You own %s, and they are in use.", owned.Say(units))
	}
	return stacks.SayShort(m, units)
}

// isFixed says whether a pot is one the planner must leave where it stands.
func (s *Search) isFixed(f *frame, name string) bool {
	for _, st := range f.storeys {
		for _, p := range st.fixed {
			if p.pot.Ware != "" && p.pot.String() == name {
				return true
			}
		}
	}
	return false
}

// bar keeps a row off the plan for good: the firing does not suit it.
func (s *Search) bar(fd layout.Finding, pots []string) {
	for _, name := range pots {
		for k, kd := range s.context.kinds {
			for _, p := range kd.free {
				if p.String() == name {
					s.barred[k] = fd.Sentence
				}
			}
		}
	}
}

// withdraw takes pots off the frame, and all pots of barred rows.
func (s *Search) withdraw(f *frame, towers []layout.Tower, out map[string]bool) {
	for i, st := range f.storeys {
		set := towers[f.at[i].tower].Levels[f.at[i].level].Set
		kept := st.set[:0:0]
		for j, p := range st.set {
			_, barred := s.barred[p.kind]
			if !barred && !out[set[len(st.fixed)+j].Pot.String()] {
				kept = append(kept, p)
			}
		}
		st.set = kept
		fixed := st.fixed[:0:0]
		for j, p := range st.fixed {
			if p.pot.Ware != "" || !out[set[j].Pot.String()] {
				fixed = append(fixed, p)
			}
		}
		st.fixed = fixed
	}
	for k := range s.barred {
		s.context.kinds[k].free = nil
	}
}
