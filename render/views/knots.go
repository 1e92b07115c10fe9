package views

import (
	"math"
	"strconv"

	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/elevation"
)

// ProfileOptions say what the profile editor shows.
type ProfileOptions struct {
	W, H float64      // px
	Ware *layout.Ware // with its profile filled in
	Body *stacks.Body // nil: only the profile is drawn
	Knot int          // the knot that is held, from 0; -1: none
	Flag string       // at that knot: "95 wide at 76"
}

// Profile draws the grid of the profile editor: the pot from the side, and a
// square to drag at every knot of its right side.
//
// Ids: knot:N from 0. The frame takes a square's place to mm: x is the radius
// (half the diameter), y the height over the foot.
func (e *Easel) Profile(o ProfileOptions) Picture {
	s := &sketch{e: e}
	if o.Ware == nil || len(o.Ware.Profile) < 2 {
		return s.picture(o.W, o.H, "", Frame{})
	}
	wide, high := 0.0, 0.0
	for _, k := range o.Ware.Profile {
		wide, high = math.Max(wide, k.Diameter/2), math.Max(high, k.Height)
	}
	if !finite(wide, high) || wide <= 0 || high <= 0 {
		return s.picture(o.W, o.H, "", Frame{})
	}
	small, main := steps(math.Max(high, wide*2), e.Units == "in")
	right, top := math.Ceil(wide*1.15/small)*small, math.Ceil(high*1.05/small)*small
	figures := 34.0
	flag := 0.0
	if o.Flag != "" {
		flag = math.Min(e.width(textSize, strong, o.Flag)+18, o.W/3)
	}
	per := math.Min((o.W-figures-flag*0.6-8)/(2*right), (o.H-24)/top)
	f := Frame{Per: per, X0: hundredth(figures + (o.W-figures-flag*0.6)/2), Y0: hundredth(o.H - 12)}
	s.grid(f, right, top, small, main)
	x := func(mm float64) float64 { return f.X0 + mm*per }
	y := func(mm float64) float64 { return f.Y0 - mm*per }
	s.path("profile", string(*new(trace).drawn(elevation.ProfilePath(o.Ware.Profile), mapped(f.X0, f.Y0, per))))
	s.line("axis", f.X0, y(top)-7, f.X0, f.Y0+9)
	if o.Knot >= 0 && o.Knot < len(o.Ware.Profile) {
		k := o.Ware.Profile[o.Knot]
		s.line("dim", f.X0, y(k.Height), x(k.Diameter/2), y(k.Height))
	}
	for i, k := range o.Ware.Profile {
		class := "knot"
		if i == o.Knot {
			class = "knot active"
		}
		cx, cy := x(k.Diameter/2), y(k.Height)
		label := e.near(k.Diameter) + " wide at " + e.near(k.Height)
		s.group(class, "knot:"+strconv.Itoa(i), label, func() {
			s.path("reach", circlePath(cx, cy, 22))
			s.path("square", rectPath(cx-5, cy-5, 10, 10))
		})
	}
	if o.Flag != "" && o.Knot >= 0 && o.Knot < len(o.Ware.Profile) {
		k := o.Ware.Profile[o.Knot]
		w := e.width(textSize, strong, o.Flag) + 16
		left := math.Min(x(k.Diameter/2)-4, o.W-w-1)
		up := y(k.Height) - 37
		if up < 1 {
			up = y(k.Height) + 11
		}
		s.path("tag", rectPath(left, up, w, 26))
		s.text(left+8, up+13+e.capital(textSize)/2, o.Flag, "on-tag strong", "start", textSize)
	}
	return s.picture(o.W, o.H, o.Ware.Name+" from the side, with its profile", f)
}

// steps are the fine and the written step of a grid for a size, mm.
func steps(size float64, inches bool) (small, main float64) {
	unit := 1.0
	if inches {
		unit = 25.4 / 10 // the steps below are then tenths of an inch
		list := [...][2]float64{{2.5, 10}, {5, 10}, {10, 20}, {10, 40}, {50, 100}}
		for _, s := range list {
			if size/(s[1]*unit) <= 6 {
				return s[0] * unit, s[1] * unit
			}
		}
		return 100 * unit, 500 * unit
	}
	for _, s := range [...][2]float64{{2, 10}, {5, 20}, {10, 50}, {20, 100}, {50, 200}} {
		if size/s[1] <= 6 {
			return s[0], s[1]
		}
	}
	return math.Max(size/20, 1), math.Max(size/5, 1)
}

// grid draws the squares of the editor with the heights beside them.
func (s *sketch) grid(f Frame, right, top, small, main float64) {
	fine, bold := new(trace), new(trace)
	x := func(mm float64) float64 { return f.X0 + mm*f.Per }
	y := func(mm float64) float64 { return f.Y0 - mm*f.Per }
	n, up := int(math.Round(right/small)), int(math.Round(top/small))
	each := max(1, int(math.Round(main/small)))
	for i := -n; i <= n; i++ {
		t := fine
		if i%each == 0 && i != 0 {
			t = bold
		}
		t.move(x(float64(i)*small), y(0)).line(x(float64(i)*small), y(top))
	}
	for i := 0; i <= up; i++ {
		t := fine
		if i%each == 0 {
			t = bold
		}
		t.move(x(-right), y(float64(i)*small)).line(x(right), y(float64(i)*small))
	}
	s.path("grid", string(*fine))
	s.path("grid main", string(*bold))
	for i := 0; i <= up; i += each {
		z := float64(i) * small
		s.text(x(-right)-6, y(z)+s.e.capital(noteSize)/2, s.e.near(z), "figure quiet", "end", noteSize)
	}
}
