package session

import (
	"math"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// ShelfChoices are the ways to add a shelf on top of a side, and to take the
// top one out, each built and checked: none brings a problem.
func (s *Session) ShelfChoices() []Choice {
	out := []Choice{}
	b, _ := s.Built()
	if b == nil {
		return out
	}
	if len(b.Levels) == 0 {
		return s.firstShelves()
	}
	stock := stacks.NewStock(&s.now.Furniture)
	stock.Use(b)
	c := stacks.NewCatalogue(&s.now.Furniture, stacks.Bounds{Pieces: int(s.now.Limits(layout.Pieces).Watch), UpTo: b.Height})
	for t := range b.Towers {
		if n := len(b.Towers[t].Levels); b.Towers[t].Leaf && n > 0 {
			if choice, ok := s.oneShelfMore(b, t, stock, c); ok {
				out = append(out, choice)
			} else {
				out = append(out, s.sidesOver(b, t, stock, c)...)
			}
		}
	}
	for t := range b.Towers {
		tower := &b.Towers[t]
		if !tower.Leaf || len(tower.Levels) < 2 {
			continue
		}
		top := tower.Levels[len(tower.Levels)-1]
		out = append(out, Choice{Say: s.say("Take the shelf of " + s.Checker().LevelName(top) + " out" + potsBack(b, []int{top})),
			Edits: []layout.Edit{{Act: layout.RemoveLevel, Tower: tower.Name, Level: b.Levels[top].Number}}})
	}
	return out
}

// potsBack says how many pots go back to the table with levels.
func potsBack(b *stacks.Built, levels []int) string {
	n := 0
	for _, v := range levels {
		n += len(b.Levels[v].Pots)
	}
	if n == 0 {
		return ""
	}
	return ": " + silhouette.Counted(n, "pot") + onOff(n == 1, " goes", " go") + " back to the table"
}

// oneShelfMore puts a shelf like the top one of a side over it, on the lowest
// posts that clear what stands there.
func (s *Session) oneShelfMore(b *stacks.Built, t int, stock *stacks.Stock, c *stacks.Catalogue) (Choice, bool) {
	tower := &b.Towers[t]
	top := tower.Levels[len(tower.Levels)-1]
	own := s.levelOf(b, top)
	left := stock.Clone()
	for _, sh := range own.Shelves {
		left.TakeShelf(sh.Kind, 1)
	}
	for _, k := range left.Missing() {
		if k.Kind == stacks.FetchShelf {
			return Choice{}, false
		}
	}
	tall := 0.0
	for _, p := range b.Levels[top].Pots {
		tall = math.Max(tall, b.Pots[p].Body.Height)
	}
	lines := len(s.now.Towers[tower.Index].Lines)
	tries := 0
	for _, h := range c.Heights(lines, left) {
		if h.Real < tall+s.now.Limits(layout.RoomAbove).Plan-1e-6 || tries >= 6 {
			continue
		}
		tries++
		level := layout.Level{Shelves: append([]layout.ShelfAt(nil), own.Shelves...), Posts: postsOrOne(h.Posts)}
		edits := []layout.Edit{{Act: layout.AddLevel, Tower: tower.Name, Level: len(tower.Levels) + 1, NewLevel: &level}}
		after, r, ok := s.checked(edits)
		if !ok || !noWorse(r, s.Report()) {
			continue
		}
		takes := ""
		for i := range after.Levels {
			if v := &after.Levels[i]; after.Towers[v.Tower].Name == tower.Name && v.Number == len(tower.Levels)+1 {
				takes = ": takes " + s.down(after.TakesMost(i))
			}
		}
		return Choice{Say: s.say("Add a shelf over " + s.Checker().LevelName(top) + " on " + s.made(h.Posts) + takes), Edits: edits}, true
	}
	return Choice{}, false
}

// postsOrOne is one make-up for all posts where they are alike.
func postsOrOne(posts []layout.MakeUp) []layout.MakeUp {
	for _, m := range posts {
		if len(m) != len(posts[0]) {
			return posts
		}
		for i := range m {
			if m[i] != posts[0][i] {
				return posts
			}
		}
	}
	return posts[:1]
}

// firstShelves lays the first shelf of an empty kiln: each kind that clears the
// wall, on the lowest posts that keep the bottom shelf off the floor.
func (s *Session) firstShelves() []Choice {
	out := []Choice{}
	stock := stacks.NewStock(&s.now.Furniture)
	c := stacks.NewCatalogue(&s.now.Furniture, stacks.Bounds{UpTo: s.now.Kiln.Height})
	for i := range s.now.Furniture.Shelves {
		k := &s.now.Furniture.Shelves[i]
		o, err := k.Shape.Outline()
		if err != nil || k.Count < 1 {
			continue
		}
		sides := []side{{"stack", layout.ShelfAt{Kind: k.Name}, o}}
		if strings.HasPrefix(string(k.Shape.Kind), "half") {
			sides = twoSides(k.Name, o)
		}
		for _, h := range c.Heights(3, stock) {
			if h.Real < s.now.Limits(layout.BottomShelf).Plan-1e-6 {
				continue
			}
			if choice, ok := s.lay(sides, h, layout.Support{}, ""); ok {
				out = append(out, choice)
			}
			break
		}
	}
	return out
}

// side is a shelf where it would be laid.
type side struct {
	name    string
	at      layout.ShelfAt
	outline plane.Outline
}

// twoSides are two half shelves side by side.
func twoSides(kind string, o plane.Outline) []side {
	return []side{{"left side", layout.ShelfAt{Kind: kind, At: plane.Vec{-3, 0}, Turn: 270}, o}, {"right side", layout.ShelfAt{Kind: kind, At: plane.Vec{3, 0}, Turn: 90}, o}}
}

// sidesOver lays two half shelves side by side over the top shelf of a tower
// that has no more shelves like it, on the lowest posts that clear its pots.
func (s *Session) sidesOver(b *stacks.Built, t int, stock *stacks.Stock, c *stacks.Catalogue) []Choice {
	tower := &b.Towers[t]
	top := tower.Levels[len(tower.Levels)-1]
	if s.now.Tower("left side") != nil || s.now.Tower("right side") != nil {
		return nil
	}
	tall := 0.0
	for _, p := range b.Levels[top].Pots {
		tall = math.Max(tall, b.Pots[p].Body.Height)
	}
	for i := range s.now.Furniture.Shelves {
		k := &s.now.Furniture.Shelves[i]
		o, err := k.Shape.Outline()
		if err != nil || stock.Shelves[i] < 2 || !strings.HasPrefix(string(k.Shape.Kind), "half") {
			continue
		}
		for _, h := range c.Heights(6, stock) {
			if h.Real < tall+s.now.Limits(layout.RoomAbove).Plan {
				continue
			}
			h.Posts = h.Posts[:3] // alike where all six are one height
			if choice, ok := s.lay(twoSides(k.Name, o), h, layout.Support{Tower: tower.Name, Level: b.Levels[top].Number}, " over "+s.Checker().LevelName(top)); ok {
				return []Choice{choice}
			}
			break
		}
	}
	return nil
}

// lay lays shelves on a support, on three posts each, where that brings no
// problem.
func (s *Session) lay(sides []side, h stacks.Height, on layout.Support, where string) (Choice, bool) {
	towers := layout.CloneTowers(s.now.Towers)
	for _, sd := range sides {
		towers = append(towers, layout.Tower{Name: sd.name, On: []layout.Support{on}, Lines: s.threeLines(sd),
			Levels: []layout.Level{{Shelves: []layout.ShelfAt{sd.at}, Posts: postsOrOne(h.Posts)}}})
	}
	edits := []layout.Edit{{Act: layout.Arrange, Towers: towers}}
	if _, r, ok := s.checked(edits); !ok || r.Problems > s.Report().Problems {
		return Choice{}, false
	}
	say := "Lay a " + sides[0].at.Kind + " shelf on " + s.made(h.Posts)
	if len(sides) > 1 {
		say = "Lay two " + sides[0].at.Kind + " shelves side by side" + where + " on " + s.made(h.Posts) + " each"
	}
	return Choice{Say: s.say(say), Edits: edits}, true
}

// threeLines are three posts under a shelf, as far out as the inset allows,
// their triangle about its middle.
func (s *Session) threeLines(sd side) []layout.Line {
	inset := s.now.Limits(layout.Inset).Plan
	for i := range s.now.Furniture.Posts {
		inset = math.Max(inset, float64(s.now.Furniture.Posts[i].Section.Width*0.71)+1)
	}
	placed := sd.outline.At(plane.Pose{At: sd.at.At, Turn: sd.at.Turn})
	middle := placed.Centroid()
	var lines []layout.Line
	for _, turn := range []float64{180, 300, 60} {
		bearing := turn + sd.at.Turn
		lo, hi := 0.0, farthest/10
		for range 60 {
			mid := (lo + hi) / 2
			if placed.Depth(plane.Add(middle, plane.FromBearing(mid, bearing))) >= inset {
				lo = mid
			} else {
				hi = mid
			}
		}
		at := plane.Add(middle, plane.FromBearing(math.Floor(lo), bearing))
		lines = append(lines, layout.Line{At: plane.Vec{math.Round(at[0]), math.Round(at[1])}})
	}
	return lines
}

// SideChoices are the ways to add a side across from one that stands alone,
// and to take a whole side out.
func (s *Session) SideChoices() []Choice {
	out := []Choice{}
	b, _ := s.Built()
	if b == nil {
		return out
	}
	for t := range b.Towers {
		if choice, ok := s.across(b, t); ok {
			out = append(out, choice)
		}
	}
	for t := range b.Towers {
		tower := &b.Towers[t]
		if !tower.Leaf || len(tower.Levels) == 0 {
			continue
		}
		towers := layout.CloneTowers(s.now.Towers)
		towers = append(towers[:tower.Index], towers[tower.Index+1:]...)
		out = append(out, Choice{Say: s.say("Take the " + tower.Name + " out" + potsBack(b, tower.Levels)), Edits: []layout.Edit{{Act: layout.Arrange, Towers: towers}}})
	}
	return out
}

// across is the mirror image of a side's first level, where that stands clear.
func (s *Session) across(b *stacks.Built, t int) (Choice, bool) {
	own := &s.now.Towers[b.Towers[t].Index]
	if len(own.Levels) == 0 {
		return Choice{}, false
	}
	name := "other side"
	for _, pair := range [][2]string{{"left side", "right side"}, {"right side", "left side"}} {
		if own.Name == pair[0] {
			name = pair[1]
		}
	}
	if s.now.Tower(name) != nil {
		return Choice{}, false
	}
	m := layout.Tower{Name: name, On: append([]layout.Support(nil), own.On...)}
	for _, l := range own.Lines {
		m.Lines = append(m.Lines, layout.Line{At: plane.Vec{-l.At[0], l.At[1]}, Turn: plane.NormalTurn(-l.Turn)})
	}
	level := layout.Level{Posts: own.Levels[0].Posts}
	for _, sh := range own.Levels[0].Shelves {
		level.Shelves = append(level.Shelves, layout.ShelfAt{Kind: sh.Kind, At: plane.Vec{-sh.At[0], sh.At[1]}, Turn: plane.NormalTurn(-sh.Turn)})
	}
	m.Levels = []layout.Level{level}
	edits := []layout.Edit{{Act: layout.Arrange, Towers: append(layout.CloneTowers(s.now.Towers), m)}}
	if _, r, ok := s.checked(edits); !ok || !noWorse(r, s.Report()) {
		return Choice{}, false
	}
	return Choice{Say: s.say("Add a side across from the " + own.Name), Edits: edits}, true
}
