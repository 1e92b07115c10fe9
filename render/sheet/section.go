package sheet

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/stacks"
	"threepost/render/drawing"
	"threepost/render/frame"
)

// Leading of plain text on the front page, mm.
func lead() float64 { return frame.Leading(frame.TextSize) }

// fetchWords lists the furniture to fetch, the figure apart.
func fetchWords(s *frame.Sheet, b *stacks.Built) [][2]string {
	var list [][2]string
	for _, f := range stacks.Used(b) {
		list = append(list, [2]string{fmt.Sprint(f.Count), s.Say(f.What(f.Count, s.Units))})
	}
	return list
}

// fetch draws the furniture to fetch in as many columns as have room, and
// gives the height used.
func (f *front) fetch(p *frame.Page, x, y, width float64) float64 {
	s := f.s
	list := fetchWords(s, f.b)
	if len(list) == 0 {
		return 0
	}
	widest := 0.0
	for _, w := range list {
		widest = max(widest, s.RunsWidth(fetchRuns(w)...))
	}
	columns := max(1, int((width+4)/(widest+frame.BoxSide+2.4+4)))
	columns = min(columns, len(list)+1)
	step := width / float64(columns)
	top := y
	y += lead() * 0.85
	p.Text(x, y, "Fetch", frame.Heavy(frame.HeadSize))
	for i, w := range list {
		cell := i + 1 // the heading has the first
		if cell%columns == 0 {
			y += lead() + 0.6
		}
		at := x + step*float64(cell%columns)
		p.TextRuns(p.Tick(at, y, frame.TextSize), y, drawing.Left, fetchRuns(w)...)
	}
	return y + 2 - top
}

func fetchRuns(w [2]string) []drawing.Run {
	return []drawing.Run{
		{Words: w[0], Style: frame.Strong(frame.TextSize)},
		{Words: " " + w[1], Style: frame.Text(frame.TextSize)},
	}
}

// checklist draws what to look at before lid or door close.
func (f *front) checklist(p *frame.Page, x, y, width float64) float64 {
	top := y
	y += frame.Leading(frame.HeadSize) * 0.75
	p.Text(x, y, "Before the "+closing(f.b.Load)+" closes", frame.Heavy(frame.HeadSize))
	y += 1
	for _, line := range checks(f.s, f.b) {
		y += lead() + 0.35
		at := p.Tick(x, y, frame.TextSize)
		for i, words := range f.s.Fonts.Wrap(frame.Text(frame.TextSize), f.s.Say(line), x+width-at) {
			if i > 0 {
				y += lead()
			}
			p.Text(at, y, words, frame.Text(frame.TextSize))
		}
	}
	return y + 2 - top
}

// closing is what is closed before firing.
func closing(l *layout.Load) string {
	if l.Kiln.Opens == layout.Front {
		return "door"
	}
	return "lid"
}

// checks are the lines of the checklist that this load asks for.
func checks(s *frame.Sheet, b *stacks.Built) []string {
	l := b.Load
	door := l.Kiln.Opens == layout.Front
	list := []string{"Power off at the isolator, lid propped"}
	if door {
		list[0] = "Power off at the isolator, door held open"
	}
	if l.Firing.Stage == layout.Bisque {
		list = append(list, "Shelves dry, none cracked", "Every pot bone dry, none cold to the cheek")
	} else {
		list = append(list, "Shelves washed, dry, none cracked", feet(b))
	}
	list = append(list, "Each post over the post below it", "Stick across the posts: light under it")
	if door {
		list = append(list, "Up from the hearth: measured at each level")
	} else {
		list = append(list, "Down from the rim: measured at each level")
	}
	if holes := conesFace(b); holes != "" {
		list = append(list, holes)
	}
	if len(b.Probes) > 0 {
		list = append(list, "Probe clear, "+s.Size(l.Limits(layout.ToProbe).Plan)+" all round")
	}
	return append(list, frame.Capital(closing(l))+" closes without pressing", "This paper is off the kiln")
}

// feet is the line about wiped feet, with the ware that stands on cookies or
// stilts.
func feet(b *stacks.Built) string {
	on := func(kind layout.StandKind) (names []string, n int) {
		seen := map[int]bool{}
		for i := range b.Pots {
			p := &b.Pots[i]
			if p.Ware == nil || p.Body.Stand.Kind != kind {
				continue
			}
			n++
			if !seen[p.Kind] {
				seen[p.Kind] = true
				many := 0
				for j := range b.Pots {
					if b.Pots[j].Kind == p.Kind {
						many++
					}
				}
				names = append(names, strings.TrimLeft(named(many, p.Ware.Name), "0123456789\u00a0"))
			}
		}
		return names, n
	}
	line := "Every foot wiped"
	for _, kind := range []layout.StandKind{layout.Cookie, layout.Stilt} {
		names, n := on(kind)
		switch {
		case n == 0:
		case n == 1:
			line += "; the " + names[0] + " on its " + string(kind)
		case len(names) <= 2:
			line += "; the " + series(names) + " on " + string(kind) + "s"
		default:
			line += fmt.Sprintf("; %d pots on %ss", n, kind)
		}
	}
	return line
}

// conesFace is the line about watched cone packs: "Cones face the holes at 7
// and at 5".
func conesFace(b *stacks.Built) string {
	var at []string
	seen := map[string]bool{}
	for i := range b.Pots {
		if h := holeOf(b, &b.Pots[i]); h != "" && !seen[h] {
			seen[h] = true
			at = append(at, "at "+h)
		}
	}
	switch len(at) {
	case 0:
		return ""
	case 1:
		return "Cones face the hole " + at[0]
	}
	return "Cones face the holes " + series(at)
}

// holeOf is the clock of the spyhole that a watched pack faces, or "".
func holeOf(b *stacks.Built, p *stacks.Pot) string {
	if p.Cones == nil || !p.Cones.Watched {
		return ""
	}
	holes := b.Load.Kiln.Spyholes
	switch n := p.Cones.Spyhole; {
	case n >= 1 && n <= len(holes):
		return measure.ShortClock(holes[n-1].At)
	case n == 0 && len(holes) == 1:
		return measure.ShortClock(holes[0].At)
	}
	return ""
}
