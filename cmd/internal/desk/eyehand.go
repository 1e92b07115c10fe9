package desk

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/geometry/plane"
	"threepost/geometry/solid"
	"threepost/layout"
	"threepost/layout/session"
	"threepost/layout/stacks"
	"threepost/render/scene"
	"threepost/render/viewport"
)

// taken begins to show a pot that was taken in hand.
func (e *Eye) taken() {
	e.ghost, e.lifted = nil, ""
	e.redraw()
}

// heldNow shows a held pot where it is, and adds what the 3D picture says of it.
func (e *Eye) heldNow(h *Held) {
	e.held = h
	if e.ensure() {
		e.makeGhost(h)
		h.Flag = e.flag(h)
	}
	e.redraw()
}

// makeGhost is the held pot by itself; while it stays on a level only its
// matrix changes.
func (e *Eye) makeGhost(h *Held) {
	b, i := e.d.s.HeldBuilt()
	if b == nil {
		e.ghost, e.lifted = nil, ""
		return
	}
	if e.ghost == nil || e.lifted != h.Pot {
		g, ok := e.scene.GhostOf(b, i)
		if !ok {
			return
		}
		e.ghost, e.lifted = &viewport.Ghost{Mesh: &g.Mesh, Wear: viewport.Wear{Chosen: true}}, h.Pot
	}
	e.ghost.Matrix = scene.Pose(mgl64.Vec2(h.At), h.Turn, b.Levels[h.Level].Top)
}

// flag is the least gap's figure, beside its line.
func (e *Eye) flag(h *Held) *Flag {
	if h.Gap == nil {
		return nil
	}
	at, _, ok := e.cam.Project(middle(h.Gap.From, h.Gap.To), e.screen)
	if !ok {
		return nil
	}
	return &Flag{X: at[0], Y: at[1], Text: h.Word, Grade: h.Grade}
}

func middle(a, b mgl64.Vec3) mgl64.Vec3 {
	return mgl64.Vec3{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2}
}

// moveTo moves the held pot to where the pointer points: on the plane of its
// level, or on another level when the pointer is over that and off its own.
func (e *Eye) moveTo(x, y float64) (*Held, error) {
	d := e.d
	if !e.ensure() {
		return nil, noLoad()
	}
	if e.held == nil { // not shown yet
		h := d.s.Holding()
		if h == nil {
			return d.held(d.s.Move(plane.Vec{}))
		}
		e.held = &Held{Held: h}
	}
	h := e.held.Held
	ray := e.cam.Ray(x, y, e.screen)
	if b, _ := d.s.HeldBuilt(); b == nil || e.offLevel(b, h.Level, ray) {
		if to := e.levelUnder(x, y); to >= 0 && to != h.Level {
			v := &e.built.Levels[to]
			next, err := d.s.Over(e.built.Towers[v.Tower].Name, v.Number)
			if err != nil {
				return nil, err
			}
			h, d.hand.at, d.hand.offset = next, nil, nil
			e.ghost = nil
		}
	}
	b, _ := d.s.HeldBuilt()
	if b == nil {
		return d.held(h, nil)
	}
	at, ok := ray.OnLevel(b.Levels[h.Level].Top)
	if !ok {
		return d.held(h, nil)
	}
	return d.moveBy(at)
}

// off is how far past its shelves the pointer leaves a level, mm.
const off = 25

// offLevel tells whether a ray meets the plane of a level past its shelves.
func (e *Eye) offLevel(b *stacks.Built, lv int, ray scene.Ray) bool {
	at, ok := ray.OnLevel(b.Levels[lv].Top)
	if !ok {
		return true
	}
	for _, s := range b.Levels[lv].Shelves {
		if b.Shelves[s].Outline.Depth(at) > -off {
			return false
		}
	}
	return true
}

// levelUnder is the level whose shelf or pot lies under a point, or -1.
func (e *Eye) levelUnder(x, y float64) int {
	id := e.pieceAt(x, y)
	if id == 0 {
		return -1
	}
	p := &e.scene.Pieces[id]
	switch p.Kind {
	case scene.PotPiece, scene.ConePiece, scene.ShelfKind:
		return p.Level
	}
	return -1
}

// lines are what is drawn over the picture: the gap of what is held or chosen,
// and the ring where it clears.
func (e *Eye) lines() []viewport.Line {
	var list []viewport.Line
	look := e.scene.Look
	if h := e.held; h != nil {
		if h.Ring != nil {
			list = append(list, e.ring(h)...)
		}
		if h.Gap != nil {
			c := gradeColour(look, h.Grade)
			list = append(list, gapLine(h.Gap.From, h.Gap.To, c)...)
			if b, i := e.d.s.HeldBuilt(); b != nil && h.Pair != "" {
				list = append(list, upright(h.Gap.From, h.Gap.To, b.Levels[h.Level].Top+b.Pots[i].Body.Height, c)...)
			}
		}
		return list
	}
	if g, ok := e.chosenGap(); ok {
		c := gradeColour(look, gradeWord(g))
		list = append(list, gapLine(g.A, g.B, c)...)
		if i := e.potIndex(e.chosen.ID); i >= 0 {
			list = append(list, upright(g.A, g.B, e.built.Pots[i].Solid.Top(), c)...)
		}
	}
	return list
}

// upright stands in a gap that lies level, from where it is least up to the
// rim, so that it is seen between two pots.
func upright(a, b mgl64.Vec3, top float64, c scene.Colour) []viewport.Line {
	m := middle(a, b)
	if math.Abs(a[2]-b[2]) > plane.Distance(plane.Vec{a[0], a[1]}, plane.Vec{b[0], b[1]}) || top-m[2] < 10 {
		return nil
	}
	t := mgl64.Vec3{m[0], m[1], top}
	return []viewport.Line{{A: m, B: t, Colour: c, Width: 2, Over: true}, {A: t, B: t, Colour: c, Width: 7, Over: true}}
}

func gradeWord(g scene.Gap) string {
	if g.Clear {
		return ""
	}
	return g.Grade.String()
}

func gradeColour(k scene.Look, grade string) scene.Colour {
	switch grade {
	case "problem":
		return k.Problem
	case "watch":
		return k.Watch
	}
	return k.Ink
}

// gapLine is a line between two pieces with a dot at each end.
func gapLine(a, b mgl64.Vec3, c scene.Colour) []viewport.Line {
	return []viewport.Line{
		{A: a, B: b, Colour: c, Width: 2, Over: true},
		{A: a, B: a, Colour: c, Width: 6, Over: true},
		{A: b, B: b, Colour: c, Width: 6, Over: true},
	}
}

// ringCorners is how many corners the ring of a clear place has, two to a dash.
const ringCorners = 64

// ring is the outline of a held pot where it clears, dashed on the shelf.
func (e *Eye) ring(h *Held) []viewport.Line {
	b, i := e.d.s.HeldBuilt()
	if b == nil {
		return nil
	}
	z := b.Levels[h.Level].Top + 1
	body := b.Pots[i].Body.Drawn.Body
	at := func(k int) mgl64.Vec3 {
		s, c := plane.SinCos(float64(k) * 360 / ringCorners)
		best, far := plane.Vec{}, math.Inf(-1)
		for _, v := range body.Skeleton {
			v = plane.Rotate(v, h.Turn)
			if d := float64(v[0]*s) + float64(v[1]*c); d > far {
				best, far = v, d
			}
		}
		return mgl64.Vec3{h.Ring[0] + best[0] + body.Radius*s, h.Ring[1] + best[1] + body.Radius*c, z}
	}
	var list []viewport.Line
	for k := 0; k < ringCorners; k += 2 {
		list = append(list, viewport.Line{A: at(k), B: at(k + 1), Colour: e.scene.Look.Held, Width: 2, Over: true})
	}
	return list
}

// chosenGap is the least gap of the chosen pot that misses its plan figure,
// else none.
func (e *Eye) chosenGap() (scene.Gap, bool) {
	c := e.chosen
	if c == nil || (c.Kind != "pot" && c.Kind != "cones") {
		return scene.Gap{}, false
	}
	i := e.potIndex(c.ID)
	if i < 0 || e.d.s.Checker() == nil {
		return scene.Gap{}, false
	}
	var worst *session.Near
	for k := range c.Nears {
		if n := &c.Nears[k]; n.Grade != "clears" && (worst == nil || n.Gap < worst.Gap) {
			worst = n
		}
	}
	if worst == nil {
		return scene.Gap{}, false
	}
	return e.gapTo(i, worst)
}

// gapTo is the line from a pot to a neighbour of its; only pots and posts have
// one that says more than the picture does.
func (e *Eye) gapTo(i int, n *session.Near) (scene.Gap, bool) {
	b := e.built
	var other *solid.Placed
	switch n.Thing.Kind {
	case layout.ThingPot, layout.ThingCones:
		if k := e.potIndex(n.Thing.Name); k >= 0 {
			other = &b.Pots[k].Solid
		}
	case layout.ThingPost:
		for k := range b.Posts {
			v := &b.Levels[b.Posts[k].Level]
			if b.Posts[k].Letter == n.Thing.Name && v.Number == n.Thing.Level && b.Towers[v.Tower].Name == n.Thing.Tower {
				other = &b.Posts[k].Solid
			}
		}
	}
	if other == nil {
		return scene.Gap{}, false
	}
	_, w := solid.Gap(&b.Pots[i].Solid, other)
	return scene.Gap{A: w.A, B: w.B, Grade: gradeOf(n.Grade), Clear: n.Grade == "clears", Text: n.GapSaid}, true
}
