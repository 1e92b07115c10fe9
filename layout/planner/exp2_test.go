package planner

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestExpWhat(t *testing.T) {
	s, err := Start(sample(t, "studio"), 1)
	require.NoError(t, err)
	show := func() {
		n := s.counted(s.best.frame)
		line := ""
		for k, kd := range s.context.kinds {
			line += fmt.Sprintf("%s %d/%d (%.2f h%.0f) ", kd.name, n[k], len(kd.free), kd.worth, kd.body.Height)
		}
		t.Log(s.spent, s.worthSet(), line)
		for i, st := range s.best.frame.storeys {
			m := map[string]int{}
			for _, p := range st.set {
				m[s.context.kinds[p.kind].name]++
			}
			z := ""
			for _, zz := range st.zones {
				z += fmt.Sprintf(" %.0f", zz.takes)
			}
			t.Log("   ", i, st.site.name, z, len(st.posts), st.deep, m)
		}
	}
	for _, w := range []int64{30000, 50000, 200000, 100000} {
		s.Step(w)
		show()
	}
}
