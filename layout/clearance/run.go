package clearance

import (
	"sort"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/layout"
	"threepost/layout/order"
	"threepost/layout/statics"
)

// run is one check: the checker and what it has found so far.
type run struct {
	*Checker
	found []layout.Finding
	above map[roomKey]*room // pots too tall for what hangs over them
	rims  map[int]*overhang // by level
	first map[int][]int     // by pot: those that must stand before it
	hand  float64           // room for fingers, mm
	order *order.Order      // once it is asked for
	weigh *statics.Weights
	sways map[int]bool // by shelf: may come near to tipping
}

// Check judges the load by every rule.
func (c *Checker) Check() Report {
	r := &run{Checker: c, above: map[roomKey]*room{}, rims: map[int]*overhang{}, first: map[int][]int{}, sways: map[int]bool{}, hand: c.handRoom()}
	r.weigh = statics.Weigh(c.b)
	r.pairs()
	for i := range c.b.Pots {
		r.surround(i)
		r.footing(i)
	}
	r.tellRooms()
	r.tellRims()
	r.shelves()
	r.posts()
	r.balance()
	r.settable()
	r.furniture()
	r.firing()
	r.fuming()
	r.sights()
	r.waits()
	return newReport(r.found, c.b.Load.Accepted)
}

// add files a finding. Labels make its key.
func (r *run) add(rule layout.RuleName, grade layout.Grade, sentence string, m measured, things []layout.Thing, labels ...string) {
	r.found = append(r.found, layout.Finding{
		Key: keyOf(rule, labels...), Rule: rule, Grade: grade, Sentence: sentence,
		Things: things, Have: m.have, Need: m.need, Plan: m.plan, At: m.at,
	})
}

// measured is what a finding measured, against what, and where.
type measured struct {
	have, need, plan float64
	at               mgl64.Vec3
}

// against fills a measure from a graded row.
func against(have float64, g layout.Grade, l layout.Limits, at mgl64.Vec3) measured {
	return measured{have: have, need: missed(g, l), plan: l.Plan, at: at}
}

// sorted is the labels in natural order, for keys of pairs.
func sorted(labels ...string) []string {
	sort.SliceStable(labels, func(i, j int) bool { return natural(labels[i], labels[j]) })
	return labels
}
