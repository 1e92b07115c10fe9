package session

import (
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
	"threepost/layout/warelist"
)

// tellWare lists the rows of the ware list.
func (s *Session) tellWare(st *State, b *stacks.Built) {
	at := map[layout.Pot]int{} // level of each set pot
	for i := range s.now.Towers {
		for k, v := range s.now.Towers[i].Levels {
			level := s.levelIndex(s.now.Towers[i].Name, k+1)
			for _, p := range v.Set {
				at[p.Pot] = level
			}
		}
	}
	bodies, _ := stacks.Bodies(s.now)
	for i := range s.now.Ware {
		w := &s.now.Ware[i]
		row := Row{Name: w.Name, Count: w.Count, WaitIDs: []string{}, Size: s.size(w), Plain: warelist.Format(*w, s.now.Units), Fields: s.fields(w), Marks: marks(w)}
		levels := map[int]bool{}
		for _, p := range w.Pots() {
			if level, set := at[p]; set {
				row.Set++
				levels[level] = true
			} else {
				row.WaitIDs = append(row.WaitIDs, p.String())
			}
		}
		row.Waits = w.Count - row.Set
		row.Where = s.where(b, w, row.Set, levels)
		if row.Waits > 0 {
			var body *stacks.Body
			if i < len(bodies) {
				body = bodies[i]
			}
			row.Why = s.say(s.why(b, w, row.Waits, body))
		}
		filled, assumed, err := silhouette.Fill(*w)
		if err == nil {
			row.Form = string(filled.Silhouette)
			if len(assumed) > 0 {
				row.Assumed = list(assumed) + " assumed"
			}
		}
		st.Ware = append(st.Ware, row)
	}
}

// where says how much of a row is set, and on which level when it is one.
func (s *Session) where(b *stacks.Built, w *layout.Ware, set int, levels map[int]bool) string {
	waits := w.Count - set
	one := ""
	if b != nil && len(levels) == 1 {
		for v := range levels {
			if v >= 0 {
				one = "on " + s.Checker().LevelName(v)
			}
		}
	}
	switch {
	case set == 0 && w.Count == 1:
		return "waits"
	case set == 0:
		return "all " + strconv.Itoa(w.Count) + " wait"
	case waits > 0:
		return strconv.Itoa(set) + " set, " + waitWord(waits)
	case w.Count == 1 && one != "":
		return one
	case one != "":
		return "all " + one
	case w.Count == 1:
		return "set"
	}
	return "all " + strconv.Itoa(w.Count) + " set"
}

// waitWord is "1 waits", "4 wait".
func waitWord(n int) string {
	if n == 1 {
		return "1 waits"
	}
	return strconv.Itoa(n) + " wait"
}

// waiting is what a planner told of the ware that waits.
type waiting struct{ why map[string]Wait }

// Waits keeps why ware waits, as a planner told it for this arrangement. It is
// forgotten when the ware or the arrangement changes.
func (s *Session) Waits(waits []Wait) *State {
	s.waits = &waiting{why: map[string]Wait{}}
	for _, w := range waits {
		s.waits.why[w.Ware] = w
	}
	s.seen.state = nil
	return s.State()
}

// fullFrom is the share of a shelf, pots with half their gaps, from which it is
// called full without a search; round pots cover three quarters at best and
// mixed ones about half (common practice).
const fullFrom = 0.5

// why says why pots of a row wait: what a planner told, or else what can be
// seen without a search.
func (s *Session) why(b *stacks.Built, w *layout.Ware, waits int, body *stacks.Body) string {
	if s.waits != nil {
		if told, ok := s.waits.why[w.Name]; ok {
			return strings.TrimSpace(told.Why + " " + told.Cure)
		}
	}
	for _, name := range s.now.Wishes.LeaveOut {
		if name == w.Name {
			return "left out, as wished"
		}
	}
	switch {
	case b == nil:
		return ""
	case len(b.Levels) == 0:
		return "no level stands yet"
	case body == nil:
		return "its measures make no pot"
	}
	room := s.now.Limits(layout.RoomAbove).Plan
	tallest := 0.0
	var full, open []string
	for i := range b.Levels {
		most := b.TakesMost(i)
		tallest = max(tallest, most)
		if most+1e-6 < body.Height {
			continue
		}
		name := s.Checker().LevelName(i)
		if covered(b, i, s.now.Limits(layout.PotToPot).Plan) >= fullFrom {
			full = append(full, name)
		} else {
			open = append(open, name)
		}
	}
	switch {
	case len(full)+len(open) == 0:
		return "needs a level of " + s.up(body.Height+room) + "; the tallest has " + s.down(tallest+room)
	case len(open) > 0:
		return list(open) + onOff(len(open) == 1, " takes its height and may have room", " take its height and may have room")
	case len(full) > 3:
		return "the " + number(len(full)) + " levels that take it are full"
	}
	return list(full) + onOff(len(full) == 1, " is full", " are full")
}

// covered is the share of a level's shelves that its pots take, with half a gap
// round each.
func covered(b *stacks.Built, level int, gap float64) float64 {
	area, taken := 0.0, 0.0
	for _, k := range b.Levels[level].Shelves {
		area += b.Shelves[k].Outline.Area()
	}
	for _, i := range b.Levels[level].Pots {
		lo, hi := b.Pots[i].Solid.Min, b.Pots[i].Solid.Max
		taken += float64((hi[0] - lo[0] + gap) * (hi[1] - lo[1] + gap) * 0.785)
	}
	if area <= 0 {
		return 1
	}
	return taken / area
}

// marks are the words that stand beside a row.
func marks(w *layout.Ware) []string {
	out := []string{}
	switch w.Must {
	case layout.MustGo:
		out = append(out, "must go")
	case layout.Filler:
		out = append(out, "filler")
	}
	return append(out, flagWords(w.Flags)...)
}

// flagNames are the flags with their words, in the order they are told.
func flagNames(f *layout.Flags) []struct {
	word string
	on   *bool
} {
	return []struct {
		word string
		on   *bool
	}{{"refire", &f.Refire}, {"runny", &f.Runny}, {"bloats", &f.Bloats}, {"spits", &f.Spits}, {"glazed foot", &f.GlazedFoot},
		{"fuming", &f.Fuming}, {"fume-sensitive", &f.FumeShy}, {"unglazed", &f.Unglazed}}
}

func flagWords(f layout.Flags) []string {
	out := []string{}
	for _, n := range flagNames(&f) {
		if *n.on {
			out = append(out, n.word)
		}
	}
	return out
}

// exact is a length as a person types it, read back to the same mm; nothing
// for 0.
func (s *Session) exact(mm float64) string {
	if mm == 0 {
		return ""
	}
	return measure.FormatLength(mm, s.now.Units, measure.Exact)
}

// cell is a length as a cell of the table shows it: in inches no more than
// hundredths. Only cells that are changed are read back, so nothing is lost.
func (s *Session) cell(mm float64) string {
	text := s.exact(mm)
	whole, parts, decimal := strings.Cut(text, ".")
	if s.now.Units != measure.Inches || !decimal || len(parts) <= 2 {
		return text
	}
	const perInch = 25.4 // International Yard and Pound, 1959
	short := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(mm/perInch, 'f', 2, 64), "0"), ".")
	if short == "0" || whole == "" {
		return text
	}
	return short
}

// fields are the cells of a row.
func (s *Session) fields(w *layout.Ware) Fields {
	f := Fields{Name: w.Name, Count: strconv.Itoa(w.Count), Height: s.cell(w.Height), Across: s.cell(w.Across),
		Glaze: materialText(w.Glaze), Clay: materialText(w.Clay), Owner: w.Owner, Ticket: w.Ticket, Since: w.Since,
		Must: string(w.Must), Form: string(w.Silhouette), Foot: s.cell(w.Foot), Flags: flagWords(w.Flags), Stand: string(w.Stand.Kind)}
	if silhouette.Oblong(w) {
		f.Across = s.cell(w.Length) + " × " + s.cell(w.Width)
	}
	if w.Height == 0 && len(w.Profile) > 0 {
		f.Height = s.cell(w.Profile[len(w.Profile)-1].Height)
	}
	if w.Across == 0 && w.Length == 0 && len(w.Profile) > 0 {
		widest := 0.0
		for _, k := range w.Profile {
			widest = max(widest, k.Diameter)
		}
		f.Across = s.cell(widest)
	}
	if w.Mass > 0 {
		f.Mass = measure.FormatMass(w.Mass, s.now.Units)
	}
	return f
}

// materialText is "buff stoneware, cone 6".
func materialText(m layout.Material) string {
	if m.Cone == "" {
		return m.Name
	}
	if m.Name == "" {
		return "cone " + string(m.Cone)
	}
	return m.Name + ", cone " + string(m.Cone)
}
