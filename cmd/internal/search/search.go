package search

import (
	"context"
	"runtime/debug"
	"sync"

	"threepost/layout"
	"threepost/layout/planner"
)

// Searches is how many run beside each other, whatever the cores.
const Searches = 2

// slice is the work of each search between two looks at the others, the
// context and the person.
const slice = 2500

// between is the work of all searches between two reports of a better plan;
// drawing a plan's pots apart costs as much as many rounds of search.
const between = 30000

// Wanted is what a plan is asked for.
type Wanted struct {
	Seed    uint64
	Work    int64 // of all searches together, rounded up to whole slices; 0: until nothing more is gained
	Waiting bool  // only what waits; all that stands stays
}

// Report is how far the searches are.
type Report struct {
	Set, Of int
	Work    int64
	Plan    *planner.Plan // when it is better than in the report before, and at the end
	Better  bool          // the plan is better than the one told before
	Done    bool          // the searches have ended; the plan stands
}

// Fault is a failure of the program in one of the searches.
type Fault struct {
	What  any
	Stack []byte
}

func (f *Fault) Error() string { return "a search failed" }

// Run plans a load and reports on the way, the last report with Done. It ends
// when the work is done, when nothing more is gained, when enough says so
// between two slices, or when the context ends, then with its error. refused
// tells why there is no plan. What is to be told beside the plan is asked of
// the second result.
func Run(ctx context.Context, l *layout.Load, want Wanted, enough func() bool, report func(Report) error) (refused string, found *Found, err error) {
	r := runner{want: want}
	for i := range Searches {
		start := planner.Start
		if want.Waiting {
			start = planner.StartWaiting
		}
		s, err := start(l, seedOf(want.Seed, i))
		if err != nil {
			return err.Error(), nil, nil
		}
		r.searches = append(r.searches, s)
	}
	for {
		if err := ctx.Err(); err != nil {
			return "", nil, err
		}
		done, err := r.step()
		if err != nil {
			return "", nil, err
		}
		done = done || want.Work > 0 && r.work >= want.Work || enough != nil && enough()
		if err := r.tell(done, report); err != nil {
			return "", nil, err
		}
		if done {
			break
		}
	}
	if r.best == (planner.Standing{}) {
		return r.refused(), nil, nil
	}
	return "", &Found{searches: r.searches, lead: r.lead}, nil
}

// seedOf is the seed of a search: the first has the one that was asked for,
// the others are far from it. The step is 2^64 over the golden ratio, made odd
// (Steele, Lea and Flood 2014, "Fast splittable pseudorandom number
// generators").
func seedOf(seed uint64, i int) uint64 { return seed + uint64(i)*0x9E3779B97F4A7C15 }

// runner is the searches of one plan.
type runner struct {
	want     Wanted
	searches []*planner.Search
	done     [Searches]bool
	work     int64 // that they were allowed so far
	best     planner.Standing
	lead     int // the search that has it
	told     planner.Standing
	toldAt   int64
}

// step gives every search its slice and waits for all of them.
func (r *runner) step() (done bool, err error) {
	each := int64(slice)
	if r.want.Work > 0 {
		each = min(each, (r.want.Work-r.work+Searches-1)/Searches)
	}
	var faults [Searches]error
	var all sync.WaitGroup
	for i, s := range r.searches {
		if r.done[i] {
			continue
		}
		all.Add(1)
		go func() {
			defer all.Done()
			defer func() {
				if what := recover(); what != nil {
					faults[i] = &Fault{what, debug.Stack()}
				}
			}()
			r.done[i] = s.Step(each)
		}()
	}
	all.Wait()
	r.work += each * Searches
	done = true
	for i, s := range r.searches {
		if faults[i] != nil {
			return false, faults[i]
		}
		if now := s.Standing(); now.Beats(r.best) {
			r.best, r.lead = now, i
		}
		done = done && r.done[i]
	}
	// Where all is set and the search has found nothing leaner, the others can
	// only save furniture.
	return done || r.done[r.lead] && r.searches[r.lead].AllSet(), nil
}

// tell reports progress, and a better plan where there is one: the first at
// once, later ones not too often, and the last in any case.
func (r *runner) tell(done bool, report func(Report) error) error {
	_, of, _ := r.searches[r.lead].Progress()
	now := Report{Of: of, Work: r.work, Done: done}
	if r.best != (planner.Standing{}) {
		now.Set, _, _ = r.searches[r.lead].Progress()
		first := r.told == (planner.Standing{})
		if r.best != r.told && (first || done || r.work-r.toldAt >= between) || done {
			now.Plan, _ = r.searches[r.lead].Best()
			now.Plan.Seed, now.Plan.Work = r.want.Seed, r.work
			now.Better = r.best != r.told
			r.told, r.toldAt = r.best, r.work
		}
	}
	return report(now)
}

// refused is why there is no plan.
func (r *runner) refused() string {
	for _, s := range r.searches {
		if why := s.Refused(); why != "" {
			return why
		}
	}
	return "No plan was found with this work. Give it more time."
}
