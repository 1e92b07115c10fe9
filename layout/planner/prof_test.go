package planner

import (
	"testing"
)

func BenchmarkSurvey(b *testing.B) {
	l := sample(b, "studio")
	for b.Loop() {
		s, err := Start(l, 1)
		if err != nil {
			b.Fatal(err)
		}
		for len(s.tasks) != 1 || s.best == nil {
			task := s.tasks[0]
			s.tasks = s.tasks[1:]
			task()
			if len(s.tasks) > 15 {
				break
			}
		}
		b.ReportMetric(float64(s.spent), "units")
	}
}
