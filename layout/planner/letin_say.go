package planner

import (
	"fmt"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// planningLonger says that more work sets so many more without any furniture.
func planningLonger(n int, ware string) string {
	return fmt.Sprintf("Planning longer lets in %s.", silhouette.Counted(n, ware))
}

// sayFor tells what an addition does for a row: "One more post of 125 frees 22
// mm on left 3: 2 bottles go in."
func (t *tried) sayFor(l *layout.Load, ware string) string {
	n := t.gains[ware]
	text := t.say + " " + pick(t.pieces(), "lets", "let") + " in " + silhouette.Counted(n, ware)
	if t.frees != "" {
		text = fmt.Sprintf("%s %s %s: %s %s in", t.say, pick(t.pieces(), "frees", "free"), t.frees, silhouette.Counted(n, ware), pick(n, "goes", "go"))
	}
	less, one := lost(l, t.gains)
	if less != "" {
		text += ", and " + less + " " + pick(one, "waits", "wait") + " instead"
	}
	return text + "."
}

// pieces is 1 for an addition that is told as one.
func (t *tried) pieces() int {
	if t.many {
		return 3
	}
	return 1
}

// lost tells the rows of which fewer are set, "1 mug and 2 bowls", and how many
// pots that are; "" where there are none.
func lost(l *layout.Load, gains map[string]int) (text string, pots int) {
	var less []string
	for i := range l.Ware {
		if n := -gains[l.Ware[i].Name]; n > 0 {
			less = append(less, silhouette.Counted(n, l.Ware[i].Name))
			pots += n
		}
	}
	for i, x := range less {
		switch {
		case i == 0:
			text = x
		case i == len(less)-1:
			text += " and " + x
		default:
			text += ", " + x
		}
	}
	return text, pots
}

// frees tells how much lower one storey is in another plan of the same levels,
// when that is all that differs in their posts: "22 mm on left 3".
func frees(b *stacks.Built, q *Plan) string {
	a, err := stacks.Build(q.Load)
	if err != nil || len(a.Levels) != len(b.Levels) || len(a.Towers) != len(b.Towers) {
		return ""
	}
	level, lower := -1, 0.0
	for t := range b.Towers {
		if a.Towers[t].Name != b.Towers[t].Name || len(a.Towers[t].Levels) != len(b.Towers[t].Levels) {
			return ""
		}
		was, now := postHeights(b, t), postHeights(a, t)
		gone, come := apartFrom(was, now), apartFrom(now, was)
		switch {
		case len(gone) == 0:
			continue
		case len(gone) > 1 || level >= 0 || was[gone[0]] < now[come[0]]:
			return ""
		}
		level, lower = b.Towers[t].Levels[gone[0]], was[gone[0]]-now[come[0]]
	}
	if level < 0 {
		return ""
	}
	w := newWhy(b)
	under := w.under(level)
	if len(under) == 0 {
		return ""
	}
	return fmt.Sprintf("%s on %s", measure.SayLength(lower, b.Load.Units, measure.Down), w.names.LevelName(under[0]))
}

// postHeights are the heights of the posts under each level of a tower.
func postHeights(b *stacks.Built, tower int) []float64 {
	var out []float64
	for _, v := range b.Towers[tower].Levels {
		h := 0.0
		for _, p := range b.Levels[v].Posts {
			h = max(h, b.Posts[p].Top-b.Posts[p].Bottom)
		}
		out = append(out, h)
	}
	return out
}

// apartFrom are the places of the heights of which another list has fewer.
func apartFrom(list, other []float64) []int {
	used := make([]bool, len(other))
	var out []int
	for i, h := range list {
		found := false
		for j, o := range other {
			if !used[j] && abs(h-o) <= stacks.Alike {
				used[j], found = true, true
				break
			}
		}
		if !found {
			out = append(out, i)
		}
	}
	return out
}
