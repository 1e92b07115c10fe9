package sample

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

func up(heights ...float64) []layout.MakeUp {
	var m layout.MakeUp
	for _, h := range heights {
		m = append(m, layout.Piece{Height: h})
	}
	return []layout.MakeUp{m}
}

func line(x, y float64) layout.Line { return layout.Line{At: plane.Vec{x, y}} }

func square(height float64, count int) layout.PostKind {
	return layout.PostKind{Height: height, Section: layout.Section{Kind: layout.SquareSection, Width: 38}, Count: count}
}

func spacer(height float64, count int) layout.PostKind {
	k := square(height, count)
	k.Spacer = true
	return k
}

func one(kind string, x, y, turn float64) []layout.ShelfAt {
	return []layout.ShelfAt{{Kind: kind, At: plane.Vec{x, y}, Turn: turn}}
}

func level(posts []layout.MakeUp, shelves []layout.ShelfAt) layout.Level {
	return layout.Level{Posts: posts, Shelves: shelves}
}

// October is the studio's load: a twelve-sided kiln, a full shelf below, three
// half shelves on the left, three on the right, nine kinds of ware.
func October() *layout.Load {
	left := []layout.Line{line(-28, 270), line(-28, -270), line(-290, 0)}
	right := []layout.Line{line(28, 270), line(28, -270), line(290, 0)}
	l := &layout.Load{
		Title: "October glaze", Units: measure.MM,
		Firing: layout.Firing{Stage: layout.Glaze, Cone: "6", Date: "14 October"},
		Kiln: layout.Kiln{
			Name: "Heron", Chamber: layout.Shape{Kind: layout.Sided, Sides: 12, Across: 712}, Height: 686, Opens: layout.Top,
			Probes:   []layout.Probe{{At: 300, Height: 343, Reach: 60, Diameter: 9}},
			Spyholes: []layout.Spyhole{{At: 210, Height: 240}, {At: 150, Height: 480}},
		},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{
				{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 660}, Thick: 19, Mass: 13.9, Count: 1},
				{Name: "half", Shape: layout.Shape{Kind: layout.HalfRound, Across: 660, Depth: 327}, Thick: 19, Mass: 6.9, Count: 6},
			},
			Posts: []layout.PostKind{
				spacer(5, 12), spacer(10, 12), square(25, 6), square(50, 3), square(75, 6),
				square(100, 9), square(125, 3), square(150, 3), square(200, 3),
			},
			Cookies: []layout.CookieKind{{Across: 110, Thick: 10, Count: 2}},
		},
		Ware:  octoberWare(),
		Cones: []layout.ConePack{pack("cones low", 1), pack("cones high", 2)},
		Towers: []layout.Tower{
			{Name: "base", On: []layout.Support{{}}, Lines: append(append([]layout.Line(nil), left...), right...),
				Levels: []layout.Level{level(up(25), one("full", 0, 0, 0))}},
			{Name: "left side", On: []layout.Support{{Tower: "base", Level: 1}}, Lines: left, Levels: []layout.Level{
				level(up(125), one("half", -3, 0, 270)), level(up(200, 50, 5), one("half", -3, 0, 270)), level(up(100, 10), one("half", -3, 0, 270)),
			}},
			{Name: "right side", On: []layout.Support{{Tower: "base", Level: 1}}, Lines: right, Levels: []layout.Level{
				level(up(150, 5), one("half", 3, 0, 90)), level(up(75, 10), one("half", 3, 0, 90)), level(up(75, 10), one("half", 3, 0, 90)),
			}},
		},
		Accepted: []layout.Accepted{{Finding: "fits the firing: soup bowl, clay", Reason: "Fired here in June, Wen"}},
	}
	s := &setter{load: l, next: map[string]int{}}
	s.put("left side", 1, "cones low", plane.Vec{-138, -239}, 30)
	s.put("right side", 3, "cones high", plane.Vec{138, -239}, 330)
	s.set("left side", 1, batch{"vase", 1}, batch{"jug", 5}, batch{"pinch pot", 4})
	s.set("left side", 2, batch{"mug", 14})
	s.set("left side", 3, batch{"rice bowl", 12})
	s.set("right side", 3, batch{"water bottle", 13})
	s.set("right side", 2, batch{"soup bowl", 5}, batch{"pinch pot", 2})
	s.set("right side", 1, batch{"soup bowl", 5}, batch{"pinch pot", 2})
	s.base()
	return l
}

// base sets the full shelf: tumblers left of the middle, lidded jars right.
func (s *setter) base() { s.set("base", 1, batch{"lidded jar", 6}, batch{"tumbler", 17}) }

func pack(name string, spyhole int) layout.ConePack {
	return layout.ConePack{Name: name, Cones: []measure.Cone{"5", "6", "7"}, Watched: true, Spyhole: spyhole}
}

func octoberWare() []layout.Ware {
	buff := layout.Material{Name: "buff stoneware", Cone: "6"}
	list := []layout.Ware{
		{Name: "mug", Count: 16, Height: 95, Across: 86, Owner: "Ida", Ticket: "31"},
		{Name: "tumbler", Count: 19, Height: 110, Across: 80, Owner: "Ida", Ticket: "32"},
		{Name: "jug", Count: 5, Height: 190, Across: 120, Owner: "Ida", Ticket: "33"},
		{Name: "lidded jar", Count: 6, Height: 118, Across: 130, Knob: 20, Owner: "Wen", Ticket: "17"},
		{Name: "vase", Count: 1, Height: 228, Across: 120, Owner: "Wen", Ticket: "18", Flags: layout.Flags{Runny: true}},
		{Name: "water bottle", Count: 14, Height: 215, Across: 92, Silhouette: layout.Bottle, Owner: "Wen", Ticket: "19"},
		{Name: "soup bowl", Count: 11, Height: 70, Across: 150, Owner: "Bram", Ticket: "24"},
		{Name: "rice bowl", Count: 12, Height: 55, Across: 110, Owner: "Bram", Ticket: "25"},
		{Name: "pinch pot", Count: 8, Height: 52, Across: 62, Silhouette: layout.Tumbler, Owner: "Class", Ticket: "40"},
	}
	for i := range list {
		list[i].Clay = buff
	}
	list[6].Clay = layout.Material{}
	return list
}

// Attic is a small kiln with one tower of whole shelves, in inches.
func Attic() *layout.Load {
	lines := []layout.Line{line(0, 165), line(-143, -82), line(143, -82)}
	l := &layout.Load{
		Title: "Attic, first glaze", Units: measure.Inches,
		Firing: layout.Firing{Stage: layout.Glaze, Cone: "05"},
		Kiln: layout.Kiln{
			Chamber: layout.Shape{Kind: layout.Round, Across: 444.5}, Height: 457.2, Opens: layout.Top,
			Probes: []layout.Probe{{At: 90, Height: 300, Reach: 35, Diameter: 8}},
		},
		Furniture: layout.Furniture{
			Shelves: []layout.ShelfKind{{Name: "full", Shape: layout.Shape{Kind: layout.Round, Across: 393.7}, Thick: 15.875, Count: 3}},
			Posts:   []layout.PostKind{square(12.7, 6), square(25.4, 6), square(50.8, 6), square(101.6, 6), square(152.4, 3)},
		},
		Ware: []layout.Ware{
			{Name: "mug", Count: 9, Height: 96, Across: 82, Clay: layout.Material{Name: "white", Cone: "04"}},
			{Name: "cereal bowl", Count: 6, Height: 64, Across: 140, Clay: layout.Material{Name: "white", Cone: "04"}},
			{Name: "jug", Count: 2, Height: 135, Across: 100, Clay: layout.Material{Name: "white", Cone: "04"}},
		},
		Towers: []layout.Tower{{Name: "tower", On: []layout.Support{{}}, Lines: lines, Levels: []layout.Level{
			level(up(25.4), one("full", 0, 0, 0)), level(up(152.4, 12.7), one("full", 0, 0, 0)), level(up(101.6, 12.7), one("full", 0, 0, 0)),
		}}},
	}
	s := &setter{load: l, next: map[string]int{}}
	s.set("tower", 1, batch{"jug", 2}, batch{"mug", 3})
	s.set("tower", 2, batch{"mug", 6})
	s.set("tower", 3, batch{"cereal bowl", 6})
	return l
}
