package serve

import (
	"encoding/json"
	"net/http"

	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// buyAsked is what is asked about furniture worth buying.
type buyAsked struct {
	Text string `json:"text"`
	Seed uint64 `json:"seed"`
	Run  string `json:"run"` // a name by which it can be ended
}

// buyLine is a line of the answer: how far it is, and at the end what it says.
type buyLine struct {
	Tried   int      `json:"tried"`
	Of      int      `json:"of"`
	Done    bool     `json:"done,omitempty"`
	Says    []string `json:"says,omitempty"`
	Refusal string   `json:"refusal,omitempty"`
}

// buySlice is the work between two looks at the person.
const buySlice = 2500

// buy streams what furniture would set more than the load as it stands: a line
// for each purchase that was planned with. It ends early, with what was found,
// when /api/plan/enough names its run, and without an answer when who asked has
// gone. Nothing is written.
func (s *Server) buy(w http.ResponseWriter, r *http.Request) error {
	var ask buyAsked
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	y, err := buyerOf(ask)
	if err != nil {
		return refused(http.StatusUnprocessableEntity, "%v", err)
	}
	one, leave, err := s.place(ask.Run)
	if err != nil {
		return err
	}
	defer leave()
	out := s.stream(w, "application/x-ndjson; charset=utf-8")
	told := -1
	for {
		done, err := y.Step(buySlice)
		if err != nil {
			s.log.Printf("buy: %v", err)
			done = true
		}
		now := y.Now()
		line := buyLine{Tried: now.Tried, Of: now.Of, Done: done || one.ended()}
		switch {
		case err != nil:
			line.Refusal = "This is a fault of the program, not of your load; the load is as it was."
		case line.Done:
			line.Says = now.Say()
		}
		if line.Done || now.Tried != told {
			told = now.Tried
			data, err := json.Marshal(line)
			if err != nil {
				return err
			}
			if err := out.say(string(data) + "\n"); err != nil {
				return nil // who asked has gone
			}
		}
		if line.Done || r.Context().Err() != nil {
			return nil
		}
	}
}

// buyerOf begins with a load as it stands.
func buyerOf(ask buyAsked) (*planner.Buyer, error) {
	l, err := document.Parse("", []byte(ask.Text))
	if err != nil {
		return nil, err
	}
	b, err := stacks.Build(l)
	if err != nil {
		return nil, err
	}
	given, err := planner.Given(l, clearance.Check(b))
	if err != nil {
		return nil, err
	}
	given.Seed = max(ask.Seed, 1)
	return planner.StartBuying(l, given, planner.BuyWork)
}
