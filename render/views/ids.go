package views

import (
	"math"
	"strconv"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

func hypot(x, y float64) float64 { return plane.Hypot(x, y) }

func sinCos(deg float64) (sin, cos float64) { return plane.SinCos(deg) }

// PotID is the id of a pot's group: "pot:mug 3", of a cone pack
// "cones:cones at 7".
func PotID(p *stacks.Pot) string {
	if p.Cones != nil {
		return "cones:" + p.Pot.String()
	}
	return "pot:" + p.Pot.String()
}

// levelID is "level:left side:2".
func levelID(b *stacks.Built, v int) string { return placeID("level", b, v) }

// shelfID is "shelf:left side:2".
func shelfID(b *stacks.Built, v int) string { return placeID("shelf", b, v) }

func placeID(what string, b *stacks.Built, v int) string {
	l := &b.Levels[v]
	return what + ":" + b.Towers[l.Tower].Name + ":" + strconv.Itoa(l.Number)
}

// postID is "post:A:left side:2": the level is the one whose shelf it carries.
func postID(b *stacks.Built, p *stacks.Post) string {
	l := &b.Levels[p.Level]
	return "post:" + p.Letter + ":" + b.Towers[l.Tower].Name + ":" + strconv.Itoa(l.Number)
}

// capital is words with a capital first letter.
func capital(words string) string {
	if words == "" || words[0] < 'a' || words[0] > 'z' {
		return words
	}
	return strings.ToUpper(words[:1]) + words[1:]
}

// grades are the gravest open findings about each pot, by name.
func grades(s Subject) map[string]layout.Grade {
	out := map[string]layout.Grade{}
	for i := range s.Findings {
		f := &s.Findings[i]
		if f.Grade == layout.Note || f.Accepted != "" {
			continue
		}
		for _, t := range f.Things {
			if (t.Kind == layout.ThingPot || t.Kind == layout.ThingCones) && f.Grade > out[t.Name] {
				out[t.Name] = f.Grade
			}
		}
	}
	return out
}

// gradeClass is the class of a grade, with a space before it; "" for a note.
func gradeClass(g layout.Grade) string {
	switch g {
	case layout.Problem:
		return " problem"
	case layout.Watch:
		return " watch"
	}
	return ""
}

// letters are the small letters of the kinds.
func (s Subject) letters() map[int]string {
	if s.Letters != nil {
		return s.Letters
	}
	return stacks.KindLetters(s.Built)
}

// finite tells whether all figures can be drawn.
func finite(list ...float64) bool {
	for _, v := range list {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// mapped takes points of a silhouette, mm with z up, to px.
func mapped(x, y, per float64) func(drawing.Point) (float64, float64) {
	return func(p drawing.Point) (float64, float64) { return x + p.X*per, y - p.Y*per }
}
