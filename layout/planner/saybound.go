package planner

import (
	"fmt"

	"threepost/layout/bounds"
	"threepost/layout/measure"
	"threepost/layout/silhouette"
)

// SayBound tells how far a plan may be from the most that anybody can set: "86
// set. Nobody can set more than 90 here, because ...". It is empty when all is
// set.
func SayBound(b bounds.Bound, p *Plan) string {
	const percent = 100
	switch {
	case p.Set >= p.Of:
		return ""
	case b.Count <= p.Set:
		return fmt.Sprintf("%d set. Nobody can set more here, because %s.", p.Set, sayWhy(b, p.Load.Units))
	case b.Count < p.Of:
		return fmt.Sprintf("%d set. Nobody can set more than %d here, because %s.", p.Set, b.Count, sayWhy(b, p.Load.Units))
	case p.Whole > 0 && b.Value < p.Whole*0.995:
		return fmt.Sprintf("%d set, %.0f %% of the value. Nobody can set more than %.0f %% here, because %s.", p.Set,
			percent*p.Value/p.Whole, percent*b.Value/p.Whole, sayWhy(b, p.Load.Units))
	}
	if p.Of-p.Set == 1 {
		return fmt.Sprintf("%d set. Nothing shows that the one that waits cannot go in at these distances.", p.Set)
	}
	return fmt.Sprintf("%d set. Nothing shows that the other %d cannot go in at these distances.", p.Set, p.Of-p.Set)
}

// sayWhy is the reason of a bound, after "because".
func sayWhy(b bounds.Bound, units measure.Units) string {
	if t := b.Tall; t.Count > 0 {
		from := measure.FormatLength(t.From, units, measure.Up)
		stand := "stand"
		if t.Count == 1 {
			stand = "stands"
		}
		switch {
		case t.Levels == 0:
			return fmt.Sprintf("%s %s %s or higher and no level goes in that takes as much", silhouette.Counted(t.Count, "pot"), stand, from)
		case t.Levels == 1:
			return fmt.Sprintf("%s %s %s or higher and the one level that goes in so tall holds %d at most", silhouette.Counted(t.Count, "pot"), stand, from, t.Hold)
		}
		return fmt.Sprintf("%s %s %s or higher and the %d levels that go in so tall hold %d at most", silhouette.Counted(t.Count, "pot"), stand, from, t.Levels, t.Hold)
	}
	switch b.Short {
	case bounds.Height:
		return "the height of the kiln takes no more levels of these heights"
	case bounds.Shelves:
		return "the shelves hold no more at these distances"
	case bounds.Posts:
		return "the posts make no more levels of these heights"
	}
	return "the levels hold no more at these distances"
}
