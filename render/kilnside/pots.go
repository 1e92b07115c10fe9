package kilnside

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/silhouette"
	"threepost/render/steps"
)

// What one act holds.
const (
	mostPots  = 8   // of a series
	mostAlone = 4   // of neighbours that are told one by one
	mostTold  = 150 // letters that fit beside the largest picture
)

// pots makes the steps of the pots at place i of the sequence: a series, cut in
// even parts when it is long, or neighbours told one by one as far as their
// sentences go on one screen. It tells how many acts it took.
func (w *way) pots(i int) int {
	s := &w.told[i]
	a := &w.o.Acts[s.Acts[0]]
	if s.Kind == steps.Series {
		w.seriesOf(s, a)
		return 1
	}
	run := []*steps.Step{s}
	length := len(w.single(s, true))
	for j := i + 1; j < len(w.told) && len(run) < mostAlone; j++ {
		n := &w.told[j]
		if n.Kind != steps.Pot || w.o.Acts[n.Acts[0]].Level != a.Level {
			break
		}
		length += len(w.single(n, w.b.Pots[n.Pots[0]].Kind != w.b.Pots[run[len(run)-1].Pots[0]].Kind)) + 4
		if length > mostTold {
			break
		}
		run = append(run, n)
	}
	w.alone(run, a)
	return len(run)
}

// single is where a pot told by itself goes: "tumbler, between 2 and post B, a
// pencil from each", without the name where it is known.
func (w *way) single(s *steps.Step, named bool) string {
	name := w.words.Say(w.wareOf(s.Pots[0]))
	text := strings.TrimPrefix(s.Sentence, name+", ")
	if named {
		return name + ", " + text
	}
	return text
}

// alone is a step of pots that are told one by one.
func (w *way) alone(run []*steps.Step, a *order.Act) {
	out := Step{Kind: Pots, Level: a.Level}
	var pots []int
	kinds := map[int]bool{}
	for _, s := range run {
		pots = append(pots, s.Pots[0])
		out.Acts = append(out.Acts, s.Acts...)
		out.Each = append(out.Each, Each{ID: w.potID(s.Pots[0]), N: s.Label, Says: w.single(s, false)})
		kinds[w.b.Pots[s.Pots[0]].Kind] = true
	}
	for k, s := range run {
		lead := " "
		if k == 0 {
			lead = ""
		}
		text := w.single(s, len(kinds) > 1)
		if k == 0 && len(run) == 1 {
			text = w.single(s, false)
		}
		out.Says = append(out.Says, strong(lead+s.Label+":"), plain(" "+text+"."))
	}
	out.Title = w.titleOf(pots)
	w.setPots(out, pots, a.Level)
}

// titleOf names a few pots: "The vase", "One mug", "2 rice bowls and a jug".
func (w *way) titleOf(pots []int) string {
	var kinds []int
	count := map[int]int{}
	for _, i := range pots {
		k := w.b.Pots[i].Kind
		if count[k] == 0 {
			kinds = append(kinds, k)
		}
		count[k]++
	}
	words := make([]string, len(kinds))
	for n, k := range kinds {
		ware := &w.b.Load.Ware[k]
		switch {
		case ware.Count == 1:
			words[n] = "the " + silhouette.Singular(ware.Name)
		case count[k] == 1 && len(kinds) > 1:
			words[n] = article(silhouette.Singular(ware.Name))
		case count[k] == 1 && w.ware == ware.Name:
			words[n] = "one more " + silhouette.Singular(ware.Name)
		case count[k] == 1:
			words[n] = article(silhouette.Singular(ware.Name))
		default:
			words[n] = silhouette.Counted(count[k], ware.Name)
		}
	}
	w.ware = w.b.Load.Ware[kinds[len(kinds)-1]].Name
	if title := capital(series(words)); len(title) <= mostTitle {
		return title
	}
	return silhouette.Counted(len(pots), "pot") // their names stand in the sentence
}

// mostTitle is how many letters of a title go on two lines.
const mostTitle = 40

// article is "a mug", "an oval baker".
func article(word string) string {
	if word != "" && strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// seriesOf makes the steps of a row of alike pots.
func (w *way) seriesOf(s *steps.Step, a *order.Act) {
	lo := w.o.LevelOf(a.Level)
	p := &lo.Patterns[a.Pattern]
	n := len(s.Pots)
	parts := (n + mostPots - 1) / mostPots
	for k := range parts {
		from, to := n*k/parts, n*(k+1)/parts
		out := Step{Kind: Pots, Level: a.Level, Title: seriesTitle(p, to-from, k, parts)}
		if k == 0 {
			out.Acts = s.Acts
		}
		for _, e := range s.Each[from:to] {
			out.Each = append(out.Each, Each{ID: w.potID(e.Pots[0]), N: e.Label, Says: e.Sentence})
		}
		out.Says = w.seriesSays(s, p, k, out.Each)
		w.setPots(out, s.Pots[from:to], a.Level)
	}
	w.ware = p.Ware
}

// seriesTitle names a row, or one of its parts.
func seriesTitle(p *order.Pattern, n, part, parts int) string {
	some := silhouette.Counted(n, p.Ware)
	if part > 0 {
		some = strconv.Itoa(n) + " more " + silhouette.Named(n, p.Ware)
	}
	switch p.Zone {
	case order.Ring:
		if parts == 1 {
			return "Ring of " + some
		}
		return "Ring: " + some
	case order.Rows:
		return some + " in rows"
	case order.Late:
		return some
	}
	return some + " in the middle"
}

// seriesSays tells how the row runs, then its first pot.
func (w *way) seriesSays(s *steps.Step, p *order.Pattern, part int, each []Each) []Part {
	how := s.Sentence
	if head := w.words.Say(strconv.Itoa(p.Count()) + "\u00a0" + silhouette.Named(p.Count(), p.Ware) + " "); strings.HasPrefix(how, head) {
		how = how[len(head):]
	}
	if p.Zone != order.Ring && p.Zone != order.Rows {
		if _, tail, found := strings.Cut(how, ", "); found && strings.HasPrefix(how, "in the middle") {
			how = tail // the title says where
		}
	}
	how = strings.TrimPrefix(how, "in rows ") // so does it here
	if part > 0 {
		how = "on the same way"
	}
	out := []Part{plain(capital(how) + ".")}
	told := utf8.RuneCountInString(how)
	for i, e := range each {
		told += utf8.RuneCountInString(e.Says) + 6
		if i > 0 && told > mostTold {
			break
		}
		out = append(out, strong(" "+e.N+":"), plain(" "+e.Says+"."))
		if i > 0 {
			break
		}
	}
	return out
}

// setPots ends a step that sets pots: picture, marks, ticks, questions.
func (w *way) setPots(out Step, pots []int, level int) {
	out.Picture = w.levelPicture(level)
	all := w.out.Pictures[out.Picture].Box
	near := emptyBox()
	for _, i := range pots {
		p := &w.b.Pots[i]
		out.Now = append(out.Now, w.potID(i))
		out.Ticks = append(out.Ticks, w.potTick(i))
		out.things = append(out.things, thing{w.potPlace(i), tick(w.potTick(i))})
		out.Pots = append(out.Pots, p.Pot.String())
		near.add(widened(p.Body.Drawn.Body, p.At, p.Turn))
		for _, h := range p.Body.Drawn.Handles {
			near.add(widened(h, p.At, p.Turn))
		}
		w.beside(&near, level, i)
	}
	out.View = viewOf(near, boxOf(all))
	out.Ask = w.asked(pots)
	w.add(out)
}

// beside grows a box round what a pot is told by: its neighbours.
func (w *way) beside(near *box, level, pot int) {
	s := w.o.LevelOf(level).StepOf(pot)
	if s == nil {
		return
	}
	for _, n := range s.Neighbours {
		switch n.Kind {
		case order.NearPot:
			near.add(widened(w.b.Pots[n.Pot].Body.Drawn.Body, w.b.Pots[n.Pot].At, w.b.Pots[n.Pot].Turn))
		case order.NearPost:
			for i := range w.b.Posts {
				if post := &w.b.Posts[i]; post.Letter == n.Letter && math.Abs(post.Bottom-w.b.Levels[level].Top) < 1 {
					near.add(postRing(post))
				}
			}
		}
	}
}

func boxOf(view [4]float64) box {
	return box{lo: [2]float64{view[0], view[1]}, hi: [2]float64{view[0] + view[2], view[1] + view[3]}}
}

// viewOf is the part of a level that a step shows: all of a half shelf, of a
// wide one what the act is about, at least half its width and height, so that
// the eye still finds the place.
func viewOf(near, whole box) [4]float64 {
	wide := whole.hi[0] - whole.lo[0]
	high := whole.hi[1] - whole.lo[1]
	if near.empty() || wide < 0.62*high {
		return whole.view(0)
	}
	for d, least := range [2]float64{wide * 0.5, high * 0.5} {
		const border = 12
		near.lo[d] -= border
		near.hi[d] += border
		if lack := least - (near.hi[d] - near.lo[d]); lack > 0 {
			near.lo[d] -= lack / 2
			near.hi[d] += lack / 2
		}
		// Slid, not cut, at the border of the whole.
		if over := near.hi[d] - whole.hi[d]; over > 0 {
			near.lo[d], near.hi[d] = near.lo[d]-over, near.hi[d]-over
		}
		if over := whole.lo[d] - near.lo[d]; over > 0 {
			near.lo[d], near.hi[d] = near.lo[d]+over, near.hi[d]+over
		}
	}
	in := near.within(whole)
	return in.view(0)
}

// cones is a step that sets a cone pack.
func (w *way) cones(s *steps.Step, a *order.Act) {
	i := s.Pots[0]
	p := &w.b.Pots[i]
	out := Step{Kind: Cones, Level: a.Level, Acts: s.Acts, Title: "Cone pack"}
	var names []string
	if p.Cones != nil {
		for _, c := range p.Cones.Cones {
			names = append(names, string(c))
		}
	}
	text := s.Sentence
	if pack := strings.Join(names, "\u00a0"); pack != "" {
		out.Title += " " + pack
		text = strings.TrimPrefix(text, pack+" ")
	} else if p.Cones != nil {
		out.Title = capital(p.Cones.Name)
		text = strings.TrimPrefix(text, p.Cones.Name+" ")
	}
	if where, hole, found := strings.Cut(text, ", face the hole at "); found {
		out.Says = []Part{plain(capital(where) + ". "), strong("Face the " + measureHole(w.words) + " at " + hole + ".")}
	} else {
		out.Says = []Part{plain(capital(text) + ".")}
	}
	w.setPots(out, []int{i}, a.Level)
	last := &w.out.Steps[len(w.out.Steps)-1]
	last.Each = []Each{{ID: w.potID(i), N: s.Label, Says: s.Sentence}}
}

// measureHole is the person's word for a spyhole.
func measureHole(words measure.Words) string { return words.Say("spyhole") }

// numberOf is a pot's order number on its level, as text; empty for cones.
func (w *way) numberOf(pot int) string {
	if n := w.o.Number(pot); n > 0 {
		return strconv.Itoa(n)
	}
	return ""
}
