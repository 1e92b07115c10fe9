package session

import (
	"fmt"
	"math"
	"strings"

	"threepost/layout"
)

// tellLift is the lifted shelf as the page shows it.
func (s *Session) tellLift() *Lifted {
	l := s.lift
	b := s.seen.built
	v := &b.Levels[l.level]
	name := s.Checker().LevelName(l.level)
	out := &Lifted{Tower: b.Towers[v.Tower].Name, Level: v.Number, Index: l.level, Title: s.say("Shelf of " + name), At: l.at, Was: l.was, Stops: []Stop{}}
	var letters []string
	for _, p := range v.Posts {
		letters = append(letters, b.Posts[p].Letter)
	}
	sortWords(letters)
	out.Line = "stands on the floor, lines " + strings.Join(letters, " ")
	if l.under >= 0 {
		out.Line = "rests on the posts of " + s.Checker().LevelName(l.under) + ", lines " + strings.Join(letters, " ")
	}
	out.Line = s.say(out.Line)
	for i := range l.stops {
		out.Stops = append(out.Stops, s.tellStop(l, &l.stops[i]))
	}
	at := &l.stops[l.at]
	out.Rise = at.rise
	out.Above, out.Lid = s.stopRooms(l, at)
	out.Says, out.Next = s.say(s.liftSays(l, at)), s.say(s.nextStop(l))
	out.Box, out.Takes = s.box(l, at)
	out.Takes = s.say(out.Takes)
	if at.rise > 0 {
		out.Mend = s.liftMend(l, at)
	}
	return out
}

// tellStop is one row of the stops.
func (s *Session) tellStop(l *lift, st *stop) Stop {
	nominal := 0.0
	for _, m := range st.height.Posts {
		nominal = math.Max(nominal, m.Nominal())
	}
	out := Stop{Height: st.height.Real, Posts: s.postSaid(nominal), Made: s.made(st.height.Posts), Grade: clears, Word: st.word, Fit: st.grade != layout.Problem}
	if st.grade != layout.Note {
		out.Grade = st.grade.String()
	}
	out.Takes = s.stopTakes(l, st)
	above, lid := s.stopRooms(l, st)
	if out.Room = lid; lid == "" {
		out.Room = above
	}
	if st.word != "" {
		out.Room = st.word
	}
	return out
}

// stopTakes is what the level under the shelf takes at a stop: "takes 103".
func (s *Session) stopTakes(l *lift, st *stop) string {
	if st.built == nil {
		return ""
	}
	if l.under < 0 {
		return s.down(st.built.Levels[l.level].Bottom) + " over the floor"
	}
	return "takes " + s.down(st.built.TakesUnder(l.under, l.level))
}

// stopRooms is the room under the shelf and to the lid at a stop.
func (s *Session) stopRooms(l *lift, st *stop) (above, lid string) {
	if st.built == nil {
		return "", ""
	}
	if l.under >= 0 {
		if h := roomsAbove(st.built)[l.under]; h.any && !h.lid {
			above = s.down(h.mm) + " above"
		}
	}
	if mm, ok := roomToLid(st.built); ok {
		lid = s.down(mm) + " to the " + s.lidWord()
	}
	return above, lid
}

// made says posts as "3 × (100 + 10 + 5)", or each sort of them.
func (s *Session) made(posts []layout.MakeUp) string {
	var parts []string
	for i := 0; i < len(posts); {
		said := s.makeUp(posts[i], " + ")
		n := 0
		for n = 1; i+n < len(posts) && s.makeUp(posts[i+n], " + ") == said; n++ {
		}
		if len(posts[i]) > 1 {
			said = "(" + said + ")"
		}
		parts = append(parts, fmt.Sprintf("%d × %s", n, said))
		i += n
	}
	return strings.Join(parts, ", ")
}

// liftSays tells the stop a lifted shelf is at.
func (s *Session) liftSays(l *lift, st *stop) string {
	made := s.made(st.height.Posts)
	if st.built == nil {
		return made + ": nothing can stand up with the shelf there."
	}
	where := ""
	if l.under >= 0 {
		where = s.Checker().LevelName(l.under) + " "
	}
	_, lid := s.stopRooms(l, st)
	if l.at == l.was {
		return "Hangs on " + made + ": " + where + s.stopTakes(l, st) + ". " + capital(lid) + "."
	}
	was := strings.TrimPrefix(s.stopTakes(l, &l.stops[l.was]), "takes ")
	text := "Now " + made + ": " + where + s.stopTakes(l, st) + ", was " + was + ". "
	return text + "Everything above " + onOff(st.rise > 0, "rises ", "comes down ") + s.postSaid(math.Abs(st.rise)) + ": " + lid + "."
}

// nextStop tells what the next stop up keeps, and where the lid stays open.
func (s *Session) nextStop(l *lift) string {
	if l.at == 0 {
		return "No post for a higher stop is left in the box."
	}
	next := &l.stops[l.at-1]
	said := s.tellStop(l, next)
	if next.grade == layout.Problem {
		return "At " + said.Posts + ": " + said.Room + "."
	}
	text := "Next stop " + said.Posts + " keeps " + said.Room + "."
	for i := l.at - 2; i >= 0; i-- {
		if l.stops[i].grade == layout.Problem {
			more := s.tellStop(l, &l.stops[i])
			return text + " At " + more.Posts + ": " + more.Room + "."
		}
	}
	return text
}

// box counts the posts that are left with the shelf at a stop, and tells what
// the drag takes and gives back.
func (s *Session) box(l *lift, st *stop) ([]BoxPost, string) {
	left := l.stock.Clone()
	for _, m := range st.height.Posts {
		left.Take(m, 1)
	}
	was := l.stock.Clone()
	for _, m := range l.stops[l.was].height.Posts {
		was.Take(m, 1)
	}
	f := &s.now.Furniture
	box := []BoxPost{}
	var takes, gives, out []string
	for _, i := range postsTallestFirst(f) {
		p := &f.Posts[i]
		name := strings.TrimSpace(s.postSaid(p.Height) + " " + p.Name)
		box = append(box, BoxPost{Height: p.Height, Said: s.postSaid(p.Height), Name: p.Name, Owned: p.Count, Left: left.Posts[i], Spacer: p.Spacer})
		switch n := was.Posts[i] - left.Posts[i]; {
		case n > 0:
			takes = append(takes, number(n)+" "+name+onOff(n > 1, "s", ""))
		case n < 0:
			gives = append(gives, number(-n)+" "+name+onOff(n < -1, "s", ""))
		}
		if left.Posts[i] <= 0 && p.Count > 0 {
			out = append(out, name+"s")
		}
	}
	text := ""
	if len(takes) > 0 {
		text = "This drag takes " + list(takes)
	}
	if len(gives) > 0 {
		text += onOff(text == "", "This drag gives back ", " and gives back ") + list(gives)
	}
	if text != "" {
		text += "."
	}
	if len(out) > 0 {
		text = strings.TrimSpace(text + " All the " + list(out) + " are in the kiln.")
	}
	return box, text
}
