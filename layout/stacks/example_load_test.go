package stacks

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

// octoberLoad is the example of the file format: a twelve-sided kiln, a full
// shelf on six posts of 25, and half shelves above it on the left.
func octoberLoad() *layout.Load {
	up := func(heights ...float64) []layout.MakeUp {
		var m layout.MakeUp
		for _, h := range heights {
			m = append(m, layout.Piece{Height: h})
		}
		return []layout.MakeUp{m}
	}
	sq := layout.Section{Kind: layout.SquareSection, Width: 38}
	at := func(x, y float64) layout.Line { return layout.Line{At: plane.Vec{x, y}} }
	left := []layout.Line{at(-28, 270), at(-28, -270), at(-290, 0)}
	right := []layout.Line{at(28, 270), at(28, -270), at(290, 0)}
	half := func(x, turn float64) []layout.ShelfAt {
		return []layout.ShelfAt{{Kind: "half", At: plane.Vec{x, 0}, Turn: turn}}
	}
	return &layout.Load{
		Title: "October glaze", Units: measure.MM,
		Firing: layout.Firing{Stage: layout.Glaze, Cone: measure.Cone("6")},
		Kiln: layout.Kiln{
			Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 712}, Height: 686, Opens: layout.Top,
			Probes:   []layout.Probe{{At: 315, Height: 343, Reach: 45, Diameter: 12}},
			Spyholes: []layout.Spyhole{{At: 180, Height: 260}},
		},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{
				{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 660}, Thick: 19, Mass: 13.9, Count: 1},
				{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, Thick: 19, Mass: 6.9, Count: 6},
			},
			Posts: []layout.PostKind{
				{Height: 5, Section: sq, Count: 12, Spacer: true},
				{Height: 10, Section: sq, Count: 12, Spacer: true},
				{Height: 25, Section: sq, Count: 6}, {Height: 50, Section: sq, Count: 3},
				{Height: 75, Section: sq, Count: 6}, {Height: 100, Section: sq, Count: 9},
				{Height: 125, Section: sq, Count: 3}, {Height: 150, Section: sq, Count: 3},
				{Height: 200, Section: sq, Count: 3},
			},
		},
		Ware: []layout.Ware{{
			Name: "mug", Count: 24, Profile: []layout.Knot{{Height: 0, Diameter: 76}, {Height: 95, Diameter: 86}},
			Handles: []layout.Handle{{Reach: 38, From: 20, To: 80, Thick: 14}},
		}},
		Towers: []layout.Tower{
			{Name: "base", On: []layout.Support{{}}, Lines: append(append([]layout.Line(nil), left...), right...),
				Levels: []layout.Level{{Shelves: []layout.ShelfAt{{Kind: "full"}}, Posts: up(25)}}},
			{Name: "left side", On: []layout.Support{{Tower: "base", Level: 1}}, Lines: left, Levels: []layout.Level{
				{Shelves: half(-3, 270), Posts: up(125), Set: []layout.Placement{
					{Pot: layout.Pot{Ware: "mug", Number: 1}, At: plane.Vec{-205, 34.5}, Turn: 110},
				}},
				{Shelves: half(-3, 270), Posts: up(200, 50, 5)},
				{Shelves: half(-3, 270), Posts: up(100, 10)},
			}},
			{Name: "right side", On: []layout.Support{{Tower: "base", Level: 1}}, Lines: right, Levels: []layout.Level{
				{Shelves: half(3, 90), Posts: up(150, 5)},
				{Shelves: half(3, 90), Posts: up(75, 10)},
				{Shelves: half(3, 90), Posts: up(75, 10)},
			}},
		},
	}
}
