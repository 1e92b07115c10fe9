package sheet

import (
	"slices"
	"sort"
	"strings"

	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/elevation"
	"threepost/render/frame"
)

// leader is the width of the strip in which lines run from labels to shelves,
// mm.
const leader = 4

// elevations are the views that tell all levels, the bottom ones first: one,
// unless there are more levels than a page has room for.
func (f *front) elevations() []view {
	if len(f.columns) > 2 {
		return f.tables()
	}
	width := f.labelWidth()
	tags := make([][]tag, len(f.columns))
	for c, col := range f.columns {
		for _, l := range col.labels {
			tags[c] = append(tags[c], tagOf(f.s, f.b, l, width, f.brief))
		}
	}
	var views []view
	for first := true; first || anyTags(tags); first = false {
		room := f.room(!first) - 2
		var here [][]tag
		for c := range tags {
			n := take(tags[c], room)
			here = append(here, tags[c][:n])
			tags[c] = tags[c][n:]
		}
		views = append(views, f.sides(here, width))
	}
	return views
}

// room is the height under the bar of a front page, mm.
func (f *front) room(continued bool) float64 {
	p, y := f.page(continued)
	return p.Bottom - y
}

func anyTags(tags [][]tag) bool {
	for _, list := range tags {
		if len(list) > 0 {
			return true
		}
	}
	return false
}

// take is how many tags from the bottom fit over each other, at least one.
func take(tags []tag, room float64) int {
	sum := 0.0
	for i, t := range tags {
		sum += t.high
		if sum > room && i > 0 {
			return i
		}
	}
	return len(tags)
}

// labelWidth is the width of the labels beside an elevation, mm.
func (f *front) labelWidth() float64 {
	if len(f.columns) <= 1 {
		return 66
	}
	return (f.s.Width() - 2*leader - 86) / 2
}

// place is where elevation, notes and labels of a view go.
type place struct {
	x, width    float64 // of the elevation's strip
	notesHeight float64
}

// sides is an elevation with labels at its left, and at its right for a second
// column.
func (f *front) sides(tags [][]tag, width float64) view {
	at := place{x: f.s.Left() + width + leader}
	at.width = f.s.Right() - at.x
	if len(tags) > 1 {
		at.width -= width + leader
	}
	at.notesHeight = f.notesHeight(at.width)
	least := 0.0
	for _, list := range tags {
		least = max(least, tagsHeight(list)+1)
	}
	_, full := elevation.Size(f.b, elevation.Fit(f.b, at.width, 1e6))
	most := max(least, full+at.notesHeight)
	least = max(least, min(most, 70+at.notesHeight))
	scale := func(height float64) float64 { return elevation.Fit(f.b, at.width, height-at.notesHeight) }
	return view{
		least: least, most: min(most, 175), scale: scale,
		draw: func(p *frame.Page, y, height float64) float64 {
			v := elevation.NewView(f.b, scale(height), at.x+at.width/2, y)
			elevation.Draw(p.Pen, v, f.b, f.elevationOptions())
			f.drawNotes(p, v, at)
			for c, list := range tags {
				f.drawTags(p, v, list, c, width, y, y+height)
			}
			return height
		},
	}
}

// drawTags sets the labels of a side and draws their leaders.
func (f *front) drawTags(p *frame.Page, v elevation.View, list []tag, c int, width, top, bottom float64) {
	wanted := make([]float64, len(list))
	for i, t := range list {
		wanted[i] = v.Y(t.z)
	}
	at := spread(list, wanted, top-1, bottom)
	x, from, to := f.s.Left(), f.s.Left()+width, v.Left()
	if c > 0 {
		x = f.s.Right() - width
		from, to = x, v.Right()
	}
	for i, t := range list {
		t.draw(p, x, at[i], width)
		p.Polyline([]drawing.Point{drawing.At(from, at[i]), drawing.At(to, wanted[i])}, frame.Hair())
	}
}

// notesHeight is how high letters and notes under an elevation are, mm.
func (f *front) notesHeight(width float64) float64 {
	sum := 6.5
	for i, runs := range f.notes() {
		lines := len(f.s.WrapRuns(width, runs...))
		sum += float64(lines) * lead()
		if i < len(f.notes())-1 {
			sum += 2
		}
	}
	if hasCones(f.b, allPots(f.b)) {
		sum += lead() + 0.7
	}
	return sum + 1
}

func allPots(b *stacks.Built) []int {
	list := make([]int, len(b.Pots))
	for i := range list {
		list[i] = i
	}
	return list
}

// drawNotes sets the notes in the middle under an elevation.
func (f *front) drawNotes(p *frame.Page, v elevation.View, at place) {
	middle := at.x + at.width/2
	y := v.Bottom() + 5.5
	notes := f.notes()
	for i, runs := range notes {
		for _, line := range f.s.WrapRuns(at.width, runs...) {
			if i < len(notes)-1 {
				y += 1
			}
			y += lead()
			p.TextRuns(middle, y, drawing.Middle, trimmed(line)...)
		}
		if i < len(notes)-1 {
			y += 1
		}
	}
	if hasCones(f.b, allPots(f.b)) {
		y += lead() + 0.7
		words := "cone pack"
		if conesFace(f.b) != "" {
			words = "cone pack, facing its hole"
		}
		w := p.TextWidth(words, frame.Text(frame.TextSize)) + 9
		p.Cones(middle-w/2, y, 6.6)
		p.Text(middle-w/2+9, y, words, frame.Text(frame.TextSize))
	}
}

// trimmed is a line without a space at its end, so that it stands in the
// middle.
func trimmed(line []drawing.Run) []drawing.Run {
	if n := len(line); n > 0 {
		line = append([]drawing.Run(nil), line...)
		line[n-1].Words = strings.TrimRight(line[n-1].Words, " ")
	}
	return line
}

// tables is an elevation over the whole width with the labels under it, a
// column for each tower, from left to right as they stand.
func (f *front) tables() []view {
	n := float64(len(f.columns))
	const apart = 5
	width := (f.s.Width() - apart*(n-1)) / n
	tags := make([][]tag, len(f.columns))
	for c, col := range f.columns {
		for _, l := range col.labels {
			tags[c] = append(tags[c], tagOf(f.s, f.b, l, width, f.brief))
		}
	}
	notes := f.notesHeight(f.s.Width()) + 4
	var views []view
	for first := true; first || anyTags(tags); first = false {
		room := f.room(!first) - notes - 80
		here, tall := make([][]tag, len(tags)), 0.0
		for c := range tags {
			k := take(tags[c], room)
			here[c] = tags[c][:k]
			tags[c] = tags[c][k:]
			tall = max(tall, tagsHeight(here[c]))
		}
		scale := func(height float64) float64 { return elevation.Fit(f.b, f.s.Width(), height-tall-notes) }
		_, full := elevation.Size(f.b, elevation.Fit(f.b, f.s.Width(), 1e6))
		views = append(views, view{
			least: tall + notes + min(full, 85), most: tall + notes + min(full, 150), scale: scale,
			draw: func(p *frame.Page, y, height float64) float64 {
				v := elevation.NewView(f.b, scale(height), f.s.Paper.Width/2, y)
				elevation.Draw(p.Pen, v, f.b, f.elevationOptions())
				f.drawNotes(p, v, place{x: f.s.Left(), width: f.s.Width()})
				for c, list := range here {
					at := y + height
					for _, t := range list {
						t.draw(p, f.s.Left()+float64(c)*(width+apart), at-0.5, width)
						at -= t.high
					}
				}
				return height
			},
		})
	}
	return views
}

// footing is the posts of one make-up on the floor.
type footing struct {
	group
	under   []string // what they carry
	letters []string
}

// floorPosts lists the posts that stand on the floor.
func floorPosts(b *stacks.Built) []footing {
	var list []footing
	for i := range b.Posts {
		p := &b.Posts[i]
		level := &b.Levels[p.Level]
		if p.Bottom > 1e-6 || len(level.Shelves) == 0 {
			continue
		}
		at := len(list)
		for k := range list {
			if same(list[k].makeUp, p.MakeUp) {
				at = k
			}
		}
		if at == len(list) {
			list = append(list, footing{group: group{0, p.MakeUp}})
		}
		f := &list[at]
		f.count++
		f.letters = append(f.letters, p.Letter)
		if under := carriedWords(b, level); !slices.Contains(f.under, under) {
			f.under = append(f.under, under)
		}
	}
	return list
}

// carriedWords says what a level's posts carry: "the full shelf", or "left 1"
// where several levels stand on the floor.
func carriedWords(b *stacks.Built, level *stacks.Level) string {
	if len(b.Towers) > 1 && level.Name != "bottom" {
		return level.Name
	}
	name := strings.TrimSpace(strings.TrimSuffix(b.Shelves[level.Shelves[0]].Kind.Name, "shelf"))
	if n := len(level.Shelves); n > 1 {
		return "the " + counted(n, "", "shelves of "+level.Name)
	}
	return "the " + strings.TrimSpace(name+" shelf")
}

// letterWords joins letters: "A to F" when they follow each other.
func letterWords(letters []string) string {
	sort.Slice(letters, func(i, j int) bool {
		if len(letters[i]) != len(letters[j]) {
			return len(letters[i]) < len(letters[j])
		}
		return letters[i] < letters[j]
	})
	var once []string
	for i, l := range letters {
		if i == 0 || l != letters[i-1] {
			once = append(once, l)
		}
	}
	run := len(once) > 2
	for i := range once {
		run = run && len(once[i]) == 1 && once[i][0] == once[0][0]+byte(i)
	}
	if run {
		return once[0] + " to " + once[len(once)-1]
	}
	return series(once)
}
