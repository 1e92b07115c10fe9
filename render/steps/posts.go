package steps

import (
	"math"
	"sort"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/order"
)

// laid tells what is done before a level that stands on the floor can be set:
// its own posts and shelves.
func (t *teller) laid(level int, add func(Step)) {
	if t.carrier(level) >= 0 {
		return
	}
	for i := range t.o.Acts {
		switch a := &t.o.Acts[i]; {
		case a.Kind == order.ActPosts && a.Level < 0 && a.Carries == level:
			add(t.posts(i))
		case a.Kind == order.ActShelf && a.Level == level:
			add(t.shelf(i, "shelf"))
		}
	}
}

// carrier is the level, last in order of setting, on whose legend the shelves
// of a level are told: one that carries its posts; -1: the floor.
func (t *teller) carrier(level int) int {
	at := -1
	for k := range t.o.Levels {
		for _, p := range t.o.Levels[k].PostsOn {
			if p.Carries == level {
				at = t.o.Levels[k].Level
			}
		}
	}
	return at
}

// place is where a post stands.
type place struct {
	letter, clock, inset string
	off                  float64 // degrees past what the clock says
}

// when is the hour of a place: "at 6", and "just past 6" where another of the
// posts stands just before it.
func (p place) when(all []place) string {
	for _, q := range all {
		if q.letter == p.letter || q.clock != p.clock {
			continue
		}
		switch {
		case p.off < q.off:
			return "just before\u00a0" + hold(p.clock)
		case p.off > q.off:
			return "just past\u00a0" + hold(p.clock)
		}
	}
	return "at\u00a0" + hold(p.clock)
}

// posts tells the posts of an act: how many of which pieces, and where each.
func (t *teller) posts(act int) Step {
	a := &t.o.Acts[act]
	s := Step{Kind: Posts, Acts: []int{act}, Posts: t.byLetter(a.Posts), Shelf: -1}
	var letters []string
	var places []place
	for _, i := range s.Posts {
		p := &t.b.Posts[i]
		letters = append(letters, p.Letter)
		clock := plane.Bearing(p.At)
		past := plane.NormalTurn(clock + 7.5)
		past -= float64(15*math.Floor(past/15)) + 7.5
		places = append(places, place{p.Letter, measure.ShortClock(clock), t.near(t.inset(i, a.Level, clock)), past})
	}
	s.Label = tellLetters(letters)
	on := ""
	switch {
	case a.Level < 0:
		on = " on the floor"
	case t.carries(a.Level) > 1:
		on = " for " + t.levelName(a.Carries)
	}
	from := "the edge"
	if a.Level < 0 {
		from = "the wall"
	}
	s.Sentence = "posts " + t.pieces(s.Posts) + on + ". " + tellPlaces(places, from)
	return s
}

// byLetter sorts posts by their letters.
func (t *teller) byLetter(posts []int) []int {
	out := append([]int(nil), posts...)
	sort.SliceStable(out, func(i, j int) bool {
		a, c := t.b.Posts[out[i]].Letter, t.b.Posts[out[j]].Letter
		return len(a) < len(c) || (len(a) == len(c) && a < c)
	})
	return out
}

// tellLetters is "A B C", or "A to F" for more than four that follow each
// other.
func tellLetters(letters []string) string {
	n := len(letters)
	if n > 4 && len(letters[0]) == 1 && len(letters[n-1]) == 1 && int(letters[n-1][0]-letters[0][0]) == n-1 {
		return letters[0] + " to\u00a0" + letters[n-1]
	}
	return strings.Join(letters, " ")
}

// carries is how many levels stand on a level.
func (t *teller) carries(level int) int {
	lo := t.o.LevelOf(level)
	if lo == nil {
		return 0
	}
	seen := map[int]bool{}
	for _, p := range lo.PostsOn {
		seen[p.Carries] = true
	}
	return len(seen)
}

// inset is how far the middle of a post stands inside the edge of the shelf
// that it stands on, or inside the wall, straight outward, mm.
func (t *teller) inset(post, level int, clock float64) float64 {
	if lo := t.o.LevelOf(level); lo != nil {
		for _, p := range lo.PostsOn {
			if p.Post == post {
				return p.Inset
			}
		}
	}
	at, dir := t.b.Posts[post].At, plane.FromBearing(1, clock)
	near, far := 0.0, t.b.Chamber.Reach(at)
	for range 40 {
		mid := (near + far) / 2
		if t.b.Chamber.Depth(plane.Add(at, plane.Scale(dir, mid))) > 0 {
			near = mid
		} else {
			far = mid
		}
	}
	return near
}

// pieces tells the make-ups of posts, alike ones together: "3 × (100 + 10)",
// "2 × 100 on A and B, 1 × (75 + 25) on C".
func (t *teller) pieces(posts []int) string {
	type group struct {
		makeUp  layout.MakeUp
		letters []string
	}
	var groups []group
	for _, i := range posts {
		p := &t.b.Posts[i]
		at := len(groups)
		for g := range groups {
			if sameMakeUp(groups[g].makeUp, p.MakeUp) {
				at = g
			}
		}
		if at == len(groups) {
			groups = append(groups, group{makeUp: p.MakeUp})
		}
		groups[at].letters = append(groups[at].letters, p.Letter)
	}
	words := make([]string, len(groups))
	for g := range groups {
		words[g] = t.times(len(groups[g].letters), groups[g].makeUp)
		if len(groups) > 1 {
			words[g] += " on " + series(groups[g].letters)
		}
	}
	return strings.Join(words, ", ")
}

func sameMakeUp(a, b layout.MakeUp) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// tellPlaces tells where posts stand, those as far from the edge together: "A
// at 6, C at 12: 59 from the edge; B at 9: 40".
func tellPlaces(places []place, from string) string {
	var groups [][]place
	for _, p := range places {
		at := -1
		for g := range groups {
			if groups[g][0].inset == p.inset {
				at = g
			}
		}
		if at < 0 {
			groups = append(groups, []place{p})
			continue
		}
		groups[at] = append(groups[at], p)
	}
	words := make([]string, len(groups))
	for g, group := range groups {
		at := make([]string, len(group))
		for i, p := range group {
			at[i] = p.letter + "\u00a0" + p.when(places)
		}
		words[g] = strings.Join(at, ", ") + ": " + group[0].inset
		if g == 0 {
			words[g] += " from " + from
		}
	}
	return strings.Join(words, "; ")
}

// top is the word that a level under the lid takes no posts.
func (t *teller) top(lo *order.LevelOrder) Step {
	room := math.Inf(1)
	for i := range t.o.Acts {
		if a := &t.o.Acts[i]; a.Kind == order.ActLid && a.Level == lo.Level {
			room = a.Room
		}
	}
	s := Step{Kind: Posts, Label: "posts", Shelf: -1, Sentence: "none: this is the top"}
	if !math.IsInf(room, 1) {
		s.Sentence += ", " + t.room(room) + " to the " + t.lidWord()
	}
	return s
}

// lidWord is what closes the chamber above.
func (t *teller) lidWord() string {
	if t.front() {
		return "ceiling"
	}
	return "lid"
}
