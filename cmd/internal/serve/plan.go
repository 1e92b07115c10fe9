package serve

import (
	"encoding/json"
	"errors"
	"net/http"
	"time"

	"threepost/cmd/internal/search"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/planner"
)

func (s *Server) planRoutes() []route {
	return []route{{"POST /api/plan", s.plan}, {"POST /api/plan/enough", s.enough}, {"POST /api/buy", s.buy}, {"POST /api/firings", s.split}, {"POST /api/next", s.next}}
}

// planAsked is what a plan is asked for.
type planAsked struct {
	Text    string  `json:"text"`
	Seed    uint64  `json:"seed"`
	Work    int64   `json:"work"`
	Seconds float64 `json:"seconds"`
	Waiting bool    `json:"waiting"`
	Run     string  `json:"run"` // a name by which the search can be ended
}

// planLine is a line of the answer.
type planLine struct {
	Set     int          `json:"set"`
	Of      int          `json:"of"`
	Work    int64        `json:"work"`
	Value   float64      `json:"value"`
	Whole   float64      `json:"whole,omitempty"`
	Seed    uint64       `json:"seed"`
	Edit    *layout.Edit `json:"edit,omitempty"`
	Done    bool         `json:"done,omitempty"`
	Refusal string       `json:"refusal,omitempty"`
	Waits   []planWait   `json:"waits,omitempty"`
}

// planWait is a row of ware of which some pots wait.
type planWait struct {
	Ware  string `json:"ware"`
	Count int    `json:"count"`
	Why   string `json:"why"`
	Cure  string `json:"cure,omitempty"`
}

// What a plan may be asked for at most, and how long one takes that names no
// limit.
const (
	mostSeconds  = 3600
	mostWork     = int64(1) << 40
	usualSeconds = 6
	lineEach     = 20000 // work between two lines that tell nothing new
)

// plan streams a plan as it grows: one line of JSON at a time.
func (s *Server) plan(w http.ResponseWriter, r *http.Request) error {
	var ask planAsked
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	switch {
	case !(ask.Seconds >= 0 && ask.Seconds <= mostSeconds):
		return refused(http.StatusBadRequest, "The time of a plan is from 0 to %d seconds.", mostSeconds)
	case ask.Work < 0 || ask.Work > mostWork:
		return refused(http.StatusBadRequest, "The work of a plan is from 0 to %d.", mostWork)
	}
	if ask.Work == 0 && ask.Seconds == 0 {
		ask.Seconds = usualSeconds
	}
	l, err := document.Parse("", []byte(ask.Text))
	if err != nil {
		return refused(http.StatusUnprocessableEntity, "%v", err)
	}
	one, leave, err := s.place(ask.Run)
	if err != nil {
		return err
	}
	defer leave()
	t := &planTeller{out: s.stream(w, "application/x-ndjson; charset=utf-8"), ask: ask}
	return s.search(r, l, t, one)
}

// search runs the searches and tells what comes of them.
func (s *Server) search(r *http.Request, l *layout.Load, t *planTeller, one *run) error {
	end := time.Now().Add(time.Duration(t.ask.Seconds * float64(time.Second)))
	enough := func() bool { return one.ended() || t.ask.Seconds > 0 && !time.Now().Before(end) }
	why, found, err := search.Run(r.Context(), l, search.Wanted{Seed: t.ask.Seed, Work: t.ask.Work, Waiting: t.ask.Waiting}, enough, t.tell)
	fault := (*search.Fault)(nil)
	switch {
	case errors.As(err, &fault):
		s.log.Printf("plan: %v\n%s", fault.What, fault.Stack)
		return t.end("This is a fault of the program, not of your load; the load is as it was.")
	case err != nil:
		return nil // who asked has gone, or the program is ending
	case why != "":
		return t.end(why)
	}
	// What stands beside the plan, and what would let in what waits, take a
	// while to find out: the plan is told before them.
	err = t.beside(r, found)
	switch {
	case r.Context().Err() != nil:
		return nil
	case errors.As(err, &fault):
		s.log.Printf("plan: %v\n%s", fault.What, fault.Stack)
		return nil // the plan stands
	case err != nil:
		s.log.Printf("plan: %v", err)
		return nil
	}
	if len(t.plan.Waits) > 0 {
		found.Explain(t.plan)
		last := t.last
		last.Edit, last.Waits = nil, waitsOf(t.plan)
		if err := t.say(last); err != nil {
			return nil // who asked has gone
		}
	}
	if err := t.wishes(r); err != nil && r.Context().Err() == nil {
		s.log.Printf("plan, wishes: %v", err)
	}
	return nil
}

// planTeller makes lines of reports.
type planTeller struct {
	out  *stream
	ask  planAsked
	plan *planner.Plan
	last planLine
}

// tell is one report of the searches as a line; those that tell nothing new
// are counted by work, so that the same plan gives the same lines.
func (t *planTeller) tell(now search.Report) error {
	line := planLine{Set: now.Set, Of: now.Of, Work: now.Work, Value: t.last.Value, Whole: t.last.Whole, Seed: t.ask.Seed, Done: now.Done}
	if now.Plan != nil {
		t.plan = now.Plan
		line.Value, line.Whole = now.Plan.Value, now.Plan.Whole
		if now.Better {
			line.Edit = &layout.Edit{Act: layout.Arrange, Towers: now.Plan.Load.Towers}
		}
	}
	if now.Done && now.Plan == nil {
		return nil // the refusal ends it
	}
	if now.Done {
		line.Waits = waitsOf(now.Plan)
	}
	if line.Edit == nil && !now.Done && t.out.begun && now.Work-t.last.Work < lineEach {
		return nil
	}
	return t.say(line)
}

func (t *planTeller) say(line planLine) error {
	t.last = line
	data, err := json.Marshal(line)
	if err != nil {
		return err
	}
	return t.out.say(string(data) + "\n")
}

// end says why there is no plan.
func (t *planTeller) end(why string) error {
	line := t.last
	line.Edit, line.Refusal, line.Done = nil, why, true
	line.Seed = t.ask.Seed
	return t.say(line)
}

func waitsOf(p *planner.Plan) []planWait {
	var out []planWait
	for _, w := range p.Waits {
		out = append(out, planWait{w.Ware, w.Count, w.Reason, w.LetIn})
	}
	return out
}
