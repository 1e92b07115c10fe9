package planner

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// Purchase is furniture that a potter might get, and what a plan with it sets
// more than the plan without.
type Purchase struct {
	What  string  // "three posts of 75"
	More  int     // pots more
	Worth float64 // value more, in the plan's measure
	Ware  []Gain  // of which rows, in their order; less than 0: so many wait instead
	Plan  *Plan   // with the purchase, as it was found; its load owns it
}

// Buying is what was tried and what of it sets more.
type Buying struct {
	Tried int        // purchases planned for
	Of    int        // purchases there are to plan for
	Work  int64      // units spent on each
	Kept  bool       // something is locked or stands in the kiln, so that no level can be built anew
	Worth []Purchase // those that set more, the best first
}

// Purchases that are tried: how many in all, and how many of them are told.
const (
	mostPurchases = 12
	toldPurchases = 3
)

// BuyWork is the work of planning with each purchase, in units, that people are
// told of: all together some seconds on one core.
const BuyWork = 10000

// Buyer plans a load anew with each of a few purchases, a step at a time, and
// tells those with which more is set than in the plan and than as much work
// finds without: three posts more of each height that is owned or is usual, one
// shelf more of each kind, alone and with three posts. More is more pots and
// more value. Each trial begins with what the plan's levels hold. A plan that
// stands without a purchase stands with it, so a purchase that the search does
// not find a use for is left out, never told as a loss. Neither the load nor the
// plan is changed.
type Buyer struct {
	load  *layout.Load
	base  *Plan
	plain *Search
	on    footing
	warm  bool // trials begin with the plan's levels
	all   []addition
	now   *Search // at work; nil: the next is to begin
	left  int64   // of its work
	out   Buying
}

// StartBuying begins with a plan, whoever made it, of the load as it is owned;
// work is units for each purchase. It fails as Start does.
func StartBuying(l *layout.Load, p *Plan, work int64) (*Buyer, error) {
	y := &Buyer{load: l, out: Buying{Work: work}}
	if p.Set >= p.Of {
		return y, nil
	}
	plain, err := Start(l, p.Seed)
	if err != nil {
		return nil, err
	}
	if keptFrame(plain.context) != nil {
		y.out.Kept = true
		return y, nil
	}
	base := *p
	base.musts = plain.context.mustsOf(p.Load)
	if b, err := stacks.Build(p.Load); err == nil {
		for _, w := range Wishes(b, clearance.New(b)) {
			if !w.Kept && !w.sight {
				base.deaf = max(base.deaf, mostDeaf) // it goes against a wish itself
			}
		}
	}
	y.base, y.plain = &base, plain
	y.all = purchases(l)
	y.out.Of = len(y.all)
	y.now, y.left = plain, work
	return y, nil
}

// mostDeaf is more than any plan goes against the wishes.
const mostDeaf = 1 << 30

// mustsOf is the value of what is set of the pots that must go.
func (c *context) mustsOf(l *layout.Load) float64 {
	sum := 0.0
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				for _, k := range c.kinds {
					if k.must && k.name == p.Pot.Ware {
						sum += k.value
					}
				}
			}
		}
	}
	return sum
}

// Step does about that many units of work more and reports whether all
// purchases were planned with. It fails as Start does.
func (y *Buyer) Step(work int64) (done bool, err error) {
	for work > 0 {
		if y.now == nil {
			if y.out.Tried >= len(y.all) {
				return true, nil
			}
			if err := y.begin(); err != nil {
				return false, err
			}
		}
		part := min(work, y.left)
		work -= part
		y.left -= part
		if y.now.Step(part) || y.left <= 0 {
			y.end()
		}
	}
	return y.now == nil && y.out.Tried >= len(y.all), nil
}

// begin starts the trial of the next purchase.
func (y *Buyer) begin() error {
	with := y.load.Clone()
	with.Towers = nil
	y.all[y.out.Tried].apply(with)
	y.left = y.out.Work
	if y.warm {
		t, near, err := y.plain.trial(with, y.on)
		if err != nil {
			return err
		}
		t.tasks = append(t.tasks, func() { t.look(near, t.around(near), y.on, y.out.Work/3) })
		t.survey()
		y.now = t
		return nil
	}
	s, err := Start(with, y.base.Seed)
	y.now = s
	return err
}

// end takes what a trial found.
func (y *Buyer) end() {
	s := y.now
	y.now = nil
	q := s.found()
	if s == y.plain {
		if q != nil && q.worthMore(y.base) && q.asWished(y.base) {
			y.base = q
		}
		y.on, y.warm = s.footing(y.base)
		return
	}
	what := y.all[y.out.Tried].say
	y.out.Tried++
	if q == nil || q.Set <= y.base.Set || !q.worthMore(y.base) || !q.asWished(y.base) || !beatsParts(q, what, y.out.Worth) {
		return
	}
	y.out.Worth = append(y.out.Worth, Purchase{What: what, More: q.Set - y.base.Set, Worth: q.Value - y.base.Value, Ware: gains(y.load, y.base, q), Plan: q})
}

// Now is what was found so far.
func (y *Buyer) Now() Buying {
	out := y.out
	out.Worth = append([]Purchase(nil), y.out.Worth...)
	sort.SliceStable(out.Worth, func(i, j int) bool { return out.Worth[i].Plan.worthMore(out.Worth[j].Plan) })
	out.Worth = out.Worth[:min(len(out.Worth), toldPurchases)]
	return out
}

// worthMore orders plans by what they set: musts first, then value.
func (p *Plan) worthMore(q *Plan) bool {
	const crumb = 1e-9
	if abs(p.musts-q.musts) > crumb {
		return p.musts > q.musts
	}
	return p.Value > q.Value+crumb
}

// asWished says whether a plan has no more watches than another and goes no
// further against the wishes: else what it sets more is no gain.
func (p *Plan) asWished(q *Plan) bool { return p.watch <= q.watch && p.deaf <= q.deaf }

// beatsParts says whether a purchase sets more than each told purchase that is
// a part of it: a shelf with posts that are of no use beside it is not told.
func beatsParts(q *Plan, what string, told []Purchase) bool {
	parts := strings.Split(what, and)
	for _, b := range told {
		if slices.Contains(parts, b.What) && !q.worthMore(b.Plan) {
			return false
		}
	}
	return true
}

// and joins the parts of a purchase.
const and = " and "

// purchases are what a potter might get: posts come in threes, since a level
// stands on three lines.
func purchases(l *layout.Load) []addition {
	var posts, shelves, both []addition
	three := func(h float64) string {
		return "three posts of " + measure.FormatLengthTo(h, l.Units, measure.Nearest, measure.PostGrain)
	}
	more := func(h float64) func(*layout.Load) {
		return func(l *layout.Load) { l.Furniture.Posts = withThree(l.Furniture.Posts, h) }
	}
	heights := purchaseHeights(l)
	for _, h := range heights {
		posts = append(posts, addition{say: three(h), many: true, apply: more(h)})
	}
	for j := range l.Furniture.Shelves {
		kind := &l.Furniture.Shelves[j]
		if kind.Count == 0 || kind.Cracked || kind.Damp {
			continue
		}
		name := "one " + silhouette.Singular(strings.TrimSpace(kind.Name+" shelf"))
		shelf := func(l *layout.Load) { l.Furniture.Shelves[j].Count++ }
		shelves = append(shelves, addition{say: name, apply: shelf})
		for _, h := range heights {
			both = append(both, addition{say: name + and + three(h), many: true, apply: func(l *layout.Load) { shelf(l); more(h)(l) }})
		}
	}
	// Single things first: a pair is tried where there is room in the count.
	all := slices.Concat(posts[:min(len(posts), mostPurchases/2)], shelves[:min(len(shelves), mostPurchases/4)])
	return append(all, both[:min(len(both), mostPurchases-len(all))]...)
}

// usualHeights are heights that posts are sold in, mm (common practice); in
// inches 2, 3, 4, 5, 6 and 8.
func usualHeights(units measure.Units) []float64 {
	if units == measure.Inches {
		return []float64{50.8, 76.2, 101.6, 127, 152.4, 203.2}
	}
	return []float64{50, 75, 100, 125, 150, 200}
}

// purchaseHeights are the heights worth buying posts of: the usual ones and
// those owned that make a level of their own, the ones fewest are owned of
// first, then the lower ones.
func purchaseHeights(l *layout.Load) []float64 {
	const least, same = 40, 2 // mm: a post that stands alone; two heights that are one
	owned := map[float64]int{}
	var out []float64
	enter := func(h float64) float64 {
		for _, o := range out {
			if abs(o-h) <= same {
				return o
			}
		}
		out = append(out, h)
		return h
	}
	for _, p := range l.Furniture.Posts {
		if !p.Spacer && p.Height >= least {
			owned[enter(p.Height)] += p.Count
		}
	}
	for _, h := range usualHeights(l.Units) {
		if h < l.Kiln.Height {
			enter(h)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if owned[out[i]] != owned[out[j]] {
			return owned[out[i]] < owned[out[j]]
		}
		return out[i] < out[j]
	})
	return out
}

// withThree is a list of posts with three more of a height: of the row that is
// owned, or a row of its own with the section that the others have.
func withThree(posts []layout.PostKind, height float64) []layout.PostKind {
	for i := range posts {
		if !posts[i].Spacer && posts[i].Height == height {
			posts[i].Count += 3
			return posts
		}
	}
	row := layout.PostKind{Height: height, Count: 3}
	for i := range posts {
		if !posts[i].Spacer {
			row.Section = posts[i].Section
			break
		}
	}
	return append(posts, row)
}

// gains are the rows of which another plan sets more or fewer.
func gains(l *layout.Load, from, to *Plan) []Gain {
	count := map[string]int{}
	add := func(p *Plan, n int) {
		for _, t := range p.Load.Towers {
			for _, v := range t.Levels {
				for _, at := range v.Set {
					count[at.Pot.Ware] += n
				}
			}
		}
	}
	add(to, 1)
	add(from, -1)
	var out []Gain
	for i := range l.Ware {
		if n := count[l.Ware[i].Name]; n != 0 {
			out = append(out, Gain{l.Ware[i].Name, n})
		}
	}
	return out
}

// Say tells a purchase: "three posts of 75: 4 more mugs, 1 bowl less".
func (b Purchase) Say() string {
	var more, less []string
	for _, g := range b.Ware {
		if g.Count > 0 {
			more = append(more, fmt.Sprintf("%d more %s", g.Count, silhouette.Named(g.Count, g.Ware)))
		} else {
			less = append(less, fmt.Sprintf("%d fewer %s", -g.Count, silhouette.Named(-g.Count, g.Ware)))
		}
	}
	return b.What + ": " + strings.Join(append(more, less...), ", ")
}

// Say tells what is worth buying, a sentence each, the best first; nothing
// where all pots are set. It tells what was tried, since a search of so much
// work proves nothing of what it does not find.
func (b Buying) Say() []string {
	switch {
	case b.Kept:
		return []string{"What is locked or stands in the kiln stays on its levels; unlock it to be told what is worth buying."}
	case b.Of == 0:
		return nil
	case len(b.Worth) == 0 && b.Tried == 0:
		return []string{fmt.Sprintf("Stopped before the first of %s was planned with.", silhouette.Counted(b.Of, "purchase"))}
	case len(b.Worth) == 0 && b.Tried < b.Of:
		return []string{fmt.Sprintf("Stopped after %s: none so far sets more, by %d units of work each.", b.triedSaid(), b.Work)}
	case len(b.Worth) == 0:
		return []string{fmt.Sprintf("None of %s sets more, by %d units of work each.", b.triedSaid(), b.Work)}
	}
	var out []string
	for _, p := range b.Worth {
		out = append(out, fmt.Sprintf("Worth buying next: %s.", p.Say()))
	}
	return append(out, fmt.Sprintf("So say plans with %s, by %d units of work each.", b.triedSaid(), b.Work))
}

// triedSaid counts the purchases that were planned with, of all where it was
// stopped before.
func (b Buying) triedSaid() string {
	if b.Tried < b.Of {
		return fmt.Sprintf("%d of %s", b.Tried, silhouette.Counted(b.Of, "purchase"))
	}
	return silhouette.Counted(b.Tried, "purchase")
}
