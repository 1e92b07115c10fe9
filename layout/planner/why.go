package planner

import (
	"math"
	"sort"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// Reason is why a storey is as high as it is: what asks for the room under a
// shelf, and why the next lower height that the owned posts make does not do.
// The storey is the room between Under and Over; lengths are mm.
type Reason struct {
	Under []int // into Built.Levels: what its posts stand on, several where tops agree; empty: the floor
	Over  int   // into Built.Levels: whose shelf its posts carry; -1: the lid lies over it

	Posts  []layout.MakeUp // one a post
	Height float64         // of the posts, by real heights; from the shelf to the lid where Over is -1

	Pot  int     // into Built.Pots: the tallest under that shelf or lid; -1 where nothing stands
	Tall float64 // its height from what the posts stand on, with allowances and what it stands on
	Room float64 // wanted above it, or over the floor
	Bow  float64 // of the shelf above
	Need float64 // Tall, Room and Bow together

	Cause   Cause
	Lower   float64            // the height that Cause is about; 0: nothing lower is made
	By      int                // into Built.Levels: what the posts of Lower carry; -1 where several do
	Breaks  *layout.Finding    // what Lower would bring
	Pieces  int                // in all posts at Lower
	Further Further            // why the rest to the lid makes no further level
	Order   *Order             // what put it where it is in its tower; nil for what is wished or usual
	names   *clearance.Checker // of the same load
}

// Cause is why a storey is not lower.
type Cause string

// The causes.
const (
	ForLid    Cause = "lid"    // nothing but the lid lies over it
	ForPosts  Cause = "posts"  // the owned posts make nothing lower that leaves the room
	ForUsed   Cause = "used"   // the posts of a lower height stand elsewhere
	ForRule   Cause = "rule"   // a lower shelf breaks a rule
	ForPieces Cause = "pieces" // a lower height takes more pieces
	ForAlike  Cause = "alike"  // another tower's storey beside it stands as high
	ForSpare  Cause = "spare"  // nothing asks for it: a lower height does as well
	ForLack   Cause = "lack"   // it is lower than its tallest pot asks
	ForStays  Cause = "stays"  // it stands in the kiln already, or is locked
)

// Further is why what is left between the tallest pot of a top level and the lid
// makes no further level.
type Further string

// Why there is no further level. FurtherSmall is too little for any.
const (
	FurtherSmall   Further = ""
	FurtherSet     Further = "set"     // nothing waits
	FurtherShelves Further = "shelves" // no shelf of the tower's kind is left
	FurtherPosts   Further = "posts"   // the posts that are left make no height of it
)

// mostLower is how many lower heights are built and checked for one storey.
const mostLower = 4

// Why tells of every storey of a built load, whoever stacked it, why it has its
// height: from the bottom up, the room under each shelf, then the room to the
// lid of each level that has it. Where the posts make a lower height that would
// do, it is built and checked before anything is said of it.
func Why(b *stacks.Built) []Reason {
	w := newWhy(b)
	var out []Reason
	for a := range b.Levels {
		if len(b.Levels[a].Posts) > 0 {
			out = append(out, w.shelf(a))
		}
	}
	for v := range b.Levels {
		if r, ok := w.lid(v); ok {
			out = append(out, r)
		}
	}
	return out
}

// WhyLevel is Why of the storeys over one level, and of the room under it where
// it stands on the floor. judge and report are the check of that load.
func WhyLevel(b *stacks.Built, level int, judge *clearance.Checker, report clearance.Report) []Reason {
	w := newWhyBy(b, judge, report)
	var out []Reason
	for a := range b.Levels {
		if len(b.Levels[a].Posts) == 0 {
			continue
		}
		under := w.under(a)
		for _, v := range under {
			if v == level {
				out = append(out, w.shelf(a))
			}
		}
		if a == level && len(under) == 0 {
			out = append(out, w.shelf(a))
		}
	}
	if r, ok := w.lid(level); ok {
		out = append(out, r)
	}
	return out
}

// why is one built load that is asked why.
type why struct {
	b       *stacks.Built
	report  clearance.Report
	names   *clearance.Checker
	posts   *stacks.Catalogue
	demands []stacks.Demand // of every level, by its index
	orders  map[int]*Order  // by tower, once asked for
}

func newWhy(b *stacks.Built) *why {
	judge := clearance.New(b)
	return newWhyBy(b, judge, judge.Check())
}

// newWhyBy is newWhy of a load that is judged already.
func newWhyBy(b *stacks.Built, judge *clearance.Checker, report clearance.Report) *why {
	w := &why{b: b, names: judge, report: report, orders: map[int]*Order{}}
	l := b.Load
	w.posts = stacks.NewCatalogue(&l.Furniture, stacks.Bounds{Pieces: int(l.Limits(layout.Pieces).Watch), UpTo: l.Kiln.Height,
		Slender: l.Limits(layout.Slender).Watch})
	for i := range b.Levels {
		w.demands = append(w.demands, stacks.Demand{Height: w.height(i), Posts: len(b.Levels[i].Posts)})
	}
	return w
}

// height is that of a level's tallest post, mm.
func (w *why) height(level int) float64 {
	h := 0.0
	for _, p := range w.b.Levels[level].Posts {
		h = max(h, w.b.Posts[p].Top-w.b.Posts[p].Bottom)
	}
	return h
}

// under are the levels that the posts of a level stand on; none: the floor.
func (w *why) under(a int) []int {
	b := w.b
	var out []int
	for i := range b.Levels {
		stands := false
		for _, p := range b.Levels[a].Posts {
			stands = stands || i != a && abs(b.Posts[p].Bottom-b.Levels[i].Top) < 1 && insideAny(b, &b.Levels[i], b.Posts[p].At)
		}
		if stands {
			out = append(out, i)
		}
	}
	return out
}

// shelf is why the posts under a level's shelf are as high as they are.
func (w *why) shelf(a int) Reason {
	b := w.b
	v := &b.Levels[a]
	r := Reason{Under: w.under(a), Over: a, Height: w.height(a), Pot: -1, By: -1, names: w.names}
	base := b.Height
	for _, p := range v.Posts {
		r.Posts = append(r.Posts, b.Posts[p].MakeUp)
		base = min(base, b.Posts[p].Bottom)
	}
	for _, s := range v.Shelves {
		r.Bow = max(r.Bow, abs(b.Shelves[s].Kind.Bow))
	}
	if len(r.Under) == 0 {
		r.Bow = 0
		r.Room = b.Load.Limits(layout.BottomShelf).Plan
		if b.Load.Kiln.FloorElement {
			r.Room *= 2
		}
		r.Need = r.Room
	} else {
		r.Room = b.Load.Limits(layout.RoomAbove).Plan
		if b.Load.Wishes.RoomAbove > 0 {
			r.Room = b.Load.Wishes.RoomAbove
		}
		for i := range b.Pots {
			p := &b.Pots[i]
			if p.Solid.Max[2]-base > r.Tall && p.Z < v.Bottom && w.isUnder(p, a) {
				r.Pot, r.Tall = i, p.Solid.Max[2]-base
			}
		}
		if r.Pot >= 0 {
			r.Need = r.Tall + r.Room + r.Bow
		}
	}
	w.cause(&r)
	if r.Order = w.orderOf(v.Tower); r.Order != nil && !r.Order.moves(v.Number) {
		r.Order = nil
	}
	return r
}

// isUnder says whether a pot of a level directly under another lies at least
// partly under its shelves.
func (w *why) isUnder(p *stacks.Pot, a int) bool {
	over := false
	for _, up := range w.b.Levels[p.Level].Above {
		over = over || up == a
	}
	if !over {
		return false
	}
	for _, s := range w.b.Levels[a].Shelves {
		for i := range p.Solid.Body.Parts {
			if w.b.Shelves[s].Outline.Distance(p.Solid.Skeleton(i)) < p.Solid.Body.Parts[i].Profile.Max()+plane.Tolerance { // a box has no radius
				return true
			}
		}
	}
	return false
}

// lid is the rest of a level up to the lid, where nothing else lies over some
// of it.
func (w *why) lid(v int) (Reason, bool) {
	b := w.b
	level := &b.Levels[v]
	each := b.TakesEach(v)
	room := b.Load.Limits(layout.RoomToLid).Plan
	rest := b.Height - level.Top
	if len(level.Above) > 0 && each[len(each)-1] < rest-room-plane.Tolerance {
		return Reason{}, false
	}
	r := Reason{Under: []int{v}, Over: -1, Height: rest, Room: room, Pot: -1, By: -1, Cause: ForLid, names: w.names}
	for _, i := range level.Pots {
		p := &b.Pots[i]
		covered := false
		for _, a := range level.Above {
			covered = covered || w.isUnder(p, a)
		}
		if h := p.Solid.Max[2] - level.Top; !covered && h > r.Tall {
			r.Pot, r.Tall = i, h
		}
	}
	if r.Pot >= 0 {
		r.Need = r.Tall + r.Room
		r.Further = w.restOf(v, r.Spare())
	}
	return r, true
}

// leastLevel is the lowest level that anybody would set pots on, mm over its
// shelf; less than that is no further level.
const leastLevel = 40

// restOf is why so many mm under the lid make no level more over a level.
func (w *why) restOf(v int, spare float64) Further {
	b := w.b
	kind := b.Shelves[b.Levels[v].Shelves[0]].Kind
	if spare < kind.Thick+leastLevel {
		return FurtherSmall
	}
	set := map[string]int{}
	for i := range b.Pots {
		set[b.Pots[i].Pot.Ware]++
	}
	waits := false
	for i := range b.Load.Ware {
		waits = waits || set[b.Load.Ware[i].Name] < b.Load.Ware[i].Count
	}
	left := stacks.NewStock(&b.Load.Furniture)
	left.Use(b)
	switch n := len(b.Levels[v].Posts); {
	case !waits:
		return FurtherSet
	case w.shelvesLeft(left, kind) < len(b.Levels[v].Shelves):
		return FurtherShelves
	default:
		for _, h := range w.posts.Heights(n, left) {
			if h.Real >= leastLevel && h.Real+kind.Thick <= spare {
				return FurtherSmall // there would be one, and the pots that wait do not stand on it
			}
		}
		return FurtherPosts
	}
}

// shelvesLeft is how many shelves of a kind are not in use.
func (w *why) shelvesLeft(left *stacks.Stock, kind *layout.ShelfKind) int {
	for i := range w.b.Load.Furniture.Shelves {
		if w.b.Load.Furniture.Shelves[i].Name == kind.Name {
			return left.Shelves[i]
		}
	}
	return 0
}

// lower is a lower height that leaves the room, as it was weighed.
type lower struct {
	height float64
	posts  [][]layout.MakeUp // of all levels, where they can stand
	pieces int
	free   bool
	breaks *layout.Finding
}

// cause finds why a storey is not lower.
func (w *why) cause(r *Reason) {
	own := w.b.Levels[r.Over]
	level := &w.b.Load.Towers[w.b.Towers[own.Tower].Index].Levels[own.Number-1]
	switch {
	case level.Standing || level.Locked:
		r.Cause = ForStays
		return
	case r.Height < r.Need-plane.Tolerance:
		r.Cause = ForLack
		return
	}
	below, all := w.lowers(r)
	if len(all) == 0 {
		r.Cause, r.Lower = ForPosts, below
		return
	}
	now := 0
	for _, m := range r.Posts {
		now += len(m)
	}
	var fewer, more *lower
	for i := len(all) - 1; i >= 0; i-- { // the lowest last
		x := &all[i]
		switch {
		case !x.free || x.breaks != nil:
		case x.pieces > now:
			more = x
		default:
			fewer = x
		}
	}
	switch next := &all[len(all)-1]; {
	case fewer != nil:
		r.Cause, r.Lower = ForSpare, fewer.height
		if w.alike(r) {
			r.Cause = ForAlike
		}
	case more != nil:
		r.Cause, r.Lower, r.Pieces = ForPieces, more.height, more.pieces
	case !next.free:
		r.Cause, r.Lower, r.By = ForUsed, next.height, -1
		for i := range all { // the lowest that one other level has the posts of tells most
			if by := w.user(r.Over, all[i].height); !all[i].free && by >= 0 {
				r.Lower, r.By = all[i].height, by
				break
			}
		}
	default:
		r.Cause, r.Lower, r.Breaks = ForRule, next.height, next.breaks
	}
}

// lowers are the next lower height that the owned posts make at all, and those
// that leave the room, the lowest first, weighed: at most mostLower of those
// that are left are built.
func (w *why) lowers(r *Reason) (below float64, all []lower) {
	for _, h := range w.posts.Heights(len(r.Posts), nil) {
		if h.Real > r.Height-stacks.Alike-plane.Tolerance {
			break
		}
		below = h.Real
		if h.Real >= r.Need-plane.Tolerance && (r.Pot >= 0 || len(r.Under) == 0) {
			all = append(all, lower{height: h.Real})
		}
	}
	if n := len(all); n > 2*mostLower { // the nearest and the lowest tell most
		all = append(all[:mostLower:mostLower], all[n-mostLower:]...)
	}
	built := 0
	for i := len(all) - 1; i >= 0; i-- {
		x := &all[i]
		posts, ok := w.with(r.Over, x.height)
		if !ok {
			continue
		}
		x.free, x.posts = true, posts
		for _, m := range posts[r.Over] {
			x.pieces += len(m)
		}
		if built++; built > mostLower && i > 0 {
			x.free = false // not weighed, so nothing is said of it
			continue
		}
		x.breaks = w.broken(posts)
	}
	return below, all
}

// with is the posts of all levels with one level at another height; ok is
// false when the owned posts do not make that.
func (w *why) with(level int, height float64) (posts [][]layout.MakeUp, ok bool) {
	// First from what is left, so that the others keep the posts they have.
	left := stacks.NewStock(&w.b.Load.Furniture)
	left.Use(w.b)
	for _, p := range w.b.Levels[level].Posts {
		left.Return(w.b.Posts[p].MakeUp, 1)
	}
	one := []stacks.Demand{{Height: height, Posts: len(w.b.Levels[level].Posts)}}
	if m, err := w.posts.Assign(left, one, w.b.Load.Units); err == nil {
		posts = make([][]layout.MakeUp, len(w.b.Levels))
		posts[level] = m[0]
		return posts, true
	}
	all := append([]stacks.Demand(nil), w.demands...)
	all[level].Height = height
	m, err := w.posts.Assign(nil, all, w.b.Load.Units)
	return m, err == nil
}

// broken is the gravest finding that other posts would bring to the load; nil
// when they would bring none.
func (w *why) broken(posts [][]layout.MakeUp) *layout.Finding {
	l := w.b.Load.Clone()
	for i, m := range posts {
		if len(m) == 0 {
			continue
		}
		v := &w.b.Levels[i]
		t := &l.Towers[w.b.Towers[v.Tower].Index]
		level := &t.Levels[v.Number-1]
		list := make([]layout.MakeUp, len(t.Lines))
		for j, p := range v.Posts {
			list[w.b.Posts[p].Line] = m[j]
		}
		level.Posts = oneIfAlike(list)
	}
	b, err := stacks.Build(l)
	if err != nil {
		return &layout.Finding{Grade: layout.Problem, Sentence: "Nothing can stand up so."}
	}
	report := clearance.Check(b)
	var worst *layout.Finding
	for i := range report.Findings {
		f := &report.Findings[i]
		if f.Grade == layout.Note || f.Accepted != "" || worst != nil && f.Grade <= worst.Grade {
			continue
		}
		if old := w.report.Find(f.Key); old == nil || old.Grade < f.Grade || abs(f.Have-f.Need) > abs(old.Have-old.Need)+0.05 {
			worst = f
		}
	}
	return worst
}

// user is the level that has the posts of a lower height: the one without which
// they would be left, of several the one whose posts are that height's. It is
// -1 when no single level has them.
func (w *why) user(level int, height float64) int {
	type asked struct{ level, apart int }
	var order []asked
	ways := w.posts.MakeUps(height)
	for i := range w.b.Levels {
		if i == level || len(w.b.Levels[i].Posts) == 0 {
			continue
		}
		a := asked{i, 1}
		for _, p := range w.b.Levels[i].Posts {
			for _, piece := range w.b.Posts[p].MakeUp {
				if len(ways) > 0 && piece == ways[0][0] {
					a.apart = 0
				}
			}
		}
		order = append(order, a)
	}
	sort.SliceStable(order, func(i, j int) bool { return order[i].apart < order[j].apart })
	for _, a := range order {
		all := append([]stacks.Demand(nil), w.demands...)
		all[level].Height = height
		all[a.level].Posts = 0
		if _, err := w.posts.Assign(nil, all, w.b.Load.Units); err == nil {
			return a.level
		}
	}
	return -1
}

// alike says whether a level of another tower beside it stands on posts as high
// from the same height, and names it.
func (w *why) alike(r *Reason) bool {
	own := &w.b.Levels[r.Over]
	for i := range w.b.Levels {
		v := &w.b.Levels[i]
		if v.Tower != own.Tower && abs(v.Bottom-own.Bottom) < 0.5 && abs(w.height(i)-r.Height) < 0.5 {
			r.By = i
			return true
		}
	}
	return false
}

// Spare is what a storey has beyond what it needs, mm; 0 where it lacks room
// or nothing stands there.
func (r Reason) Spare() float64 {
	if r.Need == 0 {
		return 0
	}
	return math.Max(0, r.Height-r.Need)
}
