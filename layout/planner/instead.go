package planner

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout/silhouette"
)

// Work of setting one pot in the stead of others.
const (
	insteadShove = 200 // moving what stands on a level to make room where some pots left
	insteadAnew  = 900 // packing a level anew, where moving brought nothing
	dearLoss     = 3   // pots of more than so many times its value are not told to wait
	mostLeave    = 4   // pots of one row that leave a level
)

// stead is what could wait in the stead of one pot of a row.
type stead struct {
	search *Search
	on     footing
	frame  *frame
	kind   int // that is to go in
	end    int64
	watch  int // watches of the plan that are not in the ware itself
	best   *Plan
}

// instead says what could wait in a row's stead: from the levels that take its
// height some pots of one row are taken, and one of it is set there, moving what
// is loose. What is lost least is told.
func (s *Search) instead(on footing, ware string, work int64, tried bool) string {
	t, _, err := s.trial(s.bareLoad(), on)
	if err != nil {
		return ""
	}
	f := t.standingFrame(on.built)
	t.hear(f)
	x := &stead{search: t, on: on, frame: f, kind: -1, end: t.spent + work}
	for i, kd := range t.context.kinds {
		if kd.ware != nil && kd.name == ware {
			x.kind = i
		}
	}
	now := t.verify(x.frame.clone())
	if x.kind < 0 || now == nil {
		return ""
	}
	x.watch = now.watch
	for n := 1; n <= mostLeave && x.best == nil; n++ {
		x.leaving(n)
	}
	for i := 0; i < len(x.frame.storeys) && x.best == nil && t.spent < x.end+insteadAnew; i++ {
		x.anew(i)
	}
	if x.best == nil {
		return ""
	}
	gained := gainsOf(t.context.load, on.plan, x.best)
	n := gained[ware]
	less, pots := lost(t.context.load, gained)
	if less == "" {
		return planningLonger(n, ware)
	}
	says := fmt.Sprintf("%s %s in if %s %s instead.", silhouette.Counted(n, ware), pick(n, "goes", "go"), less, pick(pots, "waits", "wait"))
	if tried {
		says = fmt.Sprintf("No furniture that was tried lets %s in; %s", them(n), says)
	}
	return says
}

// swap is some pots of one kind that leave one storey.
type swap struct {
	storey, kind int
	value        float64
}

// leaving tries every storey that takes the pot, and every kind there of which n
// pots leave; what is worth least leaves first.
func (x *stead) leaving(n int) {
	t := x.search
	var all []swap
	for i, st := range x.frame.storeys {
		if st.sealed || !t.context.takes(st, x.kind) {
			continue
		}
		count := map[int]int{}
		for _, p := range st.set {
			if count[p.kind]++; count[p.kind] == n && p.kind != x.kind && !t.context.kinds[p.kind].must {
				all = append(all, swap{i, p.kind, t.context.kinds[p.kind].value})
			}
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].value < all[j].value })
	for _, w := range all {
		if t.spent >= x.end {
			return
		}
		if x.best != nil && float64(float64(n)*w.value) > x.on.plan.Value-x.best.Value {
			return // it would lose more
		}
		x.try(w, n)
	}
}

// try takes n pots of a kind off a storey, sets the pot there, and lets what
// left onto other levels where it goes.
func (x *stead) try(w swap, n int) {
	t := x.search
	f := x.frame.clone()
	st := f.storeys[w.storey]
	for _, i := range closest(st.set, w.kind, n) {
		st.set = slices.Delete(st.set, i, i+1)
	}
	seed := uint64(7000 + 31*w.storey + w.kind)
	if !t.squeezeOne(st, x.kind, seed, insteadShove) {
		return
	}
	x.weigh(f)
}

// anew packs a storey from nothing with one pot of the kind, whatever it costs,
// and as many of the others as go.
func (x *stead) anew(at int) {
	const dear = 1e3
	t := x.search
	f := x.frame.clone()
	st := f.storeys[at]
	if st.sealed || !t.context.takes(st, x.kind) {
		return
	}
	wants := map[int]int{x.kind: 1}
	for _, p := range st.set {
		wants[p.kind]++
	}
	t.partFume(st, wants)
	if wants[x.kind] == 0 {
		return
	}
	st.set = nil
	st.set = t.packed(st, wants, insteadAnew, uint64(8000+at), func(kind int) float64 {
		if kind == x.kind {
			return dear
		}
		return 1
	})
	x.weigh(f)
}

// weigh lets what left onto other levels where it goes, checks the whole, and
// keeps it where it loses least.
func (x *stead) weigh(f *frame) {
	t := x.search
	rest := t.restOf(f)
	rest[x.kind] = 0 // one in, and no more of it
	t.mixes++
	t.fillGaps(f, tallestFirst(f.storeys), rest)
	c := t.verify(f)
	if c == nil || c.musts < x.on.plan.musts-1e-9 {
		return
	}
	q := t.planOf(c)
	kd := t.context.kinds[x.kind]
	if gainsOf(t.context.load, x.on.plan, q)[kd.name] <= 0 || c.watch > x.watch || c.deaf > x.on.plan.deaf ||
		x.on.plan.Value-q.Value > float64(dearLoss*kd.worth) {
		return
	}
	if x.best == nil || q.worthMore(x.best) {
		x.best = q
	}
}

// closest are the places of n pots of a kind that stand nearest together, the
// last first, so that they leave one hole.
func closest(set []placed, kind, n int) []int {
	var of []int
	for i := range set {
		if set[i].kind == kind {
			of = append(of, i)
		}
	}
	var best []int
	least := math.Inf(1)
	for _, a := range of {
		near := slices.Clone(of)
		sort.SliceStable(near, func(i, j int) bool {
			return plane.Distance(set[near[i]].at, set[a].at) < plane.Distance(set[near[j]].at, set[a].at)
		})
		near = near[:n]
		if d := plane.Distance(set[near[n-1]].at, set[a].at); d < least {
			best, least = near, d
		}
	}
	sort.Sort(sort.Reverse(sort.IntSlice(best)))
	return best
}
