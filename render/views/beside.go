package views

import "math"

// BesideOptions say what a plan among others shows.
type BesideOptions struct {
	W, H    float64 // px
	Differs []int   // into Built.Levels: washed
}

// besideRoom is what a level's number takes beside the wall, px.
const besideRoom = 26

// Beside draws a plan small, to stand beside others of the same kiln: plans in
// pictures of one size are to one scale, whatever is on which side. Levels that
// differ are washed, levels have their numbers and nothing else. It is a
// picture only: its marks have no ids.
func (e *Easel) Beside(s Subject, o BesideOptions) Picture {
	d := newSection(e, s)
	d.compact = true
	d.place(besideRoom, edge, math.Max(o.W-2*besideRoom, 40), math.Max(o.H-2*edge, 40))
	d.brick()
	for _, v := range o.Differs {
		d.wash(v)
	}
	d.pots()
	d.probes()
	d.shelves()
	d.posts()
	d.besideNumbers(o)
	p := d.picture(o.W, o.H, "The kiln from the front", d.f)
	unnamed(p.Marks)
	return p
}

// besideNumbers sets each level's number outside the wall on its side, by its
// shelf.
func (d *section) besideNumbers(o BesideOptions) {
	out := d.outer()
	for _, side := range [...]int{-1, 1} {
		var levels []int
		for v := range d.b.Levels {
			here := d.sides[d.b.Levels[v].Tower]
			if d.number(v) != "" && (here == side || here == 0 && side < 0) {
				levels = append(levels, v)
			}
		}
		// From the top down, so that places rise with y.
		for i, j := 0, len(levels)-1; i < j; i, j = i+1, j-1 {
			levels[i], levels[j] = levels[j], levels[i]
		}
		want, room := make([]float64, len(levels)), make([]float64, len(levels))
		half := d.e.capital(textSize) / 2
		for i, v := range levels {
			want[i], room[i] = d.y((d.b.Levels[v].Top+d.b.Levels[v].Bottom)/2)+half, 15
		}
		x, anchor := out.x0-9, "end"
		if side > 0 {
			x, anchor = out.x1+9, "start"
		}
		for i, y := range spreadOut(want, room, 2*half, o.H-edge) {
			d.text(x, y, d.number(levels[i]), "level heavy", anchor, textSize)
		}
	}
}

// unnamed takes the names off marks that nothing can be done with.
func unnamed(marks []Mark) {
	for i := range marks {
		marks[i].ID, marks[i].Label = "", ""
		unnamed(marks[i].Marks)
	}
}
