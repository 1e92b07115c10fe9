package serve

import (
	"encoding/json"
	"net/http"
	"slices"

	"threepost/cmd/internal/search"
	"threepost/layout/planner"
	"threepost/layout/session"
)

// beside tells what stands beside a plan once it is made, a line for each: what
// nobody can exceed, the plans that differ, the price of closer gaps. Where only
// what waits was planned, shelves and posts stay, and there is only the price.
// It ends between two lines when who asked has gone.
func (t *planTeller) beside(r *http.Request, found *search.Found) error {
	steps := []func() (*session.Laid, error){
		func() (*session.Laid, error) {
			b, err := planner.Bound(t.plan.Load)
			if err != nil {
				return nil, err
			}
			return &session.Laid{Bound: session.LayBound(b, planner.SayBound(b, t.plan))}, nil
		},
		func() (*session.Laid, error) {
			plans, err := found.Plans(r.Context(), t.plan)
			if err != nil {
				return nil, err
			}
			return &session.Laid{Plans: session.LayPlans(t.plan, plans)}, nil
		},
	}
	if t.ask.Waiting {
		steps = nil
	}
	steps = append(steps, func() (*session.Laid, error) {
		price, err := planner.Closer(t.plan)
		if err != nil {
			return nil, err
		}
		return &session.Laid{Price: session.LayPrice(price, t.plan.Load)}, nil
	})
	return t.lay(r, steps...)
}

// wishes tells what each wish costs the plan. Where only what waits was planned,
// all that stands stays, whatever is wished.
func (t *planTeller) wishes(r *http.Request) error {
	if t.ask.Waiting {
		return nil
	}
	return t.lay(r, func() (*session.Laid, error) {
		told := *t.plan
		told.Wishes = slices.Clone(told.Wishes)
		err := planner.CostWishes(&told, func() bool { return r.Context().Err() == nil })
		return &session.Laid{Wishes: session.LayWishes(told.Wishes)}, err
	})
}

// lay tells what each step finds, a line for each; it ends between two when who
// asked has gone.
func (t *planTeller) lay(r *http.Request, steps ...func() (*session.Laid, error)) error {
	for _, step := range steps {
		if err := r.Context().Err(); err != nil {
			return err
		}
		l, err := step()
		if err != nil {
			return err
		}
		data, err := json.Marshal(l)
		if err != nil {
			return err
		}
		if string(data) == "{}" {
			continue
		}
		if err := t.out.say(string(data) + "\n"); err != nil {
			return err
		}
	}
	return nil
}
