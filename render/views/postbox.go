package views

import (
	"math"
	"strconv"
)

// BoxPost is a kind of post or spacer in the box.
type BoxPost struct {
	Height float64 // mm
	Said   string  // "150"
	Left   int     // how many are in the box
	Spacer bool
}

// BoxOptions say what is in the box of posts.
type BoxOptions struct {
	W, H  float64 // px; 0 high: as high as needed
	Posts []BoxPost
	Bare  bool // without counts: the page puts fields under them
}

// Box draws the posts that are left, to one scale; sizes of which none is left
// are dashed. Rows of more sizes than go beside each other are broken.
//
// Ids: size:HEIGHT on groups.
func (e *Easel) Box(o BoxOptions) Picture {
	s := &sketch{e: e}
	cell := 30.0
	high := 1.0
	for _, p := range o.Posts {
		cell = math.Max(cell, e.width(noteSize, strong, p.Said)+12)
		high = math.Max(high, p.Height)
	}
	count := 0.0
	if !o.Bare {
		count = 18
	}
	across := max(1, int((o.W-4)/cell))
	rows := (len(o.Posts) + across - 1) / across
	if len(o.Posts) > 0 {
		across = (len(o.Posts) + rows - 1) / rows
		cell = math.Min(54, (o.W-4)/float64(across))
	}
	each := 50 + 20 + count
	if o.H > 0 && rows > 0 {
		each = math.Max(o.H/float64(rows), 44+count)
	}
	tall := math.Min(each-20-count-4, 84)
	per := tall / high
	for i, p := range o.Posts {
		x := float64(i%across)*cell + cell/2
		base := float64(i/across)*each + each - 20 - count
		class := "boxpost"
		if p.Left <= 0 && !o.Bare {
			class = "boxpost none"
		}
		label := p.Said + ": " + strconv.Itoa(p.Left) + " left"
		s.group(class, "size:"+p.Said, label, func() {
			h := math.Max(p.Height*per, 3)
			if p.Spacer {
				s.path("spacer", rectPath(x-7, base-h, 14, h))
			} else {
				s.path("piece", rectPath(x-6.5, base-h, 13, h))
			}
			s.text(x, base+16, p.Said, "figure quiet", "middle", noteSize)
			if !o.Bare {
				weight := "count strong"
				if p.Left <= 0 {
					weight = "count"
				}
				s.text(x, base+16+count, strconv.Itoa(max(p.Left, 0)), weight, "middle", noteSize)
			}
		})
	}
	return s.picture(o.W, math.Max(o.H, each*float64(rows)), "The box of posts", Frame{Per: per})
}
