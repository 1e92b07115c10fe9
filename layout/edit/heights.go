package edit

import (
	"math"
	"slices"
	"sort"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// same is how near two heights count as one, mm.
const same = 0.05

// catalogue is what the owned posts make.
func (m *mender) catalogue() *stacks.Catalogue {
	if m.posts == nil {
		m.posts = stacks.NewCatalogue(&m.b.Load.Furniture, stacks.Bounds{UpTo: m.b.Height})
	}
	return m.posts
}

// stock is what is left of the furniture when the posts of some levels are
// taken back.
func (m *mender) stock(levels ...int) *stacks.Stock {
	s := stacks.NewStock(&m.b.Load.Furniture)
	s.Use(m.b)
	for _, v := range levels {
		for _, p := range m.b.Levels[v].Posts {
			s.Return(m.b.Posts[p].MakeUp, 1)
		}
	}
	return s
}

// level is the built level of a thing, or -1.
func (m *mender) level(t layout.Thing) int {
	for v := range m.b.Levels {
		if m.b.Levels[v].Number == t.Level && m.b.Towers[m.b.Levels[v].Tower].Name == t.Tower {
			return v
		}
	}
	return -1
}

// tall is the height of a level's tallest post, mm.
func (m *mender) tall(v int) float64 {
	h := 0.0
	for _, p := range m.b.Levels[v].Posts {
		h = math.Max(h, m.b.Posts[p].Top-m.b.Posts[p].Bottom)
	}
	return h
}

// change is other posts under a level.
type change struct {
	level int
	posts []layout.MakeUp // one a line
	by    float64         // mm higher
}

func (m *mender) edit(c change) layout.Edit {
	v := &m.b.Levels[c.level]
	posts := c.posts
	if alike(posts) {
		posts = posts[:1]
	}
	return layout.Edit{Act: layout.SetPosts, Tower: m.b.Towers[v.Tower].Name, Level: v.Number, Posts: posts}
}

func alike(posts []layout.MakeUp) bool {
	for _, p := range posts {
		if !slices.Equal(p, posts[0]) {
			return false
		}
	}
	return true
}

// changes are the other heights that a level's posts can have from what is
// left, by how much they change, nearest first; up from at least least, or
// down from at least -least where least is negative.
func (m *mender) changes(v int, least float64, most int, given ...int) []change {
	n := len(m.b.Levels[v].Posts)
	if n == 0 {
		return nil
	}
	var out []change
	if c, ok := m.onTop(v, least); ok && len(given) == 0 {
		out = append(out, c)
	}
	now := m.tall(v)
	heights := m.catalogue().Heights(n, m.stock(append([]int{v}, given...)...))
	if least < 0 {
		for i, j := 0, len(heights)-1; i < j; i, j = i+1, j-1 {
			heights[i], heights[j] = heights[j], heights[i]
		}
	}
	for _, h := range heights {
		by := h.Real - now
		if least > 0 && by < least-1e-6 || least < 0 && by > least+1e-6 || len(out) >= most {
			continue
		}
		out = append(out, change{v, h.Posts, by})
	}
	return out
}

// onTop raises a level by one spare piece on each post: the lowest that does.
func (m *mender) onTop(v int, least float64) (change, bool) {
	if least <= 0 {
		return change{}, false
	}
	left := m.stock()
	posts := m.b.Levels[v].Posts
	best := -1
	for i := range m.b.Load.Furniture.Posts {
		k := &m.b.Load.Furniture.Posts[i]
		if !k.Spacer || left.Posts[i] < len(posts) || k.RealHeight() < least-1e-6 {
			continue
		}
		if best < 0 || k.RealHeight() < m.b.Load.Furniture.Posts[best].RealHeight() {
			best = i
		}
	}
	if best < 0 {
		return change{}, false
	}
	k := &m.b.Load.Furniture.Posts[best]
	c := change{level: v, by: k.RealHeight()}
	for _, p := range posts {
		up := append(layout.MakeUp(nil), m.b.Posts[p].MakeUp...)
		c.posts = append(c.posts, append(up, layout.Piece{Height: k.Height, Name: k.Name}))
	}
	return c, true
}

// say tells a change of posts as an act: "Put one 5 on each of A, B and C",
// "Take the 5s out of left 1", "Put 3×(50+25) in place of 3×75 under left 2".
func (m *mender) say(c change) string {
	posts := m.b.Levels[c.level].Posts
	was := make([]layout.MakeUp, len(posts))
	letters := make([]string, len(posts))
	for i, p := range posts {
		was[i], letters[i] = m.b.Posts[p].MakeUp, m.b.Posts[p].Letter
	}
	sort.Strings(letters)
	if piece, ok := added(was, c.posts); ok {
		return "Put one " + m.post(piece) + " on each of " + list(letters)
	}
	if piece, ok := added(c.posts, was); ok {
		return "Take the " + m.post(piece) + "s out of " + m.place(c.level)
	}
	in := m.b.Load.Units
	return "Put " + stacks.SayPosts(c.posts, in) + " in place of " + stacks.SayPosts(was, in) + " under " + m.place(c.level)
}

// added tells whether each post is its old one with the same piece on top.
func added(was, now []layout.MakeUp) (layout.Piece, bool) {
	if len(was) != len(now) || len(now) == 0 {
		return layout.Piece{}, false
	}
	var piece layout.Piece
	for i := range now {
		n := len(was[i])
		if len(now[i]) != n+1 || !slices.Equal(was[i], now[i][:n]) || i > 0 && now[i][n] != piece {
			return layout.Piece{}, false
		}
		piece = now[i][n]
	}
	return piece, true
}

func (m *mender) post(p layout.Piece) string {
	s := measure.FormatLengthTo(p.Height, m.b.Load.Units, measure.Nearest, measure.PostGrain)
	if p.Name != "" {
		s += " " + p.Name
	}
	return s
}

// list says letters: "A, B and C".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// place says a level: "left 2", "the bottom".
func (m *mender) place(v int) string { return m.c.LevelName(v) }

// toLid says what is left to the lid after a change: ": 33 left to the lid".
func toLid(b *stacks.Built) string {
	room := math.Inf(1)
	for i := range b.Pots {
		room = math.Min(room, b.Height-b.Pots[i].Solid.Max[2])
	}
	if math.IsInf(room, 0) {
		return ""
	}
	word := " left to the lid"
	if b.Load.Kiln.Opens == layout.Front {
		word = " left to the ceiling"
	}
	return ": " + measure.FormatLength(room, b.Load.Units, measure.Down) + word
}

// tryChanges offers changes of posts together.
func (m *mender) tryChanges(cs ...change) bool {
	var says []string
	var edits []layout.Edit
	for i, c := range cs {
		s := m.say(c)
		if i > 0 {
			s = strings.ToLower(s[:1]) + s[1:] // s begins with an act
		}
		says, edits = append(says, s), append(edits, m.edit(c))
	}
	return m.trySaying(func(b *stacks.Built) string { return strings.Join(says, ", and ") + toLid(b) }, edits...)
}
