package session

import (
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// label tells edits as one act, for undo: "move the mug next to post A".
func (s *Session) label(edits []layout.Edit) string {
	if len(edits) == 0 {
		return ""
	}
	first := s.labelOne(&edits[0])
	if len(edits) == 1 {
		return first
	}
	alike := true
	for i := range edits {
		alike = alike && edits[i].Act == edits[0].Act
	}
	if alike {
		n := strconv.Itoa(len(edits))
		switch edits[0].Act {
		case layout.SetPot:
			return "move " + n + " pots"
		case layout.Withdraw:
			return "put " + n + " pots back on the table"
		case layout.SetWare:
			return "add " + n + " rows"
		case layout.LockPot:
			return "lock " + n + " pots"
		case layout.SetPosts:
			return "change the posts of " + n + " levels"
		}
	}
	return first + " and more"
}

func (s *Session) labelOne(e *layout.Edit) string {
	pot := s.potName(e.Pot)
	switch e.Act {
	case layout.SetPot:
		switch {
		case !s.stands(e.Pot):
			return "set " + pot
		case e.At == nil && e.Tower == "":
			return "turn " + pot
		}
		return "move " + pot
	case layout.Withdraw:
		return "put " + pot + " back on the table"
	case layout.SwapPots:
		return "swap " + pot + " and " + s.potName(e.Other)
	case layout.LockPot:
		return onOff(e.On, "lock ", "unlock ") + pot
	case layout.LockLevel:
		return onOff(e.On, "lock ", "unlock ") + s.levelSaid(e.Tower, e.Level)
	case layout.SetPosts:
		if len(e.Posts) > 0 {
			return "hang the shelf of " + s.levelSaid(e.Tower, e.Level) + " on " + s.postSaid(e.Posts[0].Nominal())
		}
		return "change the posts under " + s.levelSaid(e.Tower, e.Level)
	case layout.MoveLine:
		return "move a line of " + e.Tower
	case layout.AddLevel:
		return "add a shelf to " + e.Tower
	case layout.RemoveLevel:
		return "take out the shelf of " + s.levelSaid(e.Tower, e.Level)
	case layout.SwapLevels:
		other := e.Other
		if other == "" {
			other = e.Tower
		}
		return "swap " + s.levelSaid(e.Tower, e.Level) + " and " + s.levelSaid(other, e.OtherLevel)
	case layout.MoveShelf:
		return "move the shelf of " + s.levelSaid(e.Tower, e.Level)
	}
	return s.labelRest(e)
}

// labelRest tells the edits that are about no place in the kiln.
func (s *Session) labelRest(e *layout.Edit) string {
	switch e.Act {
	case layout.Arrange:
		return "arrange the kiln"
	case layout.Accept:
		return "accept a watch"
	case layout.SetWare:
		if e.Ware == nil {
			break
		}
		if e.Other != "" && e.Other != e.Ware.Name {
			return "rename " + silhouette.Plural(e.Other) + " to " + silhouette.Plural(e.Ware.Name)
		}
		if s.now.WareOf(layout.Pot{Ware: e.Ware.Name}) == nil {
			return "add " + silhouette.Counted(e.Ware.Count, e.Ware.Name)
		}
		return "change " + e.Ware.Name
	case layout.RemoveWare:
		return "take " + e.Other + " off the list"
	case layout.SetRule:
		return fmt.Sprintf("change the rule %q", e.Rule)
	case layout.SetKiln:
		return "change the kiln"
	case layout.SetFurniture:
		return "change the furniture"
	case layout.SetFiring:
		return "change the firing"
	case layout.SetCones:
		return "change the cone packs"
	case layout.SetWishes:
		return "change what is wished"
	case layout.SetTitle:
		return "change the title"
	case layout.SetUnits:
		return "show lengths in " + string(e.Units)
	}
	return string(e.Act)
}

func onOff(on bool, yes, no string) string {
	if on {
		return yes
	}
	return no
}

// potName is how a pot is pointed at now, or its written name.
func (s *Session) potName(id string) string {
	if i := s.potIndex(id); i >= 0 {
		return s.Checker().Name(i)
	}
	return id
}

// potIndex is a pot by its written name in the built load, or -1.
func (s *Session) potIndex(id string) int {
	b, _ := s.Built()
	if b == nil {
		return -1
	}
	p, err := s.now.Find(id)
	if err != nil {
		return -1
	}
	for i := range b.Pots {
		if b.Pots[i].Pot == p {
			return i
		}
	}
	return -1
}

// stands tells whether a pot is set somewhere.
func (s *Session) stands(id string) bool {
	p, err := s.now.Find(id)
	if err != nil {
		return false
	}
	for i := range s.now.Towers {
		for _, v := range s.now.Towers[i].Levels {
			for _, q := range v.Set {
				if q.Pot == p {
					return true
				}
			}
		}
	}
	return false
}

// levelIndex is a level of a tower, from 1, in the built load, or -1.
func (s *Session) levelIndex(tower string, number int) int {
	b, _ := s.Built()
	if b == nil {
		return -1
	}
	for i := range b.Levels {
		if b.Levels[i].Number == number && b.Towers[b.Levels[i].Tower].Name == tower {
			return i
		}
	}
	return -1
}

// levelSaid says a level inside a sentence: "left 2", "the bottom".
func (s *Session) levelSaid(tower string, number int) string {
	if i := s.levelIndex(tower, number); i >= 0 {
		return s.Checker().LevelName(i)
	}
	return tower + " " + strconv.Itoa(number)
}

// down, up and postSaid show a length bare: room is rounded down, a need up.
func (s *Session) down(mm float64) string {
	return measure.FormatLength(mm, s.now.Units, measure.Down)
}

func (s *Session) up(mm float64) string { return measure.FormatLength(mm, s.now.Units, measure.Up) }

func (s *Session) near(mm float64) string {
	return measure.FormatLength(mm, s.now.Units, measure.Nearest)
}

func (s *Session) postSaid(mm float64) string {
	return measure.FormatLengthTo(mm, s.now.Units, measure.Nearest, measure.PostGrain)
}

// downUnit is down with its unit.
func (s *Session) downUnit(mm float64) string {
	return measure.SayLength(mm, s.now.Units, measure.Down)
}

// capital begins a sentence.
func capital(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// title is a name as a heading: without its article, with a capital.
func title(name string) string { return capital(strings.TrimPrefix(name, "the ")) }

// list says words: "A, B and C".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// number says small numbers in words.
func number(n int) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n >= 0 && n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n)
}
