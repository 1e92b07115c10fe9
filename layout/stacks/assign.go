package stacks

import (
	"encoding/binary"
	"fmt"
	"sort"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// Demand is a level's wish: so many posts of one real height, mm.
type Demand struct {
	Height float64
	Posts  int
}

// Limits of the search, in steps: past the first it takes the first solution
// it meets, past the second it gives up.
const (
	polishSteps = 50000
	giveUpSteps = 1000000
)

// Shortage tells which pieces are short for a set of levels.
type Shortage struct {
	Missing []Fetch   // by the assignment that misses the fewest pieces found
	Unmade  []float64 // heights that no owned pieces make, mm
	CutOff  bool      // the search was cut off: another assignment may exist
	near    []string
	units   measure.Units
}

// Error is a sentence a piece: "The load takes 9 posts 75; you own 6."
func (s *Shortage) Error() string {
	lines := append([]string(nil), s.near...)
	for _, f := range s.Missing {
		lines = append(lines, SayShort(f, s.units))
	}
	return strings.Join(lines, " ")
}

// Assign finds the posts of several levels together from a stock (nil: all
// that is owned): for each demand, in order, a make-up for each post. Of all
// ways it is one with the fewest pieces and, among those, the fewest unlike
// posts under one shelf; the search is exact, so that the only assignment of
// scarce spacers is found when there is one. It does not change the stock.
//
// When there is none the error is a *Shortage.
func (c *Catalogue) Assign(from *Stock, demands []Demand, in measure.Units) ([][]layout.MakeUp, error) {
	if from == nil {
		from = NewStock(c.of)
	}
	short := &Shortage{units: in}
	wants := make([]want, 0, len(demands))
	for i, d := range demands {
		if d.Posts < 0 || d.Posts > maxLines {
			return nil, fmt.Errorf("a level of %d posts; a level takes %d at most", d.Posts, maxLines)
		}
		if d.Posts == 0 {
			continue
		}
		g := c.find(d.Height)
		if g == nil {
			short.Unmade = append(short.Unmade, d.Height)
			short.near = append(short.near, c.sayUnmade(d.Height, in))
			continue
		}
		wants = append(wants, want{group: g, posts: d.Posts, index: i})
	}
	if len(short.Unmade) > 0 {
		return nil, short
	}
	sort.SliceStable(wants, func(i, j int) bool {
		if a, b := len(wants[i].group.ways), len(wants[j].group.ways); a != b {
			return a < b
		}
		return wants[i].group.lo > wants[j].group.lo
	})
	s := search{left: from.Posts, wants: wants}
	heights, ok := s.run()
	if !ok {
		heights, short.Missing = s.least(c.of)
		short.CutOff = s.steps > giveUpSteps
		if len(short.Missing) > 0 {
			return nil, short
		}
		// cut off, and the simple way does it
	}
	out := make([][]layout.MakeUp, len(demands))
	for i, w := range wants {
		out[w.index] = heights[i].Posts
	}
	return out, nil
}

func (c *Catalogue) sayUnmade(height float64, in measure.Units) string {
	say := func(mm float64) string { return measure.SayLengthTo(mm, in, measure.Nearest, measure.PostGrain) }
	under, over := c.Nearest(height)
	s := "No posts make " + say(height)
	switch {
	case under > 0 && over > 0:
		s += "; the next heights are " + say(under) + " and " + say(over)
	case under > 0:
		s += "; the tallest are " + say(under)
	case over > 0:
		s += "; the lowest are " + say(over)
	}
	return s + "."
}

// want is a demand with its ways.
type want struct {
	group *group
	posts int
	index int // in the demands
}

// search finds posts for all wants within the counts, exactly: it sets post
// after post, the posts of a want in the order of its ways, and remembers what
// was found for each want, post, way and rest of the counts.
type search struct {
	left  []int
	wants []want
	rows  []int // that any way takes
	bound []int // least cost of all wants from one on
	memo  map[string]found
	steps int
	key   []byte
}

// found is the least cost from a state on and the way that the next post
// takes; -1 when there is none.
type found struct {
	cost, way int
}

// Cost of a piece, and of a post unlike the one before it under its shelf.
const (
	pieceCost  = 100
	unlikeCost = 1
)

func (s *search) run() ([]Height, bool) {
	s.left = append([]int(nil), s.left...)
	s.memo = map[string]found{}
	uses := make([]bool, len(s.left))
	s.bound = make([]int, len(s.wants)+1)
	for i := len(s.wants) - 1; i >= 0; i-- {
		w := s.wants[i]
		for _, way := range w.group.ways {
			for _, r := range way.rows {
				uses[r] = true
			}
		}
		s.bound[i] = s.bound[i+1] + w.posts*pieceCost*len(w.group.ways[0].rows)
	}
	for r, used := range uses {
		if used {
			s.rows = append(s.rows, r)
		}
	}
	if s.best(0, 0, 0).way < 0 {
		return nil, false
	}
	return s.trace(), true
}

// best is what the posts from post j of want i on cost at least; its own way
// is from or a later one, or any for the first post of a want.
func (s *search) best(i, j, from int) found {
	for i < len(s.wants) && j == s.wants[i].posts {
		i, j, from = i+1, 0, 0
	}
	if i == len(s.wants) {
		return found{}
	}
	key := s.state(i, j, from)
	if f, known := s.memo[key]; known {
		return f
	}
	s.steps++
	w := s.wants[i]
	least := s.bound[i+1] + (w.posts-j)*pieceCost*len(w.group.ways[from].rows)
	result := found{way: -1}
	for k := from; k < len(w.group.ways) && s.steps <= giveUpSteps; k++ {
		rows := w.group.ways[k].rows
		cost := pieceCost * len(rows)
		if j > 0 && k != from {
			cost += unlikeCost
		}
		if result.way >= 0 && s.bound[i+1]+(w.posts-j-1)*pieceCost*len(rows)+cost >= result.cost {
			continue // later ways have no fewer pieces
		}
		if s.take(rows) {
			if rest := s.best(i, j+1, k); rest.way >= 0 {
				if total := cost + rest.cost; result.way < 0 || total < result.cost {
					result = found{total, k}
				}
			}
			s.put(rows)
		}
		if result.way >= 0 && (result.cost <= least || s.steps > polishSteps) {
			break
		}
	}
	s.memo[key] = result
	return result
}

// state is the key of the memory.
func (s *search) state(i, j, from int) string {
	s.key = append(s.key[:0], byte(i), byte(i>>8), byte(j), byte(from), byte(from>>8))
	for _, r := range s.rows {
		s.key = binary.AppendVarint(s.key, int64(s.left[r]))
	}
	return string(s.key)
}

// take takes the pieces of a way, all or none.
func (s *search) take(rows []int) bool {
	for n, r := range rows {
		if s.left[r] <= 0 {
			s.put(rows[:n])
			return false
		}
		s.left[r]--
	}
	return true
}

func (s *search) put(rows []int) {
	for _, r := range rows {
		s.left[r]++
	}
}

// trace walks the best ways again.
func (s *search) trace() []Height {
	out := make([]Height, len(s.wants))
	for i, w := range s.wants {
		from := 0
		for j := 0; j < w.posts; j++ {
			from = s.best(i, j, from).way
			way := w.group.ways[from]
			s.take(way.rows)
			out[i].add(way)
		}
	}
	return out
}

func (h *Height) add(w way) {
	h.Posts = append(h.Posts, append(layout.MakeUp(nil), w.make...))
	h.Pieces += len(w.rows)
	h.Real = max(h.Real, w.real)
}

// least gives every post the way that misses the fewest pieces, the fewest
// pieces first, and tells what is missing in all.
func (s *search) least(f *layout.Furniture) ([]Height, []Fetch) {
	left := append([]int(nil), s.left...)
	out := make([]Height, len(s.wants))
	for i, w := range s.wants {
		for j := 0; j < w.posts; j++ {
			best, fewest := 0, int(^uint(0)>>1)
			for k, way := range w.group.ways {
				if n := lacking(left, way.rows); n < fewest {
					best, fewest = k, n
				}
			}
			for _, r := range w.group.ways[best].rows {
				left[r]--
			}
			out[i].add(w.group.ways[best])
		}
	}
	var missing []Fetch
	for r, n := range left {
		if n < 0 {
			missing = append(missing, postFetch(f, r, max(0, f.Posts[r].Count)-n))
		}
	}
	return out, missing
}

// lacking is how many of the pieces are not left.
func lacking(left, rows []int) int {
	n := 0
	for i, r := range rows {
		if left[r]-count(rows[:i], r) <= 0 {
			n++
		}
	}
	return n
}
