package serve

import (
	"encoding/json"
	"net/http"
	"slices"
	"sync"

	"threepost/cmd/internal/search"
	"threepost/layout/planner"
	"threepost/layout/session"
)

// runs are the plans that are being made, by the name that the page gave them,
// so that the page can end a search and keep what it has.
type runs struct {
	mu    sync.Mutex
	named map[string]*run
}

// run is one plan being made.
type run struct{ enough chan struct{} }

// longestRun is how long a run's name may be, bytes.
const longestRun = 64

// begin enters a run; a run without a name cannot be ended but by closing its
// request. The second answer takes it out again.
func (r *runs) begin(name string) (*run, func()) {
	one := &run{enough: make(chan struct{})}
	if name == "" {
		return one, func() {}
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.named == nil {
		r.named = map[string]*run{}
	}
	r.named[name] = one
	return one, func() {
		r.mu.Lock()
		defer r.mu.Unlock()
		if r.named[name] == one {
			delete(r.named, name)
		}
	}
}

// end says that a run's plan is good enough.
func (r *runs) end(name string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	one, there := r.named[name]
	if there {
		delete(r.named, name)
		close(one.enough)
	}
	return there
}

func (r *run) ended() bool {
	select {
	case <-r.enough:
		return true
	default:
		return false
	}
}

// enough ends the search of a plan; what it has is kept and told.
func (s *Server) enough(w http.ResponseWriter, r *http.Request) error {
	var ask struct {
		Run string `json:"run"`
	}
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	if !s.runs.end(ask.Run) {
		return refused(http.StatusNotFound, "No plan of that name is being made.")
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

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
	}, func() (*session.Laid, error) {
		if t.ask.Waiting { // all that stands stays, whatever is wished
			return &session.Laid{}, nil
		}
		told := *t.plan
		told.Wishes = slices.Clone(told.Wishes)
		err := planner.CostWishes(&told, func() bool { return r.Context().Err() == nil })
		return &session.Laid{Wishes: session.LayWishes(told.Wishes)}, err
	})
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
