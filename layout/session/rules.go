package session

import (
	"threepost/layout"
	"threepost/layout/measure"
)

// rules lists the rules with their figures as texts and the reason for each.
func (s *Session) rules() []Rule {
	out := []Rule{}
	for _, name := range layout.RuleNames() {
		l := s.now.Limits(name)
		_, changed := s.now.Rules[name]
		out = append(out, Rule{Name: string(name), Problem: s.figure(name, l.Problem), Watch: s.figure(name, l.Watch), Plan: s.figure(name, l.Plan),
			Why: s.say(reason(name)), Changed: changed, Columns: columns(name)})
	}
	return out
}

// columns are the figures of a rule that mean something: some are only planned
// at, one is only watched from.
func columns(name layout.RuleName) []string {
	switch name {
	case layout.PotToPotDeep, layout.DeepFrom, layout.HandRoom, layout.RimPastEdge, layout.AllowHigh, layout.AllowWide:
		return []string{"plan"}
	case layout.TallNarrow:
		return []string{"watch"}
	}
	return []string{"problem", "watch", "plan"}
}

// counted tells the rules whose figures are no lengths.
func counted(name layout.RuleName) bool {
	switch name {
	case layout.PostOverPost, layout.Pieces, layout.Slender, layout.PostCount, layout.TallNarrow:
		return true
	}
	return false
}

// figure is a figure of a rule as text.
func (s *Session) figure(name layout.RuleName, x float64) string {
	if counted(name) {
		return measure.FormatFile(x)
	}
	return measure.FormatLength(x, s.now.Units, measure.Exact)
}

// reason says why there is a rule. All are common practice.
func reason(name layout.RuleName) string {
	switch name {
	case layout.PotToPot:
		return "Glaze swells and melts in the heat, and hands set pots within 3 to 5 mm: closer pots fuse."
	case layout.PotToPotDeep:
		return "Far below the rim arms are stretched and eyes see little, so pots stand wider."
	case layout.DeepFrom:
		return "From this depth below the rim a level counts as deep."
	case layout.PotToWall:
		return "Beside an element a pot gets hotter on one side, and brick marks glaze that touches it."
	case layout.PotToPost:
		return "A glazed pot that touches a post is fused to the shelf above."
	case layout.RoomAbove:
		return "Shelves bow and clay swells: a rim that touches the shelf above sticks to it."
	case layout.RoomToLid:
		return "The lid must close without weight on a pot, and the air under it evens the heat."
	case layout.ToProbe:
		return "The probe is brittle, and a pot against it makes it read the pot instead of the kiln."
	case layout.FootToEdge:
		return "A foot past the edge tips when the shelf is knocked."
	case layout.CookieToEdge:
		return "What runs off a cookie at the edge falls on the pots below."
	case layout.RimPastEdge:
		return "A rim past the edge is knocked by the next shelf that is let down."
	case layout.ShelfToWall:
		return "A shelf against the wall keeps the heat from passing, and grows into the brick."
	case layout.GripRoom:
		return "Fingers hold a shelf at two opposite places while it is let down."
	case layout.ShelfToShelf:
		return "Shelves grow in the heat; two that touch push each other off their posts."
	case layout.BottomShelf:
		return "Air under the bottom shelf keeps it from cracking and lets the floor heat through."
	case layout.PostOverPost:
		return "A post that stands beside the one below bends the shelf between them."
	case layout.Inset:
		return "A post near the edge can slip off, and a little inside the edge it carries with less bending."
	case layout.PostHeights:
		return "Three posts of unequal height lean the shelf."
	case layout.PostHeights4:
		return "On four or more posts of unequal height a shelf rocks."
	case layout.Pieces:
		return "Every joint of a post can shift: the fewer pieces, the steadier."
	case layout.Slender:
		return "A tall thin post topples when it is knocked."
	case layout.PostCount:
		return "Three posts never rock; fewer do not hold a shelf."
	case layout.Balance:
		return "When the balance point leaves the ring of posts, the shelf tips."
	case layout.TallNarrow:
		return "A pot many times as high as its foot is wide falls when a shelf is knocked."
	case layout.HandRoom:
		return "Fingers need room beside a pot that is let down."
	case layout.CookieWider:
		return "A cookie must be wider than the foot to catch what runs."
	case layout.AllowHigh:
		return "Pots of a series differ in height; this is added to each before anything is planned."
	case layout.AllowWide:
		return "Pots of a series differ in width; this is added to each before anything is planned."
	case layout.BlastRoom:
		return "An element close by bends a cone before the ware has had its heat."
	}
	return ""
}
