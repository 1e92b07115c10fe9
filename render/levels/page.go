package levels

import (
	"fmt"
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Measures of a level page, mm.
const (
	columnGap  = 8
	leastShelf = 100 // a shelf across on paper
	goodPlan   = 145 // a chamber across where the legend needs its room
	mostPlan   = 168
	keyRoom    = 14.0 // for a key and white under a plan
	leastRoom  = 45   // for a legend under a plan; less begins on a page of its own
)

// headOf is the band of a page.
func (m *maker) headOf(g group) frame.Head {
	set := g.levels()
	shown := m.leftFirst(set)
	names := make([]string, len(shown))
	what := make([]string, len(shown))
	for i, v := range shown {
		names[i] = m.s.Say(m.b.Levels[v].Name)
		what[i] = m.what(v)
	}
	h := frame.Head{Title: frame.Capital(strings.Join(names, " and ")), Sub: m.list.Told(set...)}
	list := strings.Join(what, " · ")
	wide := m.s.Fonts.Width(frame.Heavy(frame.LevelSize), list)
	if wide+m.s.Fonts.Width(frame.Heavy(frame.TitleSize), h.Title)+10 <= m.s.Width() {
		h.Right = list
		return h
	}
	n := 0
	for _, v := range set {
		n += m.count(v)
	}
	h.Right = fmt.Sprintf("%d pots", n)
	h.Sub = strings.TrimSpace(frame.Capital(list) + ". " + h.Sub)
	return h
}

// leftFirst are levels from left to right.
func (m *maker) leftFirst(levels []int) []int {
	out := append([]int(nil), levels...)
	if len(out) == 2 && m.sideBySide(out[0], out[1]) && m.middle(out[1]) < m.middle(out[0])-1 {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// middle is the x of the middle of a level's shelves, mm.
func (m *maker) middle(level int) float64 {
	x, shelves := 0.0, m.b.Levels[level].Shelves
	for _, s := range shelves {
		x += m.b.Shelves[s].Outline.Centroid()[0] / float64(len(shelves))
	}
	return x
}

// what tells what stands on a level: "14 mugs, vase, cones".
func (m *maker) what(level int) string {
	count := make([]int, len(m.b.Load.Ware))
	cones := false
	for _, i := range m.b.Levels[level].Pots {
		if p := &m.b.Pots[i]; p.Ware == nil {
			cones = true
		} else {
			count[p.Kind]++
		}
	}
	var list []string
	for k, n := range count {
		switch name := m.b.Load.Ware[k].Name; {
		case n == 1:
			list = append(list, silhouette.Singular(name))
		case n > 1:
			list = append(list, fmt.Sprintf("%d\u00a0%s", n, silhouette.Plural(name)))
		}
	}
	if cones {
		list = append(list, "cones")
	}
	if len(list) == 0 {
		return "empty"
	}
	return strings.Join(list, ", ")
}

// takes is what a level takes, in words.
func (m *maker) takes(level int) string {
	each := m.b.TakesEach(level)
	most := each[len(each)-1]
	switch {
	case most <= 0:
		return ""
	case m.s.Room(each[0]) == m.s.Room(most):
		return "takes " + m.s.Room(most)
	}
	return "takes " + m.s.Room(each[0]) + " and " + m.s.Room(most)
}

// tables are the legends of levels in columns width mm wide, tight where that
// spares a page.
func (m *maker) tables(levels []int, width float64, set setting) []table {
	var out []table
	for _, v := range levels {
		if l := m.list.LevelOf(v); l != nil {
			out = append(out, tableOf(m.s, l, m.takes(v), width, set))
		}
	}
	return out
}

// pages are the pages of a group.
func (m *maker) pages(g group) []frame.Draft {
	page := m.s.Page(m.headOf(g))
	if len(g.plans) > 1 {
		return m.stacked(page, g)
	}
	width := (m.s.Width() - columnGap) / 2
	high := page.Bottom - page.Top
	shown := m.leftFirst(g.plans[0])
	for _, set := range [...]setting{loose(), tight()} {
		tables := m.tables(shown, width, set)
		if need := besides(tables); m.goes(g.plans[0], high, need) {
			need += m.whyRoom(g.plans[0], high, need)
			return m.legends(page, g, tables, m.plan(page, g.plans[0], high, need), width)
		}
		if len(tables) < 2 {
			continue
		}
		columns := flowed(tables)
		if need := flowHeight(columns); m.goes(g.plans[0], high, need) {
			need += m.whyRoom(g.plans[0], high, need)
			m.tellWhy(page, g, m.drawFlow(page, columns, m.plan(page, g.plans[0], high, need), width))
			return []frame.Draft{page.Draft()}
		}
	}
	if apart := m.apart(g); apart != nil {
		return apart
	}
	tables := m.tables(shown, width, loose())
	y := m.plan(page, g.plans[0], high, besides(tables))
	return m.legends(page, g, tables, y, width)
}

// apart are two levels on a page each, where each goes on one: better than a
// page for the end of their legends. It is nil where they do not.
func (m *maker) apart(g group) []frame.Draft {
	if len(g.plans[0]) != 2 {
		return nil
	}
	var out []frame.Draft
	for _, v := range g.plans[0] {
		out = append(out, m.pages(group{[][]int{{v}}})...)
	}
	if len(out) > 2 {
		return nil
	}
	return out
}

// besides is the height that legends need side by side, one in two columns, mm.
func besides(tables []table) float64 {
	if len(tables) == 1 {
		return halfHeight(tables[0])
	}
	need := 0.0
	for i := range tables {
		need = math.Max(need, tables[i].height())
	}
	return need
}

// halves divides a legend into two columns of about one height.
func halves(t table) []table {
	if len(t.rows) < 2 {
		return []table{t}
	}
	for goal := headHigh + (t.height()-headHigh)/2; ; goal += 0.5 {
		rest := t
		one := rest.take(goal, true)
		if rest.height() <= one.height()+0.01 || len(rest.rows) == 0 {
			rest.bare = true
			return []table{one, rest}
		}
	}
}

// halfHeight is the height of a legend in two columns.
func halfHeight(t table) float64 {
	parts := halves(t)
	return parts[0].height()
}

// legends draws legends under a plan, in columns, and goes on on new pages.
func (m *maker) legends(page *frame.Page, g group, tables []table, y, width float64) []frame.Draft {
	var drafts []frame.Draft
	for {
		room := page.Bottom - y
		if room >= leastRoom || (len(tables) == 1 && halfHeight(tables[0]) <= room) || (len(tables) > 1 && fits(tables, room)) {
			low := y
			for i, part := range columns(tables, room, len(drafts) > 0) {
				low = math.Max(low, part.draw(page, m.s.Left()+float64(float64(i)*(width+columnGap)), y, width))
			}
			if len(drafts) == 0 && len(remaining(tables)) == 0 {
				m.tellWhy(page, g, low)
			}
		}
		drafts = append(drafts, page.Draft())
		tables = remaining(tables)
		if len(tables) == 0 {
			return drafts
		}
		head := m.headOf(g)
		page = m.s.Page(frame.Head{Title: head.Title + ", continued"})
		y = page.Top + 1
	}
}

// columns takes from legends what goes on a page: a column each for two, two
// columns for one.
func columns(tables []table, room float64, force bool) []table {
	if len(tables) != 1 {
		var out []table
		for i := range tables {
			out = append(out, tables[i].take(room, force))
		}
		return out
	}
	t := &tables[0]
	if halfHeight(*t) <= room {
		out := halves(*t)
		t.rows = nil
		return out
	}
	one := t.take(room, force)
	two := t.take(room, false)
	two.bare = true
	return []table{one, two}
}

func fits(columns []table, room float64) bool {
	for i := range columns {
		if columns[i].height() > room {
			return false
		}
	}
	return true
}

// remaining are the columns that have rows left.
func remaining(columns []table) []table {
	var out []table
	for _, c := range columns {
		if len(c.rows) > 0 {
			out = append(out, c)
		}
	}
	return out
}

// goes says whether a plan goes on a page beside a legend of need mm.
func (m *maker) goes(levels []int, high, need float64) bool {
	_, whole := m.scale(levels, high, need)
	return whole
}

// scale is how large a plan is drawn on a page, as large as the height leaves
// beside a legend of need mm; whole is false where the legend has to go on on
// another page.
func (m *maker) scale(levels []int, high, need float64) (scale float64, whole bool) {
	lo, hi := m.b.Chamber.Bounds()
	wide, deep := hi[0]-lo[0], hi[1]-lo[1]
	most := math.Min((m.s.Width()-2*m.beside())/wide, mostPlan/deep)
	good := math.Min(most, goodPlan/math.Max(wide, deep))
	good = math.Max(good, math.Min(most, leastShelf/m.across(levels)))
	least := math.Min(good, leastShelf/m.across(levels))
	scale, whole = (high-need-2*overPlan-keyRoom)/deep, true
	if scale < least {
		scale, whole = good, false
		if need > high {
			scale = most
		}
	}
	per := math.Ceil(10/math.Min(scale, most)) / 10
	return 1 / per, whole
}

// plan draws a plan over the width of the page and gives the y under it.
func (m *maker) plan(page *frame.Page, levels []int, high, need float64) float64 {
	lo, hi := m.b.Chamber.Bounds()
	scale, _ := m.scale(levels, high, need)
	top := page.Top + overPlan - 1
	v := view{at: drawing.At(m.s.Paper.Width/2-float64((lo[0]+hi[0])/2*scale), top+float64(hi[1]*scale)), scale: scale}
	p := newPlan(page, m.b, m.o, m.kinds, levels, v)
	p.draw()
	page.Note = frame.Scale(1 / scale)
	bottom := top + float64((hi[1]-lo[1])*scale) + overPlan
	return p.drawKey(bottom)
}

// beside is the room that the clock takes beside the wall, mm.
func (m *maker) beside() float64 {
	most := 0.0
	note := func(bearing float64, word string) {
		if s, _ := plane.SinCos(bearing); math.Abs(s) > 0.8 {
			most = math.Max(most, m.s.Fonts.Width(frame.Text(frame.LegendSize), " "+m.s.Say(word)))
		}
	}
	for i := range m.b.Load.Kiln.Probes {
		note(m.b.Load.Kiln.Probes[i].At, "probe")
	}
	for i := range m.b.Load.Kiln.Spyholes {
		note(m.b.Load.Kiln.Spyholes[i].At, "spyhole")
	}
	return sidePlan + most
}

// across is how wide the shelves of levels are together, mm.
func (m *maker) across(levels []int) float64 {
	return acrossOf(m.b, levels)
}

func acrossOf(b *stacks.Built, levels []int) float64 {
	var lo, hi plane.Vec
	first := true
	for _, l := range levels {
		for _, s := range b.Levels[l].Shelves {
			slo, shi := b.Shelves[s].Outline.Bounds()
			if first {
				lo, hi, first = slo, shi, false
				continue
			}
			lo = plane.Vec{math.Min(lo[0], slo[0]), math.Min(lo[1], slo[1])}
			hi = plane.Vec{math.Max(hi[0], shi[0]), math.Max(hi[1], shi[1])}
		}
	}
	if first {
		return 1000
	}
	return math.Max(hi[0]-lo[0], hi[1]-lo[1])
}
