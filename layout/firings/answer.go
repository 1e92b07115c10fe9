package firings

import (
	"fmt"
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// answer puts the firings and what waits into words.
func (s *splitter) answer() *Answer {
	a := &Answer{Of: s.of, Set: s.setPots, Notes: s.notes, Renamed: s.renamed, Seed: s.asked.Seed, Work: s.asked.Work}
	for i, m := range s.firings {
		m.load.Title = titled(m.load.Title, i+1, len(s.firings))
		a.Firings = append(a.Firings, Firing{Kiln: m.kiln, Round: m.round, Load: m.load, Set: m.pots, Value: m.value, Fill: m.fill,
			Report: m.report, Why: append(m.why, s.whyFill(m)...)})
	}
	for i := range s.lots {
		if l := &s.lots[i]; l.left > 0 {
			w := l.ware
			w.Count = l.left
			a.Rest = append(a.Rest, Waiting{Ware: w, Kiln: l.from, Reason: s.whyRest(i), Hot: l.hot})
		}
	}
	if len(a.Firings) > 0 && !s.stopped {
		a.AtLeast, a.Because = s.atLeast()
	}
	return a
}

func titled(title string, i, n int) string {
	if n == 1 && title != "" {
		return title
	}
	what := fmt.Sprintf("firing %d of %d", i, n)
	if title == "" {
		return "F" + what[1:]
	}
	return title + ", " + what
}

// whyNow says why a firing comes when it does.
func (s *splitter) whyNow(t *trial) []string {
	var why []string
	musts := 0
	gives, takes := false, false
	for lot, n := range t.set {
		l := &s.lots[lot]
		if l.must() {
			musts += n
		}
		gives, takes = gives || l.ware.Flags.Fuming, takes || l.ware.Flags.FumeShy
	}
	switch {
	case musts == t.pots && musts == 1:
		why = append(why, "It must go.")
	case musts == t.pots:
		why = append(why, "All of them must go.")
	case musts > 0:
		why = append(why, fmt.Sprintf("%d of them must go.", musts))
	}
	if d := s.oldest(t); d != "" {
		why = append(why, "The longest wait since "+d+".")
	}
	if s.keeps(t.kiln) {
		why = append(why, "What is locked or already stands in "+s.studio.Kilns[t.kiln].Name+" stays in it.")
	}
	if gives && takes {
		why = append(why, "Some give off fume and some take its colour: they stand on levels apart. Another firing is best.")
	}
	if t.bare {
		why = append(why, "The cone packs wait: with them in sight of a spyhole far less goes in.")
	} else if packs := s.changedPacks(t); packs != "" {
		why = append(why, packs)
	}
	return why
}

// changedPacks says which cone packs are for another cone than the load's.
func (s *splitter) changedPacks(t *trial) string {
	before := s.studio.Kilns[t.kiln].Load.Cones
	for i, c := range t.load.Cones {
		if i < len(before) && len(c.Cones) > 0 && len(before[i].Cones) > 0 && c.Cones[0] != before[i].Cones[0] {
			var names []string
			for _, cone := range c.Cones {
				names = append(names, string(cone))
			}
			return "The cone packs hold " + strings.Join(names, ", ") + "."
		}
	}
	return ""
}

// whyFill says how full a firing is.
func (s *splitter) whyFill(m *made) []string {
	if m.waits || m.fill >= 0.85 {
		return []string{"The kiln is full."}
	}
	fills := pick(m.pots, "1 pot fills", strconv.Itoa(m.pots)+" pots fill")
	what := "ware for " + coneOf(m.load.Firing, m.load.Units)
	if stage(m.load.Firing) == layout.Bisque {
		what = "raw ware"
	}
	return []string{fmt.Sprintf("%s about %s of the kiln (an estimate): wait for more %s, or fire it as it is.", fills, shareWord(m.fill), what)}
}

func coneOf(f layout.Firing, units measure.Units) string {
	if f.Cone != "" {
		return "cone " + string(f.Cone)
	}
	return measure.FormatTemperature(f.Temperature(), units)
}

// shareWord says a share of a kiln in words.
func shareWord(share float64) string {
	switch {
	case share < 0.15:
		return "a tenth"
	case share < 0.22:
		return "a fifth"
	case share < 0.29:
		return "a quarter"
	case share < 0.42:
		return "a third"
	case share < 0.58:
		return "half"
	case share < 0.71:
		return "two thirds"
	}
	return "three quarters"
}

// whyRest says why pots of a lot are in no firing.
func (s *splitter) whyRest(i int) string {
	l := &s.lots[i]
	if l.why != "" {
		return l.why
	}
	var told []string
	for k := range s.studio.Kilns {
		for _, c := range l.wants {
			if !s.reaches(k, c) {
				continue
			}
			why := s.blocked[k]
			if why == "" {
				why = s.alone(k, c, i)
			}
			if why != "" {
				if len(s.studio.Kilns) > 1 {
					why = s.studio.Kilns[k].Name + ": " + why
				}
				told = append(told, why)
			}
			break
		}
	}
	if len(told) > 0 {
		return strings.Join(told, " ")
	}
	if len(s.firings) >= s.asked.Most {
		return fmt.Sprintf("%s after %s.", pick(l.left, "It waits", "They wait"), silhouette.Counted(len(s.firings), "firing"))
	}
	return "No place was found with this work."
}
