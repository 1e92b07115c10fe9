package clearance

import (
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

// firing judges every set row against the firing, and the furniture against
// its temperature.
func (r *run) firing() {
	for _, u := range r.set() {
		for _, f := range Fits(r.b.Load, &r.b.Load.Ware[u.kind]) {
			r.row(u, f.Rule, f.Grade, f.Sentence, measured{have: f.Have, need: f.Need, plan: f.Need}, f.labels()...)
		}
		r.glazedFoot(u)
		r.runny(u)
		r.stiltHeat(u)
		r.tallNarrow(u)
	}
	r.shelfHeat()
}

// peak is how hot the firing gets, C, and how it is said.
func (r *run) peak() (float64, string) { return peakOf(r.b.Load) }

// rowName begins a sentence about a row: "Mugs", "The vase".
func (r *run) rowName(u kindUse) string {
	return rowName(&r.b.Load.Ware[u.kind])
}

// glazedFoot judges what stands under a glazed foot where a stilt mends it.
func (r *run) glazedFoot(u kindUse) {
	w := &r.b.Load.Ware[u.kind]
	heat, _ := r.peak()
	stilt := r.b.Pots[u.pots[0]].Body.Stand.Kind == layout.Stilt
	if !w.Flags.GlazedFoot || stilt || r.b.Load.Firing.Stage == layout.Bisque || hotForAFoot(heat) {
		return
	}
	r.row(u, layout.GlazedFoot, layout.Problem, r.rowName(u)+pick(w.Count, " has a glazed foot", " have glazed feet")+": put a stilt under "+pick(w.Count, "it.", "each."),
		measured{have: heat, need: footHot.Heat(), plan: footHot.Heat()})
}

// runny judges the cookie under a runny pot: wider than the foot all round.
func (r *run) runny(u kindUse) {
	w := &r.b.Load.Ware[u.kind]
	if !w.Flags.Runny || r.b.Load.Firing.Stage == layout.Bisque {
		return
	}
	l := r.b.Load.Limits(layout.CookieWider)
	p := &r.b.Pots[u.pots[0]]
	runs := pick(w.Count, " runs", " run")
	if p.Body.Stand.Kind != layout.Cookie {
		r.row(u, layout.RunnyCookie, layout.Problem, r.rowName(u)+runs+". Put a cookie under "+pick(w.Count, "it", "each")+", "+r.up(l.Plan)+" wider than the foot all round.",
			measured{need: l.Problem, plan: l.Plan})
		return
	}
	wider := cookieWider(p.Body.Foot, p.Body.FootR, p.Body.Drawn.Foot.Skeleton, p.Body.Drawn.Foot.Radius)
	if grade, bad := under(wider, l); bad {
		r.row(u, layout.RunnyCookie, grade, r.rowName(u)+runs+" and the cookie is "+r.down(wider)+" wider than the foot. Plan "+r.up(l.Plan)+" all round.",
			measured{have: wider, need: missed(grade, l), plan: l.Plan})
	}
}

// cookieWider is how far a cookie stands out from a foot, at the least: both
// share their middle, so the corners of the foot decide.
func cookieWider(cookie plane.Skeleton, rc float64, foot plane.Skeleton, rf float64) float64 {
	far := 0.0
	for _, v := range foot {
		if _, d := cookie.Nearest(v); d > far {
			far = d
		}
	}
	return rc - far - rf
}

func (r *run) stiltHeat(u kindUse) {
	b := r.b.Pots[u.pots[0]].Body
	if b.Stand.Kind != layout.Stilt {
		return
	}
	limit := 0.0
	for _, s := range r.b.Load.Furniture.Stilts {
		if b.Stand.Across == 0 || s.Across == b.Stand.Across {
			limit = max(limit, stiltLimit(s))
		}
	}
	heat, said := r.peak()
	if limit == 0 || heat <= limit+tol {
		return
	}
	r.row(u, layout.FitsFiring, layout.Watch, r.rowName(u)+": the stilts stand "+measure.FormatTemperature(limit, r.b.Load.Units)+", the firing is "+said+".",
		measured{have: limit, need: heat, plan: heat}, "stilt")
}

// stiltLimit is how hot a stilt may get, C (common practice: metal points to
// about 1100 C).
func stiltLimit(s layout.StiltKind) float64 {
	switch {
	case s.Limit > 0:
		return s.Limit
	case s.Metal:
		return 1100
	}
	return 1300
}

// shelfLimit is how hot a shelf may get, C: its own figure, or its material's
// (trade data: cordierite 1300, mullite and high alumina 1400, silicon carbide
// bonded with nitride 1450).
func shelfLimit(k *layout.ShelfKind) float64 {
	if k.Limit > 0 {
		return k.Limit
	}
	switch m := strings.ToLower(k.Material); {
	case strings.Contains(m, "mullite"), strings.Contains(m, "alumina"):
		return 1400
	case strings.Contains(m, "carbide"):
		return 1450
	}
	return 1300
}

func (r *run) shelfHeat() {
	heat, said := r.peak()
	told := map[string]bool{}
	for i := range r.b.Shelves {
		k := r.b.Shelves[i].Kind
		if k == nil || told[k.Name] || heat <= shelfLimit(k)+tol {
			continue
		}
		told[k.Name] = true
		n := r.names
		r.add(layout.FitsFiring, layout.Watch, "The "+k.Name+" shelves stand "+measure.FormatTemperature(shelfLimit(k), r.b.Load.Units)+", the firing is "+said+".",
			measured{have: shelfLimit(k), need: heat, plan: heat, at: at(r.b.Shelves[i].Outline.Centroid(), r.b.Shelves[i].Top)},
			[]layout.Thing{n.shelfThing(i)}, "shelf "+k.Name)
	}
}

// fuming tells what gives off metal fume on a level with what takes colour
// from it.
func (r *run) fuming() {
	if r.b.Load.Firing.Stage == layout.Bisque {
		return
	}
	for v := range r.b.Levels {
		a, b, best := -1, -1, 0.0
		for _, i := range r.b.Levels[v].Pots {
			p := &r.b.Pots[i]
			if p.Ware == nil || !p.Ware.Flags.Fuming {
				continue
			}
			for _, j := range r.b.Levels[v].Pots {
				q := &r.b.Pots[j]
				if q.Ware == nil || !q.Ware.Flags.FumeShy {
					continue
				}
				if d := plane.Distance(p.At, q.At); a < 0 || d < best {
					a, b, best = i, j, d
				}
			}
		}
		if a < 0 {
			continue
		}
		n := r.names
		r.add(layout.Fuming, layout.Watch, sentence(n.pot(a))+" gives off fume, and "+n.from(a, b)+" on the same level takes its colour. Another firing is best.",
			measured{have: best, at: at(plane.Lerp(r.b.Pots[a].At, r.b.Pots[b].At, 0.5), r.b.Levels[v].Top)},
			[]layout.Thing{n.potThing(a), n.potThing(b)}, n.place(v))
	}
}
