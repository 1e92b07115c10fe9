package planner

import "testing"

// BenchmarkFirstPlan is the time to the first valid plan of a load of 92 pots
// (budget: 0.2 s for 60 mixed pots).
func BenchmarkFirstPlan(b *testing.B) {
	l := sample(b, "studio")
	for b.Loop() {
		s, err := Start(l, 1)
		if err != nil {
			b.Fatal(err)
		}
		for s.best == nil {
			s.Step(1)
		}
		b.ReportMetric(float64(s.spent), "units")
	}
}

// BenchmarkGoodPlan is 100,000 units of work on the same load; value is what
// is set of the whole list.
func BenchmarkGoodPlan(b *testing.B) {
	l := sample(b, "studio")
	for b.Loop() {
		s, err := Start(l, 1)
		if err != nil {
			b.Fatal(err)
		}
		s.Step(100000)
		if p, ok := s.Best(); ok {
			b.ReportMetric(100*p.Value/p.Whole, "%value")
		}
	}
}
