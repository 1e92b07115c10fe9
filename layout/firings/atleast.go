package firings

import (
	"fmt"
	"math"
	"strings"

	"threepost/layout/bounds"
	"threepost/layout/planner"
)

// atLeast is how many firings anybody needs for the pots that the split's
// firings hold, at the plan distances: of every class what suits no other, over
// the most that one firing of it holds. 0 where something stays in a kiln, which
// may keep other distances.
func (s *splitter) atLeast() (int, string) {
	for k := range s.studio.Kilns {
		if stays(s.studio.Kilns[k].Load) {
			return 0, ""
		}
	}
	total, because := 0, []string{}
	for c := range s.classes {
		n, say := s.classAtLeast(c)
		total += n
		if say != "" {
			because = append(because, say)
		}
	}
	return total, strings.Join(because, ", ")
}

// classAtLeast is how many firings of a class anybody needs.
func (s *splitter) classAtLeast(c int) (int, string) {
	var offered []part
	pots := 0
	for i := range s.lots {
		l := &s.lots[i]
		if n := l.ware.Count - l.left; n > 0 && len(l.wants) == 1 && l.wants[0] == c {
			offered = append(offered, part{i, n})
			pots += n
		}
	}
	if pots == 0 {
		return 0, ""
	}
	holds, share := 0, 0.0 // of one firing: pots, and the share of all value
	for k := range s.studio.Kilns {
		if !s.reaches(k, c) {
			continue
		}
		b, whole, ok := s.boundIn(k, c, offered)
		if !ok {
			return 1, s.sayClass(c) + " one"
		}
		holds = max(holds, b.Count)
		if whole > 0 {
			share = math.Max(share, b.Value/whole)
		}
	}
	need, because := 1, ""
	if holds > 0 {
		need = (pots + holds - 1) / holds
		because = fmt.Sprintf("%s of %d pots needs %d: nobody can set more than %d of them at once", s.sayClass(c), pots, need, holds)
	}
	// A whole number of firings, with room for the rounding of the sums.
	if byValue := int(math.Ceil(1/share - 1e-6)); share > 0 && byValue > need {
		need = byValue
		because = fmt.Sprintf("%s of %d pots needs %d: no firing can hold more than %.0f %% of their room", s.sayClass(c), pots, need, 100*share)
	}
	if need == 1 {
		because = s.sayClass(c) + " one"
	}
	return need, because
}

// boundIn is the most that one firing of a kiln holds of some pots, and what all
// of them are worth there.
func (s *splitter) boundIn(k, c int, offered []part) (b bounds.Bound, whole float64, ok bool) {
	l := s.loadFor(k, c, offered, s.boxOf(k))
	l.Towers, l.Cones = nil, nil
	b, err := planner.Bound(l)
	if err != nil {
		return b, 0, false
	}
	for _, o := range offered {
		whole += float64(float64(o.count) * s.worthIn(l, o.lot))
	}
	return b, whole, true
}
