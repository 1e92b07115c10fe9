package firings

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// lot is a row of the waiting list.
type lot struct {
	ware  layout.Ware // as it is called in firings
	from  int         // the kiln in whose load it stands
	left  int         // pots that no firing has yet
	kept  []layout.Pot
	wants []int  // classes that suit it
	hot   bool   // no kiln goes as hot as it asks
	why   string // why it goes in no firing, once that is known
}

// gather makes the waiting list of all loads: every row a lot, rows of one name
// in two loads kept apart by the kiln's name.
func (s *splitter) gather() {
	taken := map[string]int{} // pots, by name
	for k := range s.studio.Kilns {
		s.renamed = append(s.renamed, map[string]string{})
		for _, c := range s.studio.Kilns[k].Load.Cones {
			taken[c.Name] = 1
		}
	}
	for k := range s.studio.Kilns {
		l := s.studio.Kilns[k].Load
		leave := map[string]bool{}
		for _, name := range l.Wishes.LeaveOut {
			leave[name] = true
		}
		again := make([]bool, len(l.Ware)) // rows that have to be called otherwise
		for i, w := range l.Ware {
			if again[i] = k > 0 && clashes(w.Name, w.Count, taken); !again[i] {
				taken[w.Name] = w.Count
			}
		}
		for i := range l.Ware {
			w := l.Ware[i]
			if again[i] {
				s.rename(k, &w, taken)
				taken[w.Name] = w.Count
			}
			it := lot{ware: w, from: k, left: w.Count, kept: keptOf(l, l.Ware[i].Name)}
			if leave[l.Ware[i].Name] {
				it.why = "Left out as wished."
			}
			s.of += w.Count
			s.lots = append(s.lots, it)
		}
	}
}

// clashes tells whether a row's name means something else already: a row, a
// cone pack, or a pot of a row ("mug 2" beside "mug").
func clashes(name string, count int, taken map[string]int) bool {
	if _, there := taken[name]; there {
		return true
	}
	if base, n, ok := numbered(name); ok && taken[base] >= n {
		return true
	}
	for other := range taken {
		if base, n, ok := numbered(other); ok && base == name && count >= n {
			return true
		}
	}
	return false
}

// numbered splits "mug 3".
func numbered(name string) (base string, n int, ok bool) {
	cut := strings.LastIndexByte(name, ' ')
	if cut < 1 {
		return "", 0, false
	}
	n, err := strconv.Atoi(name[cut+1:])
	return name[:cut], n, err == nil && n > 0
}

// rename calls a row after its kiln: "wren mug". What its name said of its form
// is kept.
func (s *splitter) rename(k int, w *layout.Ware, taken map[string]int) {
	old := w.Name
	if w.Silhouette == "" {
		w.Silhouette = silhouette.Guess(old)
	}
	w.Name = strings.ToLower(s.studio.Kilns[k].Name) + " " + old
	for clashes(w.Name, w.Count, taken) {
		w.Name = "other " + w.Name
	}
	s.renamed[k][old] = w.Name
	s.notes = append(s.notes, fmt.Sprintf("%q of %s is called %q: another load has that name.", old, s.studio.Kilns[k].Name, w.Name))
}

// keptOf lists the pots of a row that a plan of the load leaves where they are:
// locked, or on a level that is locked or stands already.
func keptOf(l *layout.Load, name string) []layout.Pot {
	var out []layout.Pot
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				if p.Pot.Ware == name && (v.Locked || v.Standing || p.Locked) {
					out = append(out, p.Pot)
				}
			}
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Number < out[j].Number })
	return out
}

// stays tells whether something in a load's arrangement is to stay.
func stays(l *layout.Load) bool {
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			if v.Locked || v.Standing {
				return true
			}
			for _, p := range v.Set {
				if p.Locked {
					return true
				}
			}
		}
	}
	return false
}

// must tells whether a lot goes before all others.
func (l *lot) must() bool { return stacks.Class(&l.ware) == 2 }

// inOrder lists lots by who goes first: must-go, longest waiting, as listed.
func (s *splitter) inOrder(lots []int) []int {
	out := append([]int(nil), lots...)
	sort.SliceStable(out, func(i, j int) bool { return stacks.Before(&s.lots[out[i]].ware, &s.lots[out[j]].ware) < 0 })
	return out
}
