package packing

import (
	"math"

	"threepost/geometry/plane"
)

// Slack is the least slack of an arrangement, mm: the least of distance less
// need over all pairs, obstacles and limits. Pairs of fixed things do not
// count, nor do the limits of fixed things. It is plus infinity when nothing
// has a need. An arrangement with a slack of -plane.Tolerance or more is valid.
//
// It is the judge of every result, and shares no code with the search.
func Slack(p *Problem, set []Standing) float64 {
	parts := make([][]plane.Skeleton, len(set))
	for i, s := range set {
		pose := plane.Pose{At: s.At, Turn: s.Turn}
		for _, k := range p.Kinds[s.Kind].Parts {
			parts[i] = append(parts[i], k.At(pose))
		}
	}
	least := math.Inf(1)
	for i, s := range set {
		if !s.Fixed {
			least = math.Min(least, slackAlone(p, s, parts[i]))
		}
		for j := 0; j < i; j++ {
			if s.Fixed && set[j].Fixed {
				continue
			}
			for a, sa := range parts[i] {
				for b, sb := range parts[j] {
					need := p.Need[s.Kind][a][set[j].Kind][b]
					if !math.IsInf(need, -1) {
						least = math.Min(least, sa.Distance(sb)-need)
					}
				}
			}
		}
	}
	return least
}

// slackAlone is the slack of one thing to the obstacles and outlines.
func slackAlone(p *Problem, s Standing, parts []plane.Skeleton) float64 {
	least := math.Inf(1)
	for _, o := range p.Obstacles {
		for a, sk := range parts {
			if need := o.Need[s.Kind][a]; !math.IsInf(need, -1) {
				least = math.Min(least, sk.Distance(o.Skeleton)-need)
			}
		}
	}
	for _, l := range p.Kinds[s.Kind].Limits {
		deepest := math.Inf(-1)
		for _, o := range p.Areas[l.Area].Outlines {
			deepest = math.Max(deepest, plane.Clearance(o, parts[l.Part], 0))
		}
		least = math.Min(least, deepest-l.Depth)
	}
	return least
}

// Valid says whether every need of the arrangement is met.
func Valid(p *Problem, set []Standing) bool { return Slack(p, set) >= -plane.Tolerance }
