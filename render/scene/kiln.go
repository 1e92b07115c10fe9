package scene

import (
	"math"
	"strconv"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
)

// probes makes the mesh of the probes and, when asked for, of the tubes of
// sight.
func (m *maker) probes() {
	g := Group{Name: "probes", Level: -1, Shown: true}
	for i := range m.b.Probes {
		p := &m.b.Probes[i]
		f := &form{}
		f.rod(at3(p.Inner, p.Kiln.Height), at3(p.Tip, p.Kiln.Height), p.Kiln.Diameter/2, 14)
		m.place(&g, Piece{
			Thing: layout.Thing{Kind: layout.ThingProbe, Name: strconv.Itoa(i + 1)},
			Kind:  ProbeKind, Index: i, Level: -1, Name: "probe at " + measure.SayClock(p.Kiln.At),
		}, f.close(), plane.Vec{}, 0, 0, dress{paints: m.furniture(0xB9AE9F, 0xB5AB9D)})
	}
	if m.o.Sight {
		m.sights(&g)
	}
	m.s.Groups = append(m.s.Groups, g)
}

// sights adds a tube from each spyhole to the cones that are watched through
// it.
func (m *maker) sights(g *Group) {
	for _, s := range Sights(m.b) {
		f := &form{}
		f.rod(s.From, s.To, SightTube, 12)
		c, mark := Hex(0x2C6A58), Mark{Label: "in sight"}
		if !s.Clear {
			c, mark = Hex(0x8A5A00), Mark{Hatch: WatchLines, Label: "hidden"}
		}
		m.place(g, Piece{
			Thing: layout.Thing{Kind: layout.ThingSpy, Name: strconv.Itoa(s.Spy + 1)}, Kind: SpyKind, Index: s.Spy, Level: -1,
			Name: "line of sight from the hole at " + measure.SayClock(m.b.Spies[s.Spy].Kiln.At), Mark: mark,
		}, f.close(), plane.Vec{}, 0, 0, dress{paints: [4]Colour{c, c, c, c}})
	}
}

// SightTube is the radius of the tube in which cones must be seen, mm: what a
// 19 mm hole through 76 mm of brick leaves.
const SightTube = 5

// Sight is the line from a spyhole's inner mouth to the tip of watched cones.
type Sight struct {
	Spy, Pot int // into Built.Spies, Built.Pots
	From, To mgl64.Vec3
	Clear    bool // no pot, shelf, post or probe stands in it
}

// Sights are the lines of sight of all watched cones, each from the hole that
// it names, else from the hole it is most in front of.
func Sights(b *stacks.Built) []Sight {
	var list []Sight
	for i := range b.Pots {
		p := &b.Pots[i]
		if p.Cones == nil || !p.Cones.Watched || len(b.Spies) == 0 {
			continue
		}
		to := at3(p.At, p.Solid.Top())
		best, off := -1, math.Inf(1)
		for k := range b.Spies {
			s := &b.Spies[k]
			if p.Cones.Spyhole > 0 && p.Cones.Spyhole != k+1 {
				continue
			}
			way := plane.Sub(p.At, s.Mouth)
			along := plane.Dot(way, s.Inward)
			side := math.Hypot(plane.Cross(s.Inward, way), to[2]-s.Height)
			if t := side / math.Max(along, 1); t < off {
				best, off = k, t
			}
		}
		if best < 0 {
			continue
		}
		s := Sight{Spy: best, Pot: i, From: at3(b.Spies[best].Mouth, b.Spies[best].Height), To: to}
		_, s.Clear, _ = solid.Sight(s.From, s.To, SightTube, others(b, i))
		list = append(list, s)
	}
	return list
}

// others are all solids but pot i.
func others(b *stacks.Built, i int) []*solid.Placed {
	var list []*solid.Placed
	for j := range b.Pots {
		if j != i {
			list = append(list, &b.Pots[j].Solid)
		}
	}
	for j := range b.Posts {
		list = append(list, &b.Posts[j].Solid)
	}
	for j := range b.Shelves {
		list = append(list, &b.Shelves[j].Solid)
	}
	for j := range b.Probes {
		list = append(list, &b.Probes[j].Solid)
	}
	return list
}

// rod adds a round rod with a rounded end at its far point.
func (f *form) rod(from, to mgl64.Vec3, r float64, n int) {
	d := unit(to.Sub(from))
	a := d.Cross(mgl64.Vec3{0, 0, 1})
	if dot(a, a) < 1e-6 {
		a = mgl64.Vec3{1, 0, 0}
	}
	a = unit(a)
	c := unit(a.Cross(d))
	end := to.Sub(d.Mul(r))
	type row struct {
		at     mgl64.Vec3
		r, tip float64
	}
	rows := []row{{from, r, 0}, {end, r, 0}, {end.Add(d.Mul(0.7 * r)), 0.71 * r, 0.7}, {to, 0.05 * r, 1}}
	var below []uint32
	first := f.vertex(from, d.Mul(-1), 0.8, warePaint)
	for i, w := range rows {
		ring := make([]uint32, n)
		for j := range n {
			s, co := plane.SinCos(360 * float64(j) / float64(n))
			out := a.Mul(co).Add(c.Mul(s))
			ring[j] = f.vertex(w.at.Add(out.Mul(w.r)), out.Mul(1-w.tip*0.9).Add(d.Mul(w.tip)), 1, warePaint)
		}
		for j := range n {
			k := (j + 1) % n
			if i == 0 {
				f.triangle(first, ring[j], ring[k])
			} else {
				f.quad(below[k], below[j], ring[j], ring[k])
			}
		}
		below = ring
	}
	tip := f.vertex(to, d, 1, warePaint)
	for j := range n {
		f.triangle(below[(j+1)%n], below[j], tip)
	}
}

// kiln makes floor and walls as they are seen from inside: the far half hides
// nothing, the near half shows its back and is not drawn.
func (m *maker) kiln() {
	ring := m.b.Chamber.Points(1.5)
	lo, hi := m.b.Chamber.Bounds()
	m.s.Kiln = Box{at3(lo, 0), at3(hi, m.b.Height)}
	g := Group{Name: "kiln", Level: -1, Kiln: true, Shown: m.o.Kiln}
	sh := m.floorShade()
	g.key = m.kilnKey(ring, sh)
	old := m.old(&g)
	floorPiece := Piece{Thing: layout.Thing{Kind: layout.ThingFloor}, Kind: KilnKind, Level: -1, Name: "floor"}
	if !m.keep(old, floorPiece) {
		floor := &form{}
		floor.cells(plane.Skeleton(ring), 0, sh.onShelf)
		m.place(&g, floorPiece, floor.close(), plane.Vec{}, 0, 0, dress{paints: m.furniture(0xE6DCCC, 0x35302B)})
	}
	wallPiece := Piece{Thing: layout.Thing{Kind: layout.ThingWall}, Kind: KilnKind, Level: -1, Name: "wall"}
	if !m.keep(old, wallPiece) {
		wall := &form{}
		wall.walls(ring, m.b.Height)
		m.place(&g, wallPiece, wall.close(), plane.Vec{}, 0, 0, dress{paints: m.furniture(0xECE3D5, 0x302B27)})
	}
	for i := range m.b.Spies {
		s := &m.b.Spies[i]
		f := &form{}
		r := s.Kiln.Diameter / 2
		if r <= 0 {
			r = 9.5
		}
		f.hole(at3(s.Mouth, s.Height), at3(s.Inward, 0), r)
		p := Piece{
			Thing: layout.Thing{Kind: layout.ThingSpy, Name: strconv.Itoa(i + 1)},
			Kind:  SpyKind, Index: i, Level: -1, Name: "spyhole at " + measure.SayClock(s.Kiln.At),
		}
		if m.keep(old, p) {
			continue
		}
		m.place(&g, p, f.close(), plane.Vec{}, 0, 0, dress{paints: m.furniture(0x6B6156, 0x0C0B0A)})
	}
	g.take(old)
	m.s.Groups = append(m.s.Groups, g)
}

// floorShade darkens the floor toward the middle and round posts.
func (m *maker) floorShade() *shade {
	s := &shade{b: m.b, covered: len(m.b.Levels) > 0, high: 120}
	for i := range m.b.Posts {
		if p := &m.b.Posts[i]; p.Bottom < 1 && len(p.Solid.Body.Parts) > 0 {
			at, r := p.Solid.Skeleton(0), p.Solid.Body.Parts[0].Profile.Max()
			s.add(foot{at: at, r: r, over: at, overR: r, overDark: 0.1})
		}
	}
	return s
}

// walls are the inner side of a ring, darker toward the floor.
func (f *form) walls(ring []plane.Vec, high float64) {
	n := len(ring)
	rows := 4
	for i := range n {
		j := (i + 1) % n
		d := plane.Scale(sideNormal(ring, i), -1)
		a, b := d, d
		if e := plane.Scale(sideNormal(ring, (i+n-1)%n), -1); plane.Dot(e, d) > 0.95 {
			a = plane.Unit(plane.Add(e, d))
		}
		if e := plane.Scale(sideNormal(ring, j), -1); plane.Dot(e, d) > 0.95 {
			b = plane.Unit(plane.Add(e, d))
		}
		for k := range rows {
			z0, z1 := high*float64(k)/float64(rows), high*float64(k+1)/float64(rows)
			t0, t1 := 0.84+0.14*z0/high, 0.84+0.14*z1/high
			f.quad(f.vertex(at3(ring[j], z0), at3(b, 0), t0, warePaint), f.vertex(at3(ring[i], z0), at3(a, 0), t0, warePaint),
				f.vertex(at3(ring[i], z1), at3(a, 0), t1, warePaint), f.vertex(at3(ring[j], z1), at3(b, 0), t1, warePaint))
		}
	}
}

// hole is a dark disc a hair before the wall.
func (f *form) hole(at, inward mgl64.Vec3, r float64) {
	const n = 20
	side := unit(inward.Cross(mgl64.Vec3{0, 0, 1}))
	at = at.Add(inward.Mul(1.5))
	mid := f.vertex(at, inward, 0.45, warePaint)
	row := make([]uint32, n)
	for j := range n {
		s, c := plane.SinCos(360 * float64(j) / n)
		row[j] = f.vertex(at.Add(side.Mul(r*c)).Add(mgl64.Vec3{0, 0, r * s}), inward, 0.8, warePaint)
	}
	for j := range n {
		f.triangle(mid, row[(j+1)%n], row[j])
	}
}
