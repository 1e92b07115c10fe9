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
	leastRoom  = 45 // for a legend under a plan; less begins on a page of its own
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
	if t := m.b.Levels[level].Takes; t > 0 {
		return "takes " + m.s.Room(t)
	}
	return ""
}

// tables are the legends of levels in columns width mm wide.
func (m *maker) tables(levels []int, width float64) []table {
	var out []table
	for _, v := range levels {
		if l := m.list.LevelOf(v); l != nil {
			out = append(out, tableOf(m.s, l, m.takes(v), width))
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
	shown := m.leftFirst(g.plans[0])
	width := (m.s.Width() - columnGap) / 2
	columns := m.tables(shown, width)
	if len(columns) == 1 {
		columns = halves(columns[0])
	}
	need := 0.0
	for i := range columns {
		need = math.Max(need, columns[i].height())
	}
	y := m.plan(page, g.plans[0], page.Bottom-page.Top, need)
	return m.legends(page, g, columns, y, width)
}

// halves divides a legend into two columns of about one height.
func halves(t table) []table {
	if len(t.rows) < 2 {
		return []table{t}
	}
	left := t
	goal := headHigh + (t.height()-headHigh)/2
	one := left.take(goal+2.5, true)
	if len(left.rows) == 0 {
		return []table{one}
	}
	return []table{one, left}
}

// legends draws legends under a plan, in columns, and goes on on new pages.
func (m *maker) legends(page *frame.Page, g group, columns []table, y, width float64) []frame.Draft {
	var drafts []frame.Draft
	for {
		room := page.Bottom - y
		if room >= leastRoom || fits(columns, room) {
			for i := range columns {
				part := columns[i].take(room, len(drafts) > 0)
				part.draw(page, m.s.Left()+float64(float64(i)*(width+columnGap)), y, width)
			}
		}
		drafts = append(drafts, page.Draft())
		columns = remaining(columns)
		if len(columns) == 0 {
			return drafts
		}
		if len(g.levels()) == 1 && len(columns) == 2 {
			// One legend goes on: both columns again in the order of setting.
			columns[0].rows = append(columns[0].rows[:len(columns[0].rows):len(columns[0].rows)], columns[1].rows...)
			columns = columns[:1]
		}
		head := m.headOf(g)
		page = m.s.Page(frame.Head{Title: head.Title + ", continued", Right: head.Right})
		y = page.Top + 1
		if len(columns) == 1 {
			columns = flow(columns[0], page.Bottom-y)
		}
	}
}

// flow divides what goes on into two columns: evenly where that fits on the
// page.
func flow(t table, room float64) []table {
	if t.height() > 2*room-headHigh {
		one := t.take(room, true)
		return append([]table{one}, t)
	}
	return halves(t)
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

// plan draws a plan over the width of the page, as large as the height leaves
// beside a legend of need mm, and gives the y under it.
func (m *maker) plan(page *frame.Page, levels []int, high, need float64) float64 {
	lo, hi := m.b.Chamber.Bounds()
	wide, deep := hi[0]-lo[0], hi[1]-lo[1]
	most := math.Min((m.s.Width()-2*sidePlan)/wide, mostPlan/deep)
	good := math.Min(most, goodPlan/math.Max(wide, deep))
	good = math.Max(good, math.Min(most, leastShelf/m.across(levels)))
	room := high - need - 2*overPlan - 14 // 14: key and white
	scale := room / deep
	if scale < good {
		scale = good
		if need > high-float64(good*deep)-2*overPlan-14+120 {
			scale = most // the legend goes on on another page in any case
		}
	}
	scale = math.Min(scale, most)
	per := math.Ceil(10/scale) / 10
	scale = 1 / per
	top := page.Top + overPlan - 1
	v := view{at: drawing.At(m.s.Paper.Width/2-float64((lo[0]+hi[0])/2*scale), top+float64(hi[1]*scale)), scale: scale}
	p := newPlan(page, m.b, m.o, m.kinds, levels, v)
	p.draw()
	page.Note = frame.Scale(per)
	bottom := top + float64(deep*scale) + overPlan
	return p.drawKey(bottom)
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
