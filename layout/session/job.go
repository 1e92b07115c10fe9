package session

import (
	"iter"

	"threepost/layout"
)

// Job is work done in slices. It knows no clock: each step does about so many
// units of work and returns. Its bytes depend on the load alone, never on how
// it is sliced.
type Job struct {
	next  func() (int64, bool)
	stop  func()
	w     *worker
	done  bool
	spent int64
}

// worker is the inside of a job: what it tells and where it pauses.
type worker struct {
	yield    func(int64) bool
	stopped  bool
	progress float64
	says     string
	edits    []layout.Edit
	what     string // the name of the edits, for undo
}

// newJob is a job that runs work; work calls pause now and then and returns
// when that is false.
func newJob(work func(*worker)) *Job {
	j := &Job{w: &worker{}}
	j.next, j.stop = iter.Pull(func(yield func(int64) bool) {
		j.w.yield = yield
		work(j.w)
	})
	return j
}

// finished is a job that has nothing to do.
func finished(says string) *Job { return &Job{w: &worker{says: says, progress: 1}, done: true} }

// pause hands the slice back after so many units of work; false when the job
// was stopped.
func (w *worker) pause(units int64) bool {
	if w.stopped || !w.yield(units) {
		w.stopped = true
		return false
	}
	return true
}

// Step does about that many units of work more; true when the job is done.
func (j *Job) Step(work int64) bool {
	for work > 0 && !j.done {
		units, more := j.next()
		if !more {
			j.done = true
			j.w.progress = 1
			break
		}
		j.spent += units
		work -= max(units, 1)
	}
	return j.done
}

// Stop ends a job early; what it had found by then is left out.
func (j *Job) Stop() {
	if !j.done {
		j.done = true
		j.w.edits = nil
		j.stop()
	}
}

// Done is whether the job is done.
func (j *Job) Done() bool { return j.done }

// Says tells what came of it, or what it does.
func (j *Job) Says() string { return j.w.says }

// Progress is how far it is, 0 to 1.
func (j *Job) Progress() float64 { return j.w.progress }

// Edits are what it found to do, checked; none when there is nothing to do.
func (j *Job) Edits() []layout.Edit {
	if !j.done {
		return nil
	}
	return j.w.edits
}

// What names the edits, for undo.
func (j *Job) What() string { return j.w.what }
