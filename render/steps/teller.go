package steps

import (
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// teller chooses the words. Its sentences speak US; level turns them into the
// person's.
type teller struct {
	b     *stacks.Built
	o     *order.Order
	units measure.Units
	words measure.Words
}

// front tells whether hands come in at the front.
func (t *teller) front() bool { return t.b.Load.Kiln.Opens == layout.Front }

// near is a length to measure off.
func (t *teller) near(mm float64) string {
	return hold(measure.FormatLengthTo(mm, t.units, measure.Nearest, measure.PostGrain))
}

// room is a length that must not be promised larger than it is.
func (t *teller) room(mm float64) string {
	return hold(measure.FormatLength(mm, t.units, measure.Down))
}

// gap is a gap as a hand feels it.
func (t *teller) gap(mm float64) string { return hold(measure.SayGapIn(mm, t.units)) }

// hold keeps a figure together at a line's end.
func hold(figure string) string { return strings.ReplaceAll(figure, " ", "\u00a0") }

// makeUp is one post: "100 + 10".
func (t *teller) makeUp(m layout.MakeUp) string {
	parts := make([]string, len(m))
	for i, p := range m {
		if t.units == measure.Inches {
			parts[i] = t.near(p.Height)
		} else {
			parts[i] = measure.FormatFile(p.Height)
		}
		if p.Name != "" {
			parts[i] += "\u00a0" + hold(p.Name)
		}
	}
	return strings.Join(parts, "\u00a0+\u00a0")
}

// times is n posts of one make-up: "3 × (100 + 10)".
func (t *teller) times(n int, m layout.MakeUp) string {
	if len(m) == 1 {
		return strconv.Itoa(n) + "\u00a0×\u00a0" + t.makeUp(m)
	}
	return strconv.Itoa(n) + "\u00a0×\u00a0(" + t.makeUp(m) + ")"
}

// series joins words: "A", "A and C", "A, C and E".
func series(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// capital is words with a capital first letter.
func capital(words string) string {
	if words == "" || words[0] < 'a' || words[0] > 'z' {
		return words
	}
	return string(words[0]-'a'+'A') + words[1:]
}

// wareOf is what a pot is called: its row's name for one of a kind.
func (t *teller) wareOf(pot int) string {
	if w := t.b.Pots[pot].Ware; w != nil {
		return silhouette.Singular(w.Name)
	}
	return "cones"
}

// every is what stands on a level in one word: "mug" when all are mugs, else
// "pot".
func (t *teller) every(lo *order.LevelOrder) string {
	word := ""
	for i := range lo.Pots {
		p := &t.b.Pots[lo.Pots[i].Pot]
		if p.Ware == nil {
			continue
		}
		if name := silhouette.Singular(p.Ware.Name); word == "" {
			word = name
		} else if word != name {
			return "pot"
		}
	}
	if word == "" {
		return "pot"
	}
	return word
}

// levelName is a level as said inside a sentence: "left 2", "the bottom".
func (t *teller) levelName(level int) string {
	name := t.b.Levels[level].Name
	if name == "bottom" {
		return "the bottom"
	}
	return name
}

// named is "1 mug", "7 mugs".
func named(n int, ware string) string {
	return strconv.Itoa(n) + "\u00a0" + silhouette.Named(n, ware)
}
