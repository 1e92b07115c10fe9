//go:build js && wasm

package viewport

import (
	"github.com/g3n/engine/geometry"
	"github.com/g3n/engine/gls"
	"github.com/g3n/engine/math32"

	"threepost/render/scene"
)

// body is triangles on the graphics card. g3n's graphic and material are left
// out: all bodies of a pass share matrices and state, and both packages bring
// decoders of pictures that a page never needs (0.2 MB of its program).
type body struct {
	geometry.Geometry
	count int // indexes drawn
}

// newBody takes what it is given and keeps no vertices once they are uploaded.
func newBody(vertices []float32, indexes []uint32, attributes []attribute) *body {
	b := &body{count: len(indexes)}
	b.Init()
	vbo := gls.NewVBO(math32.ArrayF32(vertices))
	for _, a := range attributes {
		vbo.AddCustomAttrib(a.name, a.size)
	}
	b.AddVBO(vbo)
	b.SetIndices(math32.ArrayU32(indexes))
	return b
}

// attribute is a part of a vertex: its name in the shader and its floats.
type attribute struct {
	name string
	size int32
}

func solidAttributes() []attribute {
	return []attribute{{"Position", 3}, {"Normal", 3}, {"Outward", 3}, {"Colour", 4}, {"Piece", 1}}
}

func lineAttributes() []attribute {
	return []attribute{{"From", 3}, {"To", 3}, {"Corner", 2}, {"Colour", 3}, {"Stroke", 3}, {"Piece", 1}}
}

// draw draws under the state and program that are set. The first draw uploads;
// after it the vertices are let go.
func (b *body) draw(gs *gls.GLS) {
	if b.count == 0 {
		return
	}
	b.RenderSetup(gs)
	for _, vbo := range b.VBOs() {
		if vbo.Buffer().Size() > 0 {
			vbo.SetBuffer(nil)
		}
	}
	gs.DrawElements(gls.TRIANGLES, int32(b.count), gls.UNSIGNED_INT, 0)
}

// group is one group of the scene on the graphics card.
type group struct {
	sum     uint64
	solid   *body
	creases *body
	seen    bool // in this frame's scene
}

// newGroup makes a group ready to be uploaded at its first draw, and empties
// its mesh: a page keeps no second copy of what lies on the graphics card.
func newGroup(g *scene.Group) *group {
	out := &group{sum: g.Sum, solid: newBody(pack(&g.Mesh), g.Mesh.Indexes, solidAttributes())}
	v, ix := packCreases(&g.Mesh, creaseWidth)
	out.creases = newBody(v, ix, lineAttributes())
	g.Mesh = scene.Mesh{}
	return out
}

func (g *group) dispose() {
	g.solid.Dispose()
	g.creases.Dispose()
}
