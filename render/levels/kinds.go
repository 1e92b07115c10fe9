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
// same on all pages: the first letter of one of its words where that is free,
// else one of its other letters, else the first one free. Letters of lines are passed over. It
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
	for _, firsts := range [...]bool{true, false} {
		for k := range b.Load.Ware {
			if _, has := out[k]; has || !set[k] {
				continue
			}
			name := silhouette.Singular(b.Load.Ware[k].Name)
			wishes := initials(name)
			if !firsts {
				wishes = others(name)
			}
			if letter := free(wishes, taken); letter != "" {
				taken[letter] = true
				out[k] = kind{letter, name}
			}
		}
	}
	return out
}

// initials are the first letters of a name's words.
func initials(name string) []string {
	var list []string
	for _, word := range strings.Fields(strings.ToLower(name)) {
		list = append(list, word[:1])
	}
	return list
}

// others are the letters of a name, then all letters, then pairs of them.
func others(name string) []string {
	list := strings.Split(strings.ToLower(name), "")
	for r := 'a'; r <= 'z'; r++ {
		list = append(list, string(r))
	}
	for r := 'a'; r <= 'z'; r++ {
		for q := 'a'; q <= 'z'; q++ {
			list = append(list, string(r)+string(q))
		}
	}
	return list
}

// free is the first wish that is a letter, or a pair, nobody has; an l is
// passed over, since it is read as a 1.
func free(wishes []string, taken map[string]bool) string {
	for _, w := range wishes {
		if w >= "a" && w <= "zz" && w[0] <= 'z' && w != "l" && !taken[w] {
			return w
		}
	}
	return ""
}

// Letters are the small letters of the rows of ware that are set, keyed by
// stacks.Pot.Kind: the same on paper and on screen.
func Letters(b *stacks.Built) map[int]string {
	out := map[int]string{}
	for k, v := range kindsOf(b) {
		out[k] = v.letter
	}
	return out
}
