package views

import (
	"math"
	"sort"
	"strconv"

	"threepost/layout"
)

// Stop is a height at which a dragged shelf can lie.
type Stop struct {
	Z     float64      // of the shelf's underside, mm
	Made  string       // "100+10+5"
	Grade layout.Grade // of what would be found there; Note: all clear
	Now   bool
}

// LiftedOptions say what an elevation shows while a shelf is dragged. The
// subject is the load with the shelf at the stop where it is.
type LiftedOptions struct {
	W, H  float64 // px
	Level int     // into Built.Levels: the level whose shelf is dragged
	Hung  float64 // mm: where its underside was before; 0: no ghost
	Stops []Stop
	Above string // tag over the pots beneath: "18 above"; "": worked out
	Lid   string // tag under the lid: "33 to the lid"; "": worked out
}

// postWide is the usual width of a post, mm.
const postWide = 38

// fanStep is the distance of the make-ups of a fan, px.
const fanStep = 21

// Lifted draws the elevation while a shelf is dragged: a tick on the wall at
// every height where it can stop, the make-ups fanned out beside them, the
// shelf's old place dashed, and the room above and below on two tags.
//
// Ids: as Elevation, and stop:N, counted from 0 as in Stops.
func (e *Easel) Lifted(s Subject, o LiftedOptions) Picture {
	d := newSection(e, s)
	d.compact = o.W < compactUnder
	if o.Level < 0 || o.Level >= len(d.b.Levels) {
		return e.Elevation(s, ElevationOptions{W: o.W, H: o.H, Active: -1})
	}
	below := d.under(o.Level)
	d.gather(below, d.split())
	right := d.sides[d.b.Levels[o.Level].Tower] > 0
	for _, l := range d.labels {
		l.made, l.below = "", ""
	}
	wide := d.fanWidth(o.Stops)
	lay := d.layLifted(o.W, o.H, right, wide, o)
	d.brick()
	d.wash(below)
	d.hits()
	d.pots()
	d.probes()
	d.tallest(below)
	d.ghost(o)
	d.shelves()
	d.posts()
	d.handle(o.Level)
	d.tags(o, below)
	d.fan(o.Stops, right)
	d.finish(lay)
	return d.picture(o.W, o.H, "The kiln from the front, a shelf in hand", d.f)
}

// under is the level under a level's shelf: the one of its tower, or the one
// its tower stands on; -1: the floor.
func (d *section) under(v int) int {
	l := &d.b.Levels[v]
	t := &d.b.Towers[l.Tower]
	if l.Number > 1 {
		return t.Levels[l.Number-2]
	}
	if len(t.On) > 0 {
		return t.On[0]
	}
	return -1
}

func (d *section) fanWidth(stops []Stop) float64 {
	w := 0.0
	for _, s := range stops {
		w = math.Max(w, d.e.width(noteSize, strong, s.Made))
	}
	return w
}

// layLifted is layOut with room for the fan and with labels that give way to it.
func (d *section) layLifted(w, h float64, right bool, wide float64, o LiftedOptions) laid {
	lay := laid{x0: edge, x1: w - edge}
	top := float64(edge)
	if d.split() {
		lay.titles = top + d.e.capital(textSize) + 2
		top += titleHigh
	}
	bottom := h - edge - letterHigh
	a, b := d.columns()
	fan := wide + 34
	if right {
		b = math.Max(b, fan)
	} else {
		a = math.Max(a, fan)
	}
	a += besideKiln
	if b > 0 {
		b += besideKiln
	}
	d.place(edge+a, top, math.Max(w-2*edge-a-b, 40), math.Max(bottom-top, 40))
	box := d.outer()
	lay.fit(box, a, b, w)
	foot := math.Min(bottom, box.y1+40)
	d.spread(!right, top, foot)
	lay.letters = box.y1 + 5 + d.e.capital(noteSize)
	d.aroundFan(right, top, foot, o.Stops)
	for _, l := range d.labels {
		if math.Abs(l.y-l.at) > 1 {
			if l.right {
				lay.leadRight = leadWide
			} else {
				lay.leadLeft = leadWide
			}
		}
	}
	return lay
}

// aroundFan spreads the labels of the fan's side above and under it, and drops
// those that no place is left for: the rows beside the picture tell them.
func (d *section) aroundFan(right bool, top, foot float64, stops []Stop) {
	from, to := d.fanSpan(stops)
	var keep, over, under []*label
	for _, l := range d.labels {
		if l.right != right {
			keep = append(keep, l)
			continue
		}
		l.at = d.y(d.b.Levels[l.level].Top)
		l.y = l.at
		if l.at < (from+to)/2 {
			over = append(over, l)
		} else {
			under = append(under, l)
		}
	}
	sort.SliceStable(over, func(i, j int) bool { return over[i].at > over[j].at })
	sort.SliceStable(under, func(i, j int) bool { return under[i].at < under[j].at })
	at := from - 8
	for _, l := range over {
		if l.y = math.Min(l.at, at-l.down()); l.y-l.up(d.e) >= top {
			keep = append(keep, l)
			at = l.y - l.up(d.e) - 4
		}
	}
	at = to + 6
	for _, l := range under {
		if l.y = math.Max(l.at, at+l.up(d.e)); l.y+l.down() <= foot {
			keep = append(keep, l)
			at = l.y + l.down() + 4
		}
	}
	d.labels = keep
}

// fanned are the baselines' middles of the make-ups, from the lowest stop.
func (d *section) fanned(stops []Stop) (order []int, at []float64) {
	order = make([]int, len(stops))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return stops[order[i]].Z > stops[order[j]].Z })
	want, room := make([]float64, len(stops)), make([]float64, len(stops))
	for k, i := range order {
		want[k], room[k] = d.y(stops[i].Z), fanStep
	}
	o := d.outer()
	return order, spreadOut(want, room, o.y0+10, math.Max(o.y1-8, o.y0+10+fanStep*float64(len(stops))))
}

func (d *section) fanSpan(stops []Stop) (from, to float64) {
	_, at := d.fanned(stops)
	if len(at) == 0 {
		return 0, 0
	}
	return at[0] - 8, at[len(at)-1] + 8
}

// fan draws a tick on the wall for every stop and its make-up beside it.
func (d *section) fan(stops []Stop, right bool) {
	order, at := d.fanned(stops)
	o := d.outer()
	wall, way, anchor := o.x0, -1.0, "end"
	if right {
		wall, way, anchor = o.x1, 1, "start"
	}
	for k, i := range order {
		s := stops[i]
		class, weight := "stop"+gradeClass(s.Grade), "figure"
		if s.Grade == layout.Note {
			class += " clears"
		}
		if s.Now {
			class, weight = "stop now", "figure strong"
		}
		y := d.y(s.Z)
		d.group(class, "stop:"+strconv.Itoa(i), s.Made, func() {
			d.line("mark", wall+way*14, y, wall+way*5, y)
			d.line("leader", wall+way*15, y, wall+way*27, at[k])
			d.text(wall+way*30, at[k]+d.e.capital(noteSize)/2, s.Made, weight, anchor, noteSize)
		})
	}
}

// ghost draws where the shelf hung before.
func (d *section) ghost(o LiftedOptions) {
	l := &d.b.Levels[o.Level]
	if o.Hung <= 0 || math.Abs(o.Hung-l.Bottom) < 0.5 {
		return
	}
	x0, x1 := spanOf(d.b, o.Level)
	d.path("ghost", rectPath(d.x(x0), d.y(o.Hung+l.Top-l.Bottom), (x1-x0)*d.f.Per, (l.Top-l.Bottom)*d.f.Per))
}

// tags show the room above the pots beneath the shelf, and what is left to
// the lid over its tower, on blue tags with their lengths.
func (d *section) tags(o LiftedOptions, below int) {
	l := &d.b.Levels[o.Level]
	tower := d.b.Towers[l.Tower].Levels
	top := tower[len(tower)-1]
	x0, x1 := spanOf(d.b, o.Level)
	if below >= 0 {
		z := d.tallestUnder(below, x0, x1)
		words := o.Above
		if words == "" {
			words = d.e.room(math.Max(l.Bottom-z, 0)) + " above"
		}
		d.tag(x0, x1, z, l.Bottom, words)
	}
	if d.b.Levels[top].UnderLid {
		_, z := d.tallestOn(top)
		words := o.Lid
		if words == "" {
			words = d.e.room(math.Max(d.b.Height-z, 0)) + " to the " + ceilingWord(d.b)
		}
		d.tag(x0, x1, z, d.b.Height, words)
	}
}

// tallestUnder is how high the ware of a level reaches between two x.
func (d *section) tallestUnder(v int, x0, x1 float64) float64 {
	z := d.b.Levels[v].Top
	for _, i := range d.b.Levels[v].Pots {
		if p := &d.b.Pots[i]; p.At[0] > x0-1 && p.At[0] < x1+1 {
			z = math.Max(z, p.Solid.Top())
		}
	}
	return z
}

// tag is a length over the shelf from x0 to x1, with white words on cobalt
// beside it, clear of the posts at both ends, under its upper end.
func (d *section) tag(x0, x1, z0, z1 float64, words string) {
	y0, y1 := d.y(z0), d.y(z1)
	w, h := d.e.width(textSize, strong, words)+14, 20.0
	clear := (25 + postWide/2) * d.f.Per // the inset of a post and half of it (common practice)
	from, to := d.x(x0)+clear, d.x(x1)-clear
	x := from + (to-from)*0.66
	if x+10+w > to-2 {
		x = math.Max(to-2-w-10, from+6)
	}
	t := new(trace).move(x-4, y0).line(x+4, y0).move(x, y0).line(x, y1).move(x-4, y1).line(x+4, y1)
	d.path("live", string(*t))
	y := math.Max(y1, math.Min((y0+y1)/2-h/2, y0-h))
	left := x + 10
	for _, b := range d.boxes {
		if c := (box{left, y, left + w, y + h}); c.off(b) < 1 {
			y = b.y1 + 6
		}
	}
	d.path("tag", rectPath(left, y, w, h))
	d.text(left+7, y+h/2+d.e.capital(textSize)/2, words, "on-tag strong", "start", textSize)
	d.boxes = append(d.boxes, box{left, y, left + w, y + h})
}
