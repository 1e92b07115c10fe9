package serve

import (
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/firings"
	"threepost/layout/silhouette"
)

// splitAsked is a waiting list that is to be split into firings.
type splitAsked struct {
	Text string `json:"text"`
	Seed uint64 `json:"seed"`
	Run  string `json:"run"` // a name by which it can be ended
}

// splitLine is a line of the answer: how far it is, and at the end the split or
// why there is none.
type splitLine struct {
	Firings int        `json:"firings"`
	Set     int        `json:"set"`
	Of      int        `json:"of"`
	Done    bool       `json:"done,omitempty"`
	Split   *splitTold `json:"split,omitempty"`
	Refusal string     `json:"refusal,omitempty"`
}

// splitTold is a split in words.
type splitTold struct {
	Says    string       `json:"says"`
	Firings []firingTold `json:"firings"`
	Waits   []string     `json:"waits"`
	AtLeast string       `json:"at_least,omitempty"`
	Notes   []string     `json:"notes"`
}

// firingTold is one firing in words, with the load that it is.
type firingTold struct {
	Title    string  `json:"title"`
	Fires    string  `json:"fires"` // "glaze cone 6 (1222 C)"
	Says     string  `json:"says"`  // "45 pots on 6 levels"
	Ware     string  `json:"ware"`
	Why      string  `json:"why"`
	Fill     float64 `json:"fill"` // share of such ware that the kiln holds
	Problems int     `json:"problems"`
	Watches  int     `json:"watches"`
	Text     string  `json:"text"`
}

// split streams the split of a load's ware into firings of its kiln. It ends
// without one when /api/plan/enough names its run, or who asked has gone.
// Nothing is written: the page makes loads of the firings as of any text.
func (s *Server) split(w http.ResponseWriter, r *http.Request) error {
	var ask splitAsked
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	l, err := document.Parse("", []byte(ask.Text))
	if err != nil {
		return refusal{http.StatusUnprocessableEntity, err.Error(), nil}
	}
	if len(l.Ware) == 0 {
		return refused(http.StatusConflict, "The table is empty: there is nothing to split into firings.")
	}
	one, leave, err := s.place(ask.Run)
	if err != nil {
		return err
	}
	defer leave()
	out := s.stream(w, "application/x-ndjson; charset=utf-8")
	last := splitLine{Firings: -1}
	say := func(line splitLine) bool {
		data, err := json.Marshal(line)
		return err == nil && out.say(string(data)+"\n") == nil
	}
	tell := func(p firings.Progress) bool {
		now := splitLine{Firings: p.Firings, Set: p.Set, Of: p.Of}
		if now != last && !say(now) {
			return false
		}
		last = now
		return r.Context().Err() == nil && !one.ended()
	}
	name := l.Kiln.Name
	if name == "" {
		name = "the kiln"
	}
	answer, err := firings.Split(firings.Studio{Kilns: []firings.Kiln{{Name: name, Load: l}}}, firings.Asked{Seed: max(ask.Seed, 1), Tell: tell})
	last.Done, last.Firings = true, max(last.Firings, 0)
	switch {
	case errors.Is(err, firings.Stopped{}):
		last.Refusal = err.Error()
	case err != nil:
		last.Refusal = strings.ToUpper(err.Error()[:1]) + err.Error()[1:] + "."
	default:
		if last.Split, err = tellSplit(answer, ask.Text); err != nil {
			s.log.Printf("split: %v", err)
			last.Refusal = "This is a fault of the program, not of your load; the load is as it was."
		}
	}
	say(last)
	return nil
}

// tellSplit puts a split into words; text is the load that was split.
func tellSplit(a *firings.Answer, text string) (*splitTold, error) {
	told := &splitTold{Firings: []firingTold{}, Waits: []string{}, Notes: append([]string{}, a.Notes...),
		Says: silhouette.Counted(a.Of, "pot") + " in " + silhouette.Counted(len(a.Firings), "firing") + "."}
	if a.Set < a.Of {
		told.Says = strconv.Itoa(a.Set) + " of " + silhouette.Counted(a.Of, "pot") + " in " + silhouette.Counted(len(a.Firings), "firing") + "."
	}
	for _, g := range a.Firings {
		load, err := document.Gather(g.Load, document.Source{Text: []byte(text)})
		if err != nil {
			return nil, err
		}
		var ware []string
		for _, row := range g.Load.Ware {
			ware = append(ware, silhouette.Counted(row.Count, row.Name))
		}
		told.Firings = append(told.Firings, firingTold{
			Title: g.Load.Title, Fires: firings.SayFiring(g.Load.Firing, g.Load.Units),
			Says: silhouette.Counted(g.Set, "pot") + " on " + silhouette.Counted(levelsOf(g.Load), "level"),
			Ware: strings.Join(ware, ", "), Why: strings.Join(g.Why, " "), Fill: g.Fill,
			Problems: g.Report.Problems, Watches: g.Report.Watches, Text: string(load)})
	}
	for _, rest := range a.Rest {
		told.Waits = append(told.Waits, silhouette.Counted(rest.Ware.Count, rest.Ware.Name)+". "+rest.Reason)
	}
	if a.AtLeast > 0 {
		told.AtLeast = "At least " + silhouette.Counted(a.AtLeast, "firing") + ": " + a.Because + "."
	}
	return told, nil
}

// levelsOf counts the levels of a load.
func levelsOf(l *layout.Load) int {
	n := 0
	for i := range l.Towers {
		n += len(l.Towers[i].Levels)
	}
	return n
}
