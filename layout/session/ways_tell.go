package session

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/compare"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Ways is in one line each what a run of the planner left to choose from.
type Ways struct {
	Says   string   `json:"says"`   // "3 plans: 86, 85, 74 set"; empty where there is but one
	Plans  int      `json:"plans"`  // how many
	Mine   int      `json:"mine"`   // which of them stands, from 0; -1: none
	Bound  string   `json:"bound"`  // "86 set. Nobody can set more than 90 here, because ..."
	Price  *Price   `json:"price"`  // of closer gaps; nil when not known or nothing to gain
	Stale  bool     `json:"stale"`  // the load asks for something else since
	Costs  bool     `json:"costs"`  // what wishes cost is known of what stands
	Wishes []string `json:"wishes"` // what became of each wish that is not kept or costs something
	Binds  string   `json:"binds"`  // what is locked or stands holds the plan; empty where nothing is
}

// Price is what closer gaps would add and cost, with what shows it.
type Price struct {
	Says  string `json:"says"`  // "2 more mugs if 11 gaps shrink to 4 mm. Price: 11 watches."
	Act   string `json:"act"`   // "Show me the 11"; empty where nothing is gained
	Shown bool   `json:"shown"` // the closer arrangement stands
}

// Compared is the plans side by side.
type Compared struct {
	Ways
	Title   string   `json:"title"` // "October glaze"
	Note    string   `json:"note"`  // what stands, when it is none of them
	Room    string   `json:"room"`  // the name of the room over the pots: "Room to the lid"
	Columns []Column `json:"columns"`
}

// Column is one of the plans.
type Column struct {
	Title     string  `json:"title"` // "Tall ware low"
	Says      string  `json:"says"`
	Mine      bool    `json:"mine"`    // it stands
	Act       string  `json:"act"`     // "Keep this one", "Take this one"
	Refused   string  `json:"refused"` // why it cannot be taken
	Set       int     `json:"set"`
	SetSaid   string  `json:"set_said"`   // "of 92, 1 fewer"
	Share     float64 `json:"share"`      // of the best value, 0..1
	ValueSaid string  `json:"value_said"` // "88.6 litres of kiln space"
	Grade     string  `json:"grade"`      // "ok", "watch", "problem"
	Watches   string  `json:"watches"`    // "none open, 1 accepted"
	Room      string  `json:"room"`       // to the lid: "38"
	Furniture string  `json:"furniture"`  // "1 full, 6 half shelves, 42 posts"
	Waits     string  `json:"waits"`      // "2 mugs, 1 bottle"
}

// tellWays tells the plans in lines; nil when none lie beside the load.
func (s *Session) tellWays() *Ways {
	w := s.ways
	if w == nil || w.bound == nil && w.price == nil && len(w.plans) == 0 {
		return nil
	}
	out := &Ways{Plans: len(w.plans), Mine: -1, Wishes: []string{}}
	if !sameAsked(w.asked, s.now) {
		out.Stale = true
		out.Says = "The plans were made for the load as it was."
		return out
	}
	out.Mine = w.stand(s.now)
	out.Binds = s.say(binds(w.asked))
	if len(w.plans) > 1 {
		var sets []string
		for i := range w.plans {
			set, _ := countPots(w.plans[i].load)
			sets = append(sets, fmt.Sprint(set))
		}
		out.Says = fmt.Sprintf("%d plans: %s set", len(w.plans), strings.Join(sets, ", "))
	}
	if w.bound != nil {
		out.Bound = s.say(planner.SayBound(w.bound.Bound(), s.standing()))
	}
	out.Costs = len(w.costs) > 0 && w.priced(s.now)
	out.Wishes = s.tellWishes(out.Costs)
	if p := w.price; p != nil && p.More > 0 {
		shown := w.close != nil && sameTowers(w.close.Towers, s.now.Towers)
		if !shown && !w.priced(s.now) {
			return out
		}
		out.Price = &Price{Says: s.say(p.Price().Say(s.now.Units)), Shown: shown}
		if w.close != nil {
			out.Price.Act = fmt.Sprintf("Show me the %d", p.Gaps)
			if p.Gaps == 0 {
				out.Price.Act = "Show me"
			}
		}
	}
	return out
}

// tellWishes tells of the wishes that what stands does not keep, or that cost
// something, where that is known of it.
func (s *Session) tellWishes(known bool) []string {
	out := []string{}
	b, _ := s.Built()
	if b == nil {
		return out
	}
	costs := s.ways.costs
	if !known {
		costs = nil // they were another arrangement's
	}
	for _, w := range planner.Wishes(b, s.Checker()) {
		for _, c := range costs {
			if c.Wish == w.Key {
				w.Cost = c.Cost
			}
		}
		if !w.Kept || w.Cost != "" {
			out = append(out, s.say(w.Say()))
		}
	}
	return out
}

// binds tells what of a load a planner had to keep: then it keeps shelves and
// posts up to there.
func binds(l *layout.Load) string {
	locked, standing := 0, 0
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			if v.Standing {
				standing++
			}
			if v.Locked {
				locked++
			}
			for _, p := range v.Set {
				if p.Locked && !v.Locked {
					locked++
				}
			}
		}
	}
	const held = "what stands and what is locked stayed, with the shelves under it; the levels over it were planned anew."
	switch {
	case standing > 0:
		return "The kiln is partly loaded: " + held
	case locked > 0:
		return silhouette.Counted(locked, "lock") + " held the plan: " + held + " Unlock to have the kiln planned from its floor."
	}
	return ""
}

// standing is what a bound is told of: what stands, or the first plan where
// nothing does.
func (s *Session) standing() *planner.Plan {
	l := s.now
	if len(l.Towers) == 0 && len(s.ways.plans) > 0 {
		l = s.ways.plans[0].load
	}
	given := *l
	given.Units = s.now.Units
	p, err := planner.Given(&given, clearance.Report{})
	if err != nil {
		p = &planner.Plan{Load: &given}
	}
	return p
}

// Compare tells the plans side by side.
func (s *Session) Compare() (*Compared, error) {
	lines := s.tellWays()
	if lines == nil {
		return nil, errors.New("no plans lie beside the load; plan it first")
	}
	out := &Compared{Ways: *lines, Title: s.now.Title, Room: "Room to the " + s.lidWord(), Columns: []Column{}}
	if lines.Stale {
		return out, nil
	}
	if out.Bound == "" {
		out.Bound = s.allSet()
	}
	w := s.ways
	var side []compare.Plan
	best := 0.0
	for i := range w.plans {
		p := &w.plans[i]
		// Built anew in the person's units, for the sentences.
		load := *p.load
		load.Units, load.Accepted = s.now.Units, s.now.Accepted
		b, err := stacks.Build(&load)
		if err != nil {
			return nil, err
		}
		p.built, p.report = b, clearance.Check(b)
		side = append(side, compare.Plan{Built: b, Split: p.laid.Split})
		best = math.Max(best, p.laid.Value)
	}
	told := compare.Tell(side)
	for i := range w.plans {
		c := s.column(i, best)
		c.Title, c.Says = s.say(told[i].Title), s.say(told[i].Says)
		c.Mine, c.Act = i == lines.Mine, "Take this one"
		if c.Mine {
			c.Act = "Keep this one"
		} else if why := s.moves(w.plans[i].load); why != "" {
			c.Refused = s.say(capital(why) + ".")
		}
		out.Columns = append(out.Columns, c)
	}
	if lines.Mine < 0 && len(s.now.Towers) > 0 {
		out.Note = s.noteStanding(lines)
	}
	return out, nil
}

// allSet is what stands in the place of a bound where nothing waits.
func (s *Session) allSet() string {
	p := s.standing()
	if p.Set < p.Of {
		return fmt.Sprintf("%d of %d set.", p.Set, p.Of)
	}
	return fmt.Sprintf("All %d set.", p.Of)
}

// noteStanding tells of a load that is none of the plans.
func (s *Session) noteStanding(lines *Ways) string {
	set, _ := countPots(s.now)
	if lines.Price != nil && lines.Price.Shown {
		return fmt.Sprintf("The closer arrangement stands: %d set. Take a plan to have its gaps again.", set)
	}
	return fmt.Sprintf("What stands sets %d and is none of these. Undo brings it back after one was taken.", set)
}

// column tells the figures of one plan.
func (s *Session) column(i int, best float64) Column {
	p := &s.ways.plans[i]
	b := p.built
	c := Column{Share: 1, Furniture: s.say(compare.Furniture(b)), Waits: compare.Waits(b), Room: "none"}
	of, first := 0, 0
	c.Set, of = countPots(p.load)
	first, _ = countPots(s.ways.plans[0].load)
	c.SetSaid = fmt.Sprintf("of %d", of)
	switch {
	case c.Set < first:
		c.SetSaid += fmt.Sprintf(", %d fewer", first-c.Set)
	case c.Set > first:
		c.SetSaid += fmt.Sprintf(", %d more", c.Set-first)
	}
	if best > 0 {
		c.Share = p.laid.Value / best
	}
	c.ValueSaid = s.valueSaid(p.laid.Value)
	c.Grade, c.Watches = s.watchesSaid(p.report)
	if mm, ok := roomToLid(b); ok {
		c.Room = s.downUnit(mm)
	}
	if c.Waits == "" {
		c.Waits = "nothing"
	}
	return c
}

// valueSaid is a plan's value: kiln space, or a share where the person gave
// values of their own.
func (s *Session) valueSaid(value float64) string {
	for i := range s.now.Ware {
		if s.now.Ware[i].Value > 0 {
			return fmt.Sprintf("%.0f %% of the table's value", 100*value/math.Max(s.standing().Whole, 1e-9))
		}
	}
	return fmt.Sprintf("%.1f litres of kiln space", value)
}

// watchesSaid counts the findings of a plan and tells the first open one.
func (s *Session) watchesSaid(r clearance.Report) (grade, says string) {
	open := func(g layout.Grade) string {
		for i := range r.Findings {
			if f := &r.Findings[i]; f.Grade == g && f.Accepted == "" {
				first, _, cut := strings.Cut(f.Sentence, ". ")
				if !cut {
					first = strings.TrimSuffix(first, ".")
				}
				return s.say(first)
			}
		}
		return ""
	}
	accepted := ""
	if r.Accepted > 0 {
		accepted = fmt.Sprintf(", %d accepted", r.Accepted)
	}
	switch {
	case r.Problems > 0:
		return layout.Problem.String(), fmt.Sprintf("%s: %s", silhouette.Counted(r.Problems, "problem"), open(layout.Problem))
	case r.Watches > 0:
		return layout.Watch.String(), fmt.Sprintf("%d open%s: %s", r.Watches, accepted, open(layout.Watch))
	case r.Accepted > 0:
		return "ok", "none open" + accepted
	}
	return "ok", "none"
}

// WayBuilt is one of the plans, from 0, with the levels that differ from the
// first, for a picture.
func (s *Session) WayBuilt(i int) (*stacks.Built, clearance.Report, []int, error) {
	if s.ways == nil || i < 0 || i >= len(s.ways.plans) {
		return nil, clearance.Report{}, nil, errors.New("there is no such plan beside the load")
	}
	p := &s.ways.plans[i]
	return p.built, p.report, compare.Differing(p.built, s.ways.plans[0].built), nil
}
