package planner

import (
	"fmt"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/packing"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Price is what closer gaps would add to a plan, and what they cost.
type Price struct {
	Gap     float64      // between pots, mm; 0 where the rules leave none closer
	More    int          // pots
	Ware    []Gain       // of which rows, in their order
	Gaps    int          // that fall under the plan's
	Watches int          // more than the plan has
	Load    *layout.Load // with the closer arrangement, its rules unchanged; nil when nothing is added
}

// Gain is so many more pots of a row.
type Gain struct {
	Ware  string
	Count int
}

// closerGap is the gap that going closer offers, mm.
const closerGap = 4

// Work of one question, per level that is packed closer.
const (
	pressWork  = 600
	repackWork = 2500
	closerMost = 60000 // of all levels together, about
)

// Closer tells what a gap of 4 mm between pots would add to a plan, on the
// levels as they stand, and how many watches it would cost. Levels that gain
// nothing stay as they are. Work is bounded; the plan is not changed.
func Closer(p *Plan) (Price, error) {
	limits := p.Load.Limits(layout.PotToPot)
	gap := float64(closerGap)
	if gap <= limits.Problem || gap >= limits.Plan {
		gap = (limits.Problem + limits.Plan) / 2
	}
	if len(p.Waits) == 0 || gap >= limits.Plan-plane.Tolerance {
		return Price{}, nil
	}
	l := p.Load.Clone()
	if l.Rules = l.Rules.Clone(); l.Rules == nil {
		l.Rules = layout.Rules{}
	}
	deep := l.Limits(layout.PotToPotDeep)
	l.Rules[layout.PotToPot] = layout.Limits{Problem: limits.Problem, Watch: gap, Plan: gap}
	l.Rules[layout.PotToPotDeep] = layout.Limits{Problem: deep.Problem, Watch: gap, Plan: min(gap, deep.Plan)}
	c, err := newContext(l)
	if err != nil {
		return Price{}, err
	}
	b, err := stacks.Build(l)
	if err != nil {
		return Price{}, err
	}
	s := newSearch(c, p.Seed)
	f := s.standingFrame(b)
	s.hear(f)
	before := s.counted(f)
	s.press(f)
	out := s.verify(f)
	if out == nil {
		return Price{Gap: gap}, nil
	}
	return s.priced(p, out, before, gap)
}

// standingFrame is a built load as a frame in which all that is neither locked
// nor in the kiln already may move. Cone packs stay.
func (s *Search) standingFrame(b *stacks.Built) *frame {
	c := s.context
	stays := func(v *layout.Level, p *layout.Placement) bool { return v.Locked || v.Standing || p.Locked }
	f := frameOf(c, b, stays)
	for i := range b.Levels {
		lv := &b.Levels[i]
		st := f.storeys[i]
		level := &b.Load.Towers[f.at[i].tower].Levels[f.at[i].level]
		for _, pi := range lv.Pots {
			pot := &b.Pots[pi]
			loose := placed{kind: pot.Kind, at: pot.At, turn: pot.Turn}
			for j := range level.Set {
				if level.Set[j].Pot != pot.Pot || stays(level, &level.Set[j]) {
					continue
				}
				if c.kinds[pot.Kind].cones == nil {
					st.set = append(st.set, loose)
					continue
				}
				st.fixed = append(st.fixed, loose)
			}
		}
	}
	c.keepSights(f, b)
	return f
}

// tubeTo is the line of sight to a watched pack from the spyhole whose axis it
// stands nearest to.
func (c *context) tubeTo(st *storey, p placed) tube {
	want := c.kinds[p.kind].cones.Spyhole
	tip := st.top + c.kinds[p.kind].body.Height
	var out tube
	least := 1e300
	for i := range c.spies {
		spy := &c.spies[i]
		off := plane.Sub(p.at, spy.Mouth)
		lean := abs(plane.Cross(off, spy.Inward)) + abs(tip-spy.Height)
		if (want == 0 || want == i+1) && lean < least {
			least = lean
			out = tube{from: spy.Mouth, to: p.at, low: min(spy.Height, tip) - st.top - sightRoom}
		}
	}
	return out
}

// counted is how many pots of each kind stand in a frame.
func (s *Search) counted(f *frame) []int {
	out := make([]int, len(s.context.kinds))
	for _, st := range f.storeys {
		for _, p := range st.set {
			out[p.kind]++
		}
		for _, p := range st.fixed {
			out[p.kind]++
		}
	}
	return out
}

// press lets waiting pots onto the storeys of a frame, dearest first, so that
// no row loses a pot.
func (s *Search) press(f *frame) {
	rest := s.restOf(f)
	var order []int
	for k, kd := range s.context.kinds {
		if kd.ware != nil && rest[k] > 0 {
			order = append(order, k)
		}
	}
	kinds := s.context.kinds
	sort.SliceStable(order, func(i, j int) bool {
		a, b := kinds[order[i]], kinds[order[j]]
		return a.must && !b.must || a.must == b.must && a.value > b.value
	})
	for i, st := range f.storeys {
		if st.sealed || s.spent > closerMost {
			continue
		}
		was := len(st.set)
		for _, k := range order {
			for rest[k] > 0 && s.context.takes(st, k) && s.squeezeOne(st, k, uint64(i), pressWork) {
				rest[k]--
			}
		}
		s.repackMore(st, rest, uint64(i))
		if len(st.set) > was {
			s.spreadStorey(st, spreadWork, uint64(i))
		}
	}
}

// squeezeOne sets one more pot of a kind on a storey, moving what is loose.
func (s *Search) squeezeOne(st *storey, k int, seed uint64, work int64) bool {
	wants := map[int]int{k: 1}
	for _, p := range st.set {
		wants[p.kind]++
	}
	whole := len(wants)
	s.partFume(st, wants)
	if len(wants) < whole {
		return false
	}
	sp := s.context.problemOf(st, wants, st.fixed)
	start := packing.Result{Set: append([]packing.Standing(nil), sp.problem.Fixed...)}
	want := map[int]int{}
	for i, w := range sp.problem.Wants {
		want[w.Kind] = i
	}
	for _, p := range st.set {
		i := sp.index[p.kind]
		start.Set = append(start.Set, packing.Standing{Kind: i, Want: want[i], At: p.at, Turn: p.turn})
	}
	r, ok := packing.Squeeze(sp.problem, start, want[sp.index[k]], s.seed*1000003+seed, work)
	s.spent += r.Work
	if set := s.placedOf(sp, r); ok && len(set) == len(st.set)+1 {
		st.set = set
		return true
	}
	return false
}

// repackMore packs a storey anew with all that waits beside what stands there,
// and keeps it when no row lost a pot and some gained.
func (s *Search) repackMore(st *storey, rest []int, seed uint64) {
	wants, had := map[int]int{}, map[int]int{}
	for _, p := range st.set {
		had[p.kind]++
		wants[p.kind]++
	}
	more := false
	for k, kd := range s.context.kinds {
		if kd.cones == nil && rest[k] > 0 && s.context.takes(st, k) {
			wants[k] += rest[k]
			more = true
		}
	}
	if !more {
		return
	}
	old := st.set
	s.fillStorey(st, wants, repackWork, seed+50)
	got := map[int]int{}
	for _, p := range st.set {
		got[p.kind]++
	}
	for k, n := range had {
		if got[k] < n {
			st.set = old
			return
		}
	}
	for k, n := range got {
		rest[k] -= n - had[k]
	}
}

// priced tells the gain and counts what it costs by the load's own rules.
func (s *Search) priced(p *Plan, out *candidate, before []int, gap float64) (Price, error) {
	price := Price{Gap: gap}
	for k, n := range s.counted(out.frame) {
		if d := n - before[k]; s.context.kinds[k].ware != nil && d != 0 {
			price.More += d
			price.Ware = append(price.Ware, Gain{s.context.kinds[k].name, d})
		}
	}
	if price.More <= 0 {
		return Price{Gap: gap}, nil
	}
	price.Load = p.Load.Clone()
	price.Load.Towers = layout.CloneTowers(out.towers)
	b, err := stacks.Build(price.Load)
	if err != nil {
		return Price{}, err
	}
	r := clearance.Check(b)
	if r.Problems > p.Report.Problems {
		return Price{Gap: gap}, nil
	}
	price.Watches = r.Watches - p.Report.Watches
	for _, f := range r.Findings {
		if f.Rule == layout.PotToPot && f.Grade == layout.Watch {
			price.Gaps++
		}
	}
	return price, nil
}

// Say tells the price in a sentence: "2 more mugs if 11 gaps shrink to 4 mm.
// Price: 11 watches." It is empty where the rules leave no closer gap.
func (p Price) Say(units measure.Units) string {
	gap := measure.SayLength(p.Gap, units, measure.Down)
	switch {
	case p.Gap == 0:
		return ""
	case p.More <= 0:
		return fmt.Sprintf("Gaps of %s let no pot more in on these levels.", gap)
	}
	what := fmt.Sprintf("%d more", p.More)
	if len(p.Ware) == 1 {
		what = fmt.Sprintf("%d more %s", p.More, silhouette.Named(p.More, p.Ware[0].Ware))
	}
	if p.Gaps == 0 && p.Watches <= 0 {
		enter := "go"
		if p.More == 1 {
			enter = "goes"
		}
		return fmt.Sprintf("%s %s in with no gap closer than the plan's.", what, enter)
	}
	shrink := "shrink"
	if p.Gaps == 1 {
		shrink = "shrinks"
	}
	return fmt.Sprintf("%s if %s %s to %s. Price: %s.", what, silhouette.Counted(p.Gaps, "gap"), shrink, gap,
		silhouette.Counted(p.Watches, "watch"))
}
