package stacks

import (
	"math"
	"sort"
	"strings"

	"threepost/geometry/plane"
	"threepost/layout"
)

// letters gives every line of every tower its letter. Lines of several towers
// that lie within half a section of each other are one place and share it.
// Towers on whose top nothing stands come first, in the order of the load,
// each clockwise about the middle of the kiln from where you stand (6
// o'clock); then the lines that none of them has.
func (m *mason) letters() {
	l := m.load
	name := make([][]string, len(l.Towers))
	give := func(leaf bool) {
		for t := range l.Towers {
			if m.b.Towers[t].Leaf != leaf {
				continue
			}
			lines := l.Towers[t].Lines
			name[t] = make([]string, len(lines))
			for _, i := range clockwise(lines) {
				name[t][i] = m.letter(lines[i].At, m.section(t, i)/2)
			}
		}
	}
	give(true)
	give(false)
	for i := range m.b.Posts {
		p := &m.b.Posts[i]
		p.Letter = name[m.b.Levels[p.Level].Tower][p.Line]
	}
	for t := range m.b.Towers {
		m.b.Towers[t].Letters = name[t]
	}
}

// letter is that of a place, a new one if none lies within near mm.
func (m *mason) letter(at plane.Vec, near float64) string {
	best, found := near+plane.Tolerance, ""
	for _, known := range m.b.Letters {
		if d := plane.Distance(known.At, at); d <= best {
			best, found = d, known.Name
		}
	}
	if found == "" {
		found = letterName(len(m.b.Letters))
		m.b.Letters = append(m.b.Letters, Letter{Name: found, At: at})
	}
	return found
}

// section is the width of the widest post of a tower's line, or 38 mm.
func (m *mason) section(t, line int) float64 {
	widest := 0.0
	for _, v := range m.b.Towers[t].Levels {
		for _, p := range m.b.Levels[v].Posts {
			if m.b.Posts[p].Line != line {
				continue
			}
			for _, piece := range m.b.Posts[p].Pieces {
				widest = math.Max(widest, piece.Kind.Section.Width)
			}
		}
	}
	if widest > 0 {
		return widest
	}
	return 38
}

// clockwise orders lines about the middle of the kiln from 6 o'clock.
func clockwise(lines []layout.Line) []int {
	order := make([]int, len(lines))
	key := make([]float64, len(lines))
	for i, line := range lines {
		order[i] = i
		key[i] = plane.NormalTurn(plane.Bearing(line.At) - 180)
		if key[i] > 359.95 {
			key[i] = 0 // a hair before 6 o'clock is 6 o'clock
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return key[order[a]] < key[order[b]] })
	return order
}

// letterName is the n-th letter from 0: A to Z, then AA.
func letterName(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// names gives every level the name that it is called by: "bottom" for the
// sole level of a tower on the floor that carries others, "left 2" on the
// tower "left side", "level 2" where there is one tower, else "back corner 2".
func (m *mason) names() {
	bottoms := 0
	for t := range m.b.Towers {
		if m.carriesAlone(t) {
			bottoms++
		}
	}
	calls := map[string]int{} // how many towers a short name would mean
	for t := range m.b.Towers {
		calls[shortName(m.b.Towers[t].Name)]++
	}
	for t := range m.b.Towers {
		tower := &m.b.Towers[t]
		short := shortName(tower.Name)
		switch {
		case len(m.b.Towers) == 1:
			short = "level"
		case calls[short] > 1 && tower.Name != "":
			short = tower.Name
		}
		for _, v := range tower.Levels {
			level := &m.b.Levels[v]
			level.Name = short + " " + itoa(level.Number)
			if bottoms == 1 && m.carriesAlone(t) {
				level.Name = "bottom"
			}
		}
	}
}

// shortName is a tower's name in front of a level's number: "left" of the
// tower "left side".
func shortName(tower string) string {
	if s := strings.TrimSpace(strings.TrimSuffix(tower, " side")); s != "" {
		return s
	}
	return "level"
}

// carriesAlone tells whether a tower is one level on the floor under others.
func (m *mason) carriesAlone(t int) bool {
	tower := &m.b.Towers[t]
	return len(tower.On) == 0 && len(tower.Levels) == 1 && !tower.Leaf
}
