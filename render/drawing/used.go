package drawing

// fontsUsed are the faces that the pages' texts need, lightest first.
func fontsUsed(fonts *Fonts, pages []Page) []*face {
	used := map[Weight]bool{}
	for _, page := range pages {
		walk(page.Items, nil, func(item Item, _ []Clip) {
			if t, ok := item.(Text); ok {
				used[fonts.face(t.Style.Weight).weight] = true
			}
		})
	}
	var out []*face
	for i := range fonts.faces {
		if used[fonts.faces[i].weight] {
			out = append(out, &fonts.faces[i])
		}
	}
	return out
}
