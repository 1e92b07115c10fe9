package session

import (
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/layout/statics"
)

// State is the load as the page shows it, worked out once a revision. It must
// not be changed.
func (s *Session) State() *State {
	if s.seen.state == nil {
		s.seen.state = s.tell()
	}
	return s.seen.state
}

// tell works the state out.
func (s *Session) tell() *State {
	l := s.now
	st := &State{
		Revision: s.revision, Title: l.Title, Name: s.name, Units: string(l.Units), Words: strings.ToUpper(string(s.words)),
		Firing: s.firingSaid(), Stage: string(l.Firing.Stage), KilnLine: s.kilnLine(), Empty: len(l.Towers) == 0,
		Findings: []Finding{}, Sides: []Side{}, Levels: []Level{}, Pots: []Pot{}, Ware: []Row{}, Posts: []Post{},
		Shelf: []Shelf{}, Cones: []Cone{}, Head: "No problem",
	}
	if st.Units == "" {
		st.Units = string(measure.MM)
	}
	if st.Words == "" {
		st.Words = "US"
	}
	if st.Kiln = l.Kiln.Name; st.Kiln == "" {
		st.Kiln = s.kilnSize()
	}
	if n := len(s.past); n > 0 {
		st.Undo = s.say(s.past[n-1].what)
	}
	if n := len(s.future); n > 0 {
		st.Redo = s.say(s.future[n-1].what)
	}
	if s.offer != nil {
		st.Offer = &Offer{Says: s.offer.says, Set: s.offer.set}
	}
	st.Set, st.Of = countPots(l)
	st.Ways, st.Buying = s.tellWays(), s.tellBought()
	b, refused := s.Built()
	st.Refused = s.say(refused)
	if b != nil {
		w := statics.Weigh(b)
		st.Mass = w.Ware
		st.Said = measure.FormatMass(w.Ware, l.Units) + " of ware"
		s.tellFindings(st, b)
		s.tellLevels(st, b, w)
		s.tellPots(st, b)
		st.Lid = s.lidRoom(b)
	}
	s.tellWare(st, b)
	s.tellFurniture(st, b)
	st.Rules = s.rules()
	return st
}

// countPots is how many pots of the ware list are set, of how many.
func countPots(l *layout.Load) (set, of int) {
	cones := map[string]bool{}
	for i := range l.Cones {
		cones[l.Cones[i].Name] = true
	}
	for i := range l.Ware {
		of += l.Ware[i].Count
	}
	for i := range l.Towers {
		for _, v := range l.Towers[i].Levels {
			for _, p := range v.Set {
				if p.Pot.Number > 0 || !cones[p.Pot.Ware] {
					set++
				}
			}
		}
	}
	return set, of
}

// firingSaid is "cone 6 (1222 C)", or the peak that was given.
func (s *Session) firingSaid() string {
	f := s.now.Firing
	if f.Peak > 0 {
		return "cone " + string(f.Cone) + " (" + measure.FormatTemperature(f.Peak, s.now.Units) + ")"
	}
	return f.Cone.DescribeIn(s.now.Units)
}

// kilnLine is "twelve-sided, 712 across, 686 high".
func (s *Session) kilnLine() string {
	c := s.now.Kiln.Chamber
	high := s.near(s.now.Kiln.Height) + " high"
	switch c.Kind {
	case layout.Sided:
		return number(c.Sides) + "-sided, " + s.near(c.Across) + " across, " + high
	case layout.Round, layout.HalfRound:
		return string(c.Kind) + ", " + s.near(c.Across) + " across, " + high
	}
	return string(c.Kind) + ", " + s.near(c.Width) + " wide, " + s.near(c.Depth) + " deep, " + high
}

// kilnSize names a kiln that has no name: "712 × 686".
func (s *Session) kilnSize() string {
	c := s.now.Kiln.Chamber
	if c.Across > 0 {
		return s.near(c.Across) + " × " + s.near(s.now.Kiln.Height)
	}
	return s.near(c.Width) + " × " + s.near(c.Depth) + " × " + s.near(s.now.Kiln.Height)
}

// lidWord is what closes the kiln over the pots.
func (s *Session) lidWord() string {
	if s.now.Kiln.Opens == layout.Front {
		return "ceiling"
	}
	return "lid"
}

// lidRoom is the least room over all pots to the lid.
func (s *Session) lidRoom(b *stacks.Built) *Room {
	mm, ok := roomToLid(b)
	if !ok {
		return nil
	}
	return &Room{MM: mm, Said: s.down(mm) + " to the " + s.lidWord()}
}

// roomToLid is the least room over all pots, or over the top shelf where no
// pot stands, mm.
func roomToLid(b *stacks.Built) (float64, bool) {
	top, any := 0.0, false
	for i := range b.Pots {
		top, any = max(top, b.Pots[i].Solid.Max[2]), true
	}
	for i := range b.Shelves {
		top, any = max(top, b.Shelves[i].Top), true
	}
	return b.Height - top, any
}

// tellFindings copies the report, with the mends that are known so far.
func (s *Session) tellFindings(st *State, b *stacks.Built) {
	r := s.Report()
	st.Problems, st.Watches, st.Accepted = r.Problems, r.Watches, r.Accepted
	st.Head = head(r.Problems)
	for i := range r.Findings {
		f := r.Findings[i]
		f.Mends = s.knownMends(f.Key)
		st.Findings = append(st.Findings, s.finding(b, f))
	}
}

// head is "No problem", "1 problem", "2 problems".
func head(problems int) string {
	switch problems {
	case 0:
		return "No problem"
	case 1:
		return "1 problem"
	}
	return strconv.Itoa(problems) + " problems"
}

// finding adds to a finding what the page marks.
func (s *Session) finding(b *stacks.Built, f layout.Finding) Finding {
	out := Finding{Finding: f, Pots: []string{}, Word: s.word(&f)}
	out.Sentence = s.say(f.Sentence)
	for _, t := range f.Things {
		if t.Kind == layout.ThingPot || t.Kind == layout.ThingCones {
			out.Pots = append(out.Pots, t.Name)
		}
	}
	out.Bold = boldPart(out.Sentence)
	for i := range out.Mends {
		if i == 0 {
			out.Mends = append([]layout.Mend(nil), out.Mends...)
		}
		out.Mends[i].Say = s.say(out.Mends[i].Say)
	}
	return out
}

// boldPart is the beginning of a sentence that names what it is about.
func boldPart(sentence string) string {
	least := len(sentence)
	for _, stop := range []string{" stands ", " stand ", " is ", " are ", ": ", " lies ", " lie ", " takes ", " take ", " has ", " hangs ", " on ", " waits", " wait", ", ", " touches", " reaches ", " cannot ", " may "} {
		if i := strings.Index(sentence, stop); i > 0 && i < least {
			least = i
		}
	}
	if least == len(sentence) {
		return ""
	}
	return sentence[:least]
}

// word is a finding in a few words: "4 mm, plan 6".
func (s *Session) word(f *layout.Finding) string {
	switch f.Rule {
	case layout.PotToPot, layout.PotToWall, layout.PotToPost, layout.ToProbe, layout.ShelfToWall, layout.ShelfToShelf,
		layout.BlastRoom, layout.FootToEdge, layout.CookieToEdge:
		return s.gapWord(f.Have, f.Plan, f.Grade)
	case layout.RoomAbove:
		return s.down(f.Have) + " above, plan " + s.up(f.Plan)
	case layout.RoomToLid:
		if f.Have <= 0 {
			return s.lidWord() + " stays open"
		}
		return s.down(f.Have) + " to the " + s.lidWord() + ", plan " + s.up(f.Plan)
	case layout.Waits:
		return "waits"
	case layout.RunnyCookie:
		return "runs"
	case layout.CanBeSet:
		return "no order"
	case layout.Balance:
		return s.down(f.Have) + " inside, plan " + s.up(f.Plan)
	}
	return string(f.Rule)
}

// gapWord is a gap with what it means: "7 mm, plan 6", "2 mm, too close",
// "touches".
func (s *Session) gapWord(gap, plan float64, g layout.Grade) string {
	switch {
	case g == layout.Problem && gap <= 0.05:
		return "touches"
	case g == layout.Problem:
		return s.downUnit(gap) + ", too close"
	}
	return s.downUnit(gap) + ", plan " + s.up(plan)
}

// tellFurniture lists the box of posts, the shelves and the cone packs.
func (s *Session) tellFurniture(st *State, b *stacks.Built) {
	f := &s.now.Furniture
	stock := stacks.NewStock(f)
	if b != nil {
		stock.Use(b)
	}
	for _, i := range postsTallestFirst(f) {
		p := &f.Posts[i]
		st.Posts = append(st.Posts, Post{Height: p.Height, Said: s.postSaid(p.Height), Name: p.Name, Owned: p.Count, Used: p.Count - stock.Posts[i], Spacer: p.Spacer})
	}
	for i := range f.Shelves {
		k := &f.Shelves[i]
		st.Shelf = append(st.Shelf, Shelf{Name: k.Name, Said: s.say(s.shelfSaid(k)), Owned: k.Count, Used: k.Count - stock.Shelves[i]})
	}
	for i := range s.now.Cones {
		c := &s.now.Cones[i]
		names := make([]string, len(c.Cones))
		for k, n := range c.Cones {
			names[k] = string(n)
		}
		said := "cones " + strings.Join(names, " ")
		if len(names) == 0 {
			said = "measuring ring"
		}
		if c.Watched {
			said += ", watched"
		}
		st.Cones = append(st.Cones, Cone{Name: c.Name, Said: said, Watched: c.Watched, Set: s.stands(c.Name)})
	}
}

// shelfSaid is "half round 660 × 327, 19 thick".
func (s *Session) shelfSaid(k *layout.ShelfKind) string {
	size := s.near(k.Shape.Across)
	switch k.Shape.Kind {
	case layout.HalfRound, layout.HalfSided:
		size += " × " + s.near(k.Shape.Depth)
	case layout.Oval, layout.HalfOval, layout.Rectangle:
		size = s.near(k.Shape.Width) + " × " + s.near(k.Shape.Depth)
	}
	return fmt.Sprintf("%s %s, %s thick", k.Shape.Kind, size, s.postSaid(k.Thick))
}

// postsTallestFirst are the rows of posts by height, spacers last.
func postsTallestFirst(f *layout.Furniture) []int {
	order := make([]int, len(f.Posts))
	for i := range order {
		order[i] = i
	}
	sortStable(order, func(a, b int) bool { return f.Posts[a].Height > f.Posts[b].Height })
	return order
}

// kindsOn says what stands on a level: "14 mugs, 1 vase".
func kindsOn(b *stacks.Built, level int) string {
	var names, out []string
	count := map[string]int{}
	for _, i := range b.Levels[level].Pots {
		if b.Pots[i].Ware == nil {
			continue
		}
		n := b.Pots[i].Pot.Ware
		if count[n] == 0 {
			names = append(names, n)
		}
		count[n]++
	}
	for _, n := range names {
		out = append(out, silhouette.Counted(count[n], n))
	}
	return strings.Join(out, ", ")
}
