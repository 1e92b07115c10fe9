//go:build js && wasm

package viewport

import (
	"syscall/js"

	"github.com/g3n/engine/gls"
	"github.com/go-gl/mathgl/mgl64"

	"threepost/render/scene"
)

// Widths on the screen, px.
const (
	outlineWidth = 1.25
	creaseWidth  = 1.0
)

// painter holds what lies on the graphics card for one context. When the
// context is lost it is thrown away and made anew.
type painter struct {
	gs     *gls.GLS
	solid  *program
	line   *program
	groups map[string]*group
	look   scene.Look // the groups were made for
	ghost  *group
	mesh   *scene.Mesh // the ghost was made from
	wears  uint32
	table  []byte
	rows   int
}

func newPainter(context js.Value) (*painter, error) {
	gs, err := gls.New(context)
	if err != nil {
		return nil, err
	}
	p := &painter{gs: gs, groups: map[string]*group{}}
	if p.solid, err = newProgram(gs, solidVertex, solidFragment); err != nil {
		return nil, err
	}
	if p.line, err = newProgram(gs, lineVertex, lineFragment); err != nil {
		return nil, err
	}
	p.wears = gs.GenTexture()
	return p, nil
}

// state is what the graphics card does with triangles.
type state struct {
	side  side
	blend bool // lines: smooth edges, and they hide nothing
	over  bool // over everything
}

// side is which faces are drawn.
type side int

const (
	fronts side = iota
	backs
	both
)

// set makes a state the card's; g3n leaves out what is set already.
func (p *painter) set(s state) {
	gs := p.gs
	switch s.side {
	case fronts:
		gs.Enable(gls.CULL_FACE)
		gs.FrontFace(gls.CCW)
	case backs:
		gs.Enable(gls.CULL_FACE)
		gs.FrontFace(gls.CW)
	case both:
		gs.Disable(gls.CULL_FACE)
		gs.FrontFace(gls.CCW)
	}
	gs.DepthMask(!s.blend)
	if s.blend {
		gs.Enable(gls.BLEND)
		gs.BlendEquation(gls.FUNC_ADD)
		gs.BlendFunc(gls.SRC_ALPHA, gls.ONE_MINUS_SRC_ALPHA)
	} else {
		gs.Disable(gls.BLEND)
	}
	if s.over {
		gs.Disable(gls.DEPTH_TEST)
	} else {
		gs.Enable(gls.DEPTH_TEST)
	}
}

// paint draws one frame: w, h in px, pixel how many px a point of the screen is.
func (p *painter) paint(pic *Picture, w, h, pixel float64) {
	s := pic.Scene
	p.take(s)
	p.takeGhost(pic.Ghost)
	gs, look := p.gs, s.Look
	gs.DepthMask(true)
	gs.Viewport(0, 0, int32(w/pixel+0.5), int32(h/pixel+0.5))
	gs.ClearColor(look.Ground[0], look.Ground[1], look.Ground[2], 1)
	gs.Clear(gls.COLOR_BUFFER_BIT | gls.DEPTH_BUFFER_BIT)
	p.setWears(pic.Wears)

	view := pic.Camera.View()
	clip := pic.Camera.Projection(scene.Screen{W: w, H: h}).Mul4(view)
	p.solid.use()
	p.solidUniforms(pic, view, clip, w, h, pixel)
	faces := fronts
	if pic.Cut != nil {
		faces = both // what a plane cuts shows its inside
	}
	p.solid.number("Grow", 0)
	p.set(state{side: faces})
	p.each(s, false, func(g *group) { g.solid.draw(gs) })
	p.set(state{side: fronts})
	p.each(s, true, func(g *group) { g.solid.draw(gs) })
	if pic.Ghost != nil {
		p.asGhost(pic.Ghost)
		p.ghost.solid.draw(gs)
		p.set(state{side: backs})
		p.solid.number("Grow", outlineWidth)
		p.ghost.solid.draw(gs)
		p.asScene()
	}
	p.set(state{side: backs})
	p.solid.number("Grow", outlineWidth)
	p.each(s, false, func(g *group) { g.solid.draw(gs) })
	p.through(pic.Ghost)
	p.lines(pic, view, clip, w, h)
}

// through draws the held piece faintly where other things stand before it.
func (p *painter) through(g *Ghost) {
	if g == nil {
		return
	}
	p.asGhost(g)
	p.solid.number("Grow", 0)
	p.solid.number("Fade", 0.3)
	p.set(state{side: fronts, blend: true})
	p.gs.DepthFunc(gls.GREATER)
	p.ghost.solid.draw(p.gs)
	p.gs.DepthFunc(gls.LEQUAL)
	p.solid.number("Fade", 1)
	p.asScene()
}

// each calls what is shown; kilns are the groups of which only the inner side
// is seen and that have no outline.
func (p *painter) each(s *scene.Scene, kiln bool, draw func(*group)) {
	for i := range s.Groups {
		if g := &s.Groups[i]; g.Shown && g.Kiln == kiln {
			draw(p.groups[g.Name])
		}
	}
}

// take uploads what has changed and lets go of what is no longer there.
func (p *painter) take(s *scene.Scene) {
	p.look = s.Look
	for _, g := range p.groups {
		g.seen = false
	}
	for i := range s.Groups {
		g := &s.Groups[i]
		have := p.groups[g.Name]
		if have == nil || have.sum != g.Sum {
			if have != nil {
				have.dispose()
			}
			have = newGroup(g)
			p.groups[g.Name] = have
		}
		have.seen = true
	}
	for name, g := range p.groups {
		if !g.seen {
			g.dispose()
			delete(p.groups, name)
		}
	}
}

func (p *painter) drop() {
	for name, g := range p.groups {
		g.dispose()
		delete(p.groups, name)
	}
	if p.ghost != nil {
		p.ghost.dispose()
		p.ghost, p.mesh = nil, nil
	}
}

func (p *painter) takeGhost(g *Ghost) {
	if g == nil || g.Mesh != p.mesh {
		if p.ghost != nil {
			p.ghost.dispose()
		}
		p.ghost, p.mesh = nil, nil
	}
	if g != nil && p.ghost == nil {
		p.ghost, p.mesh = newGroup(&scene.Group{Mesh: *g.Mesh}), g.Mesh
	}
}

func (p *painter) solidUniforms(pic *Picture, view, clip mgl64.Mat4, w, h, pixel float64) {
	u, look := p.solid, pic.Scene.Look
	u.matrix("Clip", clip)
	u.matrix("View", view)
	u.matrix("Model", mgl64.Ident4())
	u.pair("Screen", w, h)
	u.number("Pixel", pixel)
	u.number("Fade", 1)
	u.number("Behind", pic.Camera.Distance/1000)
	u.number("Hot", float64(pic.Hot))
	u.number("Hidden", float64(pic.Hidden))
	u.four("Wear", 0, 0, 0, 0)
	cut(u, pic.Cut)
	u.colour("Ground", look.Ground)
	u.colour("Ink", look.Ink)
	u.colour("Held", look.Held)
	u.colour("Watch", look.Watch)
	u.colour("Problem", look.Problem)
	u.colour("Section", look.Section)
	l := look.Light
	u.four("Strength", float64(l.Sky), float64(l.Floor), float64(l.Key), float64(l.Fill))
	u.vector("KeyAt", l.KeyAt)
	u.vector("FillAt", l.FillAt)
	u.colour("Warm", l.Warm)
	p.gs.Uniform1i(u.place("Wears"), 0)
}

func cut(u *program, plane *scene.Plane) {
	if plane == nil {
		u.number("Cutting", 0)
		u.four("Cut", 0, 0, 1, 1e9)
		return
	}
	u.number("Cutting", 1)
	u.four("Cut", plane.Normal[0], plane.Normal[1], plane.Normal[2], plane.Offset)
}

// asGhost makes what is drawn next the ghost: its own matrix and wear, never
// cut and never under the pointer.
func (p *painter) asGhost(g *Ghost) {
	chosen, dim := 0.0, 0.0
	if g.Wear.Chosen {
		chosen = 1
	}
	if g.Wear.Dim {
		dim = 1
	}
	p.solid.matrix("Model", g.Matrix)
	p.solid.four("Wear", chosen, dim, float64(g.Wear.Hatch)/255, 1)
}

func (p *painter) asScene() {
	p.solid.matrix("Model", mgl64.Ident4())
	p.solid.four("Wear", 0, 0, 0, 0)
}

// lines draws creases, then the loose lines, those over everything last.
func (p *painter) lines(pic *Picture, view, clip mgl64.Mat4, w, h float64) {
	gs, u, look := p.gs, p.line, pic.Scene.Look
	u.use()
	u.matrix("Clip", clip)
	u.matrix("Model", mgl64.Ident4())
	u.pair("Screen", w, h)
	// Lines stand a little before the surface they lie on.
	k := pic.Camera.Distance / 1400
	u.vector("Toward", [3]float32{float32(view[2] * k), float32(view[6] * k), float32(view[10] * k)})
	u.number("Strong", float64(look.LineDown))
	u.four("Paint", float64(look.Ink[0]), float64(look.Ink[1]), float64(look.Ink[2]), 1)
	u.number("Hidden", float64(pic.Hidden))
	cut(u, pic.Cut)
	gs.Uniform1i(u.place("Wears"), 0)
	p.set(state{side: both, blend: true})
	for _, kiln := range [2]bool{true, false} {
		p.each(pic.Scene, kiln, func(g *group) { g.creases.draw(gs) })
	}
	if pic.Ghost != nil {
		u.matrix("Model", pic.Ghost.Matrix)
		p.ghost.creases.draw(gs)
		u.matrix("Model", mgl64.Ident4())
	}
	u.number("Strong", 1)
	u.four("Paint", 0, 0, 0, 0)
	cut(u, nil)
	for _, over := range [2]bool{false, true} {
		v, ix := packLines(pic.Lines, over)
		if len(ix) == 0 {
			continue
		}
		p.set(state{side: both, blend: true, over: over})
		b := newBody(v, ix, lineAttributes())
		b.draw(gs)
		b.Dispose()
	}
}

// setWears uploads the table of wears when it differs from the last.
func (p *painter) setWears(wears []Wear) {
	table, rows := packWears(wears)
	p.gs.ActiveTexture(gls.TEXTURE0)
	p.gs.BindTexture(gls.TEXTURE_2D, p.wears)
	if rows == p.rows && string(table) == string(p.table) {
		return
	}
	p.table, p.rows = table, rows
	p.gs.TexImage2D(gls.TEXTURE_2D, 0, gls.RGBA8, wearWidth, int32(rows), gls.RGBA, gls.UNSIGNED_BYTE, table)
	p.gs.TexParameteri(gls.TEXTURE_2D, gls.TEXTURE_MIN_FILTER, gls.NEAREST)
	p.gs.TexParameteri(gls.TEXTURE_2D, gls.TEXTURE_MAG_FILTER, gls.NEAREST)
	p.gs.TexParameteri(gls.TEXTURE_2D, gls.TEXTURE_WRAP_S, gls.CLAMP_TO_EDGE)
	p.gs.TexParameteri(gls.TEXTURE_2D, gls.TEXTURE_WRAP_T, gls.CLAMP_TO_EDGE)
}

// held counts what lies on the graphics card.
func (p *painter) held() (buffers, arrays int) {
	var s gls.Stats
	p.gs.Stats(&s)
	return s.Buffers, s.Vaos
}
