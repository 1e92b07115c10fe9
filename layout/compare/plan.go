package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"threepost/layout"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Plan is one of the plans that are compared.
type Plan struct {
	Built *stacks.Built
	Split string // how the kiln is divided: "two sides"
}

// How near two heights are, mm, that count as one, and how far a shelf is set
// aside without being another.
const (
	alike = 0.5
	moved = 15
)

// Differing are the levels of a built load, into its Levels, that another has
// not: at that place and height, under that ceiling, with mostly the same ware.
func Differing(b, from *stacks.Built) []int {
	var out []int
	for v := range b.Levels {
		if !slices.ContainsFunc(from.Levels, func(w stacks.Level) bool { return sameLevel(b, &b.Levels[v], from, &w) }) {
			out = append(out, v)
		}
	}
	return out
}

func sameLevel(b *stacks.Built, v *stacks.Level, from *stacks.Built, w *stacks.Level) bool {
	if math.Abs(v.Bottom-w.Bottom) > alike || math.Abs(v.Ceiling-w.Ceiling) > alike || len(v.Shelves) != len(w.Shelves) {
		return false
	}
	for i := range v.Shelves {
		s, t := &b.Shelves[v.Shelves[i]], &from.Shelves[w.Shelves[i]]
		if s.Kind.Name != t.Kind.Name || math.Abs(s.At[0]-t.At[0]) > moved || math.Abs(s.At[1]-t.At[1]) > moved {
			return false
		}
	}
	m, n := waresOn(b, v), waresOn(from, w)
	common, most := 0, 0
	for name, count := range m {
		common += min(count, n[name])
		most += count
	}
	other := 0
	for _, count := range n {
		other += count
	}
	return 2*common >= max(most, other)
}

// waresOn counts the pots of each row on a level.
func waresOn(b *stacks.Built, v *stacks.Level) map[string]int {
	out := map[string]int{}
	for _, i := range v.Pots {
		if p := &b.Pots[i]; p.Ware != nil {
			out[p.Ware.Name]++
		}
	}
	return out
}

// set counts the pots of each row that stand.
func set(b *stacks.Built) map[string]int {
	out := map[string]int{}
	for i := range b.Pots {
		if p := &b.Pots[i]; p.Ware != nil {
			out[p.Ware.Name]++
		}
	}
	return out
}

// Waits lists what has no place, in the order of the ware list: "2 mugs, 1
// bottle"; empty when all is set.
func Waits(b *stacks.Built) string {
	stand := set(b)
	var list []string
	for i := range b.Load.Ware {
		w := &b.Load.Ware[i]
		if n := w.Count - stand[w.Name]; n > 0 {
			list = append(list, silhouette.Counted(n, w.Name))
		}
	}
	return strings.Join(list, ", ")
}

// Furniture says what a plan takes: "1 full, 6 half shelves, 42 posts". Spacers
// are posts.
func Furniture(b *stacks.Built) string {
	var shelves []string
	total, posts := 0, 0
	for _, f := range stacks.Used(b) {
		switch f.Kind {
		case stacks.FetchShelf:
			total += f.Count
			shelves = append(shelves, strings.TrimSpace(fmt.Sprintf("%d %s", f.Count, bareName(f.Name))))
		case stacks.FetchPost, stacks.FetchSpacer:
			posts += f.Count
		}
	}
	if total == 0 {
		return "none"
	}
	out := strings.Join(shelves, ", ") + " " + silhouette.Named(total, "shelf")
	if posts > 0 {
		out += ", " + silhouette.Counted(posts, "post")
	}
	return out
}

// bareName is the name of a sort of shelf without the word itself.
func bareName(name string) string {
	for _, word := range []string{" shelves", " shelf", " bats", " bat"} {
		name = strings.TrimSuffix(name, word)
	}
	if name == "shelf" || name == "shelves" || name == "bat" || name == "bats" {
		return ""
	}
	return name
}

// tallest is the row with the highest pot that stands, how many of it stand,
// and the levels on which; nil when nothing stands.
func tallest(b *stacks.Built) (w *layout.Ware, on []int) {
	best := 0.0
	for i := range b.Pots {
		if p := &b.Pots[i]; p.Ware != nil && p.Body.Height > best+alike {
			best, w = p.Body.Height, p.Ware
		}
	}
	if w == nil {
		return nil, nil
	}
	return w, levelsOf(b, w.Name)
}

// levelsOf are the levels on which pots of a row stand.
func levelsOf(b *stacks.Built, ware string) []int {
	var on []int
	for v := range b.Levels {
		if waresOn(b, &b.Levels[v])[ware] > 0 {
			on = append(on, v)
		}
	}
	return on
}

// levelName is a level in a sentence: "left 2", "the bottom".
func levelName(b *stacks.Built, v int) string {
	switch name := b.Levels[v].Name; name {
	case "bottom", "middle", "top":
		return "the " + name
	case "":
		return fmt.Sprintf("level %d", b.Levels[v].Number)
	default:
		return name
	}
}
