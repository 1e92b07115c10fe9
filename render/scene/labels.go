package scene

import (
	"math"
	"strconv"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/layout/measure"
)

// balances tells how each shelf's load lies on its posts.
func (m *maker) balances() {
	for i := range m.b.Shelves {
		s := &m.b.Shelves[i]
		w := &m.weights.Shelves[i]
		b := Balance{
			Level: s.Level, Shelf: i, Z: s.Top, Mass: w.Ware, Carried: w.Result.Total,
			At: w.Result.Balance, Margin: w.Result.Margin, Tips: w.Result.Tips,
		}
		if m.weights.Ware > 0 {
			b.Share = w.Ware / m.weights.Ware
		}
		for k, p := range w.Posts {
			share := PostShare{Letter: m.b.Posts[p].Letter, At: m.b.Posts[p].At, Index: p}
			if k < len(w.Result.Reactions) {
				share.Mass = w.Result.Reactions[k]
			}
			b.Posts = append(b.Posts, share)
		}
		m.s.Balances = append(m.s.Balances, b)
	}
}

// labels makes the anchors of all texts.
func (m *maker) labels() {
	for v := range m.b.Levels {
		m.levelLabels(v)
	}
	m.letterLabels()
	for i := range m.b.Probes {
		p := &m.b.Probes[i]
		m.s.Labels = append(m.s.Labels, Label{
			Kind: ProbeLabel, At: at3(p.Inner, p.Kiln.Height), Text: "probe", Name: "probe at " + measure.SayClock(p.Kiln.At),
			Level: -1, Index: i, Shown: true,
		})
	}
	for i := range m.b.Spies {
		s := &m.b.Spies[i]
		m.s.Labels = append(m.s.Labels, Label{
			Kind: SpyLabel, At: at3(s.Mouth, s.Height), Text: "spyhole " + strconv.Itoa(i+1),
			Name: "spyhole at " + measure.SayClock(s.Kiln.At), Level: -1, Index: i, Shown: m.o.Kiln,
		})
	}
}

// levelLabels are the name of a level and the mass on each of its shelves.
func (m *maker) levelLabels(v int) {
	level := &m.b.Levels[v]
	shown := level.Top <= m.ceiling+1
	for k, i := range level.Shelves {
		s := &m.b.Shelves[i]
		var ring []mgl64.Vec3
		for _, p := range s.Outline.Points(12) {
			ring = append(ring, at3(p, (s.Bottom+s.Top)/2))
		}
		mid := at3(s.Outline.Centroid(), s.Top)
		if k == 0 {
			m.s.Labels = append(m.s.Labels, Label{
				Kind: LevelLabel, At: mid, Text: level.Name, Name: level.Name, Level: v, Index: i, Side: -1, Shown: shown, Ring: ring,
			})
		}
		mass := m.weights.Shelves[i].Ware
		said := measure.FormatMass(mass, m.o.Units)
		m.s.Labels = append(m.s.Labels, Label{
			Kind: MassLabel, At: mid, Text: said, Name: level.Name + ": " + said + " of ware",
			Level: v, Index: i, Side: 1, Shown: shown, Ring: ring,
		})
	}
}

// letterLabels are the letters of the lines, on the highest post of each that
// is shown.
func (m *maker) letterLabels() {
	for i, l := range m.b.Letters {
		z, level := math.Inf(-1), -1
		for k := range m.b.Posts {
			p := &m.b.Posts[k]
			if p.Letter == l.Name && p.Bottom <= m.ceiling+1 && p.Top > z {
				z, level = p.Top, p.Level
			}
		}
		if level < 0 {
			continue
		}
		m.s.Labels = append(m.s.Labels, Label{
			Kind: LetterLabel, At: at3(l.At, z), Text: l.Name, Name: "post " + l.Name, Level: level, Index: i, Shown: true,
		})
	}
}

// Hang is where a label hangs for a camera: px of the point of its ring that
// lies farthest out, or of its own point, and on which side: the side of the
// load on which the ring lies, -1 left or 1 right; a ring about the middle
// keeps the label's own side. It is not ok behind the eye.
func (s *Scene) Hang(l Label, c Camera, screen Screen) (at mgl64.Vec2, side int, ok bool) {
	at, _, ok = c.Project(l.At, screen)
	if len(l.Ring) == 0 || !ok {
		return at, l.Side, ok
	}
	axis, _, seen := c.Project(mgl64.Vec3{0, 0, l.At[2]}, screen)
	lo, hi := mgl64.Vec2{math.Inf(1)}, mgl64.Vec2{math.Inf(-1)}
	for _, p := range l.Ring {
		q, _, in := c.Project(p, screen)
		if !in {
			continue
		}
		if q[0] < lo[0] {
			lo = q
		}
		if q[0] > hi[0] {
			hi = q
		}
	}
	side = l.Side
	if wide := hi[0] - lo[0]; seen && math.Abs(at[0]-axis[0]) > 0.12*wide {
		side = 1
		if at[0] < axis[0] {
			side = -1
		}
	}
	if side < 0 {
		return lo, side, !math.IsInf(lo[0], 0)
	}
	return hi, side, !math.IsInf(hi[0], 0)
}

// Triangle is the small drawing of a balance seen from above, to be drawn
// beside its shelf: posts and balance point scaled into a square of size px
// whose y runs down, "you stand here" below.
func (b *Balance) Triangle(size float64) (posts []mgl64.Vec2, point mgl64.Vec2) {
	if len(b.Posts) == 0 {
		return nil, mgl64.Vec2{size / 2, size / 2}
	}
	lo, hi := b.Posts[0].At, b.Posts[0].At
	for _, p := range b.Posts {
		for k := range 2 {
			lo[k], hi[k] = math.Min(lo[k], p.At[k]), math.Max(hi[k], p.At[k])
		}
	}
	scale := size / math.Max(1, math.Max(hi[0]-lo[0], hi[1]-lo[1]))
	mid := plane.Lerp(lo, hi, 0.5)
	put := func(v mgl64.Vec2) mgl64.Vec2 {
		return mgl64.Vec2{size/2 + (v[0]-mid[0])*scale, size/2 - (v[1]-mid[1])*scale}
	}
	for _, p := range b.Posts {
		posts = append(posts, put(p.At))
	}
	return posts, put(b.At)
}

// Words is the balance as a sentence: "left 2: 4.8 kg of ware, balance point
// 96 inside the posts; A carries 9.1 kg, B 10.2 kg, C 8.8 kg".
func (b *Balance) Words(level string, in measure.Units) string {
	text := level + ": " + measure.FormatMass(b.Mass, in) + " of ware"
	switch {
	case len(b.Posts) == 0:
		return text + "; no posts under it"
	case b.Tips:
		text += ", balance point outside the posts"
	default:
		text += ", balance point " + strings.TrimSuffix(measure.SayLength(math.Floor(b.Margin), in, measure.Down), " mm") + " inside the posts"
	}
	for i, p := range b.Posts {
		if i == 0 {
			text += "; " + p.Letter + " carries "
		} else {
			text += ", " + p.Letter + " "
		}
		text += measure.FormatMass(p.Mass, in)
	}
	return text
}
