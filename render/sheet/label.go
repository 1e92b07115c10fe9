package sheet

import (
	"math"
	"strings"

	"threepost/layout"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Distances in a label, mm of paper.
const (
	nameOver   = 2.0 // from the hairline up to the name's baseline
	nameHigh   = 6.1 // from the name's baseline up to the text's last one
	postsHigh  = 7.6 // from one line of make-ups to the next
	headHigh   = 6.2 // from the text's first baseline to the last one of the make-ups
	labelApart = 1.8 // white over a label
	markApart  = 1.5 // from a name to the mark of a cone pack
	markWide   = 5.6
)

// tag is a label set in lines, ready to be drawn.
type tag struct {
	z     float64
	head  []string // make-ups, or the room to the lid
	text  [][]drawing.Run
	name  string
	down  string
	after string // "down" or "up"
	cones bool
	high  float64
}

// tagOf sets a label in lines no longer than width mm; a brief one counts the
// pots where their kinds would take more than a line.
func tagOf(s *frame.Sheet, b *stacks.Built, l label, width float64, brief bool) tag {
	level := &b.Levels[l.level]
	t := tag{z: l.z, name: s.Say(level.Name), cones: hasCones(b, l.pots)}
	switch {
	case len(l.posts) > 0:
		for _, g := range l.posts {
			t.head = append(t.head, breakPosts(s, s.Posts(g.count, g.makeUp), width)...)
		}
	case l.lid:
		room := s.Room(l.room) + " to the " + lidWord(b.Load)
		if l.room < 0 {
			room = s.Size(-l.room) + " too high"
		}
		t.head = s.Fonts.Wrap(frame.Strong(frame.PostsSize), room, width)
	}
	t.text = takesLines(s, b, l, width, brief)
	t.down, t.after = s.Near(b.Height-l.z), "down"
	if b.Load.Kiln.Opens == layout.Front {
		t.down, t.after = s.Near(l.z), "up"
	}
	t.high = nameOver + nameHigh + lead()*float64(len(t.text)-1) + labelApart
	if n := len(t.head); n > 0 {
		t.high += headHigh + postsHigh*float64(n-1) + s.Fonts.CapHeight(frame.Heavy(frame.PostsSize))
	} else {
		t.high += s.Fonts.CapHeight(frame.Text(frame.TextSize))
	}
	if !t.oneRow(s, width) {
		t.high += frame.Leading(frame.LevelSize)
	}
	return t
}

// takesLines tell what a level takes and what stands there.
func takesLines(s *frame.Sheet, b *stacks.Built, l label, width float64, brief bool) [][]drawing.Run {
	takes := []drawing.Run{
		{Words: "takes ", Style: frame.Text(frame.TextSize)},
		{Words: s.Room(l.takes), Style: frame.Strong(frame.TextSize)},
	}
	with := func(words string) [][]drawing.Run {
		return s.WrapRuns(width, append(takes[:2:2], drawing.Run{Words: " · " + words, Style: frame.Text(frame.TextSize)})...)
	}
	pots := what(b, l.pots)
	if len(pots) == 0 {
		return s.WrapRuns(width, takes...)
	}
	if brief {
		if lines := with(strings.Join(pots, ", ")); len(lines) == 1 {
			return lines
		}
		return with(counted(wares(b, l.pots), "pot", "pots"))
	}
	var lines [][]drawing.Run
	for n := len(pots); n > 0; n-- {
		if lines = with(shorten(pots, n)); len(lines) <= mostLines {
			break
		}
	}
	return lines
}

// wares is how many of these are pots, cone packs left out.
func wares(b *stacks.Built, pots []int) int {
	n := 0
	for _, i := range pots {
		if b.Pots[i].Ware != nil {
			n++
		}
	}
	return n
}

// mostLines is how many lines of ware a label has before it counts the rest;
// the board list names them all.
const mostLines = 4

// shorten lists n kinds and says how many more there are.
func shorten(kinds []string, n int) string {
	if len(kinds) <= n {
		return strings.Join(kinds, ", ")
	}
	return strings.Join(kinds[:n], ", ") + " and " + counted(len(kinds)-n, "kind more", "kinds more")
}

// lidWord is what closes the chamber over the highest pots.
func lidWord(l *layout.Load) string {
	if l.Kiln.Opens == layout.Front {
		return "ceiling"
	}
	return "lid"
}

// breakPosts breaks a make-up that is longer than width after its plus signs.
func breakPosts(s *frame.Sheet, words string, width float64) []string {
	style := frame.Strong(frame.PostsSize)
	var lines []string
	line := ""
	for _, piece := range strings.SplitAfter(words, "+") {
		if line != "" && s.Fonts.Width(style, line+piece) > width {
			lines, line = append(lines, line), strings.TrimLeft(piece, "\u00a0")
			continue
		}
		line += piece
	}
	return append(lines, line)
}

func (t tag) downRuns() []drawing.Run {
	return []drawing.Run{
		{Words: t.down, Style: frame.Strong(frame.HeadSize)},
		{Words: " " + t.after, Style: frame.Text(frame.TextSize)},
	}
}

// oneRow tells whether name, mark and depth go beside each other.
func (t tag) oneRow(s *frame.Sheet, width float64) bool {
	used := s.Fonts.Width(frame.Heavy(frame.LevelSize), t.name) + s.RunsWidth(t.downRuns()...) + 1.5
	if t.cones {
		used += markApart + markWide
	}
	return used <= width
}

// draw sets the tag on its hairline at y, from x over width mm.
func (t tag) draw(p *frame.Page, x, y, width float64) {
	s := p.Sheet
	p.Line(x, y, x+width, y, frame.Hair())
	base := y - nameOver
	p.TextRuns(x+width, base, drawing.Right, t.downRuns()...)
	name := frame.Heavy(frame.LevelSize)
	if !t.oneRow(s, width) {
		base -= frame.Leading(frame.LevelSize)
	}
	w := p.Text(x, base, s.Fit(t.name, name, width-markApart-markWide), name)
	if t.cones {
		p.Cones(x+w+markApart, base, markWide)
	}
	base -= nameHigh
	for i := len(t.text) - 1; i >= 0; i-- {
		p.TextRuns(x, base, drawing.Left, t.text[i]...)
		base -= lead()
	}
	base += lead() - headHigh
	for i := len(t.head) - 1; i >= 0; i-- {
		p.Text(x, base, t.head[i], frame.Strong(frame.PostsSize))
		base -= postsHigh
	}
}

// tagsHeight is the least height of tags over each other, mm.
func tagsHeight(tags []tag) float64 {
	sum := 0.0
	for _, t := range tags {
		sum += t.high
	}
	return sum
}

// spread finds the hairlines of tags, listed from the bottom, between top and
// bottom: each as near to its shelf at wanted as its neighbours let it, in the
// same order.
func spread(tags []tag, wanted []float64, top, bottom float64) []float64 {
	at := append([]float64(nil), wanted...)
	limit := bottom
	for i := range tags {
		at[i] = math.Min(at[i], limit)
		limit = at[i] - tags[i].high
	}
	limit = top
	for i := len(tags) - 1; i >= 0; i-- {
		at[i] = math.Max(at[i], limit+tags[i].high)
		limit = at[i]
	}
	return at
}
