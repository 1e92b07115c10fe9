package session

import (
	"threepost/layout"
	"threepost/layout/edit"
)

// mending is the mends of one revision's findings, as far as they are worked
// out.
type mending struct {
	mender *edit.Mender
	known  map[string][]layout.Mend
	job    *Job // that works on them now
}

// knownMends are the mends of a finding if they are worked out already.
func (s *Session) knownMends(key string) []layout.Mend {
	if s.seen.mender == nil {
		return nil
	}
	return s.seen.mender.known[key]
}

func (s *Session) mending() *mending {
	b, _ := s.Built()
	if b == nil {
		return nil
	}
	if s.seen.mender == nil {
		s.seen.mender = &mending{mender: edit.NewMender(b, s.Checker(), s.Report()), known: map[string][]layout.Mend{}}
	}
	return s.seen.mender
}

// dropMends ends the work on mends of a load that is going to change.
func (s *Session) dropMends() {
	if m := s.seen.mender; m != nil && m.job != nil {
		m.job.Stop()
	}
}

// Mends are the ways out of a finding, each applied and checked; worked out
// once a revision. It costs up to sixty checks: MendAll does the same in
// slices.
func (s *Session) Mends(finding string) []layout.Mend {
	m := s.mending()
	if m == nil {
		return nil
	}
	if mends, ok := m.known[finding]; ok {
		return mends
	}
	r := s.Report()
	f := r.Find(finding)
	if f == nil {
		return nil
	}
	m.known[finding] = m.mender.Mends(*f, nil)
	s.seen.state = nil
	return m.known[finding]
}

// MendAll is the job of working out the mends of all findings, gravest first.
// After each slice State has those that are known by then. Its work is counted
// in edits tried, each about one check of the load.
func (s *Session) MendAll() *Job {
	m := s.mending()
	if m == nil {
		return finished("")
	}
	if m.job != nil {
		m.job.Stop()
	}
	r := s.Report()
	m.job = newJob(func(w *worker) {
		for i := range r.Findings {
			f := r.Findings[i]
			if _, known := m.known[f.Key]; known || f.Grade == layout.Note || f.Accepted != "" {
				continue
			}
			mends := m.mender.Mends(f, func() bool { return w.pause(1) })
			if w.stopped {
				return
			}
			m.known[f.Key] = mends
			if s.seen.mender == m {
				s.seen.state = nil
			}
			w.progress = float64(i+1) / float64(len(r.Findings))
		}
	})
	return m.job
}

// Accept lets a watch stand with a reason.
func (s *Session) Accept(finding, reason string) (*State, error) {
	return s.Apply([]layout.Edit{{Act: layout.Accept, Finding: finding, Reason: reason}}, "")
}
