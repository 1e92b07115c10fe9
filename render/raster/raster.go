package raster

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/render/scene"
)

// MostPixels is the largest picture, px in all.
const MostPixels = 32 << 20

// Options say how a scene is drawn.
type Options struct {
	Width, Height int // px
	Samples       int // along each side of a px, 1 to 4; 0 means 2
	Cut           *scene.Plane
	Held          int // piece in the colour of what is held; 0: none
}

// Draw draws the shown groups of a scene as a camera sees them. It refuses,
// with a sentence, pictures of no size or of too many px.
func Draw(s *scene.Scene, c scene.Camera, o Options) (*image.RGBA, error) {
	if o.Samples == 0 {
		o.Samples = 2
	}
	switch {
	case o.Width < 1 || o.Height < 1 || o.Samples < 1 || o.Samples > 4:
		return nil, fmt.Errorf("a picture of %d x %d px with %d x %d samples; give a size from 1 x 1 and 1 to 4 samples", o.Width, o.Height, o.Samples, o.Samples)
	case o.Width > MostPixels/o.Height:
		return nil, fmt.Errorf("a picture of %d x %d px; it takes %d million px at most", o.Width, o.Height, MostPixels>>20)
	}
	p := newPainter(s, c, o)
	for i := range s.Groups {
		if g := &s.Groups[i]; g.Shown {
			p.group(g)
		}
	}
	p.lines()
	return p.image(), nil
}

// PNG writes a picture.
func PNG(w io.Writer, img *image.RGBA) error {
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	return enc.Encode(w, img)
}

// painter holds the samples.
type painter struct {
	s     *scene.Scene
	cam   scene.Camera
	o     Options
	w, h  int // samples
	n     int // samples a px
	near  float64
	view  mgl64.Mat4
	focal float64 // px of a sample grid per mm at distance 1, or per mm when parallel
	light scene.Light

	depth  []float32 // 1 / distance, or -distance when parallel: larger is nearer
	colour []scene.Colour
	piece  []int32 // id, 0 the ground, negative: of the kiln
	facing []uint8 // which way the surface turns: for inner edges
}

func newPainter(s *scene.Scene, c scene.Camera, o Options) *painter {
	p := &painter{s: s, cam: c, o: o, n: o.Samples, w: o.Width * o.Samples, h: o.Height * o.Samples, view: c.View(), light: s.Look.Light}
	p.near = c.NearDepth()
	if c.Parallel() {
		p.focal = float64(p.h) / c.Span
	} else {
		p.focal = float64(p.h) / 2 / math.Tan(mgl64.DegToRad(c.Angle)/2)
	}
	size := p.w * p.h
	p.depth = make([]float32, size)
	p.colour = make([]scene.Colour, size)
	p.piece = make([]int32, size)
	p.facing = make([]uint8, size)
	for i := range p.depth {
		p.depth[i] = float32(math.Inf(-1))
		p.colour[i] = s.Look.Ground
	}
	return p
}

// corner is a vertex on its way to the samples.
type corner struct {
	eye    mgl64.Vec3 // the camera's frame: z toward the eye
	world  mgl64.Vec3
	light  float64
	key    float64
	colour scene.Colour
}

// spot is a corner on the sample grid.
type spot struct{ x, y, d float64 }

// toEye brings a point into the camera's frame.
func (p *painter) toEye(v mgl64.Vec3) mgl64.Vec3 {
	m := &p.view
	return mgl64.Vec3{
		m[0]*v[0] + m[4]*v[1] + m[8]*v[2] + m[12],
		m[1]*v[0] + m[5]*v[1] + m[9]*v[2] + m[13],
		m[2]*v[0] + m[6]*v[1] + m[10]*v[2] + m[14],
	}
}

// turned brings a direction into the camera's frame.
func (p *painter) turned(v mgl64.Vec3) mgl64.Vec3 {
	m := &p.view
	return mgl64.Vec3{
		m[0]*v[0] + m[4]*v[1] + m[8]*v[2],
		m[1]*v[0] + m[5]*v[1] + m[9]*v[2],
		m[2]*v[0] + m[6]*v[1] + m[10]*v[2],
	}
}

// spotOf is where a point of the camera's frame falls.
func (p *painter) spotOf(e mgl64.Vec3) spot {
	if p.cam.Parallel() {
		return spot{float64(p.w)/2 + e[0]*p.focal, float64(p.h)/2 - e[1]*p.focal, e[2]}
	}
	k := p.focal / -e[2]
	return spot{float64(p.w)/2 + e[0]*k, float64(p.h)/2 - e[1]*k, -1 / e[2]}
}

// corners are all vertices of a mesh, lit.
func (p *painter) corners(m *scene.Mesh) []corner {
	list := make([]corner, m.Vertices())
	for i := range list {
		c := &list[i]
		c.world = vec(m.Positions, i)
		c.eye = p.toEye(c.world)
		n := vec(m.Normals, i)
		e := p.turned(n)
		l := &p.light
		c.light = float64(l.Floor) + float64(l.Sky-l.Floor)*(n[2]*0.5+0.5) + float64(l.Fill)*math.Max(0, along(e, l.FillAt))
		c.key = float64(l.Key) * math.Max(0, along(e, l.KeyAt))
		c.colour = scene.Colour{m.Colours[4*i], m.Colours[4*i+1], m.Colours[4*i+2]}
	}
	return list
}

func along(e mgl64.Vec3, d [3]float32) float64 {
	return e[0]*float64(d[0]) + e[1]*float64(d[1]) + e[2]*float64(d[2])
}

func vec(list []float32, i int) mgl64.Vec3 {
	return mgl64.Vec3{float64(list[3*i]), float64(list[3*i+1]), float64(list[3*i+2])}
}

// group draws the triangles of a mesh.
func (p *painter) group(g *scene.Group) {
	m := &g.Mesh
	list := p.corners(m)
	var poly, clipped []corner
	for t := 0; t+2 < len(m.Indexes); t += 3 {
		ia := m.Indexes[t]
		poly = append(poly[:0], list[ia], list[m.Indexes[t+1]], list[m.Indexes[t+2]])
		if p.o.Cut != nil {
			clipped = clip(poly, clipped[:0], func(c *corner) float64 {
				n := p.o.Cut.Normal
				return p.o.Cut.Offset - (n[0]*c.world[0] + n[1]*c.world[1] + n[2]*c.world[2])
			})
			poly, clipped = clipped, poly
		}
		if !p.cam.Parallel() {
			clipped = clip(poly, clipped[:0], func(c *corner) float64 { return -c.eye[2] - p.near })
			poly, clipped = clipped, poly
		}
		paint := face{piece: int32(m.Pieces[ia]), hatch: scene.Hatch(m.Colours[4*ia+3] + 0.5), kiln: g.Kiln}
		for k := 2; k < len(poly); k++ {
			p.triangle(&poly[0], &poly[k-1], &poly[k], paint)
		}
	}
}

// clip keeps the part of a polygon where inside is not negative.
func clip(in, out []corner, inside func(*corner) float64) []corner {
	for i := range in {
		a, b := &in[i], &in[(i+1)%len(in)]
		da, db := inside(a), inside(b)
		if da >= 0 {
			out = append(out, *a)
		}
		if (da >= 0) != (db >= 0) {
			out = append(out, between(a, b, da/(da-db)))
		}
	}
	return out
}

func between(a, b *corner, t float64) corner {
	mix := func(x, y float64) float64 { return x + (y-x)*t }
	c := corner{light: mix(a.light, b.light), key: mix(a.key, b.key), colour: a.colour.Mix(b.colour, float32(t))}
	for k := range 3 {
		c.eye[k], c.world[k] = mix(a.eye[k], b.eye[k]), mix(a.world[k], b.world[k])
	}
	return c
}

// face is what all samples of a triangle share.
type face struct {
	piece int32
	hatch scene.Hatch
	kiln  bool
}

// triangle fills a triangle. Back faces are left out, but where a plane cuts
// they show what it cut through, flat.
func (p *painter) triangle(a, b, c *corner, f face) {
	sa, sb, sc := p.spotOf(a.eye), p.spotOf(b.eye), p.spotOf(c.eye)
	area := (sb.x-sa.x)*(sc.y-sa.y) - (sc.x-sa.x)*(sb.y-sa.y)
	if area == 0 || math.IsNaN(area) {
		return
	}
	back := area > 0 // y runs down
	if back && (p.o.Cut == nil || f.kiln) {
		return
	}
	facing := facingOf(a, b, c)
	if back {
		facing = 255
	}
	x0, x1 := span(sa.x, sb.x, sc.x, p.w)
	y0, y1 := span(sa.y, sb.y, sc.y, p.h)
	inv := 1 / area
	for y := y0; y <= y1; y++ {
		py := float64(y) + 0.5
		for x := x0; x <= x1; x++ {
			px := float64(x) + 0.5
			wa := ((sb.x-px)*(sc.y-py) - (sc.x-px)*(sb.y-py)) * inv
			wb := ((sc.x-px)*(sa.y-py) - (sa.x-px)*(sc.y-py)) * inv
			wc := 1 - wa - wb
			if wa < 0 || wb < 0 || wc < 0 {
				continue
			}
			d := float32(wa*sa.d + wb*sb.d + wc*sc.d)
			i := y*p.w + x
			if d <= p.depth[i] {
				continue
			}
			p.depth[i], p.piece[i], p.facing[i] = d, f.piece, facing
			if f.kiln {
				p.piece[i] = -f.piece
			}
			if !p.cam.Parallel() { // weights in space, not on the grid
				wa, wb, wc = wa*sa.d, wb*sb.d, wc*sc.d
				k := 1 / (wa + wb + wc)
				wa, wb, wc = wa*k, wb*k, wc*k
			}
			p.colour[i] = p.shaded(a, b, c, wa, wb, wc, f, back, x, y)
		}
	}
}

// span is the samples whose middles may lie between three places.
func span(a, b, c float64, n int) (int, int) {
	lo, hi := math.Floor(min(a, b, c)-0.5), math.Ceil(max(a, b, c)+0.5)
	return int(math.Max(0, lo)), int(math.Min(float64(n-1), hi))
}

// facingOf is one of a few ways a surface can turn: level, or upright by its
// bearing; samples of one piece with different ways have an edge between
// them.
func facingOf(a, b, c *corner) uint8 {
	u, v := b.world.Sub(a.world), c.world.Sub(a.world)
	n := u.Cross(v)
	if flat := math.Hypot(n[0], n[1]); math.Abs(n[2]) > 4*flat {
		return 1
	}
	return 2
}

// shaded is the colour of one sample.
func (p *painter) shaded(a, b, c *corner, wa, wb, wc float64, f face, back bool, x, y int) scene.Colour {
	look := &p.s.Look
	base := scene.Colour{}
	for k := range base {
		base[k] = float32(wa)*a.colour[k] + float32(wb)*b.colour[k] + float32(wc)*c.colour[k]
	}
	px, py := (float64(x)+0.5)/float64(p.n), (float64(y)+0.5)/float64(p.n)
	if back {
		s := look.Section.Mix(base, 0.45)
		return s.Mix(look.Section.Times(0.72), float32(stripe((px+py)*math.Sqrt2/2, 7, 1)))
	}
	light := wa*a.light + wb*b.light + wc*c.light
	key := wa*a.key + wb*b.key + wc*c.key
	if p.o.Held > 0 && int(f.piece) == p.o.Held {
		base = look.Held.Times(1.02)
		light, key, f.hatch = 1+(light-1)*0.55, key*0.55, scene.Plain
	}
	for k := range base {
		base[k] = min(1, base[k]*float32(light+key*float64(look.Light.Warm[k])))
	}
	if f.hatch == scene.Plain {
		return base
	}
	ink, t := hatched(f.hatch, px, py, look)
	return base.Mix(ink, float32(t))
}

// image outlines and averages the samples.
func (p *painter) image() *image.RGBA {
	p.outlines()
	img := image.NewRGBA(image.Rect(0, 0, p.o.Width, p.o.Height))
	n := p.n
	per := float32(n * n)
	for y := range p.o.Height {
		for x := range p.o.Width {
			var sum scene.Colour
			for j := range n {
				row := p.colour[(y*n+j)*p.w+x*n:]
				for i := range n {
					for k := range sum {
						sum[k] += row[i][k]
					}
				}
			}
			img.SetRGBA(x, y, color.RGBA{byteOf(sum[0] / per), byteOf(sum[1] / per), byteOf(sum[2] / per), 255})
		}
	}
	return img
}

func byteOf(x float32) uint8 { return uint8(min(255, max(0, x*255+0.5))) }
