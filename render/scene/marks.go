package scene

import (
	"math"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// clayOf is the quiet clay of a silhouette (the look's list; those it does not
// name lie between their neighbours).
func clayOf(s layout.Silhouette, name string) Colour {
	if strings.Contains(strings.ToLower(name), "pinch") {
		return Hex(0xBFA286)
	}
	switch s {
	case layout.Jug:
		return Hex(0xA07E63)
	case layout.Teapot:
		return Hex(0xAD8C70)
	case layout.LiddedJar:
		return Hex(0xB89B80)
	case layout.Bottle, layout.Vase:
		return Hex(0xC8AA8D)
	case layout.OvalBaker:
		return Hex(0xCDB192)
	case layout.Mug:
		return Hex(0xD6BD9F)
	case layout.Bowl:
		return Hex(0xDFCDB3)
	case layout.Tumbler:
		return Hex(0xEADDC8)
	case layout.Plate:
		return Hex(0xE6D6BE)
	case layout.Box:
		return Hex(0xC2A78C)
	case layout.Tile:
		return Hex(0xDCCAB0)
	}
	return Hex(0xD2BCA0)
}

// clays gives each row its clay. Rows of one silhouette step to the light and
// back.
func (m *maker) clays() {
	seen := map[Colour]int{}
	for i := range m.b.Load.Ware {
		w := &m.b.Load.Ware[i]
		s := w.Silhouette
		if s == "" {
			s = silhouette.Guess(w.Name)
		}
		c := clayOf(s, w.Name)
		n := seen[c]
		seen[c]++
		switch n % 3 {
		case 1:
			c = c.Mix(Hex(0xF4EADB), 0.42)
		case 2:
			c = c.Mix(Hex(0x8A6C54), 0.22)
		}
		if m.o.Dark {
			c = c.Mix(Hex(0x6A5242), 0.28).Times(0.84)
		}
		m.clay = append(m.clay, c)
	}
}

// group colours: quiet enough that none shouts, told apart by their hatch too.
func groupColours() []uint32 {
	return []uint32{0xDCCBB2, 0x9DB0B8, 0xB9B58A, 0xC9A094, 0xA99BB0, 0x8FAE9B, 0xD9B98C, 0x8E8377}
}

// groupHatch is the hatch of the i-th group; the first is plain.
func groupHatch(i int) Hatch {
	list := []Hatch{Plain, Rising, Dots, LevelLines, Falling, UprightLines, Crossed, Dashes}
	return list[i%len(list)]
}

// dressWare gives every pot its colour and its mark.
func (m *maker) dressWare() {
	m.clays()
	n := len(m.b.Pots)
	m.marks, m.tints = make([]Mark, n), make([]Colour, n)
	for i := range m.b.Pots {
		p := &m.b.Pots[i]
		m.tints[i] = Hex(0xF3ECDF)
		if p.Kind < len(m.clay) {
			m.tints[i] = m.clay[p.Kind]
		}
	}
	switch m.o.Colour {
	case ByOwner:
		m.byText(func(w *layout.Ware) string { return w.Owner }, "no owner")
	case ByGlaze:
		m.byText(func(w *layout.Ware) string { return w.Glaze.Name }, "no glaze named")
	case ByMass:
		m.byMass()
	case ByFindings:
		m.byFindings()
	}
}

// byText groups pots by a text of their row, in the order of the rows.
func (m *maker) byText(of func(*layout.Ware) string, none string) {
	index := map[string]int{}
	for i := range m.b.Load.Ware {
		text := of(&m.b.Load.Ware[i])
		if _, known := index[text]; known || text == "" {
			continue
		}
		n := len(index)
		index[text] = n
		c := Hex(groupColours()[n%len(groupColours())])
		m.s.Legend = append(m.s.Legend, Key{Mark{groupHatch(n), text}, m.toned(c), 0})
	}
	empty := -1
	for i := range m.b.Pots {
		p := &m.b.Pots[i]
		if p.Ware == nil {
			continue
		}
		k, known := index[of(p.Ware)]
		if !known {
			if empty < 0 {
				empty = len(m.s.Legend)
				m.s.Legend = append(m.s.Legend, Key{Mark{Dashes, none}, m.toned(Hex(0xF1EADF)), 0})
			}
			k = empty
		}
		m.wear(i, k)
	}
	m.dropEmpty()
}

// toned is a colour on the ground of the look.
func (m *maker) toned(c Colour) Colour {
	if m.o.Dark {
		return c.Times(0.74)
	}
	return c
}

// wear gives pot i the k-th entry of the legend.
func (m *maker) wear(i, k int) {
	key := &m.s.Legend[k]
	key.Count++
	m.marks[i], m.tints[i] = key.Mark, key.Colour
}

// dropEmpty takes out of the legend what no pot wears.
func (m *maker) dropEmpty() {
	kept := m.s.Legend[:0]
	for _, k := range m.s.Legend {
		if k.Count > 0 {
			kept = append(kept, k)
		}
	}
	m.s.Legend = kept
}

// byMass groups pots by their share of the heaviest pot's mass, in fifths.
func (m *maker) byMass() {
	most, sum := 0.0, 0.0
	for i := range m.b.Pots {
		most = math.Max(most, m.b.Pots[i].Body.Mass)
		sum += m.b.Pots[i].Body.Mass
	}
	if !(most > 0) {
		return
	}
	const classes = 5
	hatches := []Hatch{Plain, Dots, LevelLines, Rising, Crossed}
	for k := range classes {
		text := "up to " + measure.FormatMass(most*float64(k+1)/classes, m.o.Units)
		c := Hex(0xF0E6D6).Mix(Hex(0x8C6A50), float32(k)/(classes-1))
		m.s.Legend = append(m.s.Legend, Key{Mark{hatches[k], text}, m.toned(c), 0})
	}
	for i := range m.b.Pots {
		if m.b.Pots[i].Ware == nil {
			continue
		}
		mass := m.b.Pots[i].Body.Mass
		k := min(classes-1, max(0, int(math.Ceil(mass/most*classes-1e-9))-1))
		m.wear(i, k)
		m.marks[i].Label = measure.FormatMass(mass, m.o.Units) + ", " + percent(mass/sum)
	}
	m.dropEmpty()
}

// percent is a share in the fewest figures that tell something.
func percent(share float64) string {
	if share < 0.095 {
		return strconv.FormatFloat(share*100, 'f', 1, 64) + " %"
	}
	return strconv.FormatFloat(share*100, 'f', 0, 64) + " %"
}

// byFindings pales what nothing is said about and marks the rest by the
// gravest finding that is not accepted.
func (m *maker) byFindings() {
	grade := map[layout.Thing]layout.Grade{}
	for i := range m.o.Report.Findings {
		f := &m.o.Report.Findings[i]
		if f.Accepted != "" {
			continue
		}
		for _, t := range f.Things {
			t = layout.Thing{Kind: t.Kind, Name: t.Name}
			grade[t] = max(grade[t], f.Grade)
		}
	}
	pale := Hex(0xEDE4D6)
	if m.o.Dark {
		pale = Hex(0x968C80)
	}
	m.s.Legend = []Key{
		{Mark{FaultLines, "problem"}, m.toned(Hex(0xDDB7AC)), 0},
		{Mark{WatchLines, "watch"}, m.toned(Hex(0xE8CFA0)), 0},
		{Mark{Plain, "nothing to watch"}, pale, 0},
	}
	for i := range m.b.Pots {
		p := &m.b.Pots[i]
		t := layout.Thing{Kind: layout.ThingPot, Name: p.Pot.String()}
		if p.Cones != nil {
			t.Kind = layout.ThingCones
		}
		switch grade[t] {
		case layout.Problem:
			m.wear(i, 0)
		case layout.Watch:
			m.wear(i, 1)
		default:
			m.wear(i, 2)
			m.marks[i].Label = ""
		}
	}
	m.dropEmpty()
}
