//go:build !js

package drawing

import (
	"image"
	"image/draw"

	"golang.org/x/image/vector"
)

// painter fills polygons into a picture.
type painter struct {
	fonts *Fonts
	image *image.RGBA
	scale float64      // dots per mm
	mask  *image.Alpha // what the clips let through; nil is everything

	raster vector.Rasterizer
	tile   image.Alpha
	buffer []uint8
}

// tileSide is the side of the squares that are painted at a time. Up to 512
// dots the rasterizer counts in whole numbers, which are the same on every
// processor.
const tileSide = 512

// dotTolerance is how far curves may be off, in dots.
const dotTolerance = 0.05

func newPainter(fonts *Fonts, width, height int, scale float64) *painter {
	m := image.NewRGBA(image.Rect(0, 0, width, height))
	for i := range m.Pix {
		m.Pix[i] = 255
	}
	return &painter{fonts: fonts, image: m, scale: scale, buffer: make([]uint8, tileSide*tileSide)}
}

func (p *painter) items(items []Item) {
	for _, item := range items {
		switch item := item.(type) {
		case Shape:
			p.shape(item)
		case Text:
			p.text(item)
		case Clip:
			p.clip(item)
		}
	}
}

// dots flattens a path in dots.
func (p *painter) dots(path Path) []line {
	return flatten(path.Apply(Scale(p.scale)), dotTolerance)
}

func (p *painter) shape(s Shape) {
	lines := p.dots(s.Path)
	if s.Style.Fill != None {
		p.fill(polygons(lines), s.Style.Fill)
	}
	if s.Style.Stroke != None && s.Style.Width > 0 {
		p.fill(p.strokePieces(lines, s.Style), s.Style.Stroke)
	}
}

func (p *painter) strokePieces(lines []line, s Style) [][]Point {
	perPt := mmPerPt * p.scale
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = d * perPt
	}
	return strokeLines(lines, s.Width*perPt, s.Round, dash)
}

func (p *painter) text(t Text) {
	lines := p.dots(p.fonts.outline(t))
	if t.Style.Halo > 0 {
		p.fill(strokeLines(lines, 2*t.Style.Halo*mmPerPt*p.scale, true, nil), White)
	}
	p.fill(polygons(lines), t.Style.ink())
}

func (p *painter) clip(c Clip) {
	outer := p.mask
	p.mask = image.NewAlpha(p.image.Rect)
	p.cover(polygons(p.dots(c.Path)), func(x, y int, a uint8) {
		if outer != nil {
			a = share(a, outer.Pix[outer.PixOffset(x, y)])
		}
		p.mask.Pix[p.mask.PixOffset(x, y)] = a
	})
	p.items(c.Items)
	p.mask = outer
}

func polygons(lines []line) [][]Point {
	out := make([][]Point, len(lines))
	for i, l := range lines {
		out[i] = l.at
	}
	return out
}

// fill paints polygons, together by the nonzero rule, in a colour.
func (p *painter) fill(figures [][]Point, c Colour) {
	r, g, b := c.RGB()
	p.cover(figures, func(x, y int, a uint8) {
		if p.mask != nil {
			a = share(a, p.mask.Pix[p.mask.PixOffset(x, y)])
		}
		pix := p.image.Pix[p.image.PixOffset(x, y):][:3:3]
		pix[0], pix[1], pix[2] = blend(pix[0], r, a), blend(pix[1], g, a), blend(pix[2], b, a)
	})
}

// share is a of b, both 255ths.
func share(a, b uint8) uint8 { return uint8((uint32(a)*uint32(b) + 127) / 255) }

// blend lays a share of a colour over another.
func blend(under, over, a uint8) uint8 {
	return uint8((uint32(under)*uint32(255-a) + uint32(over)*uint32(a) + 127) / 255)
}

// cover tells how much of each dot the polygons cover, in 255ths, dot by dot
// where it is not nothing.
func (p *painter) cover(figures [][]Point, dot func(x, y int, a uint8)) {
	var b box
	for _, f := range figures {
		for _, at := range f {
			b.add(at)
		}
	}
	if b.empty() {
		return
	}
	area := image.Rect(floor(b.min.X), floor(b.min.Y), floor(b.max.X)+1, floor(b.max.Y)+1).Intersect(p.image.Rect)
	for y := area.Min.Y; y < area.Max.Y; y += tileSide {
		for x := area.Min.X; x < area.Max.X; x += tileSide {
			p.coverTile(image.Rect(x, y, x+tileSide, y+tileSide).Intersect(area), figures, dot)
		}
	}
}

func (p *painter) coverTile(tile image.Rectangle, figures [][]Point, dot func(x, y int, a uint8)) {
	w, h := tile.Dx(), tile.Dy()
	p.raster.Reset(w, h)
	p.raster.DrawOp = draw.Src
	for _, f := range figures {
		p.add(f, tile)
	}
	p.tile = image.Alpha{Pix: p.buffer[:w*h], Stride: w, Rect: image.Rect(0, 0, w, h)}
	p.raster.Draw(&p.tile, p.tile.Rect, image.Opaque, image.Point{})
	for y := range h {
		for x, a := range p.tile.Pix[y*w : (y+1)*w] {
			if a > 0 {
				dot(tile.Min.X+x, tile.Min.Y+y, a)
			}
		}
	}
}

// add hands a polygon to the rasterizer, cut to the tile: above and below it
// is cut away, left and right of it is laid on the tile's side, where it
// still counts for what lies to the right of it.
func (p *painter) add(figure []Point, tile image.Rectangle) {
	left, top := float64(tile.Min.X), float64(tile.Min.Y)
	w, h := float64(tile.Dx()), float64(tile.Dy())
	for i, a := range figure {
		b := figure[(i+1)%len(figure)]
		a, b := Point{a.X - left, a.Y - top}, Point{b.X - left, b.Y - top}
		if (a.Y <= 0 && b.Y <= 0) || (a.Y >= h && b.Y >= h) {
			continue
		}
		a, b = upright(a, b, 0, h), upright(b, a, 0, h)
		p.across(a, b, w)
	}
}

// upright moves a along a-b into the rows from top to bottom.
func upright(a, b Point, top, bottom float64) Point {
	for _, edge := range [2]float64{top, bottom} {
		if (edge == top && a.Y < edge) || (edge == bottom && a.Y > edge) {
			t := (edge - a.Y) / (b.Y - a.Y)
			a = Point{a.X + float64(t*(b.X-a.X)), edge}
		}
	}
	return a
}

// across adds the piece a-b, split where it crosses the tile's sides.
func (p *painter) across(a, b Point, w float64) {
	cuts := [4]float64{0, 1, 1, 1}
	n := 1
	for _, side := range sidesInOrder(a, b, w) {
		if (a.X < side) != (b.X < side) {
			cuts[n] = (side - a.X) / (b.X - a.X)
			n++
		}
	}
	cuts[n] = 1
	from := a
	for _, t := range cuts[1 : n+1] {
		to := between(a, b, t)
		if t == 1 {
			to = b
		}
		middle := (from.X + to.X) / 2
		p.piece(from, to, middle, w)
		from = to
	}
}

func sidesInOrder(a, b Point, w float64) [2]float64 {
	if a.X <= b.X {
		return [2]float64{0, w}
	}
	return [2]float64{w, 0}
}

func (p *painter) piece(a, b Point, middle, w float64) {
	switch {
	case middle <= 0:
		a.X, b.X = 0, 0
	case middle >= w:
		a.X, b.X = w, w
	default:
		a.X, b.X = max(0, min(w, a.X)), max(0, min(w, b.X))
	}
	p.raster.MoveTo(float32(a.X), float32(a.Y))
	p.raster.LineTo(float32(b.X), float32(b.Y))
}

func floor(v float64) int {
	i := int(v)
	if v < float64(i) {
		i--
	}
	return i
}
