package edit

import (
	"math"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// What is tried for mends, so that a load that is wrong all over is still
// answered soon.
const (
	maxMends    = 4    // offered with one finding
	maxTries    = 60   // of one finding
	maxAllTries = 1500 // of one CheckWithMends
)

// CheckWithMends is clearance.Check with the mends of every finding attached,
// for the command line and the page. It tries each mend on a copy of the load,
// so it costs a check a mend. On a load with very many findings the last ones
// are left without.
func CheckWithMends(b *stacks.Built) clearance.Report {
	m := newMender(b)
	r := m.before
	for i := range r.Findings {
		if left := maxAllTries - m.all; left > 0 && r.Findings[i].Grade != layout.Note {
			r.Findings[i].Mends = m.mends(r.Findings[i], min(maxTries, left))
		}
	}
	return r
}

// Mends are the ways out of a finding, the simplest first: each has been
// applied, rounded to the grid, built and checked again; the finding is gone
// and nothing worse has come. None when nothing simple works. The pots and
// levels of b are not changed.
func Mends(b *stacks.Built, f layout.Finding) []layout.Mend {
	return newMender(b).mends(f, maxTries)
}

// Mender works out mends for the findings of one load, one finding at a time,
// so that a page can do it in slices.
type Mender struct{ m *mender }

// NewMender is a mender over a checked load. The load must not change under it.
func NewMender(b *stacks.Built, c *clearance.Checker, r clearance.Report) *Mender {
	return &Mender{menderOf(b, c, r)}
}

// Mends is Mends of the package. pause, when there is one, is called before
// each edit is tried, which costs about one check; when it answers false no
// more are tried.
func (m *Mender) Mends(f layout.Finding, pause func() bool) []layout.Mend {
	m.m.pause = pause
	return m.m.mends(f, maxTries)
}

// mender tries edits against a check.
type mender struct {
	b      *stacks.Built
	c      *clearance.Checker
	before clearance.Report
	keys   map[string]*layout.Finding
	posts  *stacks.Catalogue // made when first asked for
	all    int               // tries so far

	f     layout.Finding // the finding in hand
	pause func() bool    // called before each try
	tries int            // left for it
	found []layout.Mend
}

func newMender(b *stacks.Built) *mender {
	c := clearance.New(b)
	return menderOf(b, c, c.Check())
}

func menderOf(b *stacks.Built, c *clearance.Checker, r clearance.Report) *mender {
	m := &mender{b: b, c: c, before: r, keys: map[string]*layout.Finding{}}
	for i := range m.before.Findings {
		m.keys[m.before.Findings[i].Key] = &m.before.Findings[i]
	}
	return m
}

func (m *mender) mends(f layout.Finding, tries int) []layout.Mend {
	m.f, m.tries, m.found = f, tries, nil
	switch f.Rule {
	case layout.PotToPot, layout.PotToPost, layout.PotToWall, layout.BlastRoom, layout.FootToEdge, layout.CookieToEdge, layout.OneShelf:
		m.movePots()
	case layout.CanBeSet:
		m.partPots()
	case layout.InsideKiln, layout.ToProbe:
		if m.aboutPot() && !m.about(layout.ThingLid) {
			m.movePots()
			break
		}
		m.moveInKiln()
	case layout.RoomAbove:
		m.makeRoom()
	case layout.RoomToLid:
		m.lower()
	case layout.ProbeLevel, layout.BottomShelf:
		m.otherHeight()
	case layout.PostOverPost, layout.Inset, layout.PostUnder:
		m.moveLines()
	case layout.PostHeights, layout.PostHeights4, layout.Pieces, layout.Slender:
		m.evenPosts()
	case layout.TowerFooting:
		m.agree()
	case layout.OwnedCount:
		m.otherPieces()
	case layout.ShelfToWall, layout.ShelfToShelf, layout.GripRoom:
		m.moveShelves()
	case layout.SoundShelf:
		m.otherShelf()
	case layout.InSight:
		m.showCones()
	case layout.GlazedFoot, layout.RunnyCookie:
		m.stand()
		m.backToTable()
	case layout.FitsFiring, layout.Fuming:
		m.backToTable()
	}
	return m.found
}

// moveInKiln mends what shelves, posts and tall pots do in the kiln.
func (m *mender) moveInKiln() {
	switch {
	case m.about(layout.ThingLid):
		m.lower()
	case m.about(layout.ThingProbe):
		m.otherHeight()
	case m.f.Things[0].Kind == layout.ThingShelf:
		m.moveShelves()
	default:
		m.moveLines()
	}
}

func (m *mender) aboutPot() bool {
	return len(m.f.Things) > 0 && (m.f.Things[0].Kind == layout.ThingPot || m.f.Things[0].Kind == layout.ThingCones)
}

func (m *mender) about(k layout.ThingKind) bool {
	for _, t := range m.f.Things {
		if t.Kind == k {
			return true
		}
	}
	return false
}

// try offers edits as a mend when they work. It tells whether they do.
func (m *mender) try(say string, edits ...layout.Edit) bool {
	return m.trySaying(func(*stacks.Built) string { return say }, edits...)
}

// trySaying is try with words that need the load after the edits.
func (m *mender) trySaying(say func(after *stacks.Built) string, edits ...layout.Edit) bool {
	if m.tries <= 0 || len(m.found) >= maxMends || len(edits) == 0 {
		return false
	}
	if m.pause != nil && !m.pause() {
		m.tries = 0
		return false
	}
	m.tries--
	m.all++
	l, err := Apply(m.b.Load, edits...)
	if err != nil {
		return false
	}
	b, err := stacks.Build(l)
	if err != nil || !m.better(clearance.Check(b)) {
		return false
	}
	words := say(b)
	for _, other := range m.found {
		if other.Say == words {
			return true
		}
	}
	m.found = append(m.found, layout.Mend{Say: words, Edits: edits})
	return true
}

// better tells whether the finding in hand is gone from a report and nothing
// else is worse than before.
func (m *mender) better(r clearance.Report) bool {
	if r.Find(m.f.Key) != nil {
		return false
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Grade == layout.Note {
			continue
		}
		old := m.keys[f.Key]
		if old == nil || old.Grade < f.Grade || lack(f) > lack(old)+0.05 {
			return false
		}
	}
	return true
}

// lack is how far a figure is from what it missed.
func lack(f *layout.Finding) float64 { return math.Abs(f.Have - f.Need) }

// SayPosts tells other posts under a level, one make-up a post, as an act: "Put
// one 5 on each of A, B and C", "Take the 5s out of left 1".
func (m *Mender) SayPosts(level int, posts []layout.MakeUp) string {
	return m.m.say(change{level: level, posts: posts})
}

// PostsEdit is the edit that gives a level other posts, one make-up a post.
func (m *Mender) PostsEdit(level int, posts []layout.MakeUp) layout.Edit {
	return m.m.edit(change{level: level, posts: posts})
}
