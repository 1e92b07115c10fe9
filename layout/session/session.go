package session

import (
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

// Session is one open load and everything a person has in hand while working
// on it. It is a machine of values: every call either does what it says and
// answers, or answers with a sentence and has changed nothing. It is not for
// use by several goroutines at once.
type Session struct {
	name  string
	text  []byte // as it was opened; its comments are kept
	words measure.Words

	now      *layout.Load // never changed in place
	past     []moment     // what undo goes back to, oldest first
	future   []moment     // what redo goes on to, nearest last
	revision int

	seen   seen // what was worked out for the load as it is now
	held   *held
	lift   *lift
	form   *form
	offer  *offered
	ways   *ways   // plans to choose from
	bought *buying // what is worth buying next
	waits  *waiting
}

// seen is what is worked out for one revision, once it is asked for.
type seen struct {
	built   *stacks.Built
	refused string
	checker *clearance.Checker
	report  *clearance.Report
	order   *order.Order
	state   *State
	mender  *mending
}

// Open reads a load document. The error is document.Complaints: all that
// cannot be read, with lines. A load that can be read but not built opens; its
// State says why in Refused.
func Open(text, name string) (*Session, error) {
	l, err := document.Parse(name, []byte(text))
	if err != nil {
		return nil, err
	}
	return &Session{name: name, text: []byte(text), now: l}, nil
}

// Load is the load as it is now. It must not be changed.
func (s *Session) Load() *layout.Load { return s.now }

// Revision counts edits, undos and redos.
func (s *Session) Revision() int { return s.revision }

// Name is what the load was opened as.
func (s *Session) Name() string { return s.name }

// Text is the load as a document, with the comments of the text that was
// opened. The error is document.Complaints, of a load that no document can say.
func (s *Session) Text() (string, error) {
	out, err := document.Update(s.text, s.now)
	return string(out), err
}

// Built is the load as solids, or nil when it cannot be built; then the second
// answer says why. It must not be changed.
func (s *Session) Built() (*stacks.Built, string) {
	if s.seen.built == nil && s.seen.refused == "" {
		b, err := stacks.Build(s.now)
		if err != nil {
			s.seen.refused = err.Error()
		} else {
			s.seen.built = b
		}
	}
	return s.seen.built, s.seen.refused
}

// Checker judges the load as it is now; nil when it cannot be built.
func (s *Session) Checker() *clearance.Checker {
	if b, _ := s.Built(); s.seen.checker == nil && b != nil {
		s.seen.checker = clearance.New(b)
	}
	return s.seen.checker
}

// Report is the check of the load as it is now; empty when it cannot be built.
func (s *Session) Report() clearance.Report {
	if s.seen.report == nil {
		s.seen.report = &clearance.Report{}
		if c := s.Checker(); c != nil {
			*s.seen.report = c.Check()
		}
	}
	return *s.seen.report
}

// Order is the order of setting of the load as it is now; nil when it cannot
// be built.
func (s *Session) Order() *order.Order {
	if b, _ := s.Built(); s.seen.order == nil && b != nil {
		s.seen.order, _ = order.Of(b)
	}
	return s.seen.order
}

// say puts a sentence in US words into the person's.
func (s *Session) say(text string) string { return s.words.Say(text) }
