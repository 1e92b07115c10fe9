package session

import (
	"cmp"
	"math"
	"slices"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// mostHeights is how many other heights of a level are tried when a post is
// missing, the nearest first.
const mostHeights = 8

// otherHeights gives a level that misses a post another height, the nearest
// that can be made; pots that are then too tall wait.
func (f *Fitting) otherHeights() []maybe {
	b, err := stacks.Build(f.changed)
	if err != nil {
		return nil
	}
	stock := stacks.NewStock(&f.changed.Furniture)
	stock.Use(b)
	c := stacks.NewCatalogue(&f.changed.Furniture, stacks.Bounds{UpTo: b.Height})
	checker := clearance.New(b)
	words := edit.NewMender(b, checker, checker.Check())
	var out []maybe
	for v := len(b.Levels) - 1; v >= 0; v-- {
		if f.kept.posts[v] || f.kept.shelves[v] || !usesShort(b, v, stock) {
			continue
		}
		left := stock.Clone()
		for _, m := range postsOf(b, b.Levels[v].Posts) {
			left.Return(m, 1)
		}
		now := tallOf(b, v)
		heights := c.Heights(len(b.Levels[v].Posts), left)
		slices.SortStableFunc(heights, func(x, y stacks.Height) int {
			return cmp.Compare(math.Abs(x.Real-now), math.Abs(y.Real-now))
		})
		for _, h := range heights[:min(len(heights), mostHeights)] {
			if m, ok := f.atHeight(b, v, words, h.Posts); ok {
				out = append(out, m)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y maybe) int { return cmp.Compare(len(x.edits), len(y.edits)) })
	return out
}

// atHeight is a level on other posts, without the pots that are too tall then.
func (f *Fitting) atHeight(b *stacks.Built, level int, words *edit.Mender, posts []layout.MakeUp) (maybe, bool) {
	edits := []layout.Edit{words.PostsEdit(level, posts)}
	out := map[string]int{}
	var names []string
	for range 4 {
		next, err := edit.Apply(f.changed, edits...)
		if err != nil {
			return maybe{}, false
		}
		after, err := stacks.Build(next)
		if err != nil {
			return maybe{}, false
		}
		r := clearance.Check(after)
		if f.noWorse(r) {
			m := maybe{says: words.SayPosts(level, posts), detail: f.postsDetail(b, after, edits[:1]), edits: edits}
			if len(names) > 0 {
				slices.Sort(names)
				wait := make([]string, len(names))
				for i, n := range names {
					wait[i] = silhouette.Counted(out[n], n)
				}
				m.says += "; " + list(wait) + onOff(len(edits) == 2, " waits", " wait")
			}
			return m, true
		}
		more := false
		for i := range r.Findings {
			n := &r.Findings[i]
			if n.Rule != layout.RoomAbove && n.Rule != layout.RoomToLid || n.Grade == layout.Note {
				continue
			}
			if old := f.before.Find(n.Key); old != nil && old.Grade >= n.Grade && !worse(n, old) {
				continue
			}
			for _, t := range n.Things {
				p, err := next.Find(t.Name)
				if t.Kind != layout.ThingPot || err != nil {
					continue
				}
				e := layout.Edit{Act: layout.Withdraw, Pot: p.String()}
				if f.touches([]layout.Edit{e}) || hasEdit(edits, e.Pot) {
					continue
				}
				if out[p.Ware] == 0 {
					names = append(names, p.Ware)
				}
				out[p.Ware]++
				edits, more = append(edits, e), true
			}
		}
		if !more {
			return maybe{}, false
		}
	}
	return maybe{}, false
}

func hasEdit(edits []layout.Edit, pot string) bool {
	for i := range edits {
		if edits[i].Pot == pot {
			return true
		}
	}
	return false
}

// usesShort tells whether a level uses a piece of which too many are taken.
func usesShort(b *stacks.Built, level int, s *stacks.Stock) bool {
	for _, m := range postsOf(b, b.Levels[level].Posts) {
		for _, piece := range m {
			for i := range b.Load.Furniture.Posts {
				if k := &b.Load.Furniture.Posts[i]; k.Height == piece.Height && k.Name == piece.Name && s.Posts[i] < 0 {
					return true
				}
			}
		}
	}
	return false
}
