package kilnside

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/views"
)

// Ids of marks; a step names those that it is about.

func (w *way) potID(i int) string { return "pot:" + w.b.Pots[i].Pot.String() }

func (w *way) postID(i int) string {
	p := &w.b.Posts[i]
	return "post:" + p.Letter + ":" + w.levelID(p.Level) + ":" + strconv.Itoa(p.Line)
}

func (w *way) shelfID(i int) string {
	s := &w.b.Shelves[i]
	return "shelf:" + w.levelID(s.Level) + ":" + strconv.Itoa(s.Index)
}

func (w *way) stickID(carries int) string {
	if carries < 0 {
		return "stick:"
	}
	return "stick:" + w.levelID(carries)
}

// picture keeps a picture under a name; make draws it the first time.
func (w *way) picture(name string, make func() Picture) int {
	at, ok := w.drawn[name]
	if !ok {
		at = len(w.out.Pictures)
		w.out.Pictures = append(w.out.Pictures, make())
		w.drawn[name] = at
	}
	return at
}

// border is the white round a picture's box, mm.
const border = 6

// levelPicture is a level from above with all that ever stands on it.
func (w *way) levelPicture(level int) int {
	return w.picture("level:"+w.levelID(level), func() Picture {
		v := &w.b.Levels[level]
		seen := emptyBox()
		marks := []views.Mark{{Kind: views.PathKind, D: outline(w.b.Chamber), Class: "wall"}}
		for _, s := range v.Shelves {
			seen.add(w.b.Shelves[s].Outline)
			marks = append(marks, views.Mark{Kind: views.PathKind, D: outline(w.b.Shelves[s].Outline), Class: "board"})
		}
		marks = append(marks, w.holes(level)...)
		if lo := w.o.LevelOf(level); lo != nil {
			for i := range lo.Pots {
				marks = append(marks, w.potMark(lo.Pots[i].Pot))
			}
			marks = append(marks, w.sticks(lo)...)
			for _, p := range lo.PostsOn {
				marks = append(marks, w.postMark(p.Post))
			}
		}
		b := seen.view(border)
		if !w.front() {
			marks = append(marks, w.rimMark(level))
		}
		marks = append(marks, frameMark(w.levelID(level), b))
		return Picture{Box: b, Marks: marks}
	})
}

// floorPicture is the kiln's floor with the posts under a level.
func (w *way) floorPicture(level int) int {
	return w.picture("floor:"+w.levelID(level), func() Picture {
		seen := emptyBox()
		seen.add(w.b.Chamber)
		marks := []views.Mark{{Kind: views.PathKind, D: outline(w.b.Chamber), Class: "wall floor"}}
		for _, s := range w.b.Levels[level].Shelves {
			marks = append(marks, views.Mark{Kind: views.PathKind, D: outline(w.b.Shelves[s].Outline), Class: "over"})
		}
		for i := range w.b.Posts {
			if p := &w.b.Posts[i]; p.Bottom < 1 {
				marks = append(marks, w.postMark(i))
			}
		}
		return Picture{Box: seen.view(border), Marks: marks}
	})
}

// layPicture is a shelf over its posts, with the places to hold it.
func (w *way) layPicture(shelf int) int {
	return w.picture("lay:"+w.shelfID(shelf), func() Picture {
		s := &w.b.Shelves[shelf]
		seen := emptyBox()
		seen.add(s.Outline)
		marks := []views.Mark{{Kind: views.PathKind, D: outline(w.b.Chamber), Class: "wall"}}
		for _, other := range w.b.Levels[s.Level].Shelves {
			if other != shelf {
				marks = append(marks, views.Mark{Kind: views.PathKind, D: outline(w.b.Shelves[other].Outline), Class: "board", ID: w.shelfID(other)})
			}
		}
		marks = append(marks, views.Mark{Kind: views.PathKind, D: outline(s.Outline), Class: "slab", ID: w.shelfID(shelf), Label: s.Kind.Name})
		for i := range w.b.Posts {
			if p := &w.b.Posts[i]; p.Level == s.Level {
				marks = append(marks, views.Mark{Kind: views.PathKind, D: outline(postRing(p)), Class: "beneath"})
			}
		}
		if g := w.grips(shelf); g != nil {
			for _, h := range g.Hold {
				marks = append(marks, grip(s.Outline, h))
			}
		}
		return Picture{Box: seen.view(border * 3), Marks: marks}
	})
}

// grip marks where a hand holds a shelf: a bar of a hand's width along its edge.
func grip(shelf plane.Outline, h order.Grip) views.Mark {
	_, inward := shelf.DepthNormal(plane.Lerp(h.At, shelf.Centroid(), 0.05))
	along := plane.Scale(plane.Left(inward), 40)
	return views.Mark{
		Kind: views.PathKind, Class: "grip", Label: "hold at " + measure.ShortClock(h.Clock),
		D: "M" + spot(plane.Sub(h.At, along)) + "L" + spot(plane.Add(h.At, along)),
	}
}

// postMark is a post with its letter.
func (w *way) postMark(i int) views.Mark {
	p := &w.b.Posts[i]
	ring := postRing(p)
	lo, hi := ring.Bounds()
	return views.Mark{
		Kind: views.GroupKind, Class: "post", ID: w.postID(i), Label: w.words.Say("post ") + p.Letter,
		Marks: []views.Mark{
			{Kind: views.PathKind, D: outline(ring), Class: "body"},
			text(p.At, p.Letter, "letter", 0.62*math.Min(hi[0]-lo[0], hi[1]-lo[1])),
		},
	}
}

// text is words in the middle of a place.
func text(at plane.Vec, words, class string, size float64) views.Mark {
	return views.Mark{Kind: views.TextKind, X: tenth(at[0]), Y: tenth(-at[1]), Text: words, Anchor: "middle", Size: tenth(size), Class: class}
}

// potMark is a pot with its handles and its order number, or a cone pack.
func (w *way) potMark(i int) views.Mark {
	p := &w.b.Pots[i]
	d := &p.Body.Drawn
	g := views.Mark{Kind: views.GroupKind, Class: "pot", ID: w.potID(i)}
	if p.Ware == nil {
		g.Class = "pot cones"
	}
	if d.Cookie != nil {
		g.Marks = append(g.Marks, views.Mark{Kind: views.PathKind, D: outline(widened(*d.Cookie, p.At, p.Turn)), Class: "cookie"})
	}
	for _, h := range d.Handles {
		g.Marks = append(g.Marks, views.Mark{Kind: views.PathKind, D: outline(widened(h, p.At, p.Turn)), Class: "handle"})
	}
	ring := widened(d.Body, p.At, p.Turn)
	g.Marks = append(g.Marks, views.Mark{Kind: views.PathKind, D: outline(ring), Class: "body"})
	n := w.numberOf(i)
	if n == "" {
		g.Label = w.wareOf(i)
		return g
	}
	g.Label = w.wareOf(i) + " " + n
	least := ring.Depth(ring.Centroid()) * 2
	if ring.Empty() {
		least = 40
	}
	size := 0.46 * least
	if len(n) > 1 {
		size = 0.42 * least
	}
	g.Marks = append(g.Marks, text(p.At, n, "number", math.Min(size, 60)))
	return g
}

// sticks are the rods laid over the posts of a level, one mark for each level
// they carry, shown by the step that lays them.
func (w *way) sticks(lo *order.LevelOrder) []views.Mark {
	var out []views.Mark
	at := map[int][]plane.Vec{}
	var carried []int
	for _, p := range lo.PostsOn {
		if len(at[p.Carries]) == 0 {
			carried = append(carried, p.Carries)
		}
		at[p.Carries] = append(at[p.Carries], w.b.Posts[p.Post].At)
	}
	for _, c := range carried {
		places := at[c]
		d := ""
		for i := range places {
			if len(places) == 2 && i == 1 {
				break
			}
			d += "M" + spot(places[i]) + "L" + spot(places[(i+1)%len(places)])
		}
		out = append(out, views.Mark{Kind: views.PathKind, D: d, Class: "stick", ID: w.stickID(c), Label: "stick"})
	}
	return out
}

// rimMark is a rod over the rim, right over the highest pot of a level.
func (w *way) rimMark(level int) views.Mark {
	top, at := math.Inf(-1), plane.Vec{}
	for _, i := range w.b.Levels[level].Pots {
		if p := &w.b.Pots[i]; p.Solid.Top() > top {
			top, at = p.Solid.Top(), p.At
		}
	}
	lo, hi := w.b.Chamber.Bounds()
	return views.Mark{
		Kind: views.PathKind, Class: "stick", ID: "rim:" + w.levelID(level), Label: "stick over the rim",
		D: "M" + spot(plane.Vec{lo[0], at[1]}) + "L" + spot(plane.Vec{hi[0], at[1]}),
	}
}

// frameMark is the corners of a photo.
func frameMark(level string, b [4]float64) views.Mark {
	x, y, r, l := b[0]+4, b[1]+4, b[0]+b[2]-4, b[1]+b[3]-4
	const arm = 70
	d := ""
	for _, c := range [4][4]float64{{x, y, 1, 1}, {r, y, -1, 1}, {r, l, -1, -1}, {x, l, 1, -1}} {
		d += "M" + number(c[0]+arm*c[2]) + " " + number(c[1]) + "L" + number(c[0]) + " " + number(c[1]) + "L" + number(c[0]) + " " + number(c[1]+arm*c[3])
	}
	return views.Mark{Kind: views.PathKind, D: d, Class: "frame", ID: "photo:" + level}
}

// holes are the spyholes that look at cone packs of a level: an arrow from the
// wall to the pack.
func (w *way) holes(level int) []views.Mark {
	var out []views.Mark
	for _, i := range w.b.Levels[level].Pots {
		p := &w.b.Pots[i]
		if p.Cones == nil || !p.Cones.Watched {
			continue
		}
		if spy := w.hole(p); spy != nil {
			out = append(out, views.Mark{
				Kind: views.PathKind, Class: "sight", ID: "sight:" + p.Pot.String(), Label: w.words.Say("spyhole"),
				D: "M" + spot(spy.Mouth) + "L" + spot(p.At),
			})
		}
	}
	return out
}

// hole is the spyhole a pack is seen through: the one it names, else the
// nearest.
func (w *way) hole(p *stacks.Pot) *stacks.Spy {
	var best *stacks.Spy
	least := math.Inf(1)
	for i := range w.b.Spies {
		spy := &w.b.Spies[i]
		if p.Cones.Spyhole == i+1 {
			return spy
		}
		if off := plane.Hypot(plane.Distance(spy.Mouth, p.At), spy.Height-p.Z); p.Cones.Spyhole == 0 && off < least {
			best, least = spy, off
		}
	}
	return best
}

// elevation is the kiln cut through, small: a box a storey, its id the level's.
func (w *way) elevation() Picture {
	lo, hi := w.b.Chamber.Bounds()
	wide, high := hi[0]-lo[0], w.b.Height
	rect := func(x0, x1, z0, z1 float64) string {
		return "M" + number(x0) + " " + number(-z0) + "H" + number(x1) + "V" + number(-z1) + "H" + number(x0) + "Z"
	}
	var marks []views.Mark
	for i := range w.b.Levels {
		v := &w.b.Levels[i]
		x0, x1 := w.span(i)
		g := views.Mark{Kind: views.GroupKind, Class: "storey", ID: "level:" + w.levelID(i), Label: w.words.Say(v.Name)}
		const inset = 7
		for _, a := range v.Above {
			u0, u1 := w.span(a)
			u0, u1 = math.Max(x0, u0), math.Min(x1, u1)
			if top := w.b.Levels[a].Bottom; u1 > u0 && top > v.Top {
				g.Marks = append(g.Marks, views.Mark{Kind: views.PathKind, D: rect(u0+inset, u1-inset, v.Top+inset/2, top-inset/2), Class: "room"})
			}
		}
		if len(v.Above) == 0 {
			g.Marks = append(g.Marks, views.Mark{Kind: views.PathKind, D: rect(x0+inset, x1-inset, v.Top+inset/2, high-inset), Class: "room"})
		}
		g.Marks = append(g.Marks, views.Mark{Kind: views.PathKind, D: rect(x0, x1, v.Bottom, math.Max(v.Top, v.Bottom+12)), Class: "shelf"})
		marks = append(marks, g)
	}
	marks = append(marks, views.Mark{Kind: views.PathKind, D: rect(lo[0], hi[0], 0, high), Class: "chamber"})
	return Picture{Box: [4]float64{tenth(lo[0] - 12), tenth(-high - 12), tenth(wide + 24), tenth(high + 24)}, Marks: marks}
}

// span is where the shelves of a level lie in the elevation. Towers that stand
// behind each other, not beside each other, share their width.
func (w *way) span(level int) (x0, x1 float64) {
	x0, x1 = math.Inf(1), math.Inf(-1)
	y := 0.0
	v := &w.b.Levels[level]
	for _, s := range v.Shelves {
		lo, hi := w.b.Shelves[s].Outline.Bounds()
		x0, x1 = math.Min(x0, lo[0]), math.Max(x1, hi[0])
		y += (lo[1] + hi[1]) / 2 / float64(len(v.Shelves))
	}
	if x0 > x1 {
		return 0, 0
	}
	behind, before := false, false
	for i := range w.b.Levels {
		o := &w.b.Levels[i]
		if o.Tower == v.Tower || o.Top < v.Top-200 || o.Top > v.Top+200 || len(o.Shelves) == 0 || w.stacked(level, i) {
			continue
		}
		lo, hi := w.b.Shelves[o.Shelves[0]].Outline.Bounds()
		if math.Min(hi[0], x1)-math.Max(lo[0], x0) > (x1-x0)/2 {
			behind = behind || (lo[1]+hi[1])/2 > y+1
			before = before || (lo[1]+hi[1])/2 < y-1
		}
	}
	mid := (x0 + x1) / 2
	switch {
	case behind && !before:
		return x0, mid
	case before && !behind:
		return mid, x1
	}
	return x0, x1
}

// stacked tells whether one of two levels lies over the other.
func (w *way) stacked(a, b int) bool {
	over := map[int]bool{}
	w.climb(a, over)
	if over[b] {
		return true
	}
	over = map[int]bool{}
	w.climb(b, over)
	return over[a]
}
