package views

import (
	"math"

	"threepost/layout"
)

// FirstOptions are the measures of the first run.
type FirstOptions struct {
	W, H    float64 // px
	Chamber layout.Shape
	Height  float64 // of the chamber, mm
	Front   bool    // opens at the front
	Across  float64 // of the shelf, mm; 0: none yet
	Thick   float64
	Under   float64 // height of the first posts, mm
	Post    float64 // width of a post, mm; 0: 38
}

// First draws half a section of the kiln with its dimensions, and the first
// shelf on its posts dashed.
func (e *Easel) First(o FirstOptions) Picture {
	s := &sketch{e: e}
	half, depth := 290.0, 0.0
	if ring, err := o.Chamber.Outline(); err == nil {
		lo, hi := ring.Bounds()
		half, depth = (hi[0]-lo[0])/2, hi[1]-lo[1]
	}
	high := o.Height
	if !finite(half, high) || half < 1 || high < 1 {
		half, high = math.Max(half, 1), 685
	}
	lid := 26.0
	if o.Front {
		lid = 20
	}
	const wall, dims, foot = 20.0, 62.0, 20.0
	per := math.Min((o.W-wall-dims-2)/half, (o.H-lid-foot-18)/high)
	per = math.Max(per, 0.001)
	f := Frame{Per: per, X0: hundredth(wall + 1 + half*per), Y0: hundredth(9 + lid + high*per)}
	x := func(mm float64) float64 { return f.X0 + mm*per }
	y := func(mm float64) float64 { return f.Y0 - mm*per }
	left, top, in := x(-half)-wall, y(high)-lid, x(-half)
	t := new(trace).move(left, top).line(f.X0, top).line(f.X0, y(high)).line(in, y(high)).line(in, y(0)).line(f.X0, y(0)).line(f.X0, y(0)+foot).line(left, y(0)+foot).close()
	s.path("brick", string(*t))
	s.path("cut", string(*new(trace).move(f.X0, top).line(left, top).line(left, y(0)+foot)))
	s.path("cut", string(*new(trace).move(f.X0, y(high)).line(in, y(high)).line(in, y(0)).line(f.X0, y(0))))
	if !o.Front {
		s.line("cut", left, y(high), in, y(high))
	}
	s.line("axis", f.X0, top-8, f.X0, y(0)+foot+8)
	if o.Height > 0 {
		s.tall(x(0)+34, y(0), y(high), e.near(o.Height), f.X0+4)
	}
	s.across(in, f.X0, y(high*0.32), e.near(half), "half of "+e.near(half*2), depth)
	s.firstShelf(o, x, y, half)
	return s.picture(o.W, o.H, "Half of the kiln cut through", f)
}

// tall draws a height with its extension lines and its figure in the middle.
func (s *sketch) tall(x, y0, y1 float64, words string, from float64) {
	s.line("extension", from, y1, x+10, y1)
	s.line("extension", from, y0, x+10, y0)
	mid := (y0 + y1) / 2
	s.line("dim", x, y1, x, mid-13)
	s.line("dim", x, mid+13, x, y0)
	for _, y := range [...]float64{y0, y1} {
		s.line("dim", x-4, y+4, x+4, y-4)
	}
	s.text(x, mid+s.e.capital(headSize)/2, words, "dim strong", "middle", headSize)
}

// across draws a width with its figure in the middle and a note under it.
func (s *sketch) across(x0, x1, y float64, words, note string, _ float64) {
	mid := (x0 + x1) / 2
	w := s.e.width(headSize, strong, words)/2 + 8
	s.line("dim", x0, y, mid-w, y)
	s.line("dim", mid+w, y, x1, y)
	for _, x := range [...]float64{x0, x1} {
		s.line("dim", x-4, y+4, x+4, y-4)
	}
	s.text(mid, y+s.e.capital(headSize)/2, words, "dim strong", "middle", headSize)
	if s.e.width(noteSize, "", note) < x1-x0-8 {
		s.text(mid, y+28, note, "quiet", "middle", noteSize)
	}
}

// firstShelf draws where the first shelf will lie, dashed.
func (s *sketch) firstShelf(o FirstOptions, x, y func(float64) float64, half float64) {
	if o.Across <= 0 || o.Thick <= 0 || !finite(o.Across, o.Thick, o.Under) {
		return
	}
	reach := math.Min(o.Across/2, half)
	s.path("ghost", string(*new(trace).move(x(0), y(o.Under+o.Thick)).line(x(-reach), y(o.Under+o.Thick)).line(x(-reach), y(o.Under)).line(x(0), y(o.Under))))
	if o.Under <= 0 {
		return
	}
	width := o.Post
	if width <= 0 {
		width = 38
	}
	at := -reach + math.Max(25, width/2+6)
	s.path("ghost", rectPath(x(at-width/2), y(o.Under), x(at+width/2)-x(at-width/2), y(0)-y(o.Under)))
	words := "first shelf at " + s.e.near(o.Under)
	if s.e.width(noteSize, "", words) < x(0)-x(-half)-8 {
		s.text(x(-half/2), y(o.Under+o.Thick)-9, s.e.say(words), "quiet", "middle", noteSize)
	}
}
