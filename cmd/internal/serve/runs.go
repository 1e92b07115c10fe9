package serve

import (
	"net/http"
	"sync"
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

// place gives a run one of the places for work that lasts, and enters it by its
// name; leave gives the place back. It refuses a name that is too long, and
// where no place is free.
func (s *Server) place(name string) (one *run, leave func(), err error) {
	if len(name) > longestRun {
		return nil, nil, refused(http.StatusBadRequest, "The name of a run has %d letters at most.", longestRun)
	}
	select {
	case s.plans <- struct{}{}:
	default:
		return nil, nil, refused(http.StatusTooManyRequests, "The program is at work on %d things already. Stop one of them, or wait.", s.limits.Plans)
	}
	one, out := s.runs.begin(name)
	return one, func() { out(); <-s.plans }, nil
}
