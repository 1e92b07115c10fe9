//go:build js && wasm

package viewport

import (
	"fmt"

	"github.com/g3n/engine/gls"
	"github.com/g3n/engine/math32"
	"github.com/go-gl/mathgl/mgl64"

	"threepost/render/scene"
)

// program is a compiled pair of shaders with the places of its uniforms.
type program struct {
	gs   *gls.GLS
	prog *gls.Program
	at   map[string]*gls.Uniform
}

func newProgram(gs *gls.GLS, vertex, fragment string) (*program, error) {
	p := &program{gs: gs, prog: gs.NewProgram(), at: map[string]*gls.Uniform{}}
	p.prog.ShowSource = false
	p.prog.AddShader(gls.VERTEX_SHADER, vertex)
	p.prog.AddShader(gls.FRAGMENT_SHADER, fragment)
	if err := p.prog.Build(); err != nil {
		return nil, fmt.Errorf("the graphics card refuses a shader: %w", err)
	}
	return p, nil
}

func (p *program) use() { p.gs.UseProgram(p.prog) }

func (p *program) place(name string) int32 {
	u := p.at[name]
	if u == nil {
		u = new(gls.Uniform)
		u.Init(name)
		p.at[name] = u
	}
	return u.Location(p.gs)
}

func (p *program) number(name string, v float64) { p.gs.Uniform1f(p.place(name), float32(v)) }

func (p *program) pair(name string, x, y float64) {
	p.gs.Uniform2f(p.place(name), float32(x), float32(y))
}

func (p *program) vector(name string, v [3]float32) {
	p.gs.Uniform3f(p.place(name), v[0], v[1], v[2])
}

func (p *program) colour(name string, c scene.Colour) { p.vector(name, c) }

func (p *program) four(name string, a, b, c, d float64) {
	p.gs.Uniform4f(p.place(name), float32(a), float32(b), float32(c), float32(d))
}

func (p *program) matrix(name string, m mgl64.Mat4) {
	var f math32.Matrix4
	for i, v := range m {
		f[i] = float32(v)
	}
	p.gs.UniformMatrix4fv(p.place(name), 1, false, &f[0])
}
