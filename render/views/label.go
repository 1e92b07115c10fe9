package views

import (
	"math"
	"sort"
	"strings"

	"threepost/layout"
	"threepost/layout/stacks"
)

// label is what stands beside the kiln on the hairline of one shelf.
type label struct {
	level  int
	right  bool    // right of the kiln
	at     float64 // px: where the shelf's top lies
	y      float64 // px: where its hairline lies after spreading
	number string
	takes  string
	made   string // of the posts that stand there
	below  string // under the hairline
	active bool
}

// Heights of a label's parts over and under its hairline, px.
const (
	overLine  = 6  // baseline of the takes over the hairline
	nextLine  = 16 // baseline to baseline
	underLine = 15 // baseline of what stands under the hairline
)

// up and down are how far a label reaches from its hairline.
func (l *label) up(e *Easel) float64 {
	up := overLine + e.capital(noteSize)
	if l.number != "" {
		up = overLine + e.capital(placeSize)
	}
	if l.made != "" {
		up = math.Max(up, overLine+nextLine+e.capital(noteSize))
	}
	return up
}

func (l *label) down() float64 {
	if l.below != "" {
		return underLine + 3
	}
	return 0
}

// width is how much room a label needs beside the kiln.
func (l *label) width(e *Easel) float64 {
	w := e.width(noteSize, strong, l.takes)
	w = math.Max(w, e.width(noteSize, "", l.made))
	if l.number != "" {
		w += e.width(placeSize, heavy, l.number) + 8
	}
	return math.Max(w, e.width(noteSize, "", l.below))
}

// makeUpOn is the make-up of the posts that stand on a level under another:
// "100+10"; unlike ones one after the other.
func (d *section) makeUpOn(above int) string {
	var seen []string
	for _, i := range d.b.Levels[above].Posts {
		words := d.e.makeUp(d.b.Posts[i].MakeUp)
		known := false
		for _, s := range seen {
			known = known || s == words
		}
		if !known {
			seen = append(seen, words)
		}
	}
	return strings.Join(seen, ", ")
}

// makeUp is the pieces of one post: "100+10", in inches "4 + 1/2".
func (e *Easel) makeUp(m layout.MakeUp) string {
	plus := "+"
	if e.Units == "in" {
		plus = " + "
	}
	parts := make([]string, len(m))
	for i, p := range m {
		parts[i] = e.post(p.Height)
		if p.Name != "" {
			parts[i] += " (" + p.Name + ")"
		}
	}
	return strings.Join(parts, plus)
}

// underFloor is "3 × 25": the posts of a level that stand on the floor.
func (d *section) underFloor(v int) string {
	posts := d.b.Levels[v].Posts
	if len(posts) == 0 {
		return ""
	}
	made := d.makeUpOn(v)
	if strings.ContainsAny(made, "+,") {
		made = "(" + made + ")"
	}
	return counted(len(posts)) + " × " + made
}

// gather lists the labels of the load.
func (d *section) gather(active int, split bool) {
	for v := range d.b.Levels {
		l := &d.b.Levels[v]
		side := d.sides[l.Tower]
		both := side == 0 && split
		base := label{level: v, number: d.number(v), active: v == active}
		rooms := d.storeys(v)
		floor := ""
		if len(d.b.Towers[l.Tower].On) == 0 && l.Number == 1 {
			floor = d.underFloor(v)
		}
		add := func(right bool, r storey) *label {
			one := base
			one.right, one.takes = right, d.e.room(r.takes)
			if !d.compact {
				one.takes = "takes " + one.takes
				if r.above >= 0 {
					one.made = d.makeUpOn(r.above)
				}
			}
			d.labels = append(d.labels, &one)
			return &one
		}
		switch {
		case both:
			left, right := rooms[0], rooms[len(rooms)-1]
			for _, r := range rooms {
				if r.above >= 0 && d.sides[d.b.Levels[r.above].Tower] < 0 {
					left = r
				}
				if r.above >= 0 && d.sides[d.b.Levels[r.above].Tower] > 0 {
					right = r
				}
			}
			a, b := add(false, left), add(true, right)
			if !d.compact && base.number == "" {
				a.below, b.below = capital(l.Name), floor
				a.below = l.Name
			}
		default:
			one := add(side > 0, rooms[0])
			if !d.compact && floor != "" {
				one.below = floor
			}
		}
	}
}

// columns are how wide the labels left and right are.
func (d *section) columns() (left, right float64) {
	for _, l := range d.labels {
		w := l.width(d.e)
		if l.right {
			right = math.Max(right, w)
		} else {
			left = math.Max(left, w)
		}
	}
	return left, right
}

// spread puts the labels of one side so that they keep apart and in order,
// each as near to its shelf as can be, between top and bottom. It tells
// whether any had to leave its shelf's height.
func (d *section) spread(right bool, top, bottom float64) bool {
	var list []*label
	for _, l := range d.labels {
		if l.right == right {
			l.at = d.y(d.b.Levels[l.level].Top)
			list = append(list, l)
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].at < list[j].at })
	want := make([]float64, len(list))
	room := make([]float64, len(list))
	for i, l := range list {
		want[i] = l.at
		if i > 0 {
			room[i] = list[i-1].down() + l.up(d.e) + 4
		}
	}
	if len(list) == 0 {
		return false
	}
	at := spreadOut(want, room, top+list[0].up(d.e), bottom-list[len(list)-1].down())
	moved := false
	for i, l := range list {
		l.y = at[i]
		moved = moved || math.Abs(l.y-l.at) > 1
	}
	return moved
}

// spreadOut are places as near to the wanted ones (rising) as can be, by least
// squares, each at least room after the one before, within from and to. When
// that is too little room for all, the last ones go past it.
func spreadOut(want, room []float64, from, to float64) []float64 {
	n := len(want)
	shift := make([]float64, n) // distance of each from the first
	for i := 1; i < n; i++ {
		shift[i] = shift[i-1] + room[i]
	}
	// With the shifts taken off only "never falls" is left: pool the violators.
	type pool struct {
		sum   float64
		count int
	}
	var pools []pool
	for i := range want {
		pools = append(pools, pool{want[i] - shift[i], 1})
		for len(pools) > 1 {
			a, b := pools[len(pools)-2], pools[len(pools)-1]
			if a.sum/float64(a.count) <= b.sum/float64(b.count) {
				break
			}
			pools = append(pools[:len(pools)-2], pool{a.sum + b.sum, a.count + b.count})
		}
	}
	out := make([]float64, 0, n)
	high := to
	if n > 0 {
		high = math.Max(from, to-shift[n-1])
	}
	for _, p := range pools {
		mean := math.Min(math.Max(p.sum/float64(p.count), from), high)
		for range p.count {
			out = append(out, mean+shift[len(out)])
		}
	}
	return out
}

// write sets the labels of both sides: x0 and x1 are the outer ends of the
// hairlines.
func (d *section) write(x0, x1 float64, leadLeft, leadRight float64) {
	o := d.outer()
	for _, l := range d.labels {
		class := "label"
		if l.active {
			class += " active"
		}
		name := capital(d.b.Levels[l.level].Name)
		d.group(class, levelID(d.b, l.level), name, func() {
			if l.right {
				d.writeRight(l, o.x1, x1, leadRight)
			} else {
				d.writeLeft(l, x0, o.x0, leadLeft)
			}
		})
	}
}

func (d *section) writeLeft(l *label, x0, wall, lead float64) {
	if lead > 0 {
		d.line("hair", x0, l.y, wall-lead, l.y)
		d.line("hair", wall-lead, l.y, wall, l.at)
	} else {
		d.line("hair", x0, l.y, wall, l.y)
	}
	d.catch(l, x0, wall-lead)
	edge := wall - lead - 5
	d.text(x0, l.y-overLine, l.number, "level heavy", "start", placeSize)
	d.text(edge, l.y-overLine, l.takes, "takes strong", "end", noteSize)
	d.text(edge, l.y-overLine-nextLine, l.made, "figure quiet", "end", noteSize)
	d.text(x0, l.y+underLine, l.below, "figure quiet", "start", noteSize)
}

func (d *section) writeRight(l *label, wall, x1, lead float64) {
	if lead > 0 {
		d.line("hair", wall+lead, l.y, x1, l.y)
		d.line("hair", wall, l.at, wall+lead, l.y)
	} else {
		d.line("hair", wall, l.y, x1, l.y)
	}
	d.catch(l, wall+lead, x1)
	edge := wall + lead + 7
	d.text(x1, l.y-overLine, l.number, "level heavy", "end", placeSize)
	d.text(edge, l.y-overLine, l.takes, "takes strong", "start", noteSize)
	d.text(edge, l.y-overLine-nextLine, l.made, "figure quiet", "start", noteSize)
	d.text(x1, l.y+underLine, l.below, "figure quiet", "end", noteSize)
}

// catch lets a pointer meet the whole of a label, between its figures too.
func (d *section) catch(l *label, x0, x1 float64) {
	up := l.up(d.e)
	d.path("hit", rectPath(x0, l.y-up, x1-x0, up+l.down()))
}

// titles are the towers' names over their labels: "Left side".
func (d *section) titles(x0, x1, y float64) {
	for t := range d.b.Towers {
		if d.sides[t] == 0 || len(d.b.Towers[t].Levels) == 0 {
			continue
		}
		name := capital(d.b.Towers[t].Name)
		if d.sides[t] < 0 {
			d.once(x0, y, name, "start")
		} else {
			d.once(x1, y, name, "end")
		}
	}
}

// once sets a title where none stands yet; a second tower of one side adds
// its name to the line only where there is room.
func (d *section) once(x, y float64, words, anchor string) {
	b := d.e.textBox(x, y, words, strong, anchor, textSize)
	for _, c := range d.boxes {
		if b.off(c) < 8 {
			return
		}
	}
	d.text(x, y, words, "title strong", anchor, textSize)
}

// ceilingWord is what closes the chamber over the ware.
func ceilingWord(b *stacks.Built) string {
	if b.Load.Kiln.Opens == layout.Front {
		return "ceiling"
	}
	return "lid"
}
