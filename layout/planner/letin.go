package planner

import (
	"fmt"
	"sort"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Work of finding out what would let in what waits, in all.
const (
	letInWork   = 14000 // planning with more furniture, all trials together
	insteadWork = 6000  // setting a pot in the stead of others, all rows together
	letInTrials = 6     // pieces of furniture that are planned with
	mostWeighed = 16    // and that are weighed by area before
)

// addition is furniture that a potter might get.
type addition struct {
	say   string
	many  bool // it is told as many
	apply func(*layout.Load)
	more  bool // more of the piece that the addition before it is one of
}

// Explain adds to a plan's waiting rows what would let them in: a post or three,
// a shelf, or other pots that wait instead. Each is planned with, at the load's
// own distances, from what the plan holds on, and passes the check; the work is
// bounded, so what is not found is told as not found. The search goes on as if
// it had not been asked.
func (s *Search) Explain(p *Plan) {
	var rows []*Wait
	for i := range p.Waits {
		if w := &p.Waits[i]; w.Count > 0 && s.wouldGo(w.Ware) {
			rows = append(rows, w)
		}
	}
	if len(rows) == 0 || s.best == nil || s.best.frame.kept || s.rest != nil {
		return
	}
	s.aside(func() {
		on, ok := s.footing(p)
		if !ok {
			return
		}
		tried := s.letIn(on, rows)
		var open []*Wait
		for _, w := range rows {
			if w.LetIn == "" {
				open = append(open, w)
			}
		}
		for _, w := range open {
			w.LetIn = s.instead(on, w.Ware, int64(insteadWork/len(open)), tried)
		}
	})
	for _, w := range rows {
		if w.LetIn == "" {
			w.LetIn = fmt.Sprintf("Nothing simple that was tried lets %s in.", them(w.Count))
		}
	}
}

// them is a pronoun for n pots.
func them(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}

// wouldGo says whether more furniture could help a row at all.
func (s *Search) wouldGo(ware string) bool {
	for k, kd := range s.context.kinds {
		if kd.name == ware && kd.ware != nil { // a cone pack waits for sight, not for furniture
			_, barred := s.barred[k]
			_, unstood := s.unstood[k]
			tall := kd.body.Height+s.context.limits[layout.RoomToLid].Plan > s.context.load.Kiln.Height
			return !barred && !unstood && !tall && len(kd.free) > 0
		}
	}
	return false
}

// tried is an addition that was planned with.
type tried struct {
	addition
	plan  *Plan
	gains map[string]int
	frees string // "22 mm on left 3"; empty where more than one height changes
}

// letIn plans with more furniture and tells each row what lets most of it in.
// What more work lets in without furniture is told as that. furniture says
// whether any was planned with.
func (s *Search) letIn(on footing, rows []*Wait) (furniture bool) {
	hopes := s.promising(on)
	within := int64(letInWork / (len(hopes) + 1))
	base := on.plan
	if t, near, err := s.trial(s.bareLoad(), on); err == nil {
		t.look(near, t.around(near), on, within)
		if q := t.found(); q != nil && q.worthMore(base) && q.asWished(base) {
			base = q
			for _, w := range rows {
				if n := gainsOf(s.context.load, on.plan, q)[w.Ware]; n > 0 {
					w.LetIn = planningLonger(n, w.Ware)
				}
			}
		}
	}
	var all []tried
	for _, x := range hopes {
		x.search.look(x.near, x.field, on, within)
		q := x.search.found()
		if q == nil || q.Set <= base.Set || !q.worthMore(base) || !q.asWished(base) {
			continue
		}
		all = append(all, tried{addition: x.addition, plan: q, gains: gainsOf(s.context.load, base, q), frees: frees(on.built, q)})
	}
	for _, w := range rows {
		var best *tried
		for i := range all {
			if t := &all[i]; w.LetIn == "" && t.gains[w.Ware] > 0 && (best == nil || t.gains[w.Ware] > best.gains[w.Ware]) {
				best = t
			}
		}
		if best != nil {
			w.LetIn = best.sayFor(s.context.load, w.Ware)
		}
	}
	return len(hopes) > 0
}

// bareLoad is the load that is planned, without an arrangement.
func (s *Search) bareLoad() *layout.Load {
	l := s.context.load.Clone()
	l.Towers = nil
	return l
}

// found is a trial's best as a plan, for counting; nil when it has none.
func (s *Search) found() *Plan {
	if s.best == nil {
		return nil
	}
	return s.planOf(s.best)
}

// gainsOf is how many more pots of each row another plan sets.
func gainsOf(l *layout.Load, from, to *Plan) map[string]int {
	out := map[string]int{}
	for _, g := range gains(l, from, to) {
		out[g.Ware] = g.Count
	}
	return out
}

// hopeful is an addition with a trial that has not begun.
type hopeful struct {
	addition
	search   *Search
	near     *design
	field    []*design
	promises float64
}

// promising are the additions that by area make most of what is there, the best
// first, of equals the smaller; a few where area tells nothing of any.
func (s *Search) promising(on footing) []hopeful {
	const few = 3
	var out []hopeful
	for _, a := range s.additions(on) {
		with := s.bareLoad()
		a.apply(with)
		t, near, err := s.trial(with, on)
		if err != nil {
			continue
		}
		t.tighten(near, on.plan.Value)
		before := near.estimate
		field := t.around(near)
		if len(field) == 0 {
			continue
		}
		gain := 0.0
		for _, d := range field {
			gain = max(gain, d.estimate-before)
		}
		if n := len(out); n > 0 && a.more && gain <= out[n-1].promises+1e-6 {
			continue // one of them does as much
		}
		out = append(out, hopeful{a, t, near, field, gain})
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].promises > out[j].promises+1e-6 })
	n := 0
	for n < len(out) && n < letInTrials && (n < few || out[n].promises > 1e-6) {
		n++
	}
	return out[:n]
}

// tighten makes pots take so many times the area they take among their like
// that a design is estimated to hold no more than a plan with it does.
func (t *Search) tighten(d *design, value float64) {
	for _, t.stretch = range []float64{1, 1.06, 1.14, 1.24, 1.4, 1.6} {
		t.areaOf = map[string][]float64{}
		if d.musts, d.estimate = t.estimate(d); d.estimate <= value {
			return
		}
	}
}

// additions are pieces of which the plan has less than three left, since more
// of others would change nothing: one and three more of each post, three more
// of each spacer, one more of each shelf, alone and with three posts.
func (s *Search) additions(on footing) []addition {
	f := &s.context.load.Furniture
	left := stacks.NewStock(f)
	left.Use(on.built)
	size := func(i int) string {
		return measure.FormatLengthTo(f.Posts[i].Height, s.context.load.Units, measure.Nearest, measure.PostGrain)
	}
	var posts, spacers, shelves, both []addition
	for i := range f.Posts {
		if left.Posts[i] >= 3 {
			continue
		}
		if f.Posts[i].Spacer {
			spacers = append(spacers, addition{say: "Three more spacers of " + size(i), many: true, apply: func(l *layout.Load) { l.Furniture.Posts[i].Count += 3 }})
			continue
		}
		posts = append(posts, addition{say: "One more post of " + size(i), apply: func(l *layout.Load) { l.Furniture.Posts[i].Count++ }},
			addition{say: "Three more posts of " + size(i), many: true, more: true, apply: func(l *layout.Load) { l.Furniture.Posts[i].Count += 3 }})
	}
	for j := range f.Shelves {
		if left.Shelves[j] > 0 || !usable(&f.Shelves[j]) {
			continue
		}
		name := "One more " + silhouette.Singular(f.Shelves[j].Name+" shelf")
		shelves = append(shelves, addition{say: name, apply: func(l *layout.Load) { l.Furniture.Shelves[j].Count++ }})
		for i := range f.Posts {
			if !f.Posts[i].Spacer && left.Posts[i] < 3 {
				both = append(both, addition{say: name + " with three posts of " + size(i),
					apply: func(l *layout.Load) { l.Furniture.Shelves[j].Count++; l.Furniture.Posts[i].Count += 3 }})
			}
		}
	}
	all := append(append(append(posts, shelves...), spacers...), both...)
	return all[:min(len(all), mostWeighed)]
}
