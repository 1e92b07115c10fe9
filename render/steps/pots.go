package steps

import (
	"strconv"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/silhouette"
)

// pot tells one pot. Its kind is named where it is not that of the pot before.
func (t *teller) pot(act int, lo *order.LevelOrder, s *order.Step, named *string) Step {
	out := t.onePot(s)
	out.Acts = []int{act}
	name := t.wareOf(s.Pot)
	if name != *named {
		out.Sentence = name + ", " + out.Sentence
	}
	*named = name
	return out
}

// onePot tells where a pot goes, without its name.
func (t *teller) onePot(s *order.Step) Step {
	words := []string{t.where(s)}
	if stand := t.stand(s.Pot); stand != "" {
		words = append(words, stand)
	}
	if way := t.facing(s); way != "" {
		words = append(words, way)
	}
	return Step{
		Kind: Pot, Label: strconv.Itoa(s.Number), Pots: []int{s.Pot}, Shelf: -1,
		Sentence: strings.Join(words, ", "),
	}
}

// where tells a place by its neighbours: "between 9 and post B, a pencil from
// each".
func (t *teller) where(s *order.Step) string {
	var solid []order.Neighbour
	edge := false
	for _, n := range s.Neighbours {
		switch n.Kind {
		case order.NearPot, order.NearPost:
			solid = append(solid, n)
		default:
			edge = true
		}
	}
	switch {
	case len(solid) == 2:
		return t.between(solid[0], solid[1])
	case len(solid) == 1 && edge && solid[0].Kind == order.NearPot && solid[0].Number == s.Number-1:
		return t.from(solid[0]) + ", " + t.edge(s.EdgeGap)
	case len(solid) == 1 && edge:
		return measure.SayClock(s.Clock) + ", " + t.from(solid[0]) + ", " + t.edge(s.EdgeGap)
	case len(solid) == 1:
		return measure.SayClock(s.Clock) + ", " + t.from(solid[0])
	}
	if plane.Length(t.b.Pots[s.Pot].At) < inMiddle {
		return "in the middle of the kiln"
	}
	if s.EdgeGap < 100 {
		return measure.SayClock(s.Clock) + ", " + t.edge(s.EdgeGap)
	}
	return measure.SayClock(s.Clock) + ", " + t.near(s.Out) + " from the edge"
}

// inMiddle is how near to the middle of the kiln a place is called so, mm.
const inMiddle = 30

// between tells a place between two standing things.
func (t *teller) between(a, b order.Neighbour) string {
	one, two := t.gap(a.Gap), t.gap(b.Gap)
	both := "between " + thing(a) + " and " + thing(b)
	switch {
	case one == touching && two == touching:
		return both + ", touching both"
	case one == two:
		return both + ", " + one + " from each"
	}
	return t.from(a) + ", " + t.from(b)
}

// touching is measure's word for no gap.
const touching = "touching"

// from is the gap to a neighbour: "a pencil from 9".
func (t *teller) from(n order.Neighbour) string {
	if g := t.gap(n.Gap); g != touching {
		return g + " from " + thing(n)
	}
	return "touching " + thing(n)
}

// thing names a neighbour.
func thing(n order.Neighbour) string {
	switch {
	case n.Kind == order.NearPost:
		return "post\u00a0" + n.Letter
	case n.Number == 0:
		return "the cones"
	}
	return strconv.Itoa(n.Number)
}

// edge tells how far a pot keeps inside the edge of its shelf.
func (t *teller) edge(gap float64) string {
	if gap < -0.5 {
		return t.near(-gap) + " past the edge"
	}
	if gap < 5 {
		return "at the edge"
	}
	return hold(measure.SayLength(gap, t.units, measure.Down)) + " from the edge"
}

// stand tells what goes under a pot.
func (t *teller) stand(pot int) string {
	switch t.b.Pots[pot].Body.Stand.Kind {
	case layout.Cookie:
		return "on a cookie"
	case layout.Stilt:
		return "on a stilt"
	case layout.Wads:
		return "on wads"
	}
	return ""
}

// facing tells how a pot is turned: by its handle or spout, else by its
// length.
func (t *teller) facing(s *order.Step) string {
	switch p := &t.b.Pots[s.Pot]; {
	case s.HasHandle && s.Spout:
		return "spout to " + hold(measure.ShortClock(s.Handle))
	case s.HasHandle:
		return "handle to " + hold(measure.ShortClock(s.Handle))
	case p.Body.Drawn.Oblong:
		return t.lying(p.Turn)
	}
	return ""
}

// lying tells how the length of oblong ware lies: "length from 10 to 4".
func (t *teller) lying(turn float64) string {
	from := plane.NormalTurn(turn + 270)
	if from > 90 && from <= 270 {
		from -= 180 // the end on the far side is told first
	}
	return "length " + hold(measure.ShortClock(from)) + " to " + hold(measure.ShortClock(from+180))
}

// series tells a row of alike pots in one sentence.
func (t *teller) series(act int, lo *order.LevelOrder, p *order.Pattern, named *string) Step {
	s := Step{
		Kind: Series, Acts: []int{act}, Shelf: -1,
		Label: strconv.Itoa(p.First) + "-" + strconv.Itoa(p.Last),
	}
	standing, oblong := "", false
	for _, i := range p.Steps {
		one := t.onePot(&lo.Pots[i])
		one.Level, one.Sentence = lo.Level, t.words.Say(one.Sentence)
		s.Each = append(s.Each, one)
		s.Pots = append(s.Pots, lo.Pots[i].Pot)
		standing = t.stand(lo.Pots[i].Pot)
		oblong = t.b.Pots[lo.Pots[i].Pot].Body.Drawn.Oblong && !lo.Pots[i].HasHandle
	}
	*named = silhouette.Singular(p.Ware)
	words := []string{namedRow(p) + " " + t.along(p), t.apart(p)}
	if standing != "" {
		words = append(words, "each "+standing)
	}
	if way := handleWay(p); way != "" {
		words = append(words, way)
	} else if oblong {
		words = append(words, "laid as drawn")
	}
	s.Sentence = strings.Join(words, ", ")
	return s
}

func namedRow(p *order.Pattern) string { return named(p.Count(), p.Ware) }

// along tells where a series runs.
func (t *teller) along(p *order.Pattern) string {
	switch p.Zone {
	case order.Ring:
		return "round the edge " + t.ring(p)
	case order.Rows:
		return "in rows from the back, left to right"
	case order.Late:
		return "after the rest, far side first"
	}
	return "in the middle, far side first"
}

// ring tells from where to where a series goes round the edge.
func (t *teller) ring(p *order.Pattern) string {
	way := "counter-clockwise"
	if p.Clockwise {
		way = "clockwise"
	}
	switch {
	case p.From != "" && len(p.By) > 0 && p.To != "":
		return "from post\u00a0" + p.From + " by " + series(p.By) + " to\u00a0" + p.To
	case p.From != "" && p.To != "" && p.From != p.To:
		return way + " from post\u00a0" + p.From + " to\u00a0" + p.To
	case p.From != "":
		return way + " from post\u00a0" + p.From
	}
	return way + " from " + hold(measure.ShortClock(p.FromClock)) + " to " + hold(measure.ShortClock(p.ToClock))
}

// apart tells how far the pots of a series keep from each other.
func (t *teller) apart(p *order.Pattern) string {
	least, most := t.gap(p.GapMin), t.gap(p.GapMax)
	switch {
	case least == most && least == touching:
		return "touching"
	case least == most:
		return least + " apart"
	}
	return least + " to " + most + " apart"
}

// handleWay tells how the handles of a series point.
func handleWay(p *order.Pattern) string {
	switch p.Handles {
	case order.HandlesInward:
		return "handles inward"
	case order.HandlesOutward:
		return "handles outward"
	case order.HandlesToBefore:
		return "handle to the one before"
	case order.HandlesToAfter:
		return "handle to the next"
	case order.HandlesOneWay:
		return "handles to " + hold(measure.ShortClock(p.Clock))
	case order.HandlesAsDrawn:
		return "handles as drawn"
	}
	return ""
}

// cones tells a cone pack and the hole it faces.
func (t *teller) cones(act int, s *order.Step) Step {
	p := t.b.Pots[s.Pot].Cones
	out := Step{Kind: Cones, Acts: []int{act}, Label: "cones", Pots: []int{s.Pot}, Shelf: -1}
	if p == nil {
		return out
	}
	var words []string
	for _, c := range p.Cones {
		words = append(words, string(c))
	}
	what := strings.Join(words, "\u00a0")
	if what == "" {
		what = p.Name
	}
	out.Sentence = what + " " + t.where(s)
	if hole, ok := t.hole(s.Pot); ok {
		out.Sentence += ", face the hole at " + hold(measure.ShortClock(hole))
	}
	return out
}

// hole is the bearing of the spyhole that a watched pack is seen through: the
// one it names, else the nearest.
func (t *teller) hole(pot int) (bearing float64, ok bool) {
	p := &t.b.Pots[pot]
	if p.Cones == nil || !p.Cones.Watched {
		return 0, false
	}
	best := -1.0
	for i := range t.b.Spies {
		spy := &t.b.Spies[i]
		if p.Cones.Spyhole == i+1 {
			return spy.Kiln.At, true
		}
		off := plane.Hypot(plane.Distance(spy.Mouth, p.At), spy.Height-p.Z)
		if p.Cones.Spyhole == 0 && (best < 0 || off < best) {
			best, bearing, ok = off, spy.Kiln.At, true
		}
	}
	return bearing, ok
}
