package desk

import (
	"errors"
	"time"

	"threepost/layout"
	"threepost/layout/session"
)

// jobCalls are searches done in slices of a few ms, so that the page never
// stands still.
func jobCalls() map[string]call {
	return map[string]call{
		"spread": with(func(d *Desk, a level) (started, error) {
			j, err := d.s.Spread(a.Tower, a.Level)
			return d.begin(j, err, true)
		}),
		"room": with(func(d *Desk, a struct {
			Text string `json:"text"`
			Ware string `json:"ware"`
		}) (started, error) {
			text := a.Text
			if text == "" {
				text = a.Ware
			}
			j, err := d.s.RoomForOne(text)
			return d.begin(j, err, false)
		}),
		"mendall": with(func(d *Desk, _ none) (started, error) {
			return d.begin(d.s.MendAll(), nil, false)
		}),
		"slice": with((*Desk).slice),
		"halt": with(func(d *Desk, _ none) (*session.State, error) {
			d.stopJob()
			return d.s.State(), nil
		}),
	}
}

// jobs is the search that runs; one at a time.
type jobs struct {
	job   *session.Job
	count int
	adopt bool // what it finds is done at once: one edit
	base  int  // the revision it began at
}

// started tells which search runs.
type started struct {
	Job int `json:"job"`
}

// sliced is how far a search has come.
type sliced struct {
	Done     bool           `json:"done"`
	Says     string         `json:"says"`
	Progress float64        `json:"progress"` // 0 to 1
	State    *session.State `json:"state,omitempty"`
	Edits    []layout.Edit  `json:"edits,omitempty"` // found, not done: the person decides
	What     string         `json:"what,omitempty"`
}

func (d *Desk) begin(j *session.Job, err error, adopt bool) (started, error) {
	if err != nil {
		return started{}, err
	}
	d.stopJob()
	d.jobs = jobs{job: j, count: d.jobs.count + 1, adopt: adopt, base: d.s.Revision()}
	return started{d.jobs.count}, nil
}

func (d *Desk) stopJob() {
	if d.jobs.job != nil {
		d.jobs.job.Stop()
		d.jobs.job = nil
	}
}

// Bounds of one slice: units of work between looks at the clock, and ms.
const (
	sliceWork    = 1
	defaultSlice = 5.0
	longestSlice = 200.0
)

// slice runs the search for some ms.
func (d *Desk) slice(a struct {
	MS float64 `json:"ms"`
}) (*sliced, error) {
	j := d.jobs.job
	if j == nil {
		return nil, errors.New("no search runs")
	}
	if d.s.Revision() != d.jobs.base {
		d.stopJob()
		return nil, errors.New("the load was changed meanwhile; ask again")
	}
	ms := a.MS
	if !(ms > 0) {
		ms = defaultSlice
	}
	end := time.Now().Add(time.Duration(min(ms, longestSlice) * float64(time.Millisecond)))
	for !j.Step(sliceWork) && time.Now().Before(end) {
	}
	out := &sliced{Done: j.Done(), Says: d.words.Say(j.Says()), Progress: j.Progress()}
	if !out.Done {
		return out, nil
	}
	d.jobs.job = nil
	out.Edits, out.What = j.Edits(), j.What()
	if len(out.Edits) == 0 {
		out.State = d.s.State()
		return out, nil
	}
	if d.jobs.adopt {
		state, err := d.after(d.s.Apply(out.Edits, out.What))
		if err != nil {
			return nil, err
		}
		out.State, out.Edits = state, nil
	}
	return out, nil
}
