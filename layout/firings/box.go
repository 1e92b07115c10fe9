package firings

import (
	"threepost/layout"
	"threepost/layout/stacks"
)

// oneBox is the furniture of all loads as one box: rows that are alike in two
// loads are the same pieces and count once, with the larger count.
func (s *splitter) oneBox() layout.Furniture {
	var box layout.Furniture
	for k := range s.studio.Kilns {
		f := &s.studio.Kilns[k].Load.Furniture
		box.Shelves = united(box.Shelves, f.Shelves, func(r *layout.ShelfKind) *int { return &r.Count })
		box.Posts = united(box.Posts, f.Posts, func(r *layout.PostKind) *int { return &r.Count })
		box.Cookies = united(box.Cookies, f.Cookies, func(r *layout.CookieKind) *int { return &r.Count })
		box.Stilts = united(box.Stilts, f.Stilts, func(r *layout.StiltKind) *int { return &r.Count })
	}
	box.Shelves = distinct(box.Shelves, func(r *layout.ShelfKind) *string { return &r.Name }, nil)
	box.Posts = distinct(box.Posts, func(r *layout.PostKind) *string { return &r.Name }, func(r *layout.PostKind) float64 { return r.Height })
	return box
}

// united is a list of rows with another list: an alike row is the same row.
func united[R comparable](all, more []R, count func(*R) *int) []R {
	bare := func(r R) R {
		*count(&r) = 0
		return r
	}
	for _, r := range more {
		found := false
		for i := range all {
			if bare(all[i]) == bare(r) {
				*count(&all[i]) = max(*count(&all[i]), *count(&r))
				found = true
				break
			}
		}
		if !found {
			all = append(all, r)
		}
	}
	return all
}

// distinct gives rows that differ but have one name names of their own, since
// levels tell them by it: "half", "other half". Posts are told by height too.
func distinct[R any](rows []R, name func(*R) *string, height func(*R) float64) []R {
	type key struct {
		name   string
		height float64
	}
	seen := map[key]bool{}
	for i := range rows {
		k := key{name: *name(&rows[i])}
		if height != nil {
			k.height = height(&rows[i])
		}
		for seen[k] {
			if k.name == "" {
				k.name = "set"
			}
			k.name = "other " + k.name
		}
		seen[k] = true
		*name(&rows[i]) = k.name
	}
	return rows
}

// without is what is left of a box when a trial has taken its pieces; rows of
// which nothing is left are gone.
func without(box layout.Furniture, used *stacks.Stock) layout.Furniture {
	var left layout.Furniture
	for i, r := range box.Shelves {
		r.Count = used.Shelves[i]
		left.Shelves = some(left.Shelves, r, r.Count)
	}
	for i, r := range box.Posts {
		r.Count = used.Posts[i]
		left.Posts = some(left.Posts, r, r.Count)
	}
	for i, r := range box.Cookies {
		r.Count = used.Cookies[i]
		left.Cookies = some(left.Cookies, r, r.Count)
	}
	for i, r := range box.Stilts {
		r.Count = used.Stilts[i]
		left.Stilts = some(left.Stilts, r, r.Count)
	}
	return left
}

// taken is what a trial uses of a box.
func taken(box layout.Furniture, used *stacks.Stock) layout.Furniture {
	var out layout.Furniture
	for i, r := range box.Shelves {
		r.Count -= used.Shelves[i]
		out.Shelves = some(out.Shelves, r, r.Count)
	}
	for i, r := range box.Posts {
		r.Count -= used.Posts[i]
		out.Posts = some(out.Posts, r, r.Count)
	}
	for i, r := range box.Cookies {
		r.Count -= used.Cookies[i]
		out.Cookies = some(out.Cookies, r, r.Count)
	}
	for i, r := range box.Stilts {
		r.Count -= used.Stilts[i]
		out.Stilts = some(out.Stilts, r, r.Count)
	}
	return out
}

func some[R any](rows []R, r R, count int) []R {
	if count <= 0 {
		return rows
	}
	return append(rows, r)
}

// shareOf is a share of a box: of n pieces the first of two shares has
// n x share rounded to whole pieces, posts to threes where that can be, since a
// shelf stands on three.
func shareOf(box layout.Furniture, share float64) (first, second layout.Furniture) {
	first.Shelves, second.Shelves = parted(box.Shelves, share, 1, func(r *layout.ShelfKind) *int { return &r.Count })
	first.Posts, second.Posts = parted(box.Posts, share, 3, func(r *layout.PostKind) *int { return &r.Count })
	first.Cookies, second.Cookies = parted(box.Cookies, share, 1, func(r *layout.CookieKind) *int { return &r.Count })
	first.Stilts, second.Stilts = parted(box.Stilts, share, 1, func(r *layout.StiltKind) *int { return &r.Count })
	return first, second
}

// parted divides rows of one sort of furniture; count finds a row's count.
func parted[R any](rows []R, share float64, unit int, count func(*R) *int) (first, second []R) {
	for _, r := range rows {
		a, b := r, r
		n := *count(&r)
		*count(&a) = min(n, max(0, int(float64(float64(n)*share)/float64(unit)+0.5)*unit))
		*count(&b) = n - *count(&a)
		first, second = some(first, a, *count(&a)), some(second, b, *count(&b))
	}
	return first, second
}

// renamedFurniture gives what stands in a load the names that its shelves and
// posts have in a shared box.
func renamedFurniture(l *layout.Load, box *layout.Furniture) {
	shelf, post := map[string]string{}, map[layout.Piece]string{}
	for _, r := range l.Furniture.Shelves {
		for _, b := range box.Shelves {
			bare := b
			bare.Name, bare.Count = r.Name, r.Count
			if bare == r && shelf[r.Name] == "" {
				shelf[r.Name] = b.Name
			}
		}
	}
	for _, r := range l.Furniture.Posts {
		for _, b := range box.Posts {
			bare := b
			bare.Name, bare.Count = r.Name, r.Count
			key := layout.Piece{Height: r.Height, Name: r.Name}
			if _, there := post[key]; bare == r && !there {
				post[key] = b.Name
			}
		}
	}
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			v := &l.Towers[i].Levels[j]
			for n := range v.Shelves {
				if now, ok := shelf[v.Shelves[n].Kind]; ok {
					v.Shelves[n].Kind = now
				}
			}
			for _, m := range v.Posts {
				for n := range m {
					if now, ok := post[m[n]]; ok {
						m[n].Name = now
					}
				}
			}
		}
	}
}
