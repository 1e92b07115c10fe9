package kilnside

import (
	"sort"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout/order"
	"threepost/render/steps"
)

// stick is a step that proves a height: a rod over the posts.
func (w *way) stick(s *steps.Step, a *order.Act) {
	out := Step{Kind: Stick, Level: a.Level, Acts: s.Acts, Ticks: []string{w.proofTick("stick", a.Level, s.Posts)}}
	var letters []string
	for _, i := range s.Posts {
		letters = append(letters, w.b.Posts[i].Letter)
	}
	sort.Strings(letters)
	out.Title = "Stick over " + series(letters)
	if len(letters) > 4 {
		out.Title = "Stick over the posts"
	}
	told := s.Sentence
	if _, tail, found := strings.Cut(s.Sentence, ": "); found {
		told = tail
	}
	how := "Lay it from post to post: "
	if !w.rod {
		how, w.rod = "A straight rod, laid from post to post: ", true
	}
	out.Says = []Part{plain(how), strong(told + ".")}
	out.Now = []string{w.stickID(a.Carries)}
	out.Picture = w.levelPicture(a.Level)
	out.View = w.out.Pictures[out.Picture].Box
	out.Ask = w.nearest([]int{a.Level}, a.Carries)
	w.add(out)
}

// lid is a step that proves the room to the lid.
func (w *way) lid(s *steps.Step, a *order.Act) {
	out := Step{Kind: Lid, Level: a.Level, Acts: s.Acts, Title: "Stick over the rim", Ticks: []string{w.proofTick("lid", a.Level, nil)}}
	told := s.Sentence
	if _, tail, found := strings.Cut(s.Sentence, ": "); found {
		told = tail
	}
	figure, rest, _ := strings.Cut(told, " ")
	if w.front() {
		out.Title = "Room to the ceiling"
		out.Says = []Part{strong(figure), plain(" " + rest + ".")}
	} else {
		out.Says = []Part{plain("From rim to rim, over the highest pot: "), strong(figure), plain(" " + rest + ".")}
	}
	if !w.front() {
		out.Now = []string{"rim:" + w.levelID(a.Level)}
	}
	out.Picture = w.levelPicture(a.Level)
	out.View = w.out.Pictures[out.Picture].Box
	out.Ask = w.nearest([]int{a.Level}, -1)
	w.add(out)
}

// photo reminds of a picture before the next shelf hides a level.
func (w *way) photo(level int) {
	if level < 0 || len(w.b.Levels[level].Pots) == 0 {
		return
	}
	out := Step{
		Kind: Photo, Level: level, Title: "A photo from above",
		Ticks: []string{"photo|" + w.levelID(level)}, Now: []string{"photo:" + w.levelID(level)},
	}
	how := ", all of it in the frame, the hinge at the top. After the firing it tells which pot stood where."
	if w.front() {
		out.Title, how = "A photo from the front", ", all of it in the frame. After the firing it tells which pot stood where."
	}
	out.Says = []Part{strong(capital(w.levelName(level))), plain(how)}
	out.Picture = w.levelPicture(level)
	out.View = w.out.Pictures[out.Picture].Box
	w.add(out)
}

// after is what comes after the last act.
func (w *way) after() {
	if len(w.b.Levels) == 0 {
		return
	}
	close := "Then close the lid, as the kiln’s manual says."
	if w.front() {
		close = "Then close the door, as the kiln’s manual says."
	}
	w.add(Step{
		Kind: Leave, Level: -1, Picture: -1, Title: "Take the paper off",
		Says:  []Part{strong("Before switching on."), plain(" Sheets, tape, rod and rule: nothing that burns stays on or in the kiln. " + close)},
		Ticks: []string{"leave"},
	})
}

// mostAsked is how many pots a question offers.
const mostAsked = 8

// nearest are the pots of levels that come nearest to what lies over them, at
// most mostAsked: those that stand under the shelf of level over, or all for
// -1. The tallest come first.
func (w *way) nearest(of []int, over int) []Asked {
	var pots []int
	for _, l := range of {
		for _, i := range w.b.Levels[l].Pots {
			if w.b.Pots[i].Ware != nil && (over < 0 || w.below(i, over)) {
				pots = append(pots, i)
			}
		}
	}
	sort.SliceStable(pots, func(i, j int) bool { return w.b.Pots[pots[i]].Solid.Top() > w.b.Pots[pots[j]].Solid.Top() })
	if len(pots) > mostAsked {
		pots = pots[:mostAsked]
	}
	sort.SliceStable(pots, func(i, j int) bool { return w.o.Number(pots[i]) < w.o.Number(pots[j]) })
	return w.asked(pots)
}

// below tells whether a pot stands at least partly under the shelves of a level.
func (w *way) below(pot, level int) bool {
	p := &w.b.Pots[pot]
	ring := widened(p.Body.Drawn.Body, p.At, p.Turn)
	lo, hi := ring.Bounds()
	for _, s := range w.b.Levels[level].Shelves {
		o := &w.b.Shelves[s].Outline
		if o.SignedDistance(p.Body.Drawn.Body.Skeleton.At(plane.Pose{At: p.At, Turn: p.Turn})) < (hi[0]-lo[0])/2 {
			return true
		}
	}
	return false
}

// asked are pots that a question is about.
func (w *way) asked(pots []int) []Asked {
	var out []Asked
	for _, i := range pots {
		p := &w.b.Pots[i]
		if p.Ware == nil {
			continue
		}
		a := Asked{Pot: p.Pot.String(), N: w.numberOf(i), Name: capital(w.wareOf(i)), Which: capital(article(w.wareOf(i)))}
		if a.N != "" {
			a.Name += " " + a.N
		}
		if p.Ware.Count == 1 {
			a.Which = "The " + w.wareOf(i)
		}
		out = append(out, a)
	}
	return out
}
