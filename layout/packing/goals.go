package packing

// goal is a set of things that is tried next: the best arrangement, one more
// of a want, and less of some others; or everything.
type goal struct {
	all  bool
	add  int   // want
	less []int // wants, one thing of each leaves
	hops int
}

// plan lists what to try in the next round: everything at once while that is
// in reach, then one more of every want that waits, then exchanges.
func (s *Search) plan() {
	if s.round > 0 {
		s.barren++
	}
	if s.barren > 12 {
		s.done = true
		return
	}
	hops := 12 << min(s.round, 7)
	room, area := 0.0, 0.0
	for _, f := range s.g.fences {
		room += f.outline.Area()
	}
	waiting := 0
	for i, w := range s.p.Wants {
		area += float64(float64(w.Count) * s.g.kinds[w.Kind].area)
		waiting += s.best.Left[i]
	}
	if waiting > 1 && area < 1.05*room && waiting <= 6+len(s.best.Set)/3 {
		s.goals = append(s.goals, goal{all: true, hops: 3 * hops})
	}
	seen := map[int]bool{}
	for _, w := range s.g.order(s.best.Left, false, 0, s.rnd) {
		if seen[w] {
			continue
		}
		seen[w] = true
		s.goals = append(s.goals, goal{add: w, hops: hops})
		s.goals = append(s.goals, s.exchanges(w, hops/2)...)
	}
	s.round++
	kept := s.goals[:0]
	for _, g := range s.goals {
		if !s.bulk.hopeless(s.counts(g)) {
			kept = append(kept, g)
		}
	}
	s.goals = kept
	if len(s.goals) == 0 {
		s.done = true
	}
}

// counts is how many of every want a goal sets.
func (s *Search) counts(g goal) []int {
	n := make([]int, len(s.p.Wants))
	for i, w := range s.p.Wants {
		n[i] = w.Count
		if !g.all {
			n[i] -= s.best.Left[i]
		}
	}
	if !g.all {
		n[g.add]++
	}
	for _, w := range g.less {
		n[w]--
	}
	return n
}

// exchanges are the goals in which one more of want w makes one or two of
// lesser worth leave.
func (s *Search) exchanges(w, hops int) []goal {
	var list []goal
	have := make([]int, len(s.p.Wants))
	for i, x := range s.p.Wants {
		have[i] = x.Count - s.best.Left[i]
	}
	in := &s.p.Wants[w]
	worse := func(less ...int) bool {
		value, musts := 0.0, 0.0
		for _, l := range less {
			value += s.p.Wants[l].Value
			if s.p.Wants[l].Must {
				musts += s.p.Wants[l].Value
			}
		}
		gain := 0.0
		if in.Must {
			gain = in.Value
		}
		return gain > musts+1e-9 || (gain >= musts-1e-9 && in.Value > value+1e-9)
	}
	for i := range have {
		if have[i] == 0 || i == w || !worse(i) {
			continue
		}
		list = append(list, goal{add: w, less: []int{i}, hops: hops})
		for j := i; j < len(have); j++ {
			if have[j] == 0 || (j == i && have[i] < 2) || j == w || !worse(i, j) {
				continue
			}
			list = append(list, goal{add: w, less: []int{i, j}, hops: hops})
		}
	}
	for len(list) > 4 { // any four of them; the next round takes others
		k := s.rnd.IntN(len(list))
		list = append(list[:k], list[k+1:]...)
	}
	return list
}
