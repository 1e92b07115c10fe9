package session

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"threepost/layout"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/layout/warelist"
)

// jobSeed starts the random streams of searches in the page: the same question
// has the same answer.
const jobSeed = 1

// expected is how many pauses a search has about, for its progress.
const expected = 400

// slices is a pause that counts toward a job's progress.
func (w *worker) slices() func() bool {
	n := 0.0
	return func() bool {
		n++
		w.progress = n / (n + expected)
		return w.pause(1)
	}
}

// Spread is the job of drawing a level's pots (from 1) evenly apart. Its work
// is counted in hops of the search.
func (s *Session) Spread(tower string, level int) (*Job, error) {
	b, refused := s.Built()
	if b == nil {
		return nil, errors.New(refused)
	}
	v := s.levelIndex(tower, level)
	if v < 0 {
		return nil, fmt.Errorf("there is no level %d of %q", level, tower)
	}
	l, name := s.now, s.Checker().LevelName(v)
	return newJob(func(w *worker) {
		edits, err := planner.Spread(l, tower, level, jobSeed, w.slices())
		switch {
		case w.stopped:
			return
		case err != nil:
			w.says = s.say(capital(err.Error()) + ".")
			return
		case len(edits) == 0:
			w.says = s.say(capital(name) + " stays as it is: nothing stands better drawn apart.")
			return
		}
		w.edits, w.what = edits, "spread "+name
		w.says = s.say(fmt.Sprintf("%s of %s %s.", silhouette.Counted(len(edits), "pot"), name, onOff(len(edits) == 1, "moves", "move")) + s.gapsSaid(l, v, edits))
	}), nil
}

// gapsSaid tells how the least gap between the pots of a level grows: " At
// least 9 mm between pots, was 6."
func (s *Session) gapsSaid(l *layout.Load, level int, edits []layout.Edit) string {
	if l != s.now {
		return ""
	}
	after, _, ok := s.checked(edits)
	if !ok {
		return ""
	}
	was, is := leastGap(s.seen.built, level), leastGap(after, level)
	if math.IsInf(was, 0) || is < was {
		return ""
	}
	return " At least " + s.downUnit(is) + " between pots, was " + s.down(was) + "."
}

// leastGap is the least plan distance of the bounding circles of two pots of a
// level, mm: a figure that only serves to tell before from after.
func leastGap(b *stacks.Built, level int) float64 {
	least := math.Inf(1)
	pots := b.Levels[level].Pots
	for i, p := range pots {
		for _, q := range pots[i+1:] {
			a, c := &b.Pots[p].Solid, &b.Pots[q].Solid
			for x := range a.Body.Parts {
				for y := range c.Body.Parts {
					least = math.Min(least, a.Skeleton(x).Distance(c.Skeleton(y))-a.Body.Parts[x].Profile.Max()-c.Body.Parts[y].Profile.Max())
				}
			}
		}
	}
	return least
}

// RoomForOne is the job of finding a place for one more pot: the next of a row
// that waits, one more of a row that is all set, or one of a size in the short
// form, "110 x 95". What is locked is not moved.
func (s *Session) RoomForOne(text string) (*Job, error) {
	b, refused := s.Built()
	switch {
	case b == nil:
		return nil, errors.New(refused)
	case len(b.Levels) == 0:
		return nil, errors.New("no level stands yet; plan the load first")
	}
	l := s.now
	w, waits, err := s.onePot(strings.TrimSpace(text))
	if err != nil {
		return nil, err
	}
	return newJob(func(k *worker) { s.findRoom(k, l, w, waits) }), nil
}

// onePot is the row a question for room is about, and the pot of it that
// waits, if one does.
func (s *Session) onePot(text string) (layout.Ware, string, error) {
	if p, err := s.now.Find(text); err == nil && s.now.WareOf(p) != nil {
		w := *s.now.WareOf(p)
		if !s.stands(text) {
			return w, p.String(), nil
		}
		return w, "", nil
	}
	if row := s.now.WareOf(layout.Pot{Ware: text}); row != nil {
		for _, p := range row.Pots() {
			if !s.stands(p.String()) {
				return *row, p.String(), nil
			}
		}
		return *row, "", nil
	}
	w, err := warelist.ParseLine(text, s.now.Units)
	if err != nil {
		name := "extra pot"
		for n := 2; s.now.WareOf(layout.Pot{Ware: name}) != nil; n++ {
			name = freeName("extra pot", n)
		}
		named, second := warelist.ParseLine(name+" "+text, s.now.Units)
		if second != nil {
			return w, "", err
		}
		w = named
	}
	w.Count = 1
	if old := s.now.WareOf(layout.Pot{Ware: w.Name}); old != nil {
		if !s.alike(*old, w) {
			return w, "", fmt.Errorf("there is a row %q already, and it differs; give the pot another name", w.Name)
		}
		return *old, "", nil
	}
	return w, "", nil
}

// findRoom asks the planner and tells its answer.
func (s *Session) findRoom(k *worker, l *layout.Load, w layout.Ware, waits string) {
	r, err := planner.RoomInSlices(l, w, jobSeed, k.slices())
	if k.stopped {
		return
	}
	if err != nil {
		k.says = s.say(err.Error())
		return
	}
	if !r.OK {
		k.says = s.say("No room for one more " + w.Name + ". " + r.Why)
		return
	}
	k.edits, k.what = r.Edits, "set one more "+w.Name+" on "+theLevel(r.Level)
	if waits != "" {
		k.edits, k.what = withPot(r.Edits, w, waits), "set "+article(w.Name)+" on "+theLevel(r.Level)
	}
	k.says = "Room for " + article(w.Name) + " on " + theLevel(r.Level) + ", and nothing moves."
	n := -1 // the pot itself
	for _, e := range k.edits {
		if e.Act == layout.SetPot {
			n++
		}
	}
	if n > 0 {
		k.says = "Room for " + article(w.Name) + " on " + theLevel(r.Level) + " when " + silhouette.Counted(n, "pot") + onOff(n == 1, " moves a little.", " move a little.")
	}
	k.says = s.say(k.says)
}

// withPot is the edits of a place for one more pot of a row, for a pot that
// waits already: the row keeps its count.
func withPot(edits []layout.Edit, w layout.Ware, waits string) []layout.Edit {
	more := w
	more.Count++
	extra := more.PotNumber(more.Count).String()
	var out []layout.Edit
	for _, e := range edits {
		if e.Act == layout.SetWare {
			continue
		}
		if e.Pot == extra {
			e.Pot = waits
		}
		if w.Count == 1 && e.Pot == w.Name+" 1" {
			e.Pot = waits
		}
		out = append(out, e)
	}
	return out
}
