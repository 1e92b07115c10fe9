package clearance

import (
	"math"
	"strconv"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// besidePost is how near a post, in plan from skin to skin, a pot is "next to"
// it, mm.
const besidePost = 40

// namer says things the way a person points at them. Only one-offs have names;
// alike pots are told by a post beside them, else by the clock.
type namer struct {
	b    *stacks.Built
	said map[int]string // full names of pots, as they are asked for
}

func newNamer(b *stacks.Built) *namer { return &namer{b: b, said: map[int]string{}} }

// Name says a pot of the load the way a person points at it: "the vase", "the
// mug next to post B", "the mug toward 8 o'clock on left 2". pot is an index
// into Built.Pots.
func (c *Checker) Name(pot int) string { return c.names.pot(pot) }

// NameFrom says pot j as seen from pot i: "the mug toward 8", "the vase".
func (c *Checker) NameFrom(i, j int) string { return c.names.from(i, j) }

// pot is Name.
func (n *namer) pot(i int) string {
	s, ok := n.said[i]
	if !ok {
		s = n.pointAt(i)
		n.said[i] = s
	}
	return s
}

func (n *namer) pointAt(i int) string {
	p := &n.b.Pots[i]
	if p.Cones != nil {
		if len(n.alike(i)) == 1 {
			return "the cones on " + n.level(p.Level)
		}
		return "the cone pack " + strconv.Quote(p.Pot.String())
	}
	name := p.Pot.Ware
	if p.Pot.Number == 0 {
		return "the " + name
	}
	alike := n.alike(i)
	if len(alike) == 1 {
		return "the " + name + " on " + n.level(p.Level)
	}
	if letter := n.postBeside(i, alike); letter != "" {
		if n.pointsElsewhere(letter, p) {
			return "the " + name + " next to post " + letter + " on " + n.level(p.Level)
		}
		return "the " + name + " next to post " + letter
	}
	return "the " + n.ringWord(i, alike) + name + " toward " + measure.SayClock(plane.Bearing(p.At)) + " on " + n.level(p.Level)
}

// alike lists the pots of the same kind on the same level; for cones, all
// packs of the level.
func (n *namer) alike(i int) []int {
	p := &n.b.Pots[i]
	var out []int
	for j := range n.b.Pots {
		q := &n.b.Pots[j]
		if q.Level == p.Level && (q.Kind == p.Kind || p.Cones != nil && q.Cones != nil) {
			out = append(out, j)
		}
	}
	return out
}

// postBeside is the letter of the post that stands beside pot i on its level,
// when no pot of its kind stands nearer to that post.
func (n *namer) postBeside(i int, alike []int) string {
	best, at := besidePost+0.0, -1
	for k := range n.b.Posts {
		if n.standsOn(k, n.b.Pots[i].Level) {
			if d := n.toPost(i, k); d < best-tol {
				best, at = d, k
			}
		}
	}
	if at < 0 {
		return ""
	}
	for _, j := range alike {
		if d := n.toPost(j, at); j != i && (d < best-tol || d < best+tol && j < i) {
			return ""
		}
	}
	return n.b.Posts[at].Letter
}

// standsOn tells whether a post's foot stands on that level.
func (n *namer) standsOn(post, level int) bool {
	if level < 0 {
		return false
	}
	for _, up := range n.b.Levels[level].Above {
		if n.b.Posts[post].Level == up && math.Abs(n.b.Posts[post].Bottom-n.b.Levels[level].Top) < 1 {
			return true
		}
	}
	return false
}

// toPost is how far, in plan, the main part of a pot stands from a post.
func (n *namer) toPost(pot, post int) float64 {
	p, q := &n.b.Pots[pot].Solid, &n.b.Posts[post].Solid
	if len(p.Body.Parts) == 0 || len(q.Body.Parts) == 0 {
		return math.Inf(1)
	}
	return p.Skeleton(0).Distance(q.Skeleton(0)) - p.Body.Parts[0].Profile.Max() - q.Body.Parts[0].Profile.Max()
}

// pointsElsewhere tells whether "the mug next to post B" would also mean a mug
// on another level.
func (n *namer) pointsElsewhere(letter string, p *stacks.Pot) bool {
	for k := range n.b.Posts {
		if n.b.Posts[k].Letter != letter {
			continue
		}
		for j := range n.b.Pots {
			q := &n.b.Pots[j]
			if q.Level != p.Level && q.Kind == p.Kind && n.standsOn(k, q.Level) && n.toPost(j, k) < besidePost {
				return true
			}
		}
	}
	return false
}

// ringWord tells pots of one kind apart that stand toward the same hour:
// "inner ", "outer ", or by their place from the middle.
func (n *namer) ringWord(i int, alike []int) string {
	p := &n.b.Pots[i]
	hour := measure.SayClock(plane.Bearing(p.At))
	same, inside := 0, 0
	for _, j := range alike {
		q := &n.b.Pots[j]
		if measure.SayClock(plane.Bearing(q.At)) != hour {
			continue
		}
		same++
		if d, e := plane.Length(q.At), plane.Length(p.At); j != i && (d < e || d == e && j < i) {
			inside++
		}
	}
	switch {
	case same == 1:
		return ""
	case inside == 0:
		return "inner "
	case inside == same-1:
		return "outer "
	case inside == 1:
		return "second "
	case inside == 2:
		return "third "
	}
	return strconv.Itoa(inside+1) + "th "
}

// from says pot j as seen from pot i: "the mug toward 8".
func (n *namer) from(i, j int) string {
	return n.fromPlace(n.b.Pots[i].At, n.b.Pots[i].Level, j)
}

// level says a level inside a sentence: "left 2", "the bottom", "level 3".
func (n *namer) level(i int) string {
	if i < 0 || i >= len(n.b.Levels) {
		return "no level"
	}
	name := n.b.Levels[i].Name
	switch name {
	case "":
		return "level " + strconv.Itoa(n.b.Levels[i].Number)
	case "bottom", "middle", "top":
		return "the " + name
	}
	return name
}

// shelf says a shelf: "the shelf of left 1".
func (n *namer) shelf(i int) string {
	s := &n.b.Shelves[i]
	v := &n.b.Levels[s.Level]
	switch {
	case len(v.Shelves) < 2 && v.Name == "bottom":
		return "the bottom shelf"
	case len(v.Shelves) < 2:
		return "the shelf of " + n.level(s.Level)
	case plane.Length(s.Outline.Centroid()) < 30:
		return "the middle shelf of " + n.level(s.Level)
	}
	return "the shelf toward " + measure.SayClock(plane.Bearing(s.Outline.Centroid())) + " of " + n.level(s.Level)
}

// post says a post: "post B under left 2".
func (n *namer) post(i int) string {
	p := &n.b.Posts[i]
	return "post " + p.Letter + " under " + n.level(p.Level)
}

// place names a level in keys: tower and number.
func (n *namer) place(level int) string {
	if level < 0 || level >= len(n.b.Levels) {
		return "nowhere"
	}
	v := &n.b.Levels[level]
	return n.tower(level) + " " + strconv.Itoa(v.Number)
}

func (n *namer) tower(level int) string {
	if t := n.b.Levels[level].Tower; t >= 0 && t < len(n.b.Towers) {
		return n.b.Towers[t].Name
	}
	return ""
}

// potThing, shelfThing, postThing and levelThing point at pieces.
func (n *namer) potThing(i int) layout.Thing {
	p := &n.b.Pots[i]
	kind := layout.ThingPot
	if p.Cones != nil {
		kind = layout.ThingCones
	}
	t := layout.Thing{Kind: kind, Name: p.Pot.String()}
	if p.Level >= 0 {
		t.Tower, t.Level = n.tower(p.Level), n.b.Levels[p.Level].Number
	}
	return t
}

func (n *namer) shelfThing(i int) layout.Thing {
	s := &n.b.Shelves[i]
	return layout.Thing{Kind: layout.ThingShelf, Name: strconv.Itoa(s.Index + 1), Tower: n.tower(s.Level), Level: n.b.Levels[s.Level].Number}
}

func (n *namer) postThing(i int) layout.Thing {
	p := &n.b.Posts[i]
	return layout.Thing{Kind: layout.ThingPost, Name: p.Letter, Tower: n.tower(p.Level), Level: n.b.Levels[p.Level].Number}
}

func (n *namer) levelThing(i int) layout.Thing {
	return layout.Thing{Kind: layout.ThingLevel, Tower: n.tower(i), Level: n.b.Levels[i].Number}
}

// shelfLabel and postLabel name pieces in keys.
func (n *namer) shelfLabel(i int) string {
	s := &n.b.Shelves[i]
	label := "shelf of " + n.place(s.Level)
	if len(n.b.Levels[s.Level].Shelves) > 1 {
		label += " no " + strconv.Itoa(s.Index+1)
	}
	return label
}

func (n *namer) postLabel(i int) string {
	return "post " + n.b.Posts[i].Letter + " of " + n.place(n.b.Posts[i].Level)
}

// kindLabel names a ware row or a cone pack in keys; kinds count the ware rows
// first, then the packs.
func (n *namer) kindLabel(kind int) string {
	switch rows := len(n.b.Load.Ware); {
	case kind < 0:
		return ""
	case kind < rows:
		return n.b.Load.Ware[kind].Name
	case kind-rows < len(n.b.Load.Cones):
		return n.b.Load.Cones[kind-rows].Name
	}
	return ""
}

// probe says a probe: "the probe", or with its clock where there are several.
func (n *namer) probe(k int) string {
	if len(n.b.Probes) < 2 {
		return "the probe"
	}
	return "the probe at " + measure.ShortClock(n.b.Probes[k].Kiln.At)
}

func (n *namer) probeThing(k int) layout.Thing {
	return layout.Thing{Kind: layout.ThingProbe, Name: strconv.Itoa(k + 1)}
}

func (n *namer) probeLabel(k int) string { return "probe " + strconv.Itoa(k+1) }

func (n *namer) potLabel(i int) string { return n.b.Pots[i].Pot.String() }

// sentence begins with a capital.
func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// count says how many pots of a row: "the vase", "a mug", "three mugs".
func (n *namer) count(kind, many int) string {
	w := &n.b.Load.Ware[kind]
	switch {
	case w.Count == 1:
		return "the " + w.Name
	case many == 1:
		return article(w.Name) + " " + w.Name
	}
	return number(many) + " " + silhouette.Named(many, w.Name)
}

func article(name string) string {
	if name != "" && strings.ContainsRune("aeiouAEIOU", rune(name[0])) {
		return "an"
	}
	return "a"
}

// number says small numbers in words.
func number(n int) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n >= 0 && n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n)
}

// down and up show a length bare, rounded to the side named; the others with
// its unit.
func (c *Checker) down(mm float64) string {
	return measure.FormatLength(mm, c.b.Load.Units, measure.Down)
}

func (c *Checker) up(mm float64) string {
	return measure.FormatLength(mm, c.b.Load.Units, measure.Up)
}

// post shows the height of a post or spacer.
func (c *Checker) post(mm float64) string {
	return measure.FormatLengthTo(mm, c.b.Load.Units, measure.Nearest, measure.PostGrain)
}

func (c *Checker) downUnit(mm float64) string {
	return measure.SayLength(mm, c.b.Load.Units, measure.Down)
}

func (c *Checker) upUnit(mm float64) string {
	return measure.SayLength(mm, c.b.Load.Units, measure.Up)
}

// at is a point over the middle of a thing in plan.
func at(v plane.Vec, z float64) mgl64.Vec3 { return mgl64.Vec3{v[0], v[1], z} }

// LevelName says a level inside a sentence: "left 2", "the bottom". level is
// an index into Built.Levels.
func (c *Checker) LevelName(level int) string { return c.names.level(level) }
