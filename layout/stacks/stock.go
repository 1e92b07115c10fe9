package stacks

import (
	"fmt"
	"strconv"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// FurnitureKind is what sort of piece is fetched or short.
type FurnitureKind string

// The sorts of pieces.
const (
	FetchShelf  FurnitureKind = "shelf"
	FetchPost   FurnitureKind = "post"
	FetchSpacer FurnitureKind = "spacer"
	FetchCones  FurnitureKind = "cone pack"
	FetchCookie FurnitureKind = "cookie"
	FetchStilt  FurnitureKind = "stilt"
	FetchWads   FurnitureKind = "set of wads"
)

// Fetch is a row of the furniture to fetch: how many pieces of a kind are
// used, and how many are owned. Owned is -1 for what the load does not list,
// such as cookies cut to need.
type Fetch struct {
	Kind   FurnitureKind
	Name   string  // of the shelf, or of the matched set of posts
	Size   float64 // height of a post or spacer, width of a cookie or stilt; mm
	Count  int
	Owned  int
	Listed int // its row in the furniture list of its kind, or -1
}

// Short tells how many more are used than are owned.
func (f Fetch) Short() int {
	if f.Owned < 0 {
		return 0
	}
	return max(0, f.Count-f.Owned)
}

// Say tells the row as on the sheet, the count first: "6 half shelves",
// "3 posts 200", "9 spacers 10", "2 cone packs", "1 cookie".
func (f Fetch) Say(in measure.Units) string { return strconv.Itoa(f.Count) + " " + f.What(f.Count, in) }

// What names n of the row: "half shelves", "post 200 old".
func (f Fetch) What(n int, in measure.Units) string {
	switch f.Kind {
	case FetchShelf:
		return silhouette.Named(n, f.Name+" shelf")
	case FetchPost, FetchSpacer:
		s := silhouette.Named(n, string(f.Kind)) + " " + measure.FormatLengthTo(f.Size, in, measure.Nearest, measure.PostGrain)
		if f.Name != "" {
			s += " " + f.Name
		}
		return s
	case FetchWads:
		if n == 1 {
			return "set of wads"
		}
		return "sets of wads"
	}
	return silhouette.Named(n, string(f.Kind))
}

// Stock counts what is left of the furniture while levels are put together.
// Counts fall under 0 when more is taken than is owned; Missing tells.
type Stock struct {
	of      *layout.Furniture
	Shelves []int // left of each row
	Posts   []int
	Cookies []int
	Stilts  []int
	// Taken beyond the lists, where there is a list: no row is large enough.
	cookies, stilts int
}

// NewStock is the whole furniture. A negative count is none.
func NewStock(f *layout.Furniture) *Stock {
	s := &Stock{of: f}
	for i := range f.Shelves {
		s.Shelves = append(s.Shelves, max(0, f.Shelves[i].Count))
	}
	for i := range f.Posts {
		s.Posts = append(s.Posts, max(0, f.Posts[i].Count))
	}
	for i := range f.Cookies {
		s.Cookies = append(s.Cookies, max(0, f.Cookies[i].Count))
	}
	for i := range f.Stilts {
		s.Stilts = append(s.Stilts, max(0, f.Stilts[i].Count))
	}
	return s
}

// Clone is a copy that counts on its own.
func (s *Stock) Clone() *Stock {
	c := *s
	c.Shelves = append([]int(nil), s.Shelves...)
	c.Posts = append([]int(nil), s.Posts...)
	c.Cookies = append([]int(nil), s.Cookies...)
	c.Stilts = append([]int(nil), s.Stilts...)
	return &c
}

// Take takes n posts of a make-up; a negative n gives them back. It is false,
// and nothing is taken, when the furniture lists no such piece.
func (s *Stock) Take(m layout.MakeUp, n int) bool {
	for _, p := range m {
		if s.row(p) < 0 {
			return false
		}
	}
	for _, p := range m {
		s.Posts[s.row(p)] -= n
	}
	return true
}

// Return gives n posts of a make-up back.
func (s *Stock) Return(m layout.MakeUp, n int) bool { return s.Take(m, -n) }

// TakeShelf takes n shelves of a kind; a negative n gives them back. It is
// false when the furniture lists no such shelf.
func (s *Stock) TakeShelf(kind string, n int) bool {
	for i := range s.of.Shelves {
		if s.of.Shelves[i].Name == kind {
			s.Shelves[i] -= n
			return true
		}
	}
	return false
}

// row is the furniture row of a piece, or -1.
func (s *Stock) row(p layout.Piece) int {
	for i := range s.of.Posts {
		if s.of.Posts[i].Height == p.Height && s.of.Posts[i].Name == p.Name {
			return i
		}
	}
	return -1
}

// Use takes everything that a built load uses.
func (s *Stock) Use(b *Built) {
	for i := range b.Shelves {
		s.TakeShelf(b.Shelves[i].Kind.Name, 1)
	}
	for i := range b.Posts {
		s.Take(b.Posts[i].MakeUp, 1)
	}
	for i := range b.Pots {
		s.takeStand(b.Pots[i].Body)
	}
}

// takeStand takes the cookie or stilt of one pot.
func (s *Stock) takeStand(body *Body) {
	switch {
	case body.Stand.Kind == layout.Cookie && body.owned >= 0:
		s.Cookies[body.owned]--
	case body.Stand.Kind == layout.Cookie:
		s.cookies++
	case body.Stand.Kind == layout.Stilt && body.owned >= 0:
		s.Stilts[body.owned]--
	case body.Stand.Kind == layout.Stilt:
		s.stilts++
	}
}

// Missing lists the rows of which more was taken than is owned, in the order
// of the furniture: shelves, posts, cookies, stilts. A cookie or stilt that no
// listed row fits is missing only where the load lists any at all.
func (s *Stock) Missing() []Fetch {
	var list []Fetch
	for i, n := range s.Shelves {
		if k := &s.of.Shelves[i]; n < 0 {
			list = append(list, Fetch{FetchShelf, k.Name, 0, max(0, k.Count) - n, max(0, k.Count), i})
		}
	}
	for i, n := range s.Posts {
		if n < 0 {
			list = append(list, postFetch(s.of, i, max(0, s.of.Posts[i].Count)-n))
		}
	}
	for i, n := range s.Cookies {
		if k := &s.of.Cookies[i]; n < 0 {
			list = append(list, Fetch{FetchCookie, "", k.Across, max(0, k.Count) - n, max(0, k.Count), i})
		}
	}
	if s.cookies > 0 && len(s.of.Cookies) > 0 {
		list = append(list, Fetch{FetchCookie, "", 0, s.cookies, 0, -1})
	}
	for i, n := range s.Stilts {
		if k := &s.of.Stilts[i]; n < 0 {
			list = append(list, Fetch{FetchStilt, "", k.Across, max(0, k.Count) - n, max(0, k.Count), i})
		}
	}
	if s.stilts > 0 && len(s.of.Stilts) > 0 {
		list = append(list, Fetch{FetchStilt, "", 0, s.stilts, 0, -1})
	}
	return list
}

func postFetch(f *layout.Furniture, i, count int) Fetch {
	k := &f.Posts[i]
	kind := FetchPost
	if k.Spacer {
		kind = FetchSpacer
	}
	return Fetch{kind, k.Name, k.Height, count, max(0, k.Count), i}
}

// SayShort tells what is missing in one sentence a row: "The load takes 9
// posts 75; you own 6."
func SayShort(f Fetch, in measure.Units) string {
	if f.Owned <= 0 && f.Listed < 0 && f.Kind == FetchStilt {
		return fmt.Sprintf("The load takes %s, and no listed one stands within the foot of its pot.", f.Say(in))
	}
	if f.Owned <= 0 && f.Listed < 0 {
		return fmt.Sprintf("The load takes %s that no listed one is wide enough for.", f.Say(in))
	}
	return fmt.Sprintf("The load takes %s; you own %d.", f.Say(in), f.Owned)
}
