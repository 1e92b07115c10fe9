package levels

import (
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/frame"
	"threepost/render/steps"
)

// Pages are the level pages of a load in order of setting, to be numbered by
// frame's Assemble: top view with legend, two levels to a page where both are
// small. why is why each level has its height, by its index, in US words; it may
// be nil.
func Pages(s *frame.Sheet, b *stacks.Built, o *order.Order, why map[int]string) []frame.Draft {
	m := &maker{s: s, b: b, o: o, kinds: kindsOf(b), list: steps.Of(b, o, s.Units, s.Words), why: why}
	var drafts []frame.Draft
	for _, g := range m.groups() {
		drafts = append(drafts, m.pages(g)...)
	}
	return drafts
}

// maker makes level pages.
type maker struct {
	s     *frame.Sheet
	b     *stacks.Built
	o     *order.Order
	kinds map[int]kind
	list  steps.List
	why   map[int]string
}

// group is what shares a page: one plan of one level or of two side by side,
// or two plans under each other.
type group struct {
	plans [][]int // each: levels (into Built.Levels) in order of setting
}

// levels are all levels of a group in order of setting.
func (g group) levels() []int {
	var all []int
	for _, p := range g.plans {
		all = append(all, p...)
	}
	return all
}

// small is the number of pots under which two levels share a page.
const small = 20

// groups divides the levels, in order of setting, among pages. Two that follow
// each other side by side share one plan where both are small or their legends
// fit under it; two small ones that lie
// over each other share a page where their plans and legends fit.
func (m *maker) groups() []group {
	var out []group
	for k := 0; k < len(m.o.Levels); k++ {
		one := m.o.Levels[k].Level
		if k+1 == len(m.o.Levels) {
			out = append(out, group{[][]int{{one}}})
			break
		}
		two := m.o.Levels[k+1].Level
		both := m.count(one) < small && m.count(two) < small
		stacked := group{[][]int{{one}, {two}}}
		switch {
		case m.sideBySide(one, two) && (both || m.fitsShared(one, two)):
			out = append(out, group{[][]int{{one, two}}})
			k++
		case both && m.fitsStacked(stacked) && !m.sideBySideNext(k+1):
			out = append(out, stacked)
			k++
		default:
			out = append(out, group{[][]int{{one}}})
		}
	}
	return out
}

// sideBySideNext tells whether level k of the order makes a pair with the one
// after it.
func (m *maker) sideBySideNext(k int) bool {
	if k+1 >= len(m.o.Levels) {
		return false
	}
	one, two := m.o.Levels[k].Level, m.o.Levels[k+1].Level
	return m.sideBySide(one, two) && ((m.count(one) < small && m.count(two) < small) || m.fitsShared(one, two))
}

// fitsShared tells whether the legends of two levels fit under one plan.
func (m *maker) fitsShared(one, two int) bool {
	pair := []int{one, two}
	page := m.s.Page(m.headOf(group{[][]int{pair}}))
	need := 0.0
	for _, t := range m.tables(pair, (m.s.Width()-columnGap)/2, loose()) {
		need = max(need, t.height())
	}
	lo, hi := m.b.Chamber.Bounds()
	return float64((hi[1]-lo[1])*leastShelf/m.across(pair))+2*overPlan+keyRoom+need <= page.Bottom-page.Top
}

// count is how many pots, without cones, stand on a level.
func (m *maker) count(level int) int {
	n := 0
	for _, i := range m.b.Levels[level].Pots {
		if m.b.Pots[i].Ware != nil {
			n++
		}
	}
	return n
}

// sideBySide tells whether no shelf of two levels lies over or under one of
// the other.
func (m *maker) sideBySide(one, two int) bool {
	for _, i := range m.b.Levels[one].Shelves {
		for _, j := range m.b.Levels[two].Shelves {
			a, c := &m.b.Shelves[i].Outline, &m.b.Shelves[j].Outline
			if a.SignedDistance(c.Points(0.2)) < -1 {
				return false
			}
		}
	}
	return true
}
