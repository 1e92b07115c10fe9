package sheet

import (
	"strings"

	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/frame"
)

// headOf is the band of the front page: title, stage, cone and temperature,
// kiln, date, how much is set.
func headOf(s *frame.Sheet, b *stacks.Built) frame.Head {
	l := b.Load
	right := []string{s.Say(frame.Capital(string(l.Firing.Stage)))}
	if cone := s.Cone(l.Firing); cone != "" {
		right = append(right, cone)
	}
	sub := kilnWords(s, b) + ", in " + s.Unit()
	if l.Firing.Date != "" {
		sub += " · " + l.Firing.Date
	}
	return frame.Head{
		Title: frame.TitleOf(l), Right: strings.TrimPrefix(strings.Join(right, " · "), " · "), Sub: sub,
		SubRight: counted(setPots(b), "pot", "pots") + ", " + counted(len(b.Levels), "level", "levels"),
	}
}

// kilnWords names the kiln with its measures: "Kiln Heron, 712 across, 686
// deep"; a front-loader is high, not deep.
func kilnWords(s *frame.Sheet, b *stacks.Built) string {
	k := &b.Load.Kiln
	name := strings.TrimSpace(k.Name)
	if name != "" {
		name += ","
	}
	parts := []string{}
	c := k.Chamber
	switch c.Kind {
	case layout.Round, layout.Sided:
		parts = append(parts, s.Near(c.Across)+" across")
	default:
		lo, hi := b.Chamber.Bounds()
		parts = append(parts, s.Near(hi[0]-lo[0])+" × "+s.Near(hi[1]-lo[1]))
	}
	word := "deep"
	if k.Opens == layout.Front {
		word = "high"
	}
	return strings.Join(strings.Fields("Kiln "+name), " ") + " " + strings.Join(append(parts, s.Near(b.Height)+" "+word), ", ")
}

// lidRoom is the room left over a leaf of the load.
type lidRoom struct {
	room    float64
	level   int
	tallest int // into Built.Pots, -1: the bare shelf
}

// lidRooms lists the room to the lid over each side, least first; a level told
// at both sides counts once.
func lidRooms(columns []column) []lidRoom {
	var list []lidRoom
	for _, c := range columns {
		for _, l := range c.labels {
			if !l.lid {
				continue
			}
			r := lidRoom{l.room, l.level, l.tallest}
			at := len(list)
			for i := range list {
				if list[i].level == r.level {
					at = i
				}
			}
			if at < len(list) {
				if r.room < list[at].room {
					list[at] = r
				}
				continue
			}
			list = append(list, r)
		}
	}
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && list[j].room < list[j-1].room; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
	return list
}

// roomWords says the least room to the lid, and over what it is.
func roomWords(s *frame.Sheet, b *stacks.Built, rooms []lidRoom) (big, text string) {
	lid := lidWord(b.Load)
	if len(rooms) == 0 {
		return s.Room(b.Height) + " left to the " + lid, "The kiln is empty."
	}
	first := rooms[0]
	if first.room < 0 {
		big = s.Size(-first.room) + " too high for the " + lid
	} else {
		big = s.Room(first.room) + " left to the " + lid
	}
	over := "the shelf"
	if first.tallest >= 0 {
		over = tallestWords(b, first)
	}
	text = "over " + over + " of " + held(b.Levels[first.level].Name) + "."
	for _, r := range rooms[1:] {
		text += " " + frame.Capital(held(b.Levels[r.level].Name)) + " has " + s.Room(r.room) + "."
	}
	return big, s.Say(text)
}

// held is a name that is not broken at a line's end.
func held(name string) string { return strings.ReplaceAll(name, " ", "\u00a0") }

// tallestWords names the tallest ware of a level: "the rice bowls".
func tallestWords(b *stacks.Built, r lidRoom) string {
	p := &b.Pots[r.tallest]
	if p.Ware == nil {
		return "the cones"
	}
	n := 0
	for _, i := range b.Levels[r.level].Pots {
		if b.Pots[i].Kind == p.Kind {
			n++
		}
	}
	return "the " + strings.TrimLeft(named(n, p.Ware.Name), "0123456789\u00a0")
}
