package whole

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// TestEveryMendOfferedInTheSamplesWorks spoils every reference load in several
// ways and applies every mend that is offered: its finding is gone, and there
// are no more problems than before.
func TestEveryMendOfferedInTheSamplesWorks(t *testing.T) {
	total := 0
	for _, name := range samples() {
		t.Run(name, func(t *testing.T) {
			applied := 0
			variants := spoilt(read(t, "reference/"+name))
			findings, without, unbuilt := 0, map[layout.RuleName]int{}, 0
			for _, what := range slices.Sorted(maps.Keys(variants)) {
				l := variants[what]
				b, err := stacks.Build(l)
				if err != nil {
					unbuilt++ // spoilt past building: nothing to mend
					continue
				}
				before := edit.CheckWithMends(b)
				for _, f := range before.Findings {
					if f.Grade != layout.Note {
						findings++
						if len(f.Mends) == 0 {
							without[f.Rule]++
						}
					}
					for _, m := range f.Mends {
						applied++
						require.NotEmpty(t, m.Say)
						works(t, l, before, f, m, what)
					}
				}
			}
			t.Logf("%d ways to spoil it, %d past building; %d findings, %d mends applied; without a mend: %v", len(variants), unbuilt, findings, applied, without)
			require.Zero(t, unbuilt)
			require.Positive(t, applied)
			total += applied
		})
	}
	require.Greater(t, total, 200)
	t.Logf("%d mends applied in all", total)
}

// works applies a mend and checks the load again.
func works(t *testing.T, l *layout.Load, before clearance.Report, f layout.Finding, m layout.Mend, what string) {
	t.Helper()
	mended, err := edit.Apply(l, m.Edits...)
	require.NoError(t, err, "%s: %s", what, m.Say)
	b, err := stacks.Build(mended)
	require.NoError(t, err, "%s: %s", what, m.Say)
	after := clearance.Check(b)
	left := after.Find(f.Key)
	require.True(t, left == nil || left.Grade < f.Grade, "%s: %q leaves %q", what, m.Say, f.Sentence)
	require.LessOrEqual(t, after.Problems, before.Problems, "%s: %s", what, m.Say)
	if after.Problems == before.Problems {
		require.LessOrEqual(t, after.Watches, before.Watches, "%s: %s", what, m.Say)
	}
	for _, g := range after.Findings {
		if g.Grade == layout.Problem {
			was := before.Find(g.Key)
			require.True(t, was != nil && was.Grade == layout.Problem, "%s: %q brings %q", what, m.Say, g.Sentence)
		}
	}
}

// spoilt are variants of a load, each with something wrong.
func spoilt(l *layout.Load) map[string]*layout.Load {
	out := map[string]*layout.Load{}
	for _, by := range []float64{3, 6} {
		v := l.Clone()
		for i := range v.Towers {
			for j := range v.Towers[i].Levels {
				set := v.Towers[i].Levels[j].Set
				for k := 0; k < len(set); k += 5 {
					set[k].At[0] += by
				}
			}
		}
		out[fmt.Sprintf("every fifth pot %g to the right", by)] = v
	}
	closer(l, out)
	lower(l, out)
	for i := range l.Ware {
		v := l.Clone()
		if v.Ware[i].Height > 0 && len(v.Ware[i].Profile) == 0 {
			v.Ware[i].Height += 4
			out["the "+v.Ware[i].Name+" 4 taller"] = v
		}
	}
	for i := range l.Furniture.Posts {
		v := l.Clone()
		if v.Furniture.Posts[i].Count > 3 {
			v.Furniture.Posts[i].Count = 2
			out[fmt.Sprintf("two posts of %g only", v.Furniture.Posts[i].Height)] = v
		}
	}
	for i := range l.Towers {
		v := l.Clone()
		if len(v.Towers[i].Lines) > 0 {
			v.Towers[i].Lines[0].At[1] += 7
			out["post A of "+v.Towers[i].Name+" 7 to the back"] = v
		}
	}
	return out
}

// closer moves, on one level after the other, a pot 2 to 6 mm toward the one
// listed after it.
func closer(l *layout.Load, out map[string]*layout.Load) {
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			by := float64(2 + (i+2*j)%5)
			v := l.Clone()
			set := v.Towers[i].Levels[j].Set
			if len(set) < 2 {
				continue
			}
			k := nearest(set)
			d := plane.Sub(set[k].At, set[0].At)
			for c := range 2 {
				set[0].At[c] = clearance.Round(set[0].At[c] + by*d[c]/plane.Length(d))
			}
			out[fmt.Sprintf("%s %g toward %s", set[0].Pot, by, set[k].Pot)] = v
		}
	}
}

// nearest is the placement nearest to the first.
func nearest(set []layout.Placement) int {
	best := 1
	for k := 2; k < len(set); k++ {
		if plane.Length(plane.Sub(set[k].At, set[0].At)) < plane.Length(plane.Sub(set[best].At, set[0].At)) {
			best = k
		}
	}
	return best
}

// lower takes the top piece off the posts of a level, or puts the next lower
// owned post in place of a lone one.
func lower(l *layout.Load, out map[string]*layout.Load) {
	for i := range l.Towers {
		for j := range l.Towers[i].Levels {
			v := l.Clone()
			for p, m := range v.Towers[i].Levels[j].Posts {
				switch under := nextUnder(l, m[0]); {
				case len(m) > 1:
					v.Towers[i].Levels[j].Posts[p] = m[:len(m)-1]
				case under != nil:
					v.Towers[i].Levels[j].Posts[p] = layout.MakeUp{{Height: under.Height, Name: under.Name}}
				}
			}
			out[fmt.Sprintf("lower posts under %s %d", v.Towers[i].Name, j+1)] = v
		}
	}
}

// nextUnder is the tallest owned post, no spacer, that is lower than a piece.
func nextUnder(l *layout.Load, than layout.Piece) *layout.PostKind {
	var best *layout.PostKind
	for i := range l.Furniture.Posts {
		k := &l.Furniture.Posts[i]
		if !k.Spacer && k.Height < than.Height && (best == nil || k.Height > best.Height) {
			best = k
		}
	}
	return best
}
