package main

import (
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// heightAnswer is why a storey has its height.
type heightAnswer struct {
	Under  []string `json:"under"`          // levels; none: the floor
	Over   string   `json:"over,omitempty"` // the level above; nothing: the lid
	Posts  string   `json:"posts,omitempty"`
	Height float64  `json:"height_mm"`
	Ware   string   `json:"ware,omitempty"` // that asks for it
	Tall   float64  `json:"tall_mm,omitempty"`
	Need   float64  `json:"need_mm,omitempty"`
	Cause  string   `json:"cause"`
	Lower  float64  `json:"lower_mm,omitempty"` // that the cause is about
	Says   string   `json:"says"`
	Order  string   `json:"order,omitempty"` // what a probe or a spyhole decided
}

// answerWhy is the JSON of why the levels of a plan have their heights.
func answerWhy(b *stacks.Built, reasons []planner.Reason) []heightAnswer {
	var out []heightAnswer
	for _, r := range reasons {
		a := heightAnswer{Under: []string{}, Posts: stacks.SayPosts(r.Posts, b.Load.Units), Height: r.Height, Tall: r.Tall, Need: r.Need,
			Cause: string(r.Cause), Lower: r.Lower, Says: r.Say(b, b.Load.Units), Order: r.SayOrder(b, b.Load.Units)}
		for _, v := range r.Under {
			a.Under = append(a.Under, b.Levels[v].Name)
		}
		if r.Over >= 0 {
			a.Over = b.Levels[r.Over].Name
		}
		if r.Pot >= 0 {
			a.Ware = b.Pots[r.Pot].Pot.Ware
		}
		out = append(out, a)
	}
	return out
}

// tellWhy prints why the levels have their heights, from the top down as the
// levels are; what decided a tower's order once.
func (t *terminal) tellWhy(b *stacks.Built, reasons []planner.Reason) {
	told := map[string]bool{}
	for v := len(b.Levels) - 1; v >= -1; v-- {
		for _, r := range reasons {
			if len(r.Under) == 0 && v >= 0 || len(r.Under) > 0 && r.Under[len(r.Under)-1] != v {
				continue
			}
			t.say("why       %s", hang(r.Say(b, b.Load.Units), 10))
			if o := r.SayOrder(b, b.Load.Units); o != "" && !told[o] {
				told[o] = true
				t.say("          %s", hang(o, 10))
			}
		}
	}
}
