package search

import (
	"context"
	"runtime/debug"
	"sync"

	"threepost/layout/planner"
)

// Found is what searches that have ended know beside their plan.
type Found struct {
	searches []*planner.Search
	lead     int
}

// Explain adds to the plan what would let in what waits.
func (f *Found) Explain(p *planner.Plan) { f.searches[f.lead].Explain(p) }

// Plans are up to three plans that differ, the best first; p, which was told,
// is among them. The searches work beside each other, each for a second or so:
// once the context has ended, none of them begins.
func (f *Found) Plans(ctx context.Context, p *planner.Plan) ([]*planner.Plan, error) {
	lists := make([][]*planner.Plan, len(f.searches))
	faults := make([]error, len(f.searches))
	var all sync.WaitGroup
	for i, s := range f.searches {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		all.Add(1)
		go func() {
			defer all.Done()
			defer func() {
				if what := recover(); what != nil {
					faults[i] = &Fault{what, debug.Stack()}
				}
			}()
			lists[i] = s.Plans()
		}()
	}
	all.Wait()
	var others []*planner.Plan
	for i, l := range lists {
		if faults[i] != nil {
			return nil, faults[i]
		}
		others = append(others, l...)
	}
	return planner.Merge(p, others...), nil
}
