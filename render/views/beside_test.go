package views

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// TestLawPlansBesideAreToOneScale: two arrangements of one kiln are drawn to
// one scale in one place, so that their levels can be compared by eye.
func TestLawPlansBesideAreToOneScale(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		bare := s.Built.Load.Clone()
		bare.Towers = bare.Towers[:1]
		bare.Towers[0].Levels = bare.Towers[0].Levels[:1]
		o := BesideOptions{W: 300, H: 260}
		require.Equal(t, e.Beside(s, o).Frame, e.Beside(subject(t, bare), o).Frame, name)
	}
}

// TestPlansBesideAreOnlyPictures: nothing in them can be chosen, every level
// that is not the bottom has its number, and what differs is washed.
func TestPlansBesideAreOnlyPictures(t *testing.T) {
	e := easel(t)
	for _, name := range names {
		s := sample(t, name)
		plain, washed := e.Beside(s, BesideOptions{W: 300, H: 260}), e.Beside(s, BesideOptions{W: 300, H: 260, Differs: []int{0}})
		var texts []string
		count := func(p Picture, class string) (n int) {
			var walk func([]Mark)
			walk = func(marks []Mark) {
				for _, m := range marks {
					require.Empty(t, m.ID)
					if m.Kind == TextKind {
						texts = append(texts, m.Text)
					}
					if m.Class == class {
						n++
					}
					walk(m.Marks)
				}
			}
			walk(p.Marks)
			return n
		}
		require.Zero(t, count(plain, "wash"))
		numbers := 0
		for i := range s.Built.Levels {
			if !strings.HasSuffix(s.Built.Levels[i].Name, "bottom") {
				numbers++
			}
		}
		require.Len(t, texts, numbers, name)
		require.Positive(t, count(washed, "wash"))
	}
	empty := &layout.Load{Kiln: sample(t, "oval").Built.Load.Kiln}
	empty.Firing, empty.Furniture = sample(t, "oval").Built.Load.Firing, sample(t, "oval").Built.Load.Furniture
	require.NotEmpty(t, e.Beside(subject(t, empty), BesideOptions{W: 10, H: 10}).Marks, "an empty kiln in no room")
}
