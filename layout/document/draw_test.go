package document

import (
	"fmt"

	"pgregory.net/rapid"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/measure"
)

// drawLoad draws a load that means something to a reader: whatever may be
// told may be told, and what stands somewhere is there. Whether it could be
// fired is not asked.
func drawLoad(t *rapid.T) *layout.Load {
	l := &layout.Load{Units: rapid.SampledFrom([]measure.Units{measure.MM, measure.Inches}).Draw(t, "units")}
	l.Title = drawText(t, "title")
	l.Firing = layout.Firing{
		Stage:     rapid.SampledFrom([]layout.Stage{layout.Bisque, layout.Glaze, layout.Refire, layout.Lustre}).Draw(t, "stage"),
		Cone:      rapid.SampledFrom(measure.Cones()).Draw(t, "cone"),
		Peak:      float64(rapid.IntRange(0, 13000).Draw(t, "peak")) / 10,
		Programme: drawText(t, "programme"), Date: drawText(t, "date"),
	}
	drawKiln(t, &l.Kiln)
	drawFurniture(t, &l.Furniture)
	for i := rapid.IntRange(0, 4).Draw(t, "rows"); i > 0; i-- {
		l.Ware = append(l.Ware, drawWare(t, fmt.Sprintf("%s%d", drawName(t), i)))
	}
	if rapid.Bool().Draw(t, "cones") {
		l.Cones = []layout.ConePack{{Name: "cones", Cones: l.Firing.Cone.Pack(), Watched: rapid.Bool().Draw(t, "watched"), Length: some(t, "pack length")}}
	}
	drawRules(t, l)
	l.Wishes = layout.Wishes{
		Tall:  rapid.SampledFrom([]layout.TallWare{"", layout.TallLow, layout.TallHigh, layout.TallAlternate}).Draw(t, "tall"),
		Inset: some(t, "inset"), RoomAbove: some(t, "room above"),
		Towers:  rapid.SampledFrom([]layout.TowerChoice{"", layout.OneTower, layout.HalfTowers}).Draw(t, "towers"),
		Stagger: rapid.Bool().Draw(t, "stagger"),
	}
	if len(l.Ware) > 0 {
		drawWishes(t, l)
	}
	if len(l.Ware) > 0 && rapid.Bool().Draw(t, "left out") {
		l.Wishes.LeaveOut = []string{l.Ware[0].Name}
	}
	drawTowers(t, l)
	if rapid.Bool().Draw(t, "accepted") {
		l.Accepted = []layout.Accepted{{Finding: drawName(t), Reason: drawName(t)}}
	}
	return l
}

// drawWishes draws wishes for rows of the list and their owners.
func drawWishes(t *rapid.T, l *layout.Load) {
	row := &l.Ware[rapid.IntRange(0, len(l.Ware)-1).Draw(t, "row wished for")]
	if rapid.Bool().Draw(t, "kept off") {
		level := rapid.SampledFrom([]layout.LevelRef{layout.BottomLevel, layout.TopLevel, "1", "2", "64"}).Draw(t, "off level")
		l.Wishes.Off = []layout.OffLevel{{Ware: row.Name, Level: level}}
	}
	if row.Owner != "" {
		if rapid.Bool().Draw(t, "together") {
			l.Wishes.Together = []string{row.Owner}
		}
		if rapid.Bool().Draw(t, "apart") {
			l.Wishes.Apart = []string{row.Owner}
		}
	}
}

func drawLength(t *rapid.T, label string) float64 {
	switch rapid.IntRange(0, 3).Draw(t, label+" sort") {
	case 0:
		return float64(rapid.IntRange(1, 900).Draw(t, label))
	case 1:
		return float64(rapid.IntRange(1, 900).Draw(t, label)) * 25.4 / 16
	case 2:
		return float64(rapid.IntRange(1, 9000).Draw(t, label)) / 10
	}
	return rapid.Float64Range(0.001, 2000).Draw(t, label)
}

func some(t *rapid.T, label string) float64 {
	if rapid.Bool().Draw(t, label+" told") {
		return drawLength(t, label)
	}
	return 0
}

func drawPlace(t *rapid.T, label string) float64 {
	v := some(t, label)
	if rapid.Bool().Draw(t, label+" less") && v != 0 {
		return -v
	}
	return v
}

func drawTurn(t *rapid.T, label string) float64 {
	return float64(rapid.IntRange(-3600, 3600).Draw(t, label)) / 10
}

func drawText(t *rapid.T, label string) string {
	return rapid.OneOf(
		rapid.SampledFrom([]string{"", "October", `a "b" \ c`, "# not a comment", "[x]", "été ½", "'"}),
		rapid.StringOfN(rapid.RuneFrom([]rune(`ab "\#[]{}=,.'é½😀`)), 0, 12, -1),
	).Draw(t, label)
}

func drawName(t *rapid.T) string {
	return rapid.SampledFrom([]string{"mug", "soup bowl", "a.b", `the "good" one`, "é", "=x", "#", "12", "base-1"}).Draw(t, "name")
}

func drawShape(t *rapid.T) layout.Shape {
	a := float64(rapid.IntRange(200, 900).Draw(t, "across"))
	switch rapid.IntRange(0, 6).Draw(t, "shape") {
	case 0:
		return layout.Shape{Kind: layout.Round, Across: a}
	case 1:
		return layout.Shape{Kind: layout.HalfRound, Across: a, Depth: a / 2}
	case 2:
		return layout.Shape{Kind: layout.Sided, Sides: rapid.IntRange(3, 16).Draw(t, "sides"), Across: a, FlatAt: float64(rapid.IntRange(0, 3599).Draw(t, "flat")) / 10}
	case 3:
		return layout.Shape{Kind: layout.HalfSided, Sides: 12, Across: a, Depth: a / 2}
	case 4:
		return layout.Shape{Kind: layout.Oval, Width: a, Depth: a / 2}
	case 5:
		return layout.Shape{Kind: layout.HalfOval, Width: a, Depth: a / 4}
	}
	return layout.Shape{Kind: layout.Rectangle, Width: a, Depth: 300, Corner: rapid.SampledFrom([]float64{0, 12.5}).Draw(t, "corner")}
}

func drawKiln(t *rapid.T, k *layout.Kiln) {
	*k = layout.Kiln{
		Name: drawText(t, "kiln"), Chamber: drawShape(t), Height: drawLength(t, "height"),
		Opens: rapid.SampledFrom([]layout.Opens{layout.Top, layout.Front}).Draw(t, "opens"),
		Wall:  some(t, "wall"), FloorElement: rapid.Bool().Draw(t, "floor element"),
	}
	for i := rapid.IntRange(0, 2).Draw(t, "probes"); i > 0; i-- {
		k.Probes = append(k.Probes, layout.Probe{At: float64(rapid.IntRange(0, 3599).Draw(t, "probe at")) / 10,
			Height: drawLength(t, "probe height"), Reach: drawLength(t, "reach"), Diameter: drawLength(t, "diameter")})
	}
	for i := rapid.IntRange(0, 2).Draw(t, "spyholes"); i > 0; i-- {
		k.Spyholes = append(k.Spyholes, layout.Spyhole{At: float64(rapid.IntRange(0, 719).Draw(t, "spyhole at")) / 2,
			Height: drawLength(t, "spyhole height"), Diameter: some(t, "spyhole")})
	}
}

func drawFurniture(t *rapid.T, f *layout.Furniture) {
	for i := rapid.IntRange(1, 3).Draw(t, "shelves"); i > 0; i-- {
		f.Shelves = append(f.Shelves, layout.ShelfKind{Name: fmt.Sprintf("%s%d", drawName(t), i), Shape: drawShape(t), Thick: drawLength(t, "thick"),
			Mass: float64(rapid.IntRange(0, 200).Draw(t, "mass")) / 10, Count: rapid.IntRange(0, 9).Draw(t, "count"),
			Material: rapid.SampledFrom([]string{"", "mullite", "silicon carbide"}).Draw(t, "material"),
			Limit:    float64(rapid.IntRange(0, 1400).Draw(t, "limit")), Bow: some(t, "bow"),
			Cracked: rapid.Bool().Draw(t, "cracked"), Damp: rapid.Bool().Draw(t, "damp")})
	}
	seen := map[layout.Piece]bool{}
	for i := rapid.IntRange(1, 4).Draw(t, "posts"); i > 0; i-- {
		p := layout.PostKind{Name: rapid.SampledFrom([]string{"", "short", "set B"}).Draw(t, "post name"), Height: drawLength(t, "post"), Real: some(t, "real"),
			Section: layout.Section{Kind: rapid.SampledFrom([]layout.SectionKind{layout.SquareSection, layout.RoundSection, layout.HexagonSection, layout.TriangleSection}).Draw(t, "section"), Width: drawLength(t, "width")},
			Count:   rapid.IntRange(0, 9).Draw(t, "count"), Spacer: rapid.Bool().Draw(t, "spacer"), Mass: float64(rapid.IntRange(0, 9).Draw(t, "post mass")) / 8}
		if piece := (layout.Piece{Height: p.Height, Name: p.Name}); !seen[piece] {
			seen[piece] = true
			f.Posts = append(f.Posts, p)
		}
	}
	if rapid.Bool().Draw(t, "cookies") {
		f.Cookies = []layout.CookieKind{{Across: 110, Thick: drawLength(t, "cookie"), Count: 0}, {Across: 90, Thick: 10, Count: 4}}
		f.Stilts = []layout.StiltKind{{Across: 60, Height: drawLength(t, "stilt"), Count: 2, Limit: 1100, Metal: true}}
	}
}

func drawWare(t *rapid.T, name string) layout.Ware {
	w := layout.Ware{Name: name, Count: rapid.IntRange(1, 5).Draw(t, "count"), Height: drawLength(t, "height")}
	switch rapid.IntRange(0, 2).Draw(t, "form") {
	case 0:
		w.Across = drawLength(t, "across")
	case 1:
		w.Length, w.Width = drawLength(t, "length"), drawLength(t, "width")
		w.Plan = rapid.SampledFrom([]layout.ShapeKind{"", layout.Oval, layout.Rectangle}).Draw(t, "plan")
	default:
		w.Across = drawLength(t, "across")
		w.Profile = []layout.Knot{{Height: 0, Diameter: w.Across / 4}, {Height: w.Height / 2, Diameter: w.Across}, {Height: w.Height / 2, Diameter: w.Across / 2}, {Height: w.Height, Diameter: w.Across / 3}}
	}
	w.Silhouette = rapid.SampledFrom(append(silhouettes(), "")).Draw(t, "silhouette")
	w.Foot, w.Knob, w.Wall = some(t, "foot"), some(t, "knob"), some(t, "wall")
	w.Measured = rapid.Bool().Draw(t, "measured")
	handle := func() layout.Handle {
		from := some(t, "from")
		return layout.Handle{At: drawTurn(t, "handle at"), Reach: drawLength(t, "reach"), From: from, To: from + drawLength(t, "to"), Thick: some(t, "thick")}
	}
	for i := rapid.IntRange(0, 2).Draw(t, "handles"); i > 0; i-- {
		w.Handles = append(w.Handles, handle())
	}
	if rapid.Bool().Draw(t, "more") {
		spout, on, high, wide := handle(), rapid.Bool().Draw(t, "lid"), some(t, "high"), some(t, "wide")
		w.Spout, w.LidOn, w.HighAllowance, w.WideAllowance = &spout, &on, &high, &wide
		w.Mass = float64(rapid.IntRange(0, 900).Draw(t, "mass")) / 1000
		w.Clay = layout.Material{Name: drawText(t, "clay"), Cone: rapid.SampledFrom([]measure.Cone{"", "6", "06"}).Draw(t, "clay cone")}
		w.Glaze = layout.Material{Name: drawText(t, "glaze"), Cone: rapid.SampledFrom([]measure.Cone{"", "5.5"}).Draw(t, "glaze cone")}
		for _, f := range flagWords(&w.Flags) {
			*f.on = rapid.Bool().Draw(t, f.word)
		}
		w.Stand = layout.Stand{Kind: layout.Cookie, Across: some(t, "stand"), Height: some(t, "stand height")}
		w.Nested, w.Adds = rapid.IntRange(2, 5).Draw(t, "nested"), some(t, "adds")
		w.Owner, w.Ticket, w.Since = drawText(t, "owner"), drawText(t, "ticket"), "2026-10-14"
		w.Must, w.Value, w.Dry = layout.Filler, float64(rapid.IntRange(0, 9).Draw(t, "value"))/4, layout.DampClay
	}
	return w
}

func drawRules(t *rapid.T, l *layout.Load) {
	for _, rule := range layout.RuleNames() {
		if rapid.IntRange(0, 9).Draw(t, "rule") > 0 {
			continue
		}
		if l.Rules == nil {
			l.Rules = layout.Rules{}
		}
		l.Rules[rule] = layout.Limits{Problem: some(t, "problem"), Watch: some(t, "watch"), Plan: some(t, "plan")}
	}
}

func drawTowers(t *rapid.T, l *layout.Load) {
	var waiting []layout.Pot
	for _, w := range l.Ware {
		waiting = append(waiting, w.Pots()...)
	}
	for _, c := range l.Cones {
		waiting = append(waiting, layout.Pot{Ware: c.Name})
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "towers") {
		tower := layout.Tower{Name: fmt.Sprintf("%s %d", drawName(t), i), On: []layout.Support{{}}}
		if i > 0 && len(l.Towers[i-1].Levels) > 0 && rapid.Bool().Draw(t, "on another") {
			tower.On = []layout.Support{{Tower: l.Towers[i-1].Name, Level: len(l.Towers[i-1].Levels)}}
		}
		for j := rapid.IntRange(1, 4).Draw(t, "lines"); j > 0; j-- {
			line := layout.Line{At: plane.Vec{drawPlace(t, "x"), drawPlace(t, "y")}}
			if rapid.Bool().Draw(t, "turned") {
				line.Turn = drawTurn(t, "turn")
			}
			tower.Lines = append(tower.Lines, line)
		}
		for j := rapid.IntRange(0, 3).Draw(t, "levels"); j > 0; j-- {
			tower.Levels = append(tower.Levels, drawLevel(t, l, len(tower.Lines), &waiting))
		}
		l.Towers = append(l.Towers, tower)
	}
}

func drawLevel(t *rapid.T, l *layout.Load, lines int, waiting *[]layout.Pot) layout.Level {
	v := layout.Level{Locked: rapid.Bool().Draw(t, "locked"), Standing: rapid.Bool().Draw(t, "standing")}
	for i := rapid.IntRange(1, 2).Draw(t, "shelves"); i > 0; i-- {
		v.Shelves = append(v.Shelves, layout.ShelfAt{Kind: rapid.SampledFrom(l.Furniture.Shelves).Draw(t, "kind").Name,
			At: plane.Vec{drawPlace(t, "x"), drawPlace(t, "y")}, Turn: drawTurn(t, "turn")})
	}
	n := 1
	if rapid.Bool().Draw(t, "posts by line") {
		n = lines
	}
	for range n {
		var m layout.MakeUp
		for i := rapid.IntRange(1, 3).Draw(t, "pieces"); i > 0; i-- {
			p := rapid.SampledFrom(l.Furniture.Posts).Draw(t, "piece")
			m = append(m, layout.Piece{Height: p.Height, Name: p.Name})
		}
		v.Posts = append(v.Posts, m)
	}
	for len(*waiting) > 0 && rapid.Bool().Draw(t, "set one") {
		i := rapid.IntRange(0, len(*waiting)-1).Draw(t, "which")
		v.Set = append(v.Set, layout.Placement{Pot: (*waiting)[i], At: plane.Vec{drawPlace(t, "x"), drawPlace(t, "y")}, Turn: drawTurn(t, "turn"), Locked: rapid.Bool().Draw(t, "held")})
		*waiting = append((*waiting)[:i:i], (*waiting)[i+1:]...)
	}
	return v
}
