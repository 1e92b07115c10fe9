package views

import (
	"math"
	"strconv"

	"threepost/geometry/plane"
)

// SmallOptions say which levels are done on the phone's small elevation.
type SmallOptions struct {
	W, H   float64 // px
	Done   []int   // into Built.Levels
	Active int     // into Built.Levels; -1: none
}

// Small draws the kiln small: done levels black, the active one cobalt, what
// is to come as the lines of its shelves.
func (e *Easel) Small(s Subject, o SmallOptions) Picture {
	d := newSection(e, s)
	lo, hi := d.left, d.right
	const rim = 3.0
	per := math.Max(math.Min((o.W-2*rim)/math.Max(hi-lo, 1), (o.H-2*rim)/math.Max(d.b.Height, 1)), 0.001)
	d.f = Frame{Per: per, X0: o.W/2 - (lo+hi)/2*per, Y0: o.H - rim}
	d.path("cut", rectPath(d.x(lo)-1, d.y(d.b.Height)-1, (hi-lo)*per+2, d.b.Height*per+2))
	fill := func(v int, class string) {
		for _, r := range d.storeys(v) {
			x0, x1 := d.x(r.x0)+2, d.x(r.x1)-2
			if x1-x0 > 1 && (r.to-r.from)*per > 2 {
				d.path(class, rectPath(x0, d.y(r.to)+1, x1-x0, (r.to-r.from)*per-2))
			}
		}
	}
	for _, v := range o.Done {
		if v >= 0 && v < len(d.b.Levels) && v != o.Active {
			fill(v, "filled")
		}
	}
	for v := range d.b.Levels {
		x0, x1 := spanOf(d.b, v)
		d.path("topline", rectPath(d.x(x0), d.y(d.b.Levels[v].Top), (x1-x0)*per, math.Max((d.b.Levels[v].Top-d.b.Levels[v].Bottom)*per, 1.5)))
	}
	if o.Active >= 0 && o.Active < len(d.b.Levels) {
		fill(o.Active, "filled active")
	}
	return d.picture(o.W, o.H, "The kiln from the front", d.f)
}

// ActOptions say which pots of a level an act at the kiln sets.
type ActOptions struct {
	W, H  float64 // px
	Level int     // into Built.Levels; -1: the kiln's floor
	Now   []int   // pots of this act, into Built.Pots: solid, with white numbers
	Stand []int   // pots that stand already: outlined, with numbers
	Posts []int   // posts of this act, into Built.Posts: solid cobalt
	Size  float64 // of the numbers, px; 0: 22
}

// Act draws a level large for the phone: the pots of the act solid cobalt with
// white numbers, those that stand outlined, all others dashed; posts as black
// squares with their letters. It shows only the level's own shelves, as large
// as they go.
//
// Ids: pot:NAME, cones:NAME, post:LETTER:TOWER:N.
func (e *Easel) Act(s Subject, o ActOptions) Picture {
	p := newPlan(e, s, TopOptions{W: o.W, H: o.H, Level: o.Level, Beside: []int{}})
	if o.Size <= 0 {
		o.Size = 22
	}
	p.frameAct(o)
	if o.Level < 0 || len(p.edges) == 0 {
		p.path("cut", ringPath(p.f, p.b.Chamber))
	}
	for _, ring := range p.edges {
		p.path("shelf alone", ringPath(p.f, ring))
	}
	now, stand := set(o.Now), set(o.Stand)
	// What is to come is drawn first, so that nothing dashed crosses a number.
	for _, pass := range [...]string{"yet", "stands", "now"} {
		for i := range p.pots {
			f := &p.pots[i]
			class := "yet"
			if stand[f.pot] {
				class = "stands"
			}
			if now[f.pot] {
				class = "now"
			}
			if class == pass {
				p.actPot(f, class, o)
			}
		}
	}
	p.actPosts(o)
	return p.picture(o.W, o.H, p.title(), p.f)
}

func set(list []int) map[int]bool {
	out := map[int]bool{}
	for _, i := range list {
		out[i] = true
	}
	return out
}

// frameAct makes the level's shelves, or the chamber, fill the picture.
func (p *plan) frameAct(o ActOptions) {
	lo, hi := p.b.Chamber.Bounds()
	for i, ring := range p.edges {
		l, h := ring.Bounds()
		if i == 0 {
			lo, hi = l, h
			continue
		}
		lo = plane.Vec{math.Min(lo[0], l[0]), math.Min(lo[1], l[1])}
		hi = plane.Vec{math.Max(hi[0], h[0]), math.Max(hi[1], h[1])}
	}
	per := math.Max(math.Min((o.W-4)/math.Max(hi[0]-lo[0], 1), (o.H-4)/math.Max(hi[1]-lo[1], 1)), 0.001)
	p.f = Frame{Per: per, X0: hundredth(o.W/2 - (lo[0]+hi[0])/2*per), Y0: hundredth(o.H/2 + (lo[1]+hi[1])/2*per)}
}

// actPot draws one pot of a level at the kiln.
func (p *plan) actPot(f *figure, class string, o ActOptions) {
	pot := &p.b.Pots[f.pot]
	p.group("pot "+class, PotID(pot), p.potLabel(f), func() {
		for _, h := range f.handles {
			t := new(trace)
			h.trace(t, p.f)
			p.path("handle", string(*t))
		}
		t := new(trace)
		f.body.trace(t, p.f)
		p.path("body", string(*t))
		if class == "yet" {
			return
		}
		if pot.Cones != nil {
			p.marks = append(p.marks, p.coneWords(f)...)
			return
		}
		if f.number <= 0 {
			return
		}
		x, y := p.f.Px(pot.At)
		words, size := strconv.Itoa(f.number), o.Size
		for size > Least && p.e.width(size, heavy, words)/2 > p.inner(f)-2 {
			size--
		}
		p.centred(x, y, words, "number heavy", size)
	})
}

// actPosts draws the posts that stand on the level, or those of the act.
func (p *plan) actPosts(o ActOptions) {
	own := set(o.Posts)
	var list []int
	if o.Level >= 0 && o.Level < len(p.b.Levels) {
		list = p.standing(o.Level)
	}
	known := set(list)
	for _, i := range o.Posts {
		if i >= 0 && i < len(p.b.Posts) && !known[i] {
			list = append(list, i)
		}
	}
	for _, i := range list {
		post := &p.b.Posts[i]
		class := "post"
		if own[i] {
			class = "post now"
		}
		p.group(class, postID(p.b, post), "Post "+post.Letter, func() {
			t := new(trace)
			q := postPart(post)
			q.trace(t, p.f)
			x, y := p.f.Px(post.At)
			lo, hi := q.Bounds()
			// A square of at least 22 px, so that the letter can be read.
			if least := math.Min(hi[0]-lo[0], hi[1]-lo[1]) * p.f.Per; least < 22 {
				*t = (*t)[:0]
				t.rect(x-11, y-11, 22, 22)
			}
			p.path("solid", string(*t))
			p.centred(x, y, post.Letter, "letter heavy on", headSize)
		})
	}
}
