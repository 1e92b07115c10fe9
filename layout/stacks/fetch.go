package stacks

import (
	"sort"

	"threepost/layout"
)

// Used is the furniture to fetch for a built load: shelves in the order of the
// furniture, posts and spacers from the tallest, cone packs, cookies, stilts,
// wads.
func Used(b *Built) []Fetch {
	f := &b.Load.Furniture
	whole, left := NewStock(f), NewStock(f)
	left.Use(b)
	var list []Fetch
	for i := range f.Shelves {
		if n := whole.Shelves[i] - left.Shelves[i]; n > 0 {
			list = append(list, Fetch{FetchShelf, f.Shelves[i].Name, 0, n, whole.Shelves[i], i})
		}
	}
	var posts []Fetch
	for i := range f.Posts {
		if n := whole.Posts[i] - left.Posts[i]; n > 0 {
			posts = append(posts, postFetch(f, i, n))
		}
	}
	sort.SliceStable(posts, func(i, j int) bool {
		if posts[i].Kind != posts[j].Kind {
			return posts[i].Kind == FetchPost
		}
		return posts[i].Size > posts[j].Size
	})
	list = append(list, posts...)
	cones, wads := 0, 0
	for i := range b.Pots {
		if b.Pots[i].Cones != nil {
			cones++
		}
		if b.Pots[i].Body.Stand.Kind == layout.Wads {
			wads++
		}
	}
	add := func(f Fetch) {
		if f.Count > 0 {
			list = append(list, f)
		}
	}
	add(Fetch{FetchCones, "", 0, cones, -1, -1})
	for i := range f.Cookies {
		add(Fetch{FetchCookie, "", f.Cookies[i].Across, whole.Cookies[i] - left.Cookies[i], whole.Cookies[i], i})
	}
	add(Fetch{FetchCookie, "", 0, left.cookies, owned(len(f.Cookies)), -1})
	for i := range f.Stilts {
		add(Fetch{FetchStilt, "", f.Stilts[i].Across, whole.Stilts[i] - left.Stilts[i], whole.Stilts[i], i})
	}
	add(Fetch{FetchStilt, "", 0, left.stilts, owned(len(f.Stilts)), -1})
	add(Fetch{FetchWads, "", 0, wads, -1, -1})
	return list
}

// owned is how many are owned of what fits no listed row: none where there is
// a list, unknown where there is none.
func owned(rows int) int {
	if rows > 0 {
		return 0
	}
	return -1
}
