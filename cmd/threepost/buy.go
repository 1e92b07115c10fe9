package main

import "threepost/layout/planner"

// buyWork is the work of planning with each purchase that --buy tries: all
// together some seconds on one core.
const buyWork = 20000

// buyAnswer is what furniture was tried and what of it sets more.
type buyAnswer struct {
	Tried int         `json:"tried"`
	Work  int64       `json:"work"`
	Worth []buyOption `json:"worth"`
	Says  []string    `json:"says"`
}

// buyOption is one purchase that sets more, the best first.
type buyOption struct {
	What  string         `json:"what"`
	More  int            `json:"more"`
	Value float64        `json:"value"` // more
	Ware  map[string]int `json:"ware"`  // more of each row, or fewer
}

// answerBuying is the JSON of what is worth buying; nil when it was not asked.
func answerBuying(b *planner.Buying) *buyAnswer {
	if b == nil {
		return nil
	}
	a := &buyAnswer{Tried: b.Tried, Work: b.Work, Worth: []buyOption{}, Says: append([]string{}, b.Say()...)}
	for _, p := range b.Worth {
		o := buyOption{What: p.What, More: p.More, Value: p.Worth, Ware: map[string]int{}}
		for _, g := range p.Ware {
			o.Ware[g.Ware] = g.Count
		}
		a.Worth = append(a.Worth, o)
	}
	return a
}

// tellBuying prints what is worth buying, where it was asked for.
func (t *terminal) tellBuying(b *planner.Buying) {
	if b == nil {
		return
	}
	for _, s := range b.Say() {
		t.say("%s", s)
	}
}
