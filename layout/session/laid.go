package session

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/bounds"
	"threepost/layout/planner"
)

// Laid is what a run of the planner leaves to choose from, laid beside the
// load, whole or piece by piece as it is found. It is data, so that it can come
// from another machine.
type Laid struct {
	Text   string     `json:"text,omitempty"`   // the load that was planned; it begins anew
	Bound  *LaidBound `json:"bound,omitempty"`  // what nobody can exceed
	Plans  []LaidPlan `json:"plans,omitempty"`  // the best first
	Price  *LaidPrice `json:"price,omitempty"`  // of closer gaps, for the plan that was told
	Wishes []LaidWish `json:"wishes,omitempty"` // what each wish costs that plan
}

// LaidBound is a bound on what can be set.
type LaidBound struct {
	Set    int     `json:"set"`
	Value  float64 `json:"value"`
	Short  string  `json:"short,omitempty"`
	From   float64 `json:"from_mm,omitempty"` // of the height class that binds
	Count  int     `json:"count,omitempty"`
	Levels int     `json:"levels,omitempty"`
	Hold   int     `json:"hold,omitempty"`
	Says   string  `json:"says,omitempty"` // in the load's units and US words
}

// LaidPlan is one of the plans.
type LaidPlan struct {
	Edit    layout.Edit `json:"edit"`
	Split   string      `json:"split"` // how the kiln is divided
	Set     int         `json:"set"`
	Value   float64     `json:"value"`
	Levels  int         `json:"levels"`
	Pieces  int         `json:"pieces"`
	Watches int         `json:"watches"`
	Differs string      `json:"differs,omitempty"` // from the first, in US words
	Told    bool        `json:"told,omitempty"`    // it is the plan that was told, whose price is known
}

// LaidPrice is what closer gaps would add, and cost.
type LaidPrice struct {
	Gap     float64      `json:"gap_mm"`
	More    int          `json:"more"`
	Ware    []LaidGain   `json:"ware,omitempty"`
	Gaps    int          `json:"gaps"`
	Watches int          `json:"watches"`
	Edit    *layout.Edit `json:"edit,omitempty"` // the closer arrangement
	Says    string       `json:"says,omitempty"`
}

// LaidWish is what a wish costs.
type LaidWish struct {
	Wish string `json:"wish"` // its key
	Cost string `json:"cost"`
}

// LaidGain is so many more pots of a row.
type LaidGain struct {
	Ware  string `json:"ware"`
	Count int    `json:"count"`
}

// LayBound is a planner's bound as data; says is what it tells of a plan.
func LayBound(b bounds.Bound, says string) *LaidBound {
	return &LaidBound{Set: b.Count, Value: b.Value, Short: string(b.Short), From: b.Tall.From, Count: b.Tall.Count, Levels: b.Tall.Levels, Hold: b.Tall.Hold, Says: says}
}

// Bound is the bound as the planner has it.
func (b *LaidBound) Bound() bounds.Bound {
	return bounds.Bound{Count: b.Set, Value: b.Value, Short: bounds.Scarce(b.Short),
		Tall: bounds.Tall{From: b.From, Count: b.Count, Levels: b.Levels, Hold: b.Hold}}
}

// LayPlans are plans as data; told is the one that was told already.
func LayPlans(told *planner.Plan, plans []*planner.Plan) []LaidPlan {
	out := make([]LaidPlan, len(plans))
	for i, p := range plans {
		out[i] = LaidPlan{arrangement(p.Load), p.Split, p.Set, p.Value, p.Levels, p.Pieces, p.Report.Watches, p.Differs, p.Load == told.Load}
	}
	return out
}

func arrangement(l *layout.Load) layout.Edit {
	return layout.Edit{Act: layout.Arrange, Towers: l.Towers}
}

// LayPrice is a planner's price as data; nil where the rules leave no closer
// gap, or nothing waits.
func LayPrice(p planner.Price, l *layout.Load) *LaidPrice {
	if p.Gap <= plane.Tolerance {
		return nil
	}
	out := &LaidPrice{Gap: p.Gap, More: p.More, Gaps: p.Gaps, Watches: p.Watches, Says: p.Say(l.Units)}
	for _, g := range p.Ware {
		out.Ware = append(out.Ware, LaidGain{g.Ware, g.Count})
	}
	if p.Load != nil && p.More > 0 {
		e := arrangement(p.Load)
		out.Edit = &e
	}
	return out
}

// LayWishes are what wishes cost, as data: those that cost something.
func LayWishes(wishes []planner.Wished) []LaidWish {
	var out []LaidWish
	for _, w := range wishes {
		if w.Cost != "" {
			out = append(out, LaidWish{w.Key, w.Cost})
		}
	}
	return out
}

// Price is the price as the planner has it, without its arrangement.
func (p *LaidPrice) Price() planner.Price {
	out := planner.Price{Gap: p.Gap, More: p.More, Gaps: p.Gaps, Watches: p.Watches}
	for _, g := range p.Ware {
		out.Ware = append(out.Ware, planner.Gain{Ware: g.Ware, Count: g.Count})
	}
	return out
}
