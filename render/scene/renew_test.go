package scene

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// changed is a load after an edit, built.
func changed(t testing.TB, b *stacks.Built, edits ...layout.Edit) *stacks.Built {
	t.Helper()
	l, err := edit.Apply(b.Load, edits...)
	require.NoError(t, err)
	next, err := stacks.Build(l)
	require.NoError(t, err)
	return next
}

// someEdits are edits that change one level, two, or all.
func someEdits(b *stacks.Built) map[string][]layout.Edit {
	first, last := &b.Pots[0], &b.Pots[len(b.Pots)-1]
	tower := func(p *stacks.Pot) (string, int) {
		v := &b.Levels[p.Level]
		return b.Towers[v.Tower].Name, v.Number
	}
	t0, n0 := tower(first)
	t1, n1 := tower(last)
	at, turn := plane.Add(first.At, plane.Vec{1.5, -2}), plane.NormalTurn(first.Turn+10)
	top := &b.Levels[len(b.Levels)-1]
	return map[string][]layout.Edit{
		"move one":     {{Act: layout.SetPot, Pot: first.Pot.String(), Tower: t0, Level: n0, At: &at, Turn: &turn}},
		"to another":   {{Act: layout.SetPot, Pot: first.Pot.String(), Tower: t1, Level: n1, At: &last.At, Turn: &turn}},
		"back":         {{Act: layout.Withdraw, Pot: last.Pot.String()}},
		"lock":         {{Act: layout.LockPot, Pot: first.Pot.String(), On: true}},
		"remove level": {{Act: layout.RemoveLevel, Tower: b.Towers[top.Tower].Name, Level: top.Number}},
	}
}

// TestLawRenewEqualsBuild: whatever was changed, and also when the meshes of
// the scene before are emptied, as on a graphics card.
func TestLawRenewEqualsBuild(t *testing.T) {
	for _, name := range samples() {
		b := reference(t, name)
		for what, edits := range someEdits(b) {
			options := []Options{{Dark: true, Colour: ByOwner, Up: 2}}
			if name == "small-round" || name == "oval" {
				options = []Options{{}, {Kiln: true, Sight: true}}
			}
			for _, o := range options {
				prev := Build(b, o)
				after := changed(t, b, edits...)
				want, got := Build(after, o), Renew(prev, after, o)
				require.Equal(t, want, got, "%s, %s, %+v", name, what, o)

				for i := range prev.Groups {
					prev.Groups[i].Mesh = Mesh{}
				}
				bare := Renew(prev, after, o)
				for i := range bare.Groups {
					require.Equal(t, want.Groups[i].Sum, bare.Groups[i].Sum, "%s, %s, %s", name, what, want.Groups[i].Name)
				}
			}
		}
	}
}

// TestRenewMeshesOnlyWhatChanged: a pot moved on one level leaves all others.
func TestRenewMeshesOnlyWhatChanged(t *testing.T) {
	b := reference(t, "studio")
	prev := Build(b, Options{})
	got := Renew(prev, changed(t, b, someEdits(b)["move one"]...), Options{})
	for i := range got.Groups {
		g := &got.Groups[i]
		if g.Level < 0 || g.Posts {
			continue
		}
		same := &g.Mesh.Positions[0] == &prev.Groups[i].Mesh.Positions[0]
		require.Equal(t, g.Level != b.Pots[0].Level, same, g.Name)
	}
}

func BenchmarkBuild(b *testing.B) {
	built := reference(b, "studio")
	for b.Loop() {
		Build(built, Options{})
	}
}

func BenchmarkRenewOneMoved(b *testing.B) {
	built := reference(b, "studio")
	prev := Build(built, Options{})
	next := changed(b, built, someEdits(built)["move one"]...)
	b.ReportAllocs()
	for b.Loop() {
		Renew(prev, next, Options{})
	}
}
