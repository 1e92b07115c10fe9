package desk

import (
	"fmt"
	"math"
	"sort"

	"github.com/go-gl/mathgl/mgl64"

	"threepost/render/scene"
	"threepost/render/views"
)

// Label is a text beside the 3D picture, in px of the canvas.
type Label struct {
	X      float64      `json:"x"`
	Y      float64      `json:"y"` // of the text's baseline
	Text   string       `json:"text"`
	Anchor string       `json:"anchor"` // "start", "middle", "end"
	Class  string       `json:"class"`
	ID     string       `json:"id"`    // what a click chooses: "level:left side:2"
	Name   string       `json:"label"` // for a screen reader
	Marks  []views.Mark `json:"marks"` // lines and the small balance triangle, in px of the canvas
}

// Figures of the labels, px; look: mass hangs beside each shelf on its own
// side, over it the post triangle.
const (
	labelEdge = 8.0  // from the canvas's edge
	labelText = 13.0 // size of the figures
	glyph     = 26.0 // of the triangle
	labelRoom = glyph + labelText + 12
	leastLine = 14.0 // of a label without its triangle
	leadFrom  = 44.0 // where the hairline ends at least
	flagDown  = 26.0 // from a gap to its flag
	flagWide  = 96.0
	narrowest = 300.0 // px of a canvas that still has labels at its sides
)

// labels are the labels of what is seen.
func (e *Eye) labels() []Label {
	list := []Label{}
	if !e.ensure() {
		return list
	}
	for _, side := range [2]int{-1, 1} {
		list = append(list, e.column(side)...)
	}
	if e.up != nil || e.preset == "top" {
		list = append(list, e.letters()...)
	}
	if e.preset == "spyhole" {
		list = append(list, e.holeLabel())
	}
	if f, ok := e.flagLabel(); ok {
		list = append(list, f)
	}
	return list
}

// holeAngle is how far off its axis a spyhole of 19 mm through 76 mm of brick
// shows anything: the arc tangent of 19/76.
const holeAngle = 14.0

// holeLabel is the round of what can be seen through the hole.
func (e *Eye) holeLabel() Label {
	r := e.screen.H / 2 * math.Tan(mgl64.DegToRad(holeAngle)) / math.Tan(mgl64.DegToRad(e.cam.Angle)/2)
	x, y := e.screen.W/2, e.screen.H/2
	return Label{
		X: round(x), Y: round(math.Min(y+r+18, e.screen.H-6)), Text: e.d.words.Say("seen through the spyhole"), Anchor: "middle", Class: "hole",
		Name: e.d.words.Say("What is seen through the spyhole lies in this round."), Marks: []views.Mark{{Kind: views.PathKind, D: circle(x, y, r), Class: "hole"}},
	}
}

// hung is a label of a column before it has its place.
type hung struct {
	label *scene.Label
	at    mgl64.Vec2 // where it points
	y     float64    // of its baseline
}

// column hangs the masses of one side beside the load, spread so that none
// covers another, in the order of their shelves.
func (e *Eye) column(side int) []Label {
	if e.screen.W < narrowest || e.preset == "top" || e.preset == "spyhole" {
		return nil
	}
	var rows []hung
	for i := range e.scene.Labels {
		l := &e.scene.Labels[i]
		if l.Kind != scene.MassLabel || !l.Shown {
			continue
		}
		if at, on, ok := e.scene.Hang(*l, e.cam, e.screen); ok && on == side {
			rows = append(rows, hung{l, at, at[1]})
		}
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].y < rows[j].y })
	room := labelRoom
	if n := float64(len(rows)); n > 0 && n*room > e.screen.H {
		room = math.Max(leastLine, e.screen.H/n)
	}
	spread(rows, room, math.Min(room, labelRoom), e.screen.H-8)
	out := make([]Label, 0, len(rows))
	for _, r := range rows {
		out = append(out, e.massLabel(r, side, room >= labelRoom))
	}
	return out
}

// spread moves labels apart vertically, sorted from the top, within lo and hi,
// as little as keeps them room px apart.
func spread(rows []hung, room, lo, hi float64) {
	for i := range rows {
		rows[i].y = math.Max(rows[i].y, lo)
		if i > 0 {
			rows[i].y = math.Max(rows[i].y, rows[i-1].y+room)
		}
	}
	for i := len(rows) - 1; i >= 0; i-- {
		top := hi
		if i+1 < len(rows) {
			top = rows[i+1].y - room
		}
		rows[i].y = math.Min(rows[i].y, top)
	}
}

func (e *Eye) massLabel(r hung, side int, triangle bool) Label {
	l := r.label
	v := &e.built.Levels[l.Level]
	out := Label{Y: round(r.y - 5), Text: e.d.words.Say(l.Text), Class: "mass", Anchor: "start", X: labelEdge, Name: e.d.words.Say(l.Name),
		ID: fmt.Sprintf("level:%s:%d", e.built.Towers[v.Tower].Name, v.Number), Marks: []views.Mark{}}
	from, lead, to := 0.0, leadFrom, r.at[0]
	if side > 0 {
		out.X, out.Anchor = e.screen.W-labelEdge, "end"
		from, lead = e.screen.W, e.screen.W-leadFrom
		to = math.Min(lead, to)
	} else {
		to = math.Max(lead, to)
	}
	d := fmt.Sprintf("M%s %sH%s", px(from), px(r.y), px(lead))
	if math.Abs(to-lead) > 2 {
		d += fmt.Sprintf("L%s %s", px(to), px(r.at[1]))
	}
	out.Marks = append(out.Marks, views.Mark{Kind: views.PathKind, D: d, Class: "hairline"})
	if triangle {
		x := labelEdge
		if side > 0 {
			x = e.screen.W - labelEdge - glyph
		}
		out.Marks = append(out.Marks, e.triangle(l, x, r.y-labelText-8-glyph)...)
	}
	return out
}

// triangle is the ring of posts of a shelf with its balance point, small.
func (e *Eye) triangle(l *scene.Label, x, y float64) []views.Mark {
	for i := range e.scene.Balances {
		s := &e.scene.Balances[i]
		if s.Shelf != l.Index || len(s.Posts) < 2 {
			continue
		}
		posts, point := s.Triangle(glyph - 8)
		ring, dots := "", ""
		for k, p := range posts {
			ring += onOff(k == 0, "M", "L") + px(x+4+p[0]) + " " + px(y+4+p[1])
			dots += circle(x+4+p[0], y+4+p[1], 2.2)
		}
		bx, by := x+4+point[0], y+4+point[1]
		class := "balance"
		if s.Tips {
			class = "balance problem"
		}
		marks := []views.Mark{
			{Kind: views.PathKind, D: ring + "Z", Class: "ring"},
			{Kind: views.PathKind, D: dots, Class: "dot"},
			{Kind: views.PathKind, D: circle(bx, by, 3.6), Class: class},
			{Kind: views.PathKind, D: fmt.Sprintf("M%s %sA3.6 3.6 0 0 1 %s %sL%s %sZM%s %sA3.6 3.6 0 0 1 %s %sL%s %sZ",
				px(bx), px(by-3.6), px(bx+3.6), px(by), px(bx), px(by),
				px(bx), px(by+3.6), px(bx-3.6), px(by), px(bx), px(by)), Class: class + " quarter"},
		}
		return marks
	}
	return nil
}

func onOff(on bool, a, b string) string {
	if on {
		return a
	}
	return b
}

// circle is a circle as path data.
func circle(x, y, r float64) string {
	return fmt.Sprintf("M%s %sa%s %s 0 1 0 %s 0a%s %s 0 1 0 %s 0Z", px(x-r), px(y), px(r), px(r), px(2*r), px(r), px(r), px(-2*r))
}

// px is a figure of path data, to a tenth.
func px(v float64) string { return fmt.Sprint(round(v)) }

func round(v float64) float64 { return math.Round(v*10) / 10 }

// letters name the lines of posts where they stand on the level looked at.
func (e *Eye) letters() []Label {
	var out []Label
	for i := range e.scene.Labels {
		l := &e.scene.Labels[i]
		if l.Kind != scene.LetterLabel || !l.Shown {
			continue
		}
		at, _, ok := e.cam.Project(l.At, e.screen)
		if !ok || at[0] < 0 || at[1] < 0 || at[0] > e.screen.W || at[1] > e.screen.H {
			continue
		}
		out = append(out, Label{X: round(at[0]), Y: round(at[1]), Text: l.Text, Anchor: "middle", Class: "letter", Name: e.d.words.Say(l.Name),
			Marks: []views.Mark{}})
	}
	return out
}

// flagLabel is the figure of the gap that is drawn.
func (e *Eye) flagLabel() (Label, bool) {
	var a, b mgl64.Vec3
	text, grade := "", ""
	switch {
	case e.held != nil && e.held.Gap != nil:
		a, b, text, grade = e.held.Gap.From, e.held.Gap.To, e.held.Word, e.held.Grade
	case e.held == nil:
		g, ok := e.chosenGap()
		if !ok {
			return Label{}, false
		}
		a, b, text, grade = g.A, g.B, g.Text, g.Grade.String()
	default:
		return Label{}, false
	}
	at, _, ok := e.cam.Project(middle(a, b), e.screen)
	if !ok {
		return Label{}, false
	}
	at[0] = math.Min(math.Max(at[0], flagWide/2), e.screen.W-flagWide/2)
	y := at[1] + flagDown
	if y > e.screen.H-8 {
		y = at[1] - flagDown
	}
	return Label{X: round(at[0]), Y: round(y), Text: text, Anchor: "middle", Class: "flag " + grade, Name: text, Marks: []views.Mark{}}, true
}
