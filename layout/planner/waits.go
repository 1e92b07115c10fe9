package planner

import (
	"fmt"
	"math"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// waits tells of every row with pots left over why they wait.
func (s *Search) waits(best *candidate) []Wait {
	var out []Wait
	set := map[string]int{}
	for _, t := range best.towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				set[p.Pot.Ware]++
			}
		}
	}
	for k, kd := range s.context.kinds {
		if kd.ware == nil {
			if set[kd.name] == 0 {
				out = append(out, Wait{Ware: kd.name, Count: 1, Reason: "No spyhole shows it clear of the wall and the posts."})
			}
			continue
		}
		n := kd.ware.Count - set[kd.name]
		if n <= 0 {
			continue
		}
		w := Wait{Ware: kd.name, Count: n, Reason: s.whyWaits(k, n, best)}
		out = append(out, w)
	}
	return out
}

// stands begins a sentence on the height of n pots.
func stands(n int) string {
	if n == 1 {
		return "It stands"
	}
	return "They stand"
}

// whyWaits is the reason that pots of a kind have no place in a plan.
func (s *Search) whyWaits(k, n int, best *candidate) string {
	c := s.context
	kd := c.kinds[k]
	for _, name := range c.load.Wishes.LeaveOut {
		if name == kd.name {
			return "Left out as wished."
		}
	}
	if reason, ok := s.barred[k]; ok {
		return reason
	}
	if reason, ok := s.unstood[k]; ok {
		return reason
	}
	say := func(mm float64, r measure.Round) string { return measure.FormatLength(mm, c.load.Units, r) }
	tallest, fits := 0.0, 0
	for _, st := range best.frame.storeys {
		tallest = max(tallest, st.tallest())
		if st.fits(kd.body.Height) {
			fits++
		}
	}
	switch {
	case fits == 0 && kd.body.Height+c.limits[layout.RoomToLid].Plan > c.load.Kiln.Height:
		return fmt.Sprintf("%s %s high, and the kiln takes %s.", stands(n), say(kd.body.Height, measure.Up),
			say(c.load.Kiln.Height-c.limits[layout.RoomToLid].Plan, measure.Down))
	case fits == 0:
		return fmt.Sprintf("%s %s high, and the tallest level takes %s.", stands(n), say(kd.body.Height, measure.Up), say(tallest, measure.Down))
	}
	wide := true
	for _, st := range best.frame.storeys {
		if st.fits(kd.body.Height) && s.capacity(st.site, k, st.deep) > 0 {
			wide = false
		}
	}
	gap := say(c.limits[layout.PotToPot].Plan, measure.Up)
	if wide {
		return fmt.Sprintf("No shelf that takes its height is wide enough for it at %s to the edge and the posts.",
			say(c.limits[layout.FootToEdge].Plan, measure.Up))
	}
	if fits == 1 {
		return fmt.Sprintf("The one level that takes %s is full at a gap of %s.", say(kd.body.Height, measure.Up), gap)
	}
	return fmt.Sprintf("The %d levels that take %s are full at a gap of %s.", fits, say(kd.body.Height, measure.Up), gap)
}

// addition is furniture that a potter might get.
type addition struct {
	say   string
	apply func(*layout.Load)
}

// Explain adds to a plan's waiting rows what would let them in: the addition to
// the furniture that makes most room by area. It is an estimate and says so.
func (s *Search) Explain(p *Plan) {
	waiting := false
	for _, w := range p.Waits {
		if w.Count > 0 && s.wouldGo(w.Ware) {
			waiting = true
		}
	}
	if !waiting || s.best == nil || s.best.frame.kept {
		return
	}
	stretch, base := s.stretched(p)
	most := map[string]float64{}
	for _, a := range s.additions() {
		l := s.context.load.Clone()
		a.apply(l)
		with, err := s.surveyed(l, stretch)
		if err != nil {
			continue
		}
		for i := range p.Waits {
			w := &p.Waits[i]
			if !s.wouldGo(w.Ware) {
				continue
			}
			row := s.context.load.WareOf(layout.Pot{Ware: w.Ware})
			gain := min(float64(w.Count), with.count[w.Ware]-float64(row.Count-w.Count), (with.value-base)/s.valueOf(w.Ware))
			if gain >= 0.9 && gain > most[w.Ware]+0.4 {
				most[w.Ware] = gain
				w.LetIn = fmt.Sprintf("%s would let in about %s (an estimate, by area).", a.say, silhouette.Counted(int(gain+0.1), w.Ware))
			}
		}
	}
	for i := range p.Waits {
		if w := &p.Waits[i]; w.LetIn == "" && s.wouldGo(w.Ware) && s.hasLevel(w.Ware) {
			w.LetIn = s.instead(p, w)
		}
	}
}

// hasLevel says whether some level of the best plan takes a row's height.
func (s *Search) hasLevel(ware string) bool {
	for _, kd := range s.context.kinds {
		if kd.name != ware {
			continue
		}
		for _, st := range s.best.frame.storeys {
			if st.fits(kd.body.Height) {
				return true
			}
		}
	}
	return false
}

// instead says what could wait in a row's stead where no furniture helps: the
// row that gives most room for its value, of those that are no musts, by area.
func (s *Search) instead(p *Plan, w *Wait) string {
	areas := s.areas(s.best.frame.design.division)
	find := func(ware string) int {
		for k, kd := range s.context.kinds {
			if kd.ware != nil && kd.name == ware {
				return k
			}
		}
		return -1
	}
	k := find(w.Ware)
	if k < 0 || math.IsInf(areas[k], 1) {
		return ""
	}
	waiting := map[string]bool{}
	for _, x := range p.Waits {
		waiting[x.Ware] = true
	}
	best := -1
	for o, kd := range s.context.kinds {
		if kd.ware == nil || kd.must || waiting[kd.name] || math.IsInf(areas[o], 1) || len(kd.free) == 0 {
			continue
		}
		if best < 0 || float64(kd.value*areas[best]) < float64(s.context.kinds[best].value*areas[o]) {
			best = o
		}
	}
	if best < 0 {
		return "One shelf or three posts more would not let it in (an estimate, by area)."
	}
	other := s.context.kinds[best]
	n := int(math.Ceil(areas[k] / areas[best]))
	if n > len(other.free) {
		return "One shelf or three posts more would not let it in (an estimate, by area)."
	}
	return fmt.Sprintf("One shelf or three posts more would not; about %s less would let in 1 %s (an estimate, by area).",
		silhouette.Counted(n, other.name), silhouette.Singular(w.Ware))
}

// stretched is the factor by which pots take more area than alone on a shelf,
// so that the estimate for the furniture as it is holds no more than the plan,
// and the value of that estimate.
func (s *Search) stretched(p *Plan) (stretch, base float64) {
	set := p.Value
	for _, stretch = range []float64{0.8, 0.88, 0.94, 1, 1.06, 1.14, 1.24, 1.4} {
		o, err := s.surveyed(s.context.load, stretch)
		if err != nil {
			return stretch, set
		}
		if base = o.worth; base <= set {
			return stretch, o.value
		}
		base = o.value
	}
	return stretch, base
}

// valueOf is what one pot of a row is worth to the planner.
func (s *Search) valueOf(ware string) float64 {
	for _, kd := range s.context.kinds {
		if kd.name == ware && kd.value > 0 {
			return kd.value
		}
	}
	return 1
}

// wouldGo says whether more furniture could help a row at all.
func (s *Search) wouldGo(ware string) bool {
	for k, kd := range s.context.kinds {
		if kd.name == ware && kd.ware != nil { // a cone pack waits for sight, not for furniture
			_, barred := s.barred[k]
			_, unstood := s.unstood[k]
			return !barred && !unstood && len(kd.free) > 0
		}
	}
	return false
}

// mostAdditions is how many additions are weighed.
const mostAdditions = 16

// additions are three more of each post, and one more of each shelf with three
// posts of each height, in the order of the furniture.
func (s *Search) additions() []addition {
	var out []addition
	f := &s.context.load.Furniture
	three := func(i int) string {
		return "three more posts of " + measure.FormatLengthTo(f.Posts[i].Height, s.context.load.Units, measure.Nearest, measure.PostGrain)
	}
	for i := range f.Posts {
		if !f.Posts[i].Spacer {
			out = append(out, addition{"T" + three(i)[1:], func(l *layout.Load) { l.Furniture.Posts[i].Count += 3 }})
		}
	}
	for j := range f.Shelves {
		name := silhouette.Singular(f.Shelves[j].Name + " shelf")
		out = append(out, addition{"One more " + name, func(l *layout.Load) { l.Furniture.Shelves[j].Count++ }})
		for i := range f.Posts {
			if f.Posts[i].Spacer || f.Posts[i].Height < 40 {
				continue
			}
			out = append(out, addition{"One more " + name + " with " + three(i),
				func(l *layout.Load) { l.Furniture.Shelves[j].Count++; l.Furniture.Posts[i].Count += 3 }})
		}
	}
	return out[:min(len(out), mostAdditions)]
}

// outlook is what the best design of a load holds by area.
type outlook struct {
	count        map[string]float64 // pots of each row
	value, worth float64            // in the plan's eyes, and as reported
}

// surveyed is what the best design of a load holds by area, when each pot takes
// stretch times the area it takes among its like.
func (s *Search) surveyed(l *layout.Load, stretch float64) (outlook, error) {
	o := outlook{count: map[string]float64{}}
	c, err := newContext(l)
	if err != nil {
		return o, err
	}
	// Counts of alike pots on a bare shelf hold whatever else is owned.
	t := &Search{context: c, seed: s.seed, barred: s.barred, capacities: s.capacities, areaOf: map[string][]float64{}, quick: true, stretch: stretch}
	for k := range s.barred {
		c.kinds[k].free = nil
	}
	var best *design
	for _, dv := range c.maker().divisions() {
		all := t.designs(dv, true)
		if len(all) == 0 {
			continue
		}
		d := all[0] // the best of the division
		if best == nil || d.musts > best.musts+plane.Tolerance || d.musts >= best.musts-plane.Tolerance && d.before(best) {
			best = d
		}
	}
	if best == nil {
		return o, fmt.Errorf("nothing to build")
	}
	bins := t.bins(best)
	quota := make([][]float64, len(bins))
	for i := range quota {
		quota[i] = make([]float64, len(c.kinds))
	}
	t.assign(bins, t.areas(best.division), quota)
	for k, kd := range c.kinds {
		for i := range quota {
			o.count[kd.name] += quota[i][k]
			o.value += float64(quota[i][k] * kd.value)
			o.worth += float64(quota[i][k] * kd.worth)
		}
	}
	return o, nil
}
