package stacks

import (
	"math"
	"strconv"
	"strings"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/measure"
)

// Density of shelves and posts that say no mass, g/cm3: cordierite furniture
// is sold at 2.1 to 2.6 (trade data).
const kilnFurniture = 2.2

// footing is what a level's posts stand on.
type footing struct {
	base   float64
	floor  bool  // the tower stands on the floor, perhaps in part
	levels []int // the levels under it
}

// storey is a level while the towers are raised.
type storey struct {
	shelves []Shelf
	posts   []Post
}

// level builds one storey: its posts, then its shelves on them.
func (m *mason) level(t, j int, under footing, out *Level, s *storey, all []storey) {
	l := m.load
	from := &l.Towers[t].Levels[j]
	at := layout.Thing{Kind: layout.ThingLevel, Tower: l.Towers[t].Name, Level: j + 1}
	*out = Level{Tower: t, Number: j + 1, Bottom: under.base, Top: under.base}
	lines := l.Towers[t].Lines
	if n := len(from.Posts); n > 1 && n != len(lines) {
		m.refuse(at, "Level %d of %q gives posts for %d lines and the tower has %d; give one for all, or one a line.", j+1, at.Tower, n, len(lines))
		return
	}
	for i := range lines {
		if make := from.PostsOn(i); len(make) > 0 {
			m.post(at, i, lines[i], make, under, s, all)
		}
	}
	if len(from.Shelves) == 0 {
		m.refuse(at, "Level %d of %q has no shelf; give it one, or take the level out.", j+1, at.Tower)
		return
	}
	if len(from.Shelves) > maxLines {
		m.refuse(at, "Level %d of %q has %d shelves; a level takes %d at most.", j+1, at.Tower, len(from.Shelves), maxLines)
		return
	}
	for i := range from.Shelves {
		m.shelf(at, i, &from.Shelves[i], s)
	}
	rest := under.base
	for _, p := range s.posts {
		rest = math.Max(rest, p.Top)
	}
	m.carry(s, rest)
	out.Bottom, out.Top = rest, rest
	for i := range s.shelves {
		sh := &s.shelves[i]
		sh.Level = m.first[t] + j
		sh.Top = sh.Bottom + sh.Kind.Thick
		sh.Solid = solid.Place(shelfBody(sh.Kind), solid.Pose{At: sh.At, Turn: sh.Turn, Z: sh.Bottom})
		if i == 0 {
			out.Bottom = sh.Bottom
		}
		out.Bottom, out.Top = math.Min(out.Bottom, sh.Bottom), math.Max(out.Top, sh.Top)
	}
	for i := range s.posts {
		s.posts[i].Level = m.first[t] + j
	}
	out.Deep = m.b.Height-out.Top > l.Limits(layout.DeepFrom).Plan
}

// shelf adds a shelf without its height.
func (m *mason) shelf(at layout.Thing, i int, from *layout.ShelfAt, s *storey) {
	kind := m.load.Furniture.Shelf(from.Kind)
	at.Kind, at.Name = layout.ThingShelf, from.Kind
	if kind == nil {
		m.refuse(at, "Level %d of %q takes a shelf %q, and the furniture lists none of that name.", at.Level, at.Tower, from.Kind)
		return
	}
	if !finite(from.At[0], from.At[1], from.Turn) {
		m.refuse(at, "Shelf %d of level %d of %q has a place that is no number; give x, y in mm and a turn in degrees.", i+1, at.Level, at.Tower)
		return
	}
	o, err := kind.Shape.Outline()
	if err != nil {
		m.refuse(at, "The shelf %q: %v.", kind.Name, err)
		return
	}
	if !(kind.Thick > 0 && kind.Thick <= 1000) || !(kind.Bow >= 0 && kind.Bow <= 1000) {
		m.refuse(at, "The shelf %q is %v thick with a bow of %v; give both in mm.", kind.Name, kind.Thick, kind.Bow)
		return
	}
	s.shelves = append(s.shelves, Shelf{
		Index: i, Kind: kind, At: from.At, Turn: from.Turn,
		Outline: o.At(plane.Pose{At: from.At, Turn: from.Turn}),
		Mass:    ShelfMass(kind),
	})
}

// ShelfMass is a shelf's mass in kg: as listed, or from its area, its
// thickness and 2.2 g/cm3. A shape that is none weighs nothing.
func ShelfMass(k *layout.ShelfKind) float64 {
	if k.Mass > 0 {
		return k.Mass
	}
	o, err := k.Shape.Outline()
	if err != nil {
		return 0
	}
	return float64(o.Area()*k.Thick) * kilnFurniture / 1e6
}

// carry tells each shelf which posts are under it and lays it on the highest.
func (m *mason) carry(s *storey, rest float64) {
	for i := range s.shelves {
		sh := &s.shelves[i]
		sh.Bottom = math.Inf(-1)
		for k := range s.posts {
			p := &s.posts[k]
			part := &p.Solid.Body.Parts[0]
			if sh.Outline.SignedDistance(p.Solid.Skeleton(0))-part.Profile.Max() < -plane.Tolerance {
				p.Shelves = append(p.Shelves, i)
				sh.Bottom = math.Max(sh.Bottom, p.Top)
			}
		}
		if math.IsInf(sh.Bottom, -1) {
			sh.Bottom = rest
		}
	}
}

// shelfBody is a prism that contains the shelf: exact for straight sides,
// discs and ovals; other arcs are drawn round by tangents, under 1 mm out.
func shelfBody(k *layout.ShelfKind) solid.Body {
	var part solid.Part
	switch s := k.Shape; s.Kind {
	case layout.Round:
		part = upright(footprint{layout.Round, s.Across, s.Across}.at(1, 0), 0, k.Thick)
	case layout.Oval:
		f := footprint{layout.Oval, s.Width, s.Depth}
		if s.Width == s.Depth {
			f.kind = layout.Round
		}
		part = upright(f.at(1, 0), 0, k.Thick)
	default:
		o, err := s.Outline()
		if err != nil {
			return solid.Body{}
		}
		part = upright(Widened{Skeleton: around(o)}, 0, k.Thick)
	}
	return solid.Body{Parts: []solid.Part{part}}
}

// around is a convex polygon round an outline: the outline's corners, and
// tangents every few degrees along its arcs.
func around(o plane.Outline) plane.Skeleton {
	const step = 7.5
	var ring plane.Skeleton
	add := func(v plane.Vec) {
		if n := len(ring); n == 0 || plane.Distance(ring[n-1], v) > 1e-3 {
			ring = append(ring, v)
		}
	}
	for _, e := range o.Edges() {
		add(e.From)
		if e.Kind == plane.Line {
			continue
		}
		sweep := e.Sweep()
		n := int(math.Ceil(sweep / step))
		start := plane.Bearing(plane.Sub(e.From, e.Center))
		each := sweep / float64(n)
		_, c := plane.SinCos(each / 2)
		for k := 0; k < n; k++ {
			// the tangents of both ends of this piece meet over its middle
			add(plane.Add(e.Center, plane.FromBearing(e.Radius/c, start-float64(each*(float64(k)+0.5)))))
		}
	}
	if n := len(ring); n > 1 && plane.Distance(ring[0], ring[n-1]) <= 1e-3 {
		ring = ring[:n-1]
	}
	return hull(ring)
}

// hull drops corners that lie inside the ring's hull by rounding.
func hull(ring plane.Skeleton) plane.Skeleton {
	for changed := true; changed && len(ring) > 3; {
		changed = false
		for i := range ring {
			a, b, c := ring[(i+len(ring)-1)%len(ring)], ring[i], ring[(i+1)%len(ring)]
			if plane.Cross(plane.Sub(b, a), plane.Sub(c, b)) <= 1e-9 {
				ring = append(ring[:i:i], ring[i+1:]...)
				changed = true
				break
			}
		}
	}
	return ring
}

// post adds a post on what is under it.
func (m *mason) post(at layout.Thing, line int, place layout.Line, up layout.MakeUp, under footing, s *storey, all []storey) {
	at.Kind, at.Name = layout.ThingPost, "line "+strconv.Itoa(line+1)
	if !finite(place.At[0], place.At[1], place.Turn) {
		m.refuse(at, "Line %d of %q has a place that is no number; give x and y in mm.", line+1, at.Tower)
		return
	}
	if len(up) > maxPieces {
		m.refuse(at, "A post of level %d of %q has %d pieces; a post takes %d at most.", at.Level, at.Tower, len(up), maxPieces)
		return
	}
	p := Post{Line: line, At: place.At, Turn: place.Turn, MakeUp: up, Bottom: m.stands(place.At, under, all)}
	p.Top = p.Bottom
	parts := make([]solid.Part, 0, len(up))
	for _, piece := range up {
		kind := m.load.Furniture.Post(piece)
		if kind == nil {
			m.refuse(at, "Level %d of %q takes a post %s, and the furniture lists none; it lists %s.",
				at.Level, at.Tower, sayPiece(piece, m.load.Units), m.listed())
			return
		}
		tall := kind.RealHeight()
		plan, ok := sectionPlan(kind.Section)
		if !ok || !(tall > 0 && tall <= 1e5) {
			m.refuse(at, "The post %s has the section %s %v and stands %v high; give a section like square 38 and a height over 0.",
				sayPiece(piece, m.load.Units), kind.Section.Kind, kind.Section.Width, tall)
			return
		}
		p.Pieces = append(p.Pieces, Piece{Kind: kind, Bottom: p.Top, Top: p.Top + tall})
		p.Mass += PostMass(kind)
		part := upright(plan, p.Top-p.Bottom, p.Top+tall-p.Bottom)
		if n := len(parts); n > 0 && p.Pieces[len(p.Pieces)-2].Kind.Section == kind.Section {
			parts[n-1].Profile[1].Z = part.Profile[1].Z // the same section goes on
		} else {
			parts = append(parts, part)
		}
		p.Top += tall
	}
	p.Solid = solid.Place(solid.Body{Parts: parts}, solid.Pose{At: p.At, Turn: p.Turn, Z: p.Bottom})
	s.posts = append(s.posts, p)
}

// stands is the height that a post at v stands on.
func (m *mason) stands(v plane.Vec, under footing, all []storey) float64 {
	best, top := math.Inf(-1), under.base
	for _, level := range under.levels {
		for i := range all[level].shelves {
			sh := &all[level].shelves[i]
			if d := sh.Outline.Depth(v); d > best {
				best, top = d, sh.Top
			}
		}
	}
	if best < 0 && under.floor {
		return 0
	}
	return top
}

// listed says which posts the furniture has.
func (m *mason) listed() string {
	var list []string
	for i := range m.load.Furniture.Posts {
		k := &m.load.Furniture.Posts[i]
		list = append(list, sayPiece(layout.Piece{Height: k.Height, Name: k.Name}, m.load.Units))
		if len(list) == 8 {
			list = append(list, "...")
			break
		}
	}
	if len(list) == 0 {
		return "no posts"
	}
	return strings.Join(list, ", ")
}

// sayPiece is a piece in a sentence: "150 mm", "150 mm old".
func sayPiece(p layout.Piece, in measure.Units) string {
	s := measure.SayLengthTo(p.Height, in, measure.Nearest, measure.PostGrain)
	if p.Name != "" {
		s += " " + p.Name
	}
	return s
}

// sectionPlan is the plan of a post's section at turn 0: a square with its
// sides along x and y, a hexagon with a flat toward y, a triangle with a side
// along x at its front.
func sectionPlan(s layout.Section) (Widened, bool) {
	if !(s.Width > 0 && s.Width <= 1e4) {
		return Widened{}, false
	}
	h := s.Width / 2
	switch s.Kind {
	case layout.SquareSection:
		return Widened{plane.Skeleton{{-h, -h}, {h, -h}, {h, h}, {-h, h}}, 0}, true
	case layout.RoundSection:
		return Widened{plane.Skeleton{{0, 0}}, h}, true
	case layout.HexagonSection:
		_, c := plane.SinCos(30)
		ring := make(plane.Skeleton, 6)
		for i := range ring {
			ring[i] = plane.FromBearing(h/c, 30-float64(60*float64(i)))
		}
		return Widened{ring, 0}, true
	case layout.TriangleSection:
		s, c := plane.SinCos(30)
		in := float64(h * s / c) // from the middle to a side
		return Widened{plane.Skeleton{{-h, -in}, {h, -in}, {0, 2 * in}}, 0}, true
	}
	return Widened{}, false
}

// PostMass is the mass of one piece in kg: as listed, or from its section,
// height and 2.2 g/cm3. A tube is taken as solid.
func PostMass(k *layout.PostKind) float64 {
	if k.Mass > 0 {
		return k.Mass
	}
	plan, ok := sectionPlan(k.Section)
	if !ok {
		return 0
	}
	area := plan.Skeleton.Area() + float64(float64(math.Pi*plan.Radius)*plan.Radius)
	return float64(area*k.RealHeight()) * kilnFurniture / 1e6
}
