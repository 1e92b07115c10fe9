package nearby

import "github.com/go-gl/mathgl/mgl64"

// Box is an upright box, mm.
type Box struct{ Min, Max mgl64.Vec3 }

// Grid is the broad phase.
type Grid struct{}

// New makes a grid of cells of the given size, mm.
func New(cell float64) *Grid { return &Grid{} }

// Insert puts a box in under an id (0 or more).
func (g *Grid) Insert(id int, b Box) {}

// Move gives an id a new box.
func (g *Grid) Move(id int, b Box) {}

// Remove takes an id out.
func (g *Grid) Remove(id int) {}

// Near appends the ids whose boxes lie within reach of b, rising.
func (g *Grid) Near(dst []int, b Box, reach float64) []int { return dst }

// Pairs calls f for each pair a < b of ids within reach of each other.
func (g *Grid) Pairs(reach float64, f func(a, b int)) {}
