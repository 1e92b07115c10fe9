package planner

import (
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestExpDesign(t *testing.T) {
	name := os.Getenv("EXP")
	l := sample(t, name)
	if os.Getenv("CROWD") != "" {
		l = crowded(l, map[string]float64{"studio": 1.5}[name]+2)
	}
	s, err := Start(l, 1)
	require.NoError(t, err)
	t0 := time.Now()
	for len(s.tasks) > 0 {
		n := len(s.tasks)
		before, b := s.spent, s.worthSet()
		task := s.tasks[0]
		s.tasks = s.tasks[1:]
		task()
		if s.spent-before > 100 {
			t.Logf("tasks %d spent %d (+%d) best %.2f -> %.2f  %v", n, s.spent, s.spent-before, b, s.worthSet(), time.Since(t0))
		}
	}
	say := func() {
		for i, c := range s.tried {
			if i > 8 {
				break
			}
			w := s.way(c)
			t.Logf("  %d: musts %.2f value %.3f watch %d est %.3f %s %s", i, c.musts, c.value, c.watch, c.frame.design.estimate, w.split, w.heights)
		}
	}
	say()
	s.allowed = s.spent
	for range 6 {
		s.Step(150000)
		t.Logf("spent %d best %.3f %v", s.spent, s.worthSet(), time.Since(t0))
		say()
	}
	_ = fmt.Sprint
	// the best design alone
	d := s.best.frame.design
	for seed := uint64(11); seed < 16; seed++ {
		q := newSearch(s.context, seed)
		f, err := q.erect(d)
		require.NoError(t, err)
		q.placeCones(f)
		q.fillAll(f, 1500, 1)
		q.keep(f)
		v0 := q.worthSet()
		line := fmt.Sprintf("quick %.2f", v0)
		for range 4 {
			q.Step(10000)
			line += fmt.Sprintf("  %d: %.3f", q.spent, q.worthSet())
		}
		t.Log(line)
	}
}
