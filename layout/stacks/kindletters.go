package stacks

import (
	"strings"

	"threepost/layout/silhouette"
)

// KindLetters gives every row of ware that is set a small letter of its own,
// the same on paper, screen and phone: the first letter of one of its words
// where that is free, else one of its other letters, else the first one free.
// Letters of lines are passed over. It is keyed by Pot.Kind.
func KindLetters(b *Built) map[int]string {
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
	out := map[int]string{}
	for _, firsts := range [...]bool{true, false} {
		for k := range b.Load.Ware {
			if out[k] != "" || !set[k] {
				continue
			}
			name := silhouette.Singular(b.Load.Ware[k].Name)
			wishes := initials(name)
			if !firsts {
				wishes = others(name)
			}
			if letter := free(wishes, taken); letter != "" {
				taken[letter] = true
				out[k] = letter
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
