package drawing

import (
	"cmp"
	"slices"
)

// Texts are all texts of a page, also those inside clips, from top to bottom
// and left to right.
func Texts(page Page) []Text {
	var all []Text
	walk(page.Items, nil, func(item Item, _ []Clip) {
		if t, ok := item.(Text); ok {
			all = append(all, t)
		}
	})
	slices.SortStableFunc(all, func(a, b Text) int {
		return cmp.Or(cmp.Compare(a.At.Y, b.At.Y), cmp.Compare(a.At.X, b.At.X), cmp.Compare(a.Words, b.Words))
	})
	return all
}

// walk visits every shape and text in order of painting, with the clips round
// it, outermost first.
func walk(items []Item, clips []Clip, visit func(Item, []Clip)) {
	for _, item := range items {
		if c, ok := item.(Clip); ok {
			walk(c.Items, append(slices.Clip(clips), c), visit)
			continue
		}
		visit(item, clips)
	}
}
