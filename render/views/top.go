package views

import (
	"math"
	"sort"
	"strconv"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/gaps"
)

// TopOptions say what a top view shows.
type TopOptions struct {
	W, H   float64 // px
	Level  int     // the level worked on, into Built.Levels
	Beside []int   // drawn with it; nil: what Beside gives
	Turn   float64 // the drawing turned, degrees clockwise: 0 hinge up, 180 the other way round
	Chosen string  // the chosen pot; "": none
	Held   string  // the pot that is held; "": none
}

// Beside are the levels that are drawn as one with a level: of every other
// tower whose shelf lies beside it, the level nearest in height.
func Beside(b *stacks.Built, level int) []int {
	if level < 0 || level >= len(b.Levels) {
		return nil
	}
	own := &b.Levels[level]
	var out []int
	for t := range b.Towers {
		best, off := -1, math.Inf(1)
		if t == own.Tower {
			continue
		}
		for _, v := range b.Towers[t].Levels {
			if d := math.Abs(b.Levels[v].Top - own.Top); d < off && !overlapping(b, level, v) {
				best, off = v, d
			}
		}
		if best < 0 {
			continue
		}
		free := true
		for _, v := range out {
			free = free && !overlapping(b, best, v)
		}
		if free {
			out = append(out, best)
		}
	}
	return out
}

// overlapping tells whether shelves of two levels lie over each other.
func overlapping(b *stacks.Built, u, v int) bool {
	for _, i := range b.Levels[u].Shelves {
		for _, j := range b.Levels[v].Shelves {
			one := &b.Shelves[i].Solid
			if b.Shelves[j].Outline.SignedDistance(one.Skeleton(0))-one.Body.Parts[0].Profile.Max() < -2 {
				return true
			}
		}
	}
	return false
}

// figure is a pot as it is drawn.
type figure struct {
	pot     int
	level   int
	number  int
	body    part
	foot    part
	cookie  *part
	handles []part
	lo, hi  plane.Vec // the upright box round all parts, mm
}

// plan is a top view being drawn.
type plan struct {
	*sketch
	s       Subject
	b       *stacks.Built
	o       TopOptions
	f       Frame
	levels  []int
	grade   map[string]layout.Grade
	letters map[int]string

	pots  []figure // from the lowest top
	posts []part   // that stand on the levels, and those that only pass
	lines []plane.Skeleton
	edges []plane.Outline
}

// newPlan gathers what stands on the levels of a top view.
func newPlan(e *Easel, s Subject, o TopOptions) *plan {
	p := &plan{sketch: &sketch{e: e}, s: s, b: s.Built, o: o, grade: grades(s), letters: s.letters()}
	if o.Level < 0 || o.Level >= len(p.b.Levels) {
		return p
	}
	beside := o.Beside
	if beside == nil {
		beside = Beside(p.b, o.Level)
	}
	p.levels = append([]int{o.Level}, beside...)
	for _, v := range p.levels {
		for _, i := range p.b.Levels[v].Pots {
			p.pots = append(p.pots, p.figure(i))
		}
		for _, i := range p.b.Levels[v].Shelves {
			p.edges = append(p.edges, p.b.Shelves[i].Outline)
		}
	}
	sort.SliceStable(p.pots, func(i, j int) bool {
		q, r := &p.b.Pots[p.pots[i].pot], &p.b.Pots[p.pots[j].pot]
		if a, b := p.first(q), p.first(r); a != b {
			return b
		}
		return q.Solid.Top() < r.Solid.Top()
	})
	return p
}

// first tells whether a pot is the held or the chosen one, which is painted last.
func (p *plan) first(q *stacks.Pot) bool {
	name := q.Pot.String()
	return name != "" && (name == p.o.Held || name == p.o.Chosen)
}

// figure is pot i as it is drawn.
func (p *plan) figure(i int) figure {
	pot := &p.b.Pots[i]
	d := &pot.Body.Drawn
	f := figure{pot: i, level: pot.Level, body: placed(d.Body, pot), foot: placed(d.Foot, pot)}
	if p.s.Order != nil {
		f.number = p.s.Order.Number(i)
	}
	if d.Cookie != nil {
		c := placed(*d.Cookie, pot)
		f.cookie = &c
	}
	f.lo, f.hi = f.body.Bounds()
	for _, h := range d.Handles {
		q := placed(h, pot)
		f.handles = append(f.handles, q)
		lo, hi := q.Bounds()
		f.lo = plane.Vec{math.Min(f.lo[0], lo[0]), math.Min(f.lo[1], lo[1])}
		f.hi = plane.Vec{math.Max(f.hi[0], hi[0]), math.Max(f.hi[1], hi[1])}
	}
	return f
}

// standing are the posts that stand on a level.
func (p *plan) standing(v int) []int {
	top := p.b.Levels[v].Top
	var out []int
	for i := range p.b.Posts {
		q := &p.b.Posts[i]
		if q.Level == v || math.Abs(q.Bottom-top) > 1 {
			continue
		}
		for _, s := range p.b.Levels[v].Shelves {
			if p.b.Shelves[s].Outline.Contains(q.At) {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

// Distances round a plan, px.
const (
	clockRoom = 26 // beside the wall, for the figures of the clock
	wordRoom  = 16 // under them in a narrow picture, for a line of words
	narrowTop = 420
	headRoom  = 44 // over it, for the names of the levels
)

// Top draws a level from above; half shelves beside each other as one drawing
// even when they hang at different heights.
//
// Ids: pot:NAME and cones:NAME on groups that can be moved whole,
// post:LETTER:TOWER:N by the level it carries, level:TOWER:N on shelves.
func (e *Easel) Top(s Subject, o TopOptions) Picture {
	p := newPlan(e, s, o)
	p.place()
	p.chamber()
	p.shelves()
	p.corners()
	p.clock()
	p.passing()
	for i := range p.pots {
		p.pot(&p.pots[i])
	}
	p.hidden()
	p.stand()
	p.numbers()
	p.gaps()
	return p.picture(o.W, o.H, p.title(), p.f)
}

func (p *plan) title() string {
	if len(p.levels) == 0 {
		return "The kiln from above"
	}
	return capital(p.b.Levels[p.levels[0]].Name) + " from above"
}

// place sets the frame: as large as clock and corners allow.
func (p *plan) place() {
	o := p.b.Chamber.At(plane.Pose{Turn: p.o.Turn})
	lo, hi := o.Bounds()
	w, h := hi[0]-lo[0], hi[1]-lo[1]
	under := 0.0
	if p.o.W < narrowTop {
		under = wordRoom
	}
	fit := func(over float64) {
		per := math.Min((p.o.W-2*clockRoom)/math.Max(w, 1), (p.o.H-2*clockRoom-over-under)/math.Max(h, 1))
		per = math.Max(per, 0.001)
		p.f = Frame{Per: per, Turn: plane.NormalTurn(p.o.Turn)}
		p.f.X0 = hundredth(p.o.W/2 - (lo[0]+hi[0])/2*per)
		p.f.Y0 = hundredth(over + (p.o.H-over-under)/2 + (lo[1]+hi[1])/2*per)
	}
	fit(0)
	for _, c := range p.cornerBoxes() {
		if p.meetsWall(c.grown(4)) {
			fit(headRoom)
			return
		}
	}
}

// meetsWall tells whether a box reaches into the chamber or over the words of
// 12 o'clock.
func (p *plan) meetsWall(b box) bool {
	sk := plane.Skeleton{p.f.MM(b.x0, b.y1), p.f.MM(b.x1, b.y1), p.f.MM(b.x1, b.y0), p.f.MM(b.x0, b.y0)}
	if p.b.Chamber.Distance(sk)*p.f.Per < 22 {
		return true
	}
	middle := box{p.o.W/2 - 50, 0, p.o.W/2 + 50, clockRoom}
	return b.off(middle) < 0
}

// wallAt is where the wall lies on a bearing, in the picture.
func (p *plan) wallAt(bearing float64) (x, y float64) {
	o := p.b.Chamber
	dir := plane.FromBearing(1, bearing)
	near, far := 0.0, o.Reach(plane.Vec{})
	for range 24 {
		mid := (near + far) / 2
		if o.Depth(plane.Scale(dir, mid)) > 0 {
			near = mid
		} else {
			far = mid
		}
	}
	return p.f.Px(plane.Scale(dir, near))
}

// chamber draws the wall with its probes and spyholes.
func (p *plan) chamber() {
	p.path("chamber", ringPath(p.f, p.b.Chamber))
	for i := range p.b.Probes {
		q := &p.b.Probes[i]
		if p.inStorey(q.Kiln.Height) {
			t := new(trace)
			r := math.Max(q.Kiln.Diameter/2, 1)
			in := plane.Add(q.Inner, plane.Scale(plane.Unit(plane.Sub(q.Tip, q.Inner)), r))
			part{gaps.Part{Skeleton: plane.Skeleton{in, q.Tip}, Radius: r}}.trace(t, p.f)
			p.path("probe", string(*t))
			p.lines = append(p.lines, plane.Skeleton{q.Inner, q.Tip})
		}
	}
	for i := range p.b.Spies {
		if q := &p.b.Spies[i]; p.inStorey(q.Height) {
			p.notch(q)
		}
	}
	p.path("cut", ringPath(p.f, p.b.Chamber))
}

// notch marks a spyhole on the inside of the wall.
func (p *plan) notch(s *stacks.Spy) {
	side := plane.Right(s.Inward)
	at := func(in, aside float64) (x, y float64) {
		return p.f.Px(plane.Add(s.Mouth, plane.Add(plane.Scale(s.Inward, in/p.f.Per), plane.Scale(side, aside/p.f.Per))))
	}
	t := new(trace)
	x, y := at(0, -8)
	t.move(x, y)
	x, y = at(7, -4)
	t.line(x, y)
	x, y = at(7, 4)
	t.line(x, y)
	x, y = at(0, 8)
	t.line(x, y).close()
	p.path("spy", string(*t))
	p.lines = append(p.lines, plane.Skeleton{s.Mouth, plane.Add(s.Mouth, plane.Scale(s.Inward, 8/p.f.Per))})
}

// inStorey tells whether a height lies in a storey of the plan.
func (p *plan) inStorey(z float64) bool {
	for _, l := range p.levels {
		if at := &p.b.Levels[l]; z > at.Top-1 && z < at.Ceiling+1 {
			return true
		}
	}
	return false
}

// shelves draws the shelves: the level worked on in wash.
func (p *plan) shelves() {
	for _, v := range p.levels {
		class := "shelf other"
		if v == p.o.Level {
			class = "shelf active"
			if len(p.levels) == 1 {
				class = "shelf alone"
			}
		}
		for _, i := range p.b.Levels[v].Shelves {
			p.marks = append(p.marks, Mark{Kind: PathKind, D: ringPath(p.f, p.b.Shelves[i].Outline), Class: class,
				ID: levelID(p.b, v), Label: capital(p.b.Levels[v].Name)})
		}
	}
}

// pot draws one pot as a group without its figures; they are added to the
// group when all is placed.
func (p *plan) pot(f *figure) {
	pot := &p.b.Pots[f.pot]
	name := pot.Pot.String()
	class := "pot"
	grade := p.grade[name]
	switch {
	case name == p.o.Held:
		class += " held"
	case name == p.o.Chosen:
		class += " chosen"
	default:
		class += gradeClass(grade)
	}
	if f.level != p.o.Level {
		class += " other"
	}
	p.group(class, PotID(pot), p.potLabel(f), func() {
		for _, h := range f.handles {
			t := new(trace)
			h.trace(t, p.f)
			p.path("handle", string(*t))
		}
		t := new(trace)
		f.body.trace(t, p.f)
		body := string(*t)
		p.path("body", body)
		if pot.Cones != nil {
			p.path("hatch cones", body)
			return
		}
		if grade > layout.Note && name != p.o.Held && name != p.o.Chosen {
			p.path("hatch"+gradeClass(grade), body)
		}
		if smaller(f.foot, f.body) && p.inner(f) >= footShown {
			t := new(trace)
			f.foot.trace(t, p.f)
			p.path("foot", string(*t))
		}
		if f.cookie != nil {
			t := new(trace)
			f.cookie.trace(t, p.f)
			p.path("cookie", string(*t))
		}
	})
}

// footShown is the radius of a pot, px, from which its foot is drawn: in a
// smaller one the dots would run through its letter.
const footShown = 21

// potLabel is the accessible name of a pot: "mug 3, number 4".
func (p *plan) potLabel(f *figure) string {
	name := p.b.Pots[f.pot].Pot.String()
	if f.number > 0 {
		name += ", number " + strconv.Itoa(f.number) + " in the order"
	}
	return name
}

// smaller tells whether a foot lies visibly inside its body.
func smaller(foot, body part) bool {
	flo, fhi := foot.Bounds()
	blo, bhi := body.Bounds()
	return bhi[0]-blo[0]-(fhi[0]-flo[0]) > 6 || bhi[1]-blo[1]-(fhi[1]-flo[1]) > 6
}

// hidden dashes what of a lower pot's outline lies under another's rim.
func (p *plan) hidden() {
	for i := range p.pots {
		for j := i + 1; j < len(p.pots); j++ {
			low, high := &p.pots[i], &p.pots[j]
			if low.lo[0] > high.hi[0] || high.lo[0] > low.hi[0] || low.lo[1] > high.hi[1] || high.lo[1] > low.hi[1] {
				continue
			}
			p.dash(low, high)
		}
	}
}

func (p *plan) dash(low, high *figure) {
	for _, q := range append([]part{low.body}, low.handles...) {
		if q.Skeleton.Distance(high.body.Skeleton)-q.Radius-high.body.Radius > -0.3 {
			continue
		}
		ring, err := plane.Widened(q.Skeleton, math.Max(q.Radius, 0.1))
		if err != nil {
			continue
		}
		points := ring.Points(0.3)
		t, pen := new(trace), false
		for k := 0; k <= len(points); k++ {
			v := points[k%len(points)]
			if _, d := high.body.Skeleton.Nearest(v); d < high.body.Radius {
				x, y := p.f.Px(v)
				if pen {
					t.line(x, y)
				} else {
					t.move(x, y)
				}
				pen = true
			} else {
				pen = false
			}
		}
		p.path("under", string(*t))
	}
}
