package planner

import (
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/stacks"
)

// Given is a load as it stands, whoever arranged it, as a plan: what can be told
// beside a plan, such as SayBound and Closer, can be told of it. What waits has
// no reasons. The report is that of the same load. It refuses ware of which no
// body can be made.
func Given(l *layout.Load, report clearance.Report) (*Plan, error) {
	p := &Plan{Load: l, Report: report, Levels: 0, Seed: 1, watch: report.Watches}
	stands := map[string]int{}
	for _, t := range l.Towers {
		p.Levels += len(t.Levels)
		for _, v := range t.Levels {
			for _, s := range v.Set {
				if l.WareOf(s.Pot) != nil {
					stands[s.Pot.Ware]++
				}
			}
		}
	}
	for i := range l.Ware {
		w := &l.Ware[i]
		body, err := stacks.BodyOf(l, w)
		if err != nil {
			return nil, err
		}
		n := stands[w.Name]
		p.Set += n
		p.Of += w.Count
		p.Value += float64(body.Value * float64(n))
		p.Whole += float64(body.Value * float64(w.Count))
		if n < w.Count {
			p.Waits = append(p.Waits, Wait{Ware: w.Name, Count: w.Count - n})
		}
	}
	return p, nil
}
