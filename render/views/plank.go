package views

import (
	"math"

	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/elevation"
)

// PlankItem is a row of ware on the table's plank.
type PlankItem struct {
	Ware   *layout.Ware
	Body   *stacks.Body // of the row; nil: the row makes no pot and is told without a picture
	Count  int          // how many wait; of a set row, how many are set
	Set    bool         // all of it stands in the kiln: dashed, at the right
	Title  string       // "2 mugs"
	Note   string       // "Ida 31 · left 2 is full"
	Chosen bool
}

// PlankOptions say what stands on the plank.
type PlankOptions struct {
	W, H  float64 // px; the picture is wider when the rows need it: the page scrolls
	Items []PlankItem
}

// Distances on the plank, px.
const (
	plankThick  = 7
	captionHigh = 44 // under the plank's top: plank and two lines
	plankStart  = 24
	plankGap    = 28
	mostDrawn   = 5 // pots of one row that are drawn behind each other
	leastColumn = 64
)

// column is one row's place on the plank.
type column struct {
	item  PlankItem
	shape elevation.Silhouette
	drawn int
	step  float64 // mm between pots of the row
	wide  float64 // px of its place
}

// Plank draws the ware on the table, to one scale: what waits as solid
// silhouettes, what all stands in the kiln dashed at the right.
//
// Ids: ware:NAME on groups.
func (e *Easel) Plank(o PlankOptions) Picture {
	s := &sketch{e: e}
	top := o.H - captionHigh
	var waits, sets []column
	high := 1.0
	for _, it := range o.Items {
		c := column{item: it, drawn: min(max(it.Count, 1), mostDrawn)}
		if it.Set {
			c.drawn = 1
		}
		if it.Body != nil && it.Ware != nil {
			c.shape = elevation.AsideOf(it.Body, it.Ware)
			c.step = math.Max((c.shape.Max-c.shape.Min)*0.32, 8)
			high = math.Max(high, c.shape.Top)
		}
		if it.Set {
			sets = append(sets, c)
		} else {
			waits = append(waits, c)
		}
	}
	per := math.Min(math.Max((top-6)/high, 0.02), 0.55)
	x := float64(plankStart)
	x = s.columns(waits, x, top, per, o)
	parting := 0.0
	if len(sets) > 0 {
		parting = x - plankGap/2
		if len(waits) == 0 {
			parting = 0
		}
		x = s.columns(sets, x+plankGap/2, top, per, o)
	}
	w := math.Max(o.W, x)
	if parting > 0 {
		s.line("parting", parting, 2, parting, o.H-2)
	}
	behind := s.marks
	s.marks = nil
	s.path("plank", rectPath(0.6, top, w-1.2, plankThick))
	s.marks = append(s.marks, behind...)
	return s.picture(w, o.H, "Pots on the table, drawn to one scale", Frame{Per: per, X0: 0, Y0: top})
}

// columns draws rows side by side from x on and gives where the next begins.
func (s *sketch) columns(list []column, x, top, per float64, o PlankOptions) float64 {
	for _, c := range list {
		title, note := c.item.Title, c.item.Note
		note = s.e.fit(note, "", noteSize, 200)
		words := math.Max(s.e.width(noteSize, strong, title), s.e.width(noteSize, "", note))
		pots := (c.shape.Max - c.shape.Min + c.step*float64(c.drawn-1)) * per
		c.wide = math.Max(math.Max(words, pots), leastColumn)
		class := "row waiting"
		if c.item.Set {
			class = "row gone"
		}
		if c.item.Chosen {
			class += " chosen"
		}
		name := ""
		if c.item.Ware != nil {
			name = "ware:" + c.item.Ware.Name
		}
		s.group(class, name, title+", "+c.item.Note, func() {
			s.path("hit", rectPath(x-plankGap/2, 0, c.wide+plankGap, o.H))
			for i := c.drawn - 1; i >= 0; i-- {
				to := mapped(x+(-c.shape.Min+c.step*float64(i))*per, top, per)
				for _, piece := range c.shape.Pieces() {
					s.path("ware", string(*new(trace).drawn(piece, to)))
				}
			}
			s.text(x, top+plankThick+15, title, "strong", "start", noteSize)
			s.text(x, top+plankThick+32, note, "quiet", "start", noteSize)
		})
		x += c.wide + plankGap
	}
	return x
}

// AsideOptions say how one pot is drawn from the side.
type AsideOptions struct {
	W, H   float64 // px
	Ware   *layout.Ware
	Body   *stacks.Body
	Chosen bool
	Dashed bool    // none left
	Per    float64 // px per mm; 0: as large as fits
}

// Aside draws one pot from the side, standing in the middle of the lower edge.
func (e *Easel) Aside(o AsideOptions) Picture {
	s := &sketch{e: e}
	if o.Ware == nil || o.Body == nil {
		return s.picture(o.W, o.H, "", Frame{})
	}
	shape := elevation.AsideOf(o.Body, o.Ware)
	fits := math.Min((o.W-3)/math.Max(shape.Max-shape.Min, 1), (o.H-3)/math.Max(shape.Top, 1))
	per := o.Per
	if per <= 0 || per > fits {
		per = fits
	}
	class := "pot waiting"
	switch {
	case o.Chosen:
		class = "pot chosen"
	case o.Dashed:
		class = "pot gone"
	}
	x, y := o.W/2-(shape.Min+shape.Max)/2*per, o.H-1.5
	s.group(class, "ware:"+o.Ware.Name, o.Ware.Name, func() {
		to := mapped(x, y, per)
		for _, piece := range shape.Pieces() {
			s.path("ware", string(*new(trace).drawn(piece, to)))
		}
	})
	return s.picture(o.W, o.H, o.Ware.Name+" from the side", Frame{Per: per, X0: x, Y0: y})
}
