package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Told is what is said of one plan among others.
type Told struct {
	Title string // "Tall ware low"
	Says  string // one or two sentences; empty where nothing is to be said
}

// Tell names plans by what differs: the first by how it is made, each further
// one by how it differs from the first. No two titles are alike unless the
// plans are.
func Tell(plans []Plan) []Told {
	out := make([]Told, len(plans))
	taken := map[string]bool{}
	for i, p := range plans {
		if i == 0 {
			out[0] = Told{titleOf(p), sayFirst(p)}
			taken[out[0].Title] = true
			continue
		}
		t, used := "", 0
		for n, word := range differences(plans[0], p) {
			if word == "" {
				continue
			}
			if t != "" {
				word = t + ", " + lower(word)
			}
			t, used = word, n
			if !taken[t] {
				break
			}
		}
		if t == "" {
			t = "Other places"
		}
		taken[t] = true
		out[i] = Told{t, sayFurther(plans[0], p, used)}
	}
	return out
}

// titleOf is how a plan is made: "Two sides, 7 levels".
func titleOf(p Plan) string {
	levels := silhouette.Counted(len(p.Built.Levels), "level")
	switch {
	case p.Split == "":
		return levels
	case strings.Contains(p.Split, ","):
		return capital(p.Split)
	}
	return capital(p.Split) + ", " + levels
}

// The differences in the order in which they make a title.
const (
	bySplit = iota
	byLevels
	byTall
	byHeights
	byPosts
)

// differences are the titles that a plan may have beside a first, "" where the
// two do not differ so.
func differences(first, p Plan) []string {
	out := make([]string, byPosts+1)
	if p.Split != first.Split {
		out[bySplit] = capital(p.Split)
	}
	if n := len(p.Built.Levels) - len(first.Built.Levels); n != 0 {
		than := "more"
		if n < 0 {
			n, than = -n, "fewer"
		}
		out[byLevels] = capital(few(n)) + " " + silhouette.Named(n, "level") + " " + than
	}
	if a, b := tallPlace(first.Built), tallPlace(p.Built); a != b && b != "" {
		out[byTall] = "Tall ware " + b
	}
	if v, was := changedMost(first.Built, p.Built); v >= 0 && p.Split == first.Split && out[byLevels] == "" {
		how := "Lower "
		if p.Built.Levels[v].Takes > was {
			how = "Taller "
		}
		out[byHeights] = how + strings.TrimPrefix(levelName(p.Built, v), "the ")
	}
	if gone, come := postsBetween(first.Built, p.Built); len(come) > 0 {
		out[byPosts] = "Posts of " + series(come)
	} else if len(gone) > 0 {
		out[byPosts] = "Without posts of " + series(gone)
	}
	return out
}

// tallPlace is where the tallest pots stand: their shelf in the lower, middle or
// upper third of the kiln; "" where they stand in several.
func tallPlace(b *stacks.Built) string {
	_, on := tallest(b)
	place := ""
	for _, v := range on {
		here := "on top"
		switch z := b.Levels[v].Top / math.Max(b.Height, 1); {
		case z < 1.0/3:
			here = "low"
		case z < 2.0/3:
			here = "in the middle"
		}
		if place != "" && place != here {
			return ""
		}
		place = here
	}
	return place
}

// changedMost is the level under another whose room changed most between two
// plans of the same levels, and the tallest pot that it took in the first, mm; -1 where none
// changed.
func changedMost(first, b *stacks.Built) (level int, was float64) {
	level, most := -1, 1.0
	for v := range b.Levels {
		for w := range first.Levels {
			d := math.Abs(b.Levels[v].Takes - first.Levels[w].Takes)
			if levelName(b, v) == levelName(first, w) && !b.Levels[v].UnderLid && !first.Levels[w].UnderLid && d > most {
				level, was, most = v, first.Levels[w].Takes, d
			}
		}
	}
	return level, was
}

// postsBetween are the heights that posts have in one plan only, as they are
// said, from the lowest: those that the first has more of, and the other.
func postsBetween(first, b *stacks.Built) (gone, come []string) {
	count := map[float64]int{}
	for i, built := range []*stacks.Built{first, b} {
		add := 2*i - 1
		for v := range built.Levels {
			seen := map[float64]bool{}
			for _, i := range built.Levels[v].Posts {
				h := math.Round(built.Posts[i].Top - built.Posts[i].Bottom)
				if !seen[h] {
					seen[h] = true
					count[h] += add
				}
			}
		}
	}
	var heights []float64
	for h, n := range count {
		if n != 0 {
			heights = append(heights, h)
		}
	}
	slices.Sort(heights)
	for _, h := range heights {
		words := measure.FormatLengthTo(h, b.Load.Units, measure.Nearest, measure.PostGrain)
		if count[h] > 0 {
			come = append(come, words)
		} else {
			gone = append(gone, words)
		}
	}
	return gone, come
}

// sayFirst tells where the tallest ware stands: "The 2 floor vases stand on the
// bottom."
func sayFirst(p Plan) string {
	where := ""
	if w, on := tallest(p.Built); w != nil {
		where = fmt.Sprintf("%s %s %s.", capital(the(p.Built, w.Name)), verb(set(p.Built)[w.Name], "stand"), onLevels(p.Built, on))
	}
	if strings.Contains(p.Split, ",") {
		return strings.TrimSpace(capital(silhouette.Counted(len(p.Built.Levels), "level")) + ". " + where)
	}
	return where
}

// sayFurther tells what differs from the first beyond the title: the number of
// levels, what waits instead, where the tallest ware stands, the room that
// changed most, other ware, the posts; the first two of these.
func sayFurther(first, p Plan, used int) string {
	var parts []string
	if m, n := len(first.Built.Levels), len(p.Built.Levels); m != n && used != byLevels {
		parts = append(parts, fmt.Sprintf("%s instead of %d.", silhouette.Counted(n, "level"), m))
	}
	parts = append(parts, sayWaits(first, p), sayTall(first, p))
	if v, was := changedMost(first.Built, p.Built); v >= 0 && p.Split == first.Split && len(first.Built.Levels) == len(p.Built.Levels) {
		say := func(mm float64) string { return measure.FormatLength(mm, p.Built.Load.Units, measure.Down) }
		parts = append(parts, fmt.Sprintf("%s takes %s instead of %s.", capital(levelName(p.Built, v)), say(p.Built.Levels[v].Takes), say(was)))
	}
	parts = append(parts, sayMoved(first, p))
	if used != byPosts {
		if gone, come := postsBetween(first.Built, p.Built); len(gone) > 0 && len(come) > 0 && len(gone)+len(come) <= mostPosts {
			parts = append(parts, "Posts of "+series(come)+" instead of "+series(gone)+".")
		}
	}
	parts = slices.DeleteFunc(parts, func(s string) bool { return s == "" })
	return strings.Join(parts[:min(len(parts), 2)], " ")
}

// mostPosts is how many heights of posts one sentence names.
const mostPosts = 6

// sayTall tells where the tallest ware has gone to, where it stands elsewhere.
func sayTall(first, p Plan) string {
	w, on := tallest(p.Built)
	if w == nil {
		return ""
	}
	stood := levelsOf(first.Built, w.Name)
	was, is := onLevels(first.Built, stood), onLevels(p.Built, on)
	if was == is || was == "" || len(stood) > 2 || len(on) > 2 {
		return ""
	}
	return fmt.Sprintf("%s %s %s instead of %s.", capital(the(p.Built, w.Name)), verb(set(p.Built)[w.Name], "stand"), is, strings.TrimPrefix(was, "on "))
}

// sayWaits tells what waits in the other plan only: "12 rice bowls wait, 1 mug
// goes in."
func sayWaits(first, p Plan) string {
	was, is := set(first.Built), set(p.Built)
	var wait, goIn []string
	waits, goes := 0, 0
	for i := range p.Built.Load.Ware {
		name := p.Built.Load.Ware[i].Name
		switch n := is[name] - was[name]; {
		case n < 0:
			waits -= n
			wait = append(wait, silhouette.Counted(-n, name)+" more")
		case n > 0:
			goes += n
			goIn = append(goIn, silhouette.Counted(n, name)+" more")
		}
	}
	var parts []string
	if waits > 0 {
		parts = append(parts, listed(wait)+" "+verb(waits, "wait"))
	}
	if goes > 0 {
		parts = append(parts, listed(goIn)+" "+verb(goes, "go")+" in")
	}
	if len(parts) == 0 {
		return ""
	}
	return capital(strings.Join(parts, ", ")) + "."
}

// sayMoved names the row, other than the tallest, most of whose pots stand on
// other levels.
func sayMoved(first, p Plan) string {
	tall, _ := tallest(p.Built)
	most, name := 0, ""
	for i := range p.Built.Load.Ware {
		w := &p.Built.Load.Ware[i]
		if tall != nil && w.Name == tall.Name {
			continue
		}
		was, is := places(first.Built, w.Name), places(p.Built, w.Name)
		moved := 0
		for level, n := range is {
			moved += max(0, n-was[level])
		}
		if len(was) > 0 && len(is) == 1 && moved > most {
			most, name = moved, w.Name
		}
	}
	if name == "" {
		return ""
	}
	where := onLevels(p.Built, levelsOf(p.Built, name))
	if was := levelsOf(first.Built, name); len(was) < 3 {
		where += " instead of " + strings.TrimPrefix(onLevels(first.Built, was), "on ")
	}
	return fmt.Sprintf("%s %s %s.", capital(the(p.Built, name)), verb(set(p.Built)[name], "stand"), where)
}

// places counts the pots of a row by the name of their level.
func places(b *stacks.Built, ware string) map[string]int {
	out := map[string]int{}
	for v := range b.Levels {
		if n := waresOn(b, &b.Levels[v])[ware]; n > 0 {
			out[levelName(b, v)] += n
		}
	}
	return out
}

// the is a row in a sentence: "the vase", "the 5 jugs".
func the(b *stacks.Built, ware string) string {
	n := set(b)[ware]
	if n == 1 {
		return "the " + silhouette.Singular(ware)
	}
	return "the " + silhouette.Counted(n, ware)
}

// onLevels is "on left 1", "on left 1 and right 2", "on 4 levels".
func onLevels(b *stacks.Built, on []int) string {
	switch len(on) {
	case 0:
		return ""
	case 1, 2:
		var names []string
		for _, v := range on {
			names = append(names, levelName(b, v))
		}
		return "on " + series(names)
	}
	return fmt.Sprintf("on %d levels", len(on))
}

// listed joins at most two things, and says how many kinds are left.
func listed(list []string) string {
	if len(list) > 2 {
		list = append(list[:1:1], fmt.Sprintf("pots of %d other kinds", len(list)-1))
	}
	return series(list)
}

func series(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// verb is a verb after n of something: "stands", "goes".
func verb(n int, word string) string {
	switch {
	case n != 1:
		return word
	case strings.HasSuffix(word, "o"):
		return word + "es"
	}
	return word + "s"
}

// few is a small number as a word.
func few(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }
