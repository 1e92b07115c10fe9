package sheet

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// what says which pots these are, in the order of the ware list: "vase, 5
// jugs, 4 pinch pots". Cone packs are not named; they have their mark.
func what(b *stacks.Built, pots []int) []string {
	count := make([]int, len(b.Load.Ware))
	for _, i := range pots {
		if p := &b.Pots[i]; p.Ware != nil && p.Kind < len(count) {
			count[p.Kind]++
		}
	}
	var list []string
	for k, n := range count {
		if n > 0 {
			list = append(list, alone(n, &b.Load.Ware[k]))
		}
	}
	return list
}

// alone is "vase" for a row of one, "1 mug" for one of many.
func alone(n int, w *layout.Ware) string {
	if n == 1 && w.Count > 1 {
		return "1\u00a0" + silhouette.Singular(w.Name)
	}
	return named(n, w.Name)
}

// named is "vase" for one and "5 jugs" for more.
func named(n int, name string) string {
	if n == 1 {
		return silhouette.Singular(name)
	}
	return fmt.Sprintf("%d\u00a0%s", n, silhouette.Plural(name))
}

// numbered is named with the figure also for one.
func numbered(n int, name string) string { return fmt.Sprintf("%d %s", n, silhouette.Named(n, name)) }

// counted is a figure with its word: "1 level", "7 levels".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// hasCones tells whether a cone pack is among the pots.
func hasCones(b *stacks.Built, pots []int) bool {
	for _, i := range pots {
		if b.Pots[i].Cones != nil {
			return true
		}
	}
	return false
}

// setPots is how many pots, without cone packs, are set.
func setPots(b *stacks.Built) int {
	n := 0
	for i := range b.Pots {
		if b.Pots[i].Ware != nil {
			n++
		}
	}
	return n
}

// waiting is a row of ware of which some pots stay on the table.
type waiting struct {
	ware  *layout.Ware
	count int
}

// waitingOf lists what waits in the order of the ware list.
func waitingOf(b *stacks.Built) []waiting {
	set := make([]int, len(b.Load.Ware))
	for i := range b.Pots {
		if p := &b.Pots[i]; p.Ware != nil && p.Kind < len(set) {
			set[p.Kind]++
		}
	}
	var list []waiting
	for i := range b.Load.Ware {
		if w := &b.Load.Ware[i]; w.Count > set[i] {
			list = append(list, waiting{w, w.Count - set[i]})
		}
	}
	return list
}

// say is "2 mugs (Ida 31)".
func (w waiting) say() string {
	text := numbered(w.count, w.ware.Name)
	if o := ownerOf(w.ware); o != "" {
		text += " (" + o + ")"
	}
	return text
}

// ownerOf is owner and ticket: "Ida 31".
func ownerOf(w *layout.Ware) string {
	return strings.ReplaceAll(strings.TrimSpace(strings.TrimSpace(w.Owner)+" "+strings.TrimSpace(w.Ticket)), " ", "\u00a0")
}

// series joins words: "A", "A and C", "A, C and E".
func series(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}
