package edit

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// snapReach is how far a snap looks, mm: a hand's breadth.
const snapReach = 100

// Snap is the place nearest to at where the pot, given by its index in
// b.Pots, clears everything by the plan figures, on the grid of 0.1 mm. It
// answers false when there is none within a hand's breadth.
func Snap(b *stacks.Built, pot int, at plane.Vec) (plane.Vec, bool) {
	if pot < 0 || pot >= len(b.Pots) {
		return at, false
	}
	return clearance.New(b).Snap(pot, at, b.Pots[pot].Turn, snapReach)
}

// pots are the pots a finding is about, as indexes into Built.Pots.
func (m *mender) pots() []int {
	var out []int
	for _, t := range m.f.Things {
		if t.Kind != layout.ThingPot && t.Kind != layout.ThingCones {
			continue
		}
		for i := range m.b.Pots {
			if m.b.Pots[i].Pot.String() == t.Name {
				out = append(out, i)
			}
		}
	}
	return out
}

// who says a pot of the finding on a button: the one it begins with is "it".
func (m *mender) who(pots []int, k int) string {
	if k == 0 {
		if m.b.Pots[pots[0]].Cones != nil {
			return "them"
		}
		return "it"
	}
	return m.c.NameFrom(pots[0], pots[k])
}

// movePots slides or turns the pots of a finding, or puts the first of them
// back on the table.
func (m *mender) movePots() {
	pots := m.pots()
	for k, i := range pots {
		if !m.b.Pots[i].Locked {
			m.slide(i, m.who(pots, k), m.b.Pots[i].At)
			m.turn(i, m.who(pots, k))
		}
	}
	m.backToTable()
}

// slide moves a pot to the nearest place to want that clears by the plan
// figures, or else by what no finding is made of.
func (m *mender) slide(pot int, who string, want plane.Vec) bool {
	p := &m.b.Pots[pot]
	for _, ask := range []clearance.Asked{clearance.AskPlan, clearance.AskWatch} {
		to, ok := m.c.SnapTo(pot, want, p.Turn, snapReach, ask)
		if ok && to != p.At && m.try("Slide "+who+by(who)+m.way(p.At, to), m.setAt(pot, to)) {
			return true
		}
	}
	return false
}

// by joins who is moved and how far: a name may end in a number.
func by(who string) string {
	if who == "it" || who == "them" {
		return " "
	}
	return " by "
}

func (m *mender) setAt(pot int, to plane.Vec) layout.Edit {
	return layout.Edit{Act: layout.SetPot, Pot: m.b.Pots[pot].Pot.String(), At: &to}
}

// way says a move: "2 mm toward 4 o'clock".
func (m *mender) way(from, to plane.Vec) string {
	d := math.Max(1, plane.Distance(from, to))
	return measure.SayLength(d, m.b.Load.Units, measure.Nearest) + " " + measure.TowardClock(plane.Bearing(plane.Sub(to, from)))
}

// turnStep is how finely turns are tried, degrees.
const turnStep = 15

// turn turns a pot where it stands, by as little as will do.
func (m *mender) turn(pot int, who string) {
	p := &m.b.Pots[pot]
	if !p.Body.Turns {
		return
	}
	for k := 1; k <= 12; k++ {
		for _, by := range []float64{float64(float64(k) * turnStep), -float64(float64(k) * turnStep)} {
			to := gridTurn(p.Turn + by)
			if m.turned(pot, to) && m.try(m.sayTurn(pot, who, to, by), layout.Edit{Act: layout.SetPot, Pot: p.Pot.String(), Turn: &to}) {
				return
			}
		}
	}
}

// turned tells whether a pot misses no limit when turned.
func (m *mender) turned(pot int, turn float64) bool {
	for _, n := range m.c.Watch(pot, m.b.Pots[pot].At, turn) {
		if n.Grade != layout.Note {
			return false
		}
	}
	return true
}

func (m *mender) sayTurn(pot int, who string, to, by float64) string {
	w := m.b.Pots[pot].Ware
	if w != nil && len(m.b.Pots[pot].Body.Drawn.Handles) > 0 {
		if who == "it" {
			return "Turn its handle to " + measure.ShortClock(to)
		}
		return "Turn the handle of " + who + " to " + measure.ShortClock(to)
	}
	round := " clockwise"
	if by < 0 {
		round = " the other way"
	}
	return "Turn " + who + " " + strconv.Itoa(int(math.Abs(by))) + " degrees" + round
}

// partPots slides the pots of a ring apart by what is lacking.
func (m *mender) partPots() {
	pots := m.pots()
	short := math.Max(m.f.Need-m.f.Have, 0) + clearance.Grain
	for k, i := range pots {
		p := &m.b.Pots[i]
		if p.Locked {
			continue
		}
		for _, j := range pots {
			if j == i {
				continue
			}
			away := plane.Scale(plane.Unit(plane.Sub(p.At, m.b.Pots[j].At)), short)
			m.slide(i, m.who(pots, k), plane.Add(p.At, away))
		}
	}
	m.backToTable()
}

// maxBack is the most pots that are offered to go back for want of room.
const maxBack = 6

// backToTable takes the pots of a finding out: the first of a pair, all of a
// row.
func (m *mender) backToTable() {
	pots := m.pots()
	if len(pots) == 0 {
		return
	}
	if m.f.Things[0].Kind != layout.ThingWare && !gathered(m.f.Rule) {
		for k, i := range pots {
			if !m.b.Pots[i].Locked {
				say := "Back to the table"
				if k > 0 {
					say = "Put " + m.who(pots, k) + " back on the table"
				}
				if m.try(say, layout.Edit{Act: layout.Withdraw, Pot: m.b.Pots[i].Pot.String()}) {
					return
				}
			}
		}
		return
	}
	if gathered(m.f.Rule) && len(pots) > maxBack {
		return
	}
	var edits []layout.Edit
	for _, i := range pots {
		if m.b.Pots[i].Locked {
			return
		}
		edits = append(edits, layout.Edit{Act: layout.Withdraw, Pot: m.b.Pots[i].Pot.String()})
	}
	say := "Back to the table"
	if len(pots) > 1 {
		say = "Put all " + strconv.Itoa(len(pots)) + " back on the table"
	}
	m.try(say, edits...)
}

// gathered tells the rules whose findings are about a whole row of pots.
func gathered(rule layout.RuleName) bool {
	return rule == layout.RoomAbove || rule == layout.RoomToLid || rule == layout.InsideKiln
}

// showCones moves a cone pack to where a spyhole sees it: toward the hole
// first, then round about.
func (m *mender) showCones() {
	pots := m.pots()
	if len(pots) == 0 || m.b.Pots[pots[0]].Locked {
		return
	}
	i := pots[0]
	p := &m.b.Pots[i]
	seen := map[plane.Vec]bool{p.At: true}
	for _, t := range m.f.Things {
		k, err := strconv.Atoi(t.Name)
		if t.Kind != layout.ThingSpy || err != nil || k < 1 || k > len(m.b.Spies) {
			continue
		}
		toHole := plane.Bearing(plane.Sub(m.b.Spies[k-1].Mouth, p.At))
		for far := 20.0; far <= 160; far += 20 {
			for _, off := range []float64{0, 45, -45, 90, -90, 180} {
				want := plane.Add(p.At, plane.FromBearing(far, toHole+off))
				to, ok := m.c.SnapTo(i, want, p.Turn, 30, clearance.AskPlan)
				if !ok || seen[to] {
					continue
				}
				seen[to] = true
				if m.try("Move the cones "+m.way(p.At, to), m.setAt(i, to)) {
					return
				}
			}
		}
	}
}

// stand puts a cookie or a stilt under a row of ware.
func (m *mender) stand() {
	if len(m.f.Things) == 0 {
		return
	}
	w := m.b.Load.WareOf(layout.Pot{Ware: m.f.Things[0].Name})
	if w == nil {
		return
	}
	row := *w
	say := "Put a stilt under "
	row.Stand = layout.Stand{Kind: layout.Stilt}
	if m.f.Rule == layout.RunnyCookie {
		say = "Put a wider cookie under "
		row.Stand = layout.Stand{Kind: layout.Cookie}
	}
	it := "it"
	if w.Count > 1 {
		it = "each"
	}
	m.try(say+it, layout.Edit{Act: layout.SetWare, Ware: &row})
}
