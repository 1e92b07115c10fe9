package kilnside

import (
	"strconv"
	"strings"

	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
	"threepost/render/steps"
)

// heavy is from where on a shelf wants a helper, kg (common practice).
const heavy = 10

// mostRows is how many rows of a fetch list one screen takes.
const mostRows = 10

// before is what comes before the first act: the kiln, and what to bring.
func (w *way) before() {
	w.add(Step{
		Kind: Ready, Level: -1, Picture: -1, Title: "Kiln cold and off",
		Says:  []Part{strong("Switched off and cold."), plain(" The floor is brushed clean. What the kiln’s own manual says goes before these steps.")},
		Ticks: []string{"ready"},
	})
	var shelves, posts, rest []Row
	for _, f := range stacks.Used(w.b) {
		row := Row{Count: strconv.Itoa(f.Count), What: w.words.Say(f.What(f.Count, w.units))}
		switch f.Kind {
		case stacks.FetchShelf:
			shelves = append(shelves, row)
		case stacks.FetchPost, stacks.FetchSpacer:
			posts = append(posts, row)
		default:
			rest = append(rest, row)
		}
	}
	rest = append(rest, Row{"1", "straight rod, the stick"}, Row{"1", "rule or tape"})
	w.fetch("Fetch the shelves", shelves, plain("Two hands for each, a helper for a heavy one. A dust mask on while kiln wash is brushed."))
	w.fetch("Fetch the posts", posts, plain("Stand them in rows by height."))
	w.fetch("Fetch the rest", rest, plain("And a phone, for photos of each level."))
}

func (w *way) fetch(title string, rows []Row, says ...Part) {
	for at := 0; at < len(rows); at += mostRows {
		some := rows[at:min(at+mostRows, len(rows))]
		s := Step{Kind: Fetch, Level: -1, Picture: -1, Title: title, Rows: some, Ticks: []string{"fetch|" + title + "|" + strconv.Itoa(at)}}
		if at == 0 {
			s.Says = says
		} else {
			s.Title += ", more"
		}
		w.add(s)
	}
}

// posts is a step that sets posts.
func (w *way) posts(s *steps.Step, a *order.Act) {
	level := a.Level
	if level < 0 {
		level = a.Carries // posts on the floor are the first step of what they carry
	}
	var letters []string
	out := Step{Kind: Posts, Level: level, Acts: s.Acts}
	seen := emptyBox()
	for _, i := range s.Posts {
		letters = append(letters, w.b.Posts[i].Letter)
		out.Now = append(out.Now, w.postID(i))
		out.Ticks = append(out.Ticks, w.postTick(i))
		out.things = append(out.things, thing{w.postPlace(i), tick(w.postTick(i))})
		seen.add(postRing(&w.b.Posts[i]))
	}
	out.Title = "Posts " + series(letters)
	if len(letters) > 4 {
		out.Title = "Posts " + hold(s.Label)
	}
	// "posts 3 × (100 + 10) for left 1. A at 6, ...": the figures first, bold.
	text := strings.TrimPrefix(strings.TrimPrefix(s.Sentence, w.words.Say("posts")), " ")
	if head, tail, found := strings.Cut(text, ". "); found {
		out.Says = []Part{strong(head + "."), plain(" " + tail + ".")}
	} else {
		out.Says = []Part{strong(text + ".")}
	}
	out.Posts = w.piecesOf(s.Posts)
	if a.Level < 0 {
		out.Picture = w.floorPicture(level)
	} else {
		out.Picture = w.levelPicture(a.Level)
	}
	out.View = viewOf(seen, boxOf(w.out.Pictures[out.Picture].Box))
	w.add(out)
}

// piecesOf are the kinds of pieces in some posts, tallest first.
func (w *way) piecesOf(posts []int) []Piece {
	var out []Piece
	for i := range w.b.Load.Furniture.Posts {
		k := &w.b.Load.Furniture.Posts[i]
		used := false
		for _, p := range posts {
			for _, piece := range w.b.Posts[p].Pieces {
				used = used || piece.Kind == k
			}
		}
		if used {
			said := w.near(k.Height)
			if k.Name != "" {
				said += " " + k.Name
			}
			out = append(out, Piece{Height: k.Height, Name: k.Name, Said: said})
		}
	}
	sortPieces(out)
	return out
}

func sortPieces(all []Piece) {
	for i := 1; i < len(all); i++ {
		for j := i; j > 0 && all[j].Height > all[j-1].Height; j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
}

// shelf is a step that lays a shelf; the last one of a level also says where it
// has to lie.
func (w *way) shelf(i int) int {
	s := &w.told[i]
	a := &w.o.Acts[s.Acts[0]]
	sh := &w.b.Shelves[a.Shelf]
	out := Step{Kind: Shelf, Level: a.Level, Acts: append([]int(nil), s.Acts...)}
	name := sh.Kind.Name
	if !strings.Contains(name, "shelf") {
		name += " shelf"
	}
	out.Title = capital(name)
	out.Ticks = []string{w.shelfTick(a.Shelf)}
	out.Now = []string{w.shelfID(a.Shelf)}
	out.Says = []Part{strong(hold(measure.FormatMass(sh.Mass, w.units)) + ".")}
	if sh.Mass >= heavy {
		out.Says = append(out.Says, plain(" With a helper."))
	}
	if g := w.grips(a.Shelf); g != nil {
		out.Says = append(out.Says, plain(" Hold at "+hold(measure.ShortClock(g.Hold[0].Clock))+" and at "+hold(measure.ShortClock(g.Hold[1].Clock))+"."))
		if !g.Fit {
			out.Says = append(out.Says, plain(" "+capital(w.roomSaid(g.Room))+" to the wall there."))
		}
	} else {
		out.Says = append(out.Says, plain(" No room for hands beside it: hold it from above."))
	}
	taken := 1
	if i+1 < len(w.told) && w.told[i+1].Kind == steps.Rim {
		out.Acts = append(out.Acts, w.told[i+1].Acts...)
		out.Says = append(out.Says, w.depth(a.Level)...)
		taken = 2
	}
	out.Picture = w.layPicture(a.Shelf)
	out.View = w.out.Pictures[out.Picture].Box
	out.Ask = w.nearest(w.under(a.Level), -1)
	w.add(out)
	return taken
}

// depth tells where the shelf of a level has to lie.
func (w *way) depth(level int) []Part {
	if w.front() {
		return []Part{plain(" Its top is "), strong(w.near(w.b.Levels[level].Top)), plain(" over the hearth.")}
	}
	return []Part{plain(" It lies "), strong(w.near(w.b.Height - w.b.Levels[level].Top)), plain(" down from the rim.")}
}

// rim is the measure of a level whose shelf was no act of its own.
func (w *way) rim(s *steps.Step, a *order.Act) {
	out := Step{
		Kind: Shelf, Level: a.Level, Acts: s.Acts, Title: "Measure the shelf", Says: w.depth(a.Level), Picture: -1,
		Ticks: []string{w.proofTick("rim", a.Level, w.b.Levels[a.Level].Posts)},
	}
	w.add(out)
}

// grips is where hands hold a shelf, or nil.
func (w *way) grips(shelf int) *order.Grips {
	if shelf >= len(w.o.Grips) || len(w.o.Grips[shelf].Hold) != 2 {
		return nil
	}
	return &w.o.Grips[shelf]
}

// under are the levels that the shelves of a level lie over.
func (w *way) under(level int) []int {
	var out []int
	for i := range w.b.Levels {
		for _, a := range w.b.Levels[i].Above {
			if a == level {
				out = append(out, i)
			}
		}
	}
	return out
}
