package levels

import (
	"strings"

	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// kind is a row of ware that is set, with its letter in the drawings.
type kind struct {
	letter string
	name   string
}

// kindsOf gives every row of ware that is set a small letter of its own, the
// same on all pages: the first letter of one of its words, else one of its
// other letters, else the first one free. Letters of lines are passed over. It
// is keyed by stacks.Pot.Kind.
func kindsOf(b *stacks.Built) map[int]kind {
	taken := map[string]bool{}
	for _, l := range b.Letters {
		taken[strings.ToLower(l.Name)] = true
	}
	set := map[int]bool{}
	for i := range b.Pots {
		if b.Pots[i].Ware != nil {
			set[b.Pots[i].Kind] = true
		}
	}
	out := map[int]kind{}
	for k := range b.Load.Ware {
		if !set[k] {
			continue
		}
		name := silhouette.Singular(b.Load.Ware[k].Name)
		letter := letterFor(name, taken)
		taken[letter] = true
		out[k] = kind{letter, name}
	}
	return out
}

// letterFor chooses a free letter for a name.
func letterFor(name string, taken map[string]bool) string {
	var wishes []string
	for _, word := range strings.Fields(strings.ToLower(name)) {
		wishes = append(wishes, word[:1])
	}
	wishes = append(wishes, strings.Split(strings.ToLower(name), "")...)
	for r := 'a'; r <= 'z'; r++ {
		wishes = append(wishes, string(r))
	}
	for _, w := range wishes {
		if len(w) == 1 && w[0] >= 'a' && w[0] <= 'z' && w != "l" && !taken[w] {
			return w // an l is read as a 1
		}
	}
	for r := 'a'; r <= 'z'; r++ {
		for q := 'a'; q <= 'z'; q++ {
			if w := string(r) + string(q); !taken[w] {
				return w
			}
		}
	}
	return "?"
}
