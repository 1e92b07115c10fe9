package steps

import (
	"strings"

	"threepost/layout/order"
	"threepost/layout/silhouette"
)

// first tells which shelves go in before a level is set: its pots rise past
// them.
func (t *teller) first(lo *order.LevelOrder) string {
	if len(lo.ShelvesFirst) == 0 {
		return ""
	}
	return t.words.Say("First the shelf of " + t.levelNames(lo.ShelvesFirst) + ": the " + t.risers(lo) + " past it.")
}

func (t *teller) levelNames(levels []int) string {
	names := make([]string, len(levels))
	for i, v := range levels {
		names[i] = t.levelName(v)
	}
	return series(names)
}

// risers tells that the tallest ware of a level rises: "vase rises", "mugs
// rise".
func (t *teller) risers(lo *order.LevelOrder) string {
	count := map[string]int{}
	best, name := -1.0, ""
	for i := range lo.Pots {
		p := &t.b.Pots[lo.Pots[i].Pot]
		if p.Ware == nil {
			continue
		}
		count[p.Ware.Name]++
		if p.Solid.Top() > best {
			best, name = p.Solid.Top(), p.Ware.Name
		}
	}
	switch count[name] {
	case 0:
		return "cones rise"
	case 1:
		return silhouette.Singular(name) + " rises"
	}
	return silhouette.Plural(name) + " rise"
}

// Told tells in which order levels (into Built.Levels, in order of setting)
// are set where they share a page: "Left 2, then the shelf of left 3, then
// right 3: its water bottles rise past it." One level alone tells only what
// goes in before it.
func (l *List) Told(levels ...int) string {
	t := l.tell
	var parts []string
	why := ""
	for i, v := range levels {
		lo := t.o.LevelOf(v)
		if lo == nil {
			continue
		}
		if len(levels) == 1 {
			return t.first(lo)
		}
		if len(lo.ShelvesFirst) > 0 && i > 0 {
			parts = append(parts, "the shelf of "+t.levelNames(lo.ShelvesFirst))
			why = ": its " + t.risers(lo) + " past it"
		} else if len(lo.ShelvesFirst) > 0 {
			parts = append(parts, "the shelf of "+t.levelNames(lo.ShelvesFirst))
		}
		parts = append(parts, t.levelName(v))
	}
	if len(parts) == 0 {
		return ""
	}
	return t.words.Say(capital(strings.Join(parts, ", then ")) + why + ".")
}
