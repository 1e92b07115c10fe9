package session

import (
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// Find looks for a pot, glaze, clay, owner or ticket: every word typed must
// begin a word of the row. "mug 3" finds that pot.
func (s *Session) Find(text string) Found {
	out := Found{Ware: []string{}, Pots: []string{}}
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 0 || len(text) > 200 {
		return out
	}
	if p, err := s.now.Find(strings.TrimSpace(text)); err == nil && p.Number > 0 {
		out.Ware = append(out.Ware, p.Ware)
		if s.stands(p.String()) {
			out.Pots = append(out.Pots, p.String())
		}
		out.Says = p.String() + onOff(len(out.Pots) > 0, " is set", " waits")
		return out
	}
	pots := 0
	for i := range s.now.Ware {
		w := &s.now.Ware[i]
		if !tells(w, words) {
			continue
		}
		out.Ware = append(out.Ware, w.Name)
		pots += w.Count
		for _, p := range w.Pots() {
			if s.stands(p.String()) {
				out.Pots = append(out.Pots, p.String())
			}
		}
	}
	for i := range s.now.Cones {
		if name := s.now.Cones[i].Name; beginsAll(name, words) && s.stands(name) {
			out.Pots = append(out.Pots, name)
		}
	}
	switch {
	case len(out.Ware) > 0:
		out.Says = silhouette.Counted(pots, "pot") + " of " + silhouette.Counted(len(out.Ware), "row") + ", " + strconv.Itoa(len(out.Pots)) + " set"
	case len(out.Pots) > 0:
		out.Says = silhouette.Counted(len(out.Pots), "cone pack")
	default:
		out.Says = "nothing of that name, glaze, owner or ticket"
	}
	return out
}

// tells whether every word begins a word that stands in the row.
func tells(w *layout.Ware, words []string) bool {
	return beginsAll(strings.Join([]string{w.Name, silhouette.Plural(w.Name), w.Owner, w.Ticket, w.Glaze.Name, w.Clay.Name, string(w.Silhouette),
		strings.Join(flagWords(w.Flags), " "), string(w.Must)}, " "), words)
}

func beginsAll(text string, words []string) bool {
	have := strings.Fields(strings.ToLower(text))
	for _, word := range words {
		found := false
		for _, h := range have {
			found = found || strings.HasPrefix(h, word)
		}
		if !found {
			return false
		}
	}
	return true
}

// Colours tells the set pots apart: by "owner", "glaze", "mass" (their share of
// the ware's mass, a third each) or "finding". Every key has a mark to stand
// beside its colour.
func (s *Session) Colours(by string) []ColourKey {
	b, _ := s.Built()
	if b == nil {
		return []ColourKey{}
	}
	if by == "mass" {
		return s.byMass()
	}
	at := map[string]int{}
	var out []ColourKey
	state := s.State()
	for i := range state.Pots {
		p := &state.Pots[i]
		if p.Cones && by != "finding" {
			continue
		}
		key := map[string]string{"owner": p.Owner, "glaze": p.Glaze, "finding": p.Grade}[by]
		k, ok := at[key]
		if !ok {
			k = len(out)
			at[key] = k
			out = append(out, ColourKey{Key: key})
		}
		out[k].Pots = append(out[k].Pots, p.ID)
	}
	none := map[string]string{"owner": "no owner named", "glaze": "no glaze named", "finding": "clears"}[by]
	for i := range out {
		name := out[i].Key
		if name == "" {
			name = none
		}
		out[i].Said = name + ", " + silhouette.Counted(len(out[i].Pots), "pot")
		out[i].Mark = string(rune('a' + i%26))
	}
	return out
}

// byMass parts the set pots into light, middling and heavy by mass each.
func (s *Session) byMass() []ColourKey {
	b, _ := s.Built()
	var order []int
	total := 0.0
	for i := range b.Pots {
		if b.Pots[i].Ware != nil {
			order = append(order, i)
			total += b.Pots[i].Body.Mass
		}
	}
	sortStable(order, func(x, y int) bool { return b.Pots[x].Body.Mass < b.Pots[y].Body.Mass })
	keys := []ColourKey{{Key: "light", Mark: "1", Pots: []string{}}, {Key: "middling", Mark: "2", Pots: []string{}}, {Key: "heavy", Mark: "3", Pots: []string{}}}
	sum := make([]float64, len(keys))
	lo, hi := make([]float64, len(keys)), make([]float64, len(keys))
	so := 0.0
	for _, i := range order {
		mass := b.Pots[i].Body.Mass
		k := 0
		if total > 0 {
			k = min(int(3*so/total), 2)
		}
		if k > 0 && hi[k-1] == mass {
			k-- // alike pots share a key
		}
		so += mass
		if len(keys[k].Pots) == 0 {
			lo[k] = mass
		}
		hi[k] = mass
		sum[k] += mass
		keys[k].Pots = append(keys[k].Pots, b.Pots[i].Pot.String())
	}
	out := []ColourKey{}
	for k := range keys {
		if len(keys[k].Pots) == 0 {
			continue
		}
		keys[k].Said = keys[k].Key + ", " + measure.FormatMass(lo[k], s.now.Units) + " to " + measure.FormatMass(hi[k], s.now.Units) + ": " +
			strconv.Itoa(int(100*sum[k]/total+0.5)) + " % of the mass"
		out = append(out, keys[k])
	}
	return out
}
