package drawing

import "math"

// Pen draws a page. Its places are mm of the current group; a fresh pen's
// group is the page. A pen is for one goroutine; its Fonts may be shared.
type Pen struct {
	fonts *Fonts
	page  Page
	to    Transform
	items *[]Item
}

// NewPen starts an empty page on a paper.
func NewPen(fonts *Fonts, paper Paper) *Pen {
	p := &Pen{fonts: fonts, to: Same(), page: Page{Width: paper.Width, Height: paper.Height}}
	p.items = &p.page.Items
	return p
}

// Page is what has been drawn so far.
func (p *Pen) Page() Page { return p.page }

// Titled names the page; the SVG carries the name.
func (p *Pen) Titled(title string) *Pen { p.page.Title = title; return p }

// Fonts are the fonts the pen measures with.
func (p *Pen) Fonts() *Fonts { return p.fonts }

// Group draws with t applied to every place; the groups outside follow.
func (p *Pen) Group(t Transform, draw func()) {
	outer := p.to
	p.to = t.Then(outer)
	defer func() { p.to = outer }()
	draw()
}

// Clip shows what draw draws only inside a path.
func (p *Pen) Clip(path Path, draw func()) {
	outer, inside := p.items, []Item{}
	p.items = &inside
	defer func() {
		p.items = outer
		p.put(Clip{Path: p.placed(path), Items: inside})
	}()
	draw()
}

// Path draws a path in a style.
func (p *Pen) Path(path Path, s Style) {
	if len(path) > 0 {
		p.put(Shape{Path: p.placed(path), Style: s})
	}
}

// Line draws the straight line from (x1, y1) to (x2, y2).
func (p *Pen) Line(x1, y1, x2, y2 float64, s Style) {
	p.Path(LinePath(Point{x1, y1}, Point{x2, y2}), s)
}

// Rect draws a rectangle with its top left corner at (x, y), w across, h down.
func (p *Pen) Rect(x, y, w, h float64, s Style) { p.Path(Rect(x, y, w, h), s) }

// RoundedRect draws a rectangle with corners of radius r.
func (p *Pen) RoundedRect(x, y, w, h, r float64, s Style) { p.Path(RoundedRect(x, y, w, h, r), s) }

// Circle draws the circle about (x, y) of radius r.
func (p *Pen) Circle(x, y, r float64, s Style) { p.Path(Circle(x, y, r), s) }

// Arc draws the arc about (x, y) of radius r between two bearings, clockwise
// when to > from.
func (p *Pen) Arc(x, y, r, from, to float64, s Style) { p.Path(ArcPath(x, y, r, from, to), s) }

// Polygon draws the closed figure through the points.
func (p *Pen) Polygon(at []Point, s Style) { p.Path(Polygon(at...), s) }

// Polyline draws the open line through the points.
func (p *Pen) Polyline(at []Point, s Style) { p.Path(Polyline(at...), s) }

// Hatch draws lines at 45 degrees, rising to the right, inside a path, spacing
// mm of paper apart. The lines are cut as geometry, so that all outputs show
// the same ones; they start at the page's corner, so that neighbouring
// hatches run on.
func (p *Pen) Hatch(path Path, spacing float64, s Style) {
	lines := hatch(p.placed(path), spacing)
	if len(lines) > 0 {
		s.Fill = None
		p.put(Shape{Path: rounded(lines), Style: s})
	}
}

// Checkbox draws an empty square to tick, side mm wide, top left at (x, y).
func (p *Pen) Checkbox(x, y, side float64) { p.Rect(x, y, side, side, Outline(1).Filled(White)) }

// Text sets one line with its anchor at (x, y) on the baseline and gives its
// length in mm. Sizes stay in points of paper in every group; the text turns
// with the group but is never mirrored.
func (p *Pen) Text(x, y float64, words string, s TextStyle) float64 {
	width := p.fonts.Width(s, words)
	if words == "" {
		return 0
	}
	d := p.to.Apply(Point{1, 0})
	o := p.to.Apply(Point{})
	if dx, dy := d.X-o.X, d.Y-o.Y; dy != 0 || dx <= 0 {
		s.Turn += math.Atan2(dy, dx) * 180 / math.Pi
	}
	s.Turn = round(s.Turn)
	p.put(Text{At: roundPoint(p.to.Apply(Point{x, y})), Words: words, Style: s, Width: width})
	return width
}

// TextWidth is the length of a line in mm.
func (p *Pen) TextWidth(words string, s TextStyle) float64 { return p.fonts.Width(s, words) }

// TextWrapped sets words in lines no longer than width mm, the first baseline
// at y, the next ones leading mm lower; x is where the anchor stands. It gives
// the height used: leading times the number of lines. A word longer than the
// width is broken inside.
func (p *Pen) TextWrapped(x, y, width, leading float64, words string, s TextStyle) float64 {
	lines := p.fonts.Wrap(s, words, width)
	for i, line := range lines {
		p.Text(x, y+float64(leading*float64(i)), line, s)
	}
	return leading * float64(len(lines))
}

func (p *Pen) put(i Item) { *p.items = append(*p.items, i) }

func (p *Pen) placed(path Path) Path { return rounded(path.Apply(p.to)) }

// round keeps recorded figures on a grid of 0.0001, below what any output
// shows, so that last digits that differ between processors do not.
func round(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

func roundPoint(p Point) Point { return Point{round(p.X), round(p.Y)} }

func rounded(path Path) Path {
	for i := range path {
		for j := range path[i].P {
			path[i].P[j] = roundPoint(path[i].P[j])
		}
	}
	return path
}
