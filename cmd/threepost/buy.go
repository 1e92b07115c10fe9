package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"

	"threepost/layout"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
)

// buyAnswer is what furniture was tried and what of it sets more.
type buyAnswer struct {
	Tried int         `json:"tried"`
	Of    int         `json:"of"` // more than was tried when it was stopped
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
	a := &buyAnswer{Tried: b.Tried, Of: b.Of, Work: b.Work, Worth: []buyOption{}, Says: append([]string{}, b.Say()...)}
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

// buying plans with a few purchases, until a person stops it: then what was
// found so far is told. A Ctrl-C that ended the plan's own search has not
// stopped this.
func (t *terminal) buying(ctx context.Context, l *layout.Load, p *planner.Plan) (*planner.Buying, error) {
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt)
	defer stop()
	y, err := planner.StartBuying(l, p, planner.BuyWork)
	if err != nil {
		return nil, err
	}
	bar := newProgress(t.errs)
	defer bar.done()
	for done := false; !done && ctx.Err() == nil; {
		if done, err = y.Step(slice); err != nil {
			return nil, err
		}
		now := y.Now()
		bar.show(float64(now.Tried)/float64(max(now.Of, 1)), fmt.Sprintf("%d of %s planned with", now.Tried, silhouette.Counted(now.Of, "purchase")))
	}
	out := y.Now()
	return &out, nil
}
