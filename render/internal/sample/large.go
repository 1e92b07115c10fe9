package sample

import (
	"fmt"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

// Stack is a tall kiln of twelve levels of tiles and saucers, with names and
// owners that are as long as people write them: what a page is cut from.
func Stack() *layout.Load {
	lines := []layout.Line{line(0, 200), line(-174, -101), line(174, -101)}
	l := &layout.Load{
		Title: "Saucers and tiles for the spring market of the evening class", Units: measure.MM,
		Firing: layout.Firing{Stage: layout.Glaze, Cone: "6", Date: "Saturday 14 March"},
		Kiln: layout.Kiln{
			Name: "Old Heron in the back room", Chamber: layout.Shape{Kind: layout.Round, Across: 600}, Height: 1000, Opens: layout.Top,
		},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{{Name: "round", Shape: layout.Shape{Kind: layout.Round, Across: 520}, Thick: 16, Count: 12}},
			Posts:   []layout.PostKind{square(25, 6), square(50, 40), {Name: "set b", Height: 60, Real: 60.4, Section: layout.Section{Kind: layout.SquareSection, Width: 38}, Count: 3}},
		},
	}
	for i := range 14 {
		l.Ware = append(l.Ware, layout.Ware{
			Name:  fmt.Sprintf("saucer with a pulled rim, pattern %c", 'a'+i),
			Count: 9, Height: 28, Across: 140, Silhouette: layout.Plate, Owner: "Bartholomea Featherstone", Ticket: fmt.Sprint(100 + i),
			Clay: layout.Material{Name: "buff", Cone: "6"},
		})
	}
	t := layout.Tower{Name: "tower", On: []layout.Support{{}}, Lines: lines}
	t.Levels = append(t.Levels, level(up(25), one("round", 0, 0, 0)))
	for range 10 {
		t.Levels = append(t.Levels, level(up(50), one("round", 0, 0, 0)))
	}
	t.Levels = append(t.Levels, layout.Level{Posts: []layout.MakeUp{{{Height: 60, Name: "set b"}}}, Shelves: one("round", 0, 0, 0)})
	l.Towers = []layout.Tower{t}
	s := &setter{load: l, next: map[string]int{}}
	for i := range l.Ware {
		for v := range t.Levels {
			s.set("tower", v+1, batch{l.Ware[i].Name, 1})
		}
	}
	return l
}

// Barn is a front-loader for bisque with three towers beside each other, with
// nested bowls and plates.
func Barn() *layout.Load {
	l := &layout.Load{
		Title: "Barn bisque", Units: measure.MM,
		Firing: layout.Firing{Stage: layout.Bisque, Cone: "06", Date: "2 May"},
		Kiln: layout.Kiln{
			Name: "Barn", Chamber: layout.Shape{Kind: layout.Rectangle, Width: 1500, Depth: 700}, Height: 900, Opens: layout.Front,
			Probes: []layout.Probe{{At: 0, Height: 600, Reach: 80, Diameter: 10}},
		},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{{Name: "slab", Shape: layout.Shape{Kind: layout.Rectangle, Width: 440, Depth: 560}, Thick: 20, Mass: 11, Count: 9}},
			Posts:   []layout.PostKind{square(50, 12), square(150, 12), square(200, 12), square(250, 12), spacer(10, 12)},
		},
		Ware: []layout.Ware{
			{Name: "bowl", Count: 30, Height: 70, Across: 150, Nested: 3, Adds: 25, Dry: layout.BoneDry},
			{Name: "mug", Count: 70, Height: 95, Across: 86, Dry: layout.BoneDry, Owner: "Ida"},
			{Name: "dinner plate", Count: 20, Height: 35, Across: 250, Dry: layout.BoneDry},
			{Name: "teapot", Count: 4, Height: 150, Across: 150, Dry: layout.BoneDry, Owner: "Wen", Ticket: "3"},
			{Name: "baker", Count: 4, Height: 60, Length: 280, Width: 160, Silhouette: layout.OvalBaker, Dry: layout.BoneDry},
		},
		Cones: []layout.ConePack{{Name: "cones", Cones: []measure.Cone{"07", "06", "05"}}},
	}
	for i, name := range []string{"left side", "middle", "right side"} {
		x := float64(480 * (i - 1))
		lines := []layout.Line{line(x-190, -250), line(x+190, -250), line(x-190, 250), line(x+190, 250)}
		slab := []layout.ShelfAt{{Kind: "slab", At: plane.Vec{x, 0}}}
		heights := [][]float64{{200}, {250, 10}, {200}}
		if i == 1 {
			heights = [][]float64{{150}, {250}, {250}}
		}
		l.Towers = append(l.Towers, layout.Tower{Name: name, On: []layout.Support{{}}, Lines: lines, Levels: []layout.Level{
			level(up(50), slab), level(up(heights[0]...), slab), level(up(heights[1]...), slab),
		}})
	}
	s := &setter{load: l, next: map[string]int{}}
	s.set("left side", 1, batch{"bowl", 12})
	s.set("left side", 2, batch{"teapot", 4}, batch{"mug", 12})
	s.set("left side", 3, batch{"mug", 30})
	s.set("middle", 1, batch{"dinner plate", 4}, batch{"mug", 8})
	s.set("middle", 2, batch{"bowl", 12}, batch{"cones", 1})
	s.set("middle", 3, batch{"baker", 4})
	s.set("right side", 1, batch{"bowl", 12})
	s.set("right side", 2, batch{"mug", 40})
	s.set("right side", 3, batch{"dinner plate", 4}, batch{"mug", 30})
	return l
}
