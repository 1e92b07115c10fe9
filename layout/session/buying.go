package session

import (
	"threepost/layout"
	"threepost/layout/document"
)

// Bought is what is worth buying next, as it was worked out for the load.
type Bought struct {
	Says  []string `json:"says"`  // a sentence each, the best first
	Stale bool     `json:"stale"` // it was for the load as it was
}

// buying is an answer and the load that it was for.
type buying struct {
	asked *layout.Load
	says  []string
}

// LayBuying puts beside the load what is worth buying, as sentences in the
// load's units, worked out for the load of a text. The load is not changed. It
// refuses a text that cannot be read.
func (s *Session) LayBuying(text string, says []string) (*State, error) {
	asked, err := document.Parse(s.name, []byte(text))
	if err != nil {
		return nil, err
	}
	s.bought, s.seen.state = &buying{asked, append([]string{}, says...)}, nil
	return s.State(), nil
}

// tellBought tells it; nil where it was not asked. It holds as long as the load
// asks for the same, stands as it stood, and is told in the same units.
func (s *Session) tellBought() *Bought {
	y := s.bought
	if y == nil || len(y.says) == 0 {
		return nil
	}
	out := &Bought{Says: []string{}}
	out.Stale = y.asked.Units != s.now.Units || !sameAsked(y.asked, s.now) || !sameTowers(y.asked.Towers, s.now.Towers)
	for _, text := range y.says {
		out.Says = append(out.Says, s.say(text))
	}
	return out
}
