package edit

import (
	"encoding/json"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
)

// TestSetupActs applies what is asked once and looks at what it changed.
func TestSetupActs(t *testing.T) {
	l := two(t)
	put(t, l, "front", "stack", 2, 0, 150)
	kiln := l.Kiln
	kiln.Height, kiln.Probes = 700, []layout.Probe{{At: 90, Height: 300, Reach: 40, Diameter: 12}}
	furniture := l.Clone().Furniture
	furniture.Posts[0].Count = 3
	after, err := Apply(l,
		layout.Edit{Act: layout.SetKiln, Kiln: &kiln},
		layout.Edit{Act: layout.SetFurniture, Furniture: &furniture},
		layout.Edit{Act: layout.SetFiring, Firing: &layout.Firing{Stage: layout.Bisque, Cone: "04"}},
		layout.Edit{Act: layout.SetWishes, Wishes: &layout.Wishes{Tall: layout.TallLow, LeaveOut: []string{"jar"}}},
		layout.Edit{Act: layout.SetTitle, Title: "another"},
		layout.Edit{Act: layout.SetUnits, Units: "in"},
	)
	require.NoError(t, err)
	require.Equal(t, 700.0, after.Kiln.Height)
	require.Equal(t, 3, after.Furniture.Posts[0].Count)
	require.Equal(t, layout.Bisque, after.Firing.Stage)
	require.Equal(t, "another", after.Title)
	require.Equal(t, "in", string(after.Units))
	kiln.Probes[0].Reach = 1
	require.Equal(t, 40.0, after.Kiln.Probes[0].Reach, "the load shares nothing with the edit")
	// a pack that is gone leaves its place, others keep theirs
	after, err = Apply(l, layout.Edit{Act: layout.SetCones, Cones: []layout.ConePack{{Name: "back"}}})
	require.NoError(t, err)
	require.Len(t, after.Tower("stack").Levels[1].Set, 1)
	// a renamed row keeps its places and its wish, a removed one leaves its wish
	l.Wishes.LeaveOut = []string{"jar"}
	row := l.Ware[0]
	row.Name = "pot"
	after, err = Apply(l, layout.Edit{Act: layout.SetWare, Other: "jar", Ware: &row})
	require.NoError(t, err)
	require.Equal(t, "pot 1", after.Tower("stack").Levels[0].Set[0].Pot.String())
	require.Equal(t, []string{"pot"}, after.Wishes.LeaveOut)
	require.Equal(t, []string{"jar"}, l.Wishes.LeaveOut)
	after, err = Apply(l, layout.Edit{Act: layout.RemoveWare, Other: "jar"})
	require.NoError(t, err)
	require.Empty(t, after.Wishes.LeaveOut)
}

func TestSetupRefusals(t *testing.T) {
	l := two(t)
	kiln := l.Kiln
	kiln.Height = 0
	round := l.Kiln
	round.Chamber = layout.Shape{Kind: "star"}
	row := l.Ware[0]
	row.Name = "vase"
	for _, c := range []struct {
		edit layout.Edit
		want string
	}{
		{layout.Edit{Act: layout.SetKiln}, "a kiln takes its size inside"},
		{layout.Edit{Act: layout.SetKiln, Kiln: &kiln}, "the kiln is 0 high inside"},
		{layout.Edit{Act: layout.SetKiln, Kiln: &round}, `"star" is no shape`},
		{layout.Edit{Act: layout.SetFurniture}, "furniture takes shelves and posts"},
		{layout.Edit{Act: layout.SetFurniture, Furniture: &layout.Furniture{}}, `the shelf "full" lies on level 1 of "stack"; take it out there first`},
		{layout.Edit{Act: layout.SetFurniture, Furniture: &layout.Furniture{Shelves: l.Furniture.Shelves}}, `a post of 100 stands under level 1 of "stack"; take it out there first`},
		{layout.Edit{Act: layout.SetFurniture, Furniture: &layout.Furniture{Posts: []layout.PostKind{{Height: 50, Count: -1}}}}, "posts of 50: a count of -1; give 0 to 10000"},
		{layout.Edit{Act: layout.SetFiring}, "a firing takes its stage and its cone"},
		{layout.Edit{Act: layout.SetFiring, Firing: &layout.Firing{Stage: "roast"}}, `"roast" is no stage`},
		{layout.Edit{Act: layout.SetFiring, Firing: &layout.Firing{Stage: layout.Glaze, Cone: "66"}}, "66"},
		{layout.Edit{Act: layout.SetCones, Cones: []layout.ConePack{{}}}, "a cone pack takes a name"},
		{layout.Edit{Act: layout.SetCones, Cones: []layout.ConePack{{Name: "a"}, {Name: "a"}}}, `two cone packs are called "a"`},
		{layout.Edit{Act: layout.SetCones, Cones: []layout.ConePack{{Name: "vase"}}}, `"vase" is the name of a row of ware`},
		{layout.Edit{Act: layout.SetWishes}, "there is no wish"},
		{layout.Edit{Act: layout.SetWishes, Wishes: &layout.Wishes{LeaveOut: []string{"x"}}}, `there is no ware "x" on the list to leave out`},
		{layout.Edit{Act: layout.SetWishes, Wishes: &layout.Wishes{Together: []string{"Ida"}}}, `no row of the list has the owner "Ida"`},
		{layout.Edit{Act: layout.SetWishes, Wishes: &layout.Wishes{Off: []layout.OffLevel{{Ware: "x", Level: "top"}}}}, `there is no ware "x" on the list to keep off a level`},
		{layout.Edit{Act: layout.SetWishes, Wishes: &layout.Wishes{Off: []layout.OffLevel{{Ware: "vase", Level: "lid"}}}}, `"lid" is no level; give bottom, top, or a number counted up from the floor`},
		{layout.Edit{Act: layout.SetUnits, Units: "cubits"}, "cubits"},
		{layout.Edit{Act: layout.SetWare, Other: "jar", Ware: &row}, `there is a row "vase" already; give this one another name`},
		{layout.Edit{Act: layout.SetWare, Other: "nothing", Ware: &layout.Ware{Name: "x", Count: 1}}, `there is no ware "nothing" on the list`},
	} {
		_, err := Apply(l, c.edit)
		require.ErrorContains(t, err, c.want)
	}
}

// TestLawEditJSON: an edit's JSON has plain names throughout and reads back to
// the same edit.
func TestLawEditJSON(t *testing.T) {
	l := two(t)
	yes, two := true, 2.0
	w := l.Ware[0]
	w.Spout, w.LidOn, w.HighAllowance = &layout.Handle{Reach: 20, From: 10, To: 30}, &yes, &two
	w.Handles, w.Profile, w.Flags = []layout.Handle{{Reach: 3}}, []layout.Knot{{Height: 0, Diameter: 5}, {Height: 9, Diameter: 7}}, layout.Flags{GlazedFoot: true, FumeShy: true}
	e := layout.Edit{Act: layout.Arrange, Ware: &w, Towers: l.Towers, NewLevel: &l.Towers[0].Levels[0], Posts: ups(100, 10), At: at(1, 2), Turn: deg(3),
		Limits: &layout.Limits{Problem: 1, Watch: 2, Plan: 3}, Kiln: &l.Kiln, Furniture: &l.Furniture, Firing: &l.Firing, Cones: []layout.ConePack{{Name: "front", Spyhole: 1}}, Wishes: &layout.Wishes{RoomAbove: 3}}
	text, err := json.Marshal(e)
	require.NoError(t, err)
	require.Empty(t, regexp.MustCompile(`"[A-Z][A-Za-z]*":`).FindAllString(string(text), -1))
	var again layout.Edit
	require.NoError(t, json.Unmarshal(text, &again))
	require.Equal(t, e, again)
}

// TestMenderPauses: the mends are the same in slices; a mender that is told to
// stop tries no more.
func TestMenderPauses(t *testing.T) {
	l := calm()
	put(t, l, "jar 1", "stack", 1, 0, 0)
	put(t, l, "jar 2", "stack", 1, 81, 0)
	b := built(t, l)
	r := newMender(b).before
	f := r.Findings[0]
	tries := 0
	whole := NewMender(b, newMender(b).c, r).Mends(f, func() bool { tries++; return true })
	require.Equal(t, Mends(b, f), whole)
	require.NotEmpty(t, whole)
	require.Positive(t, tries)
	require.Empty(t, NewMender(b, newMender(b).c, r).Mends(f, func() bool { return false }))
}

// TestWishesFollowTheList: wishes follow a row to its new name and an owner to
// a new one, and go with the last row they speak of.
func TestWishesFollowTheList(t *testing.T) {
	l := two(t)
	vase, jar := *l.WareOf(layout.Pot{Ware: "vase"}), *l.WareOf(layout.Pot{Ware: "jar"})
	vase.Owner, jar.Owner = "Ida", "Bo"
	wishes := layout.Wishes{Together: []string{"Ida"}, Apart: []string{"Bo"}, Off: []layout.OffLevel{{Ware: "vase", Level: "2"}, {Ware: "jar", Level: layout.TopLevel}}}
	l, err := Apply(l, layout.Edit{Act: layout.SetWare, Ware: &vase}, layout.Edit{Act: layout.SetWare, Ware: &jar}, layout.Edit{Act: layout.SetWishes, Wishes: &wishes})
	require.NoError(t, err)
	vase.Name, vase.Owner = "tall vase", "Ada"
	l, err = Apply(l, layout.Edit{Act: layout.SetWare, Other: "vase", Ware: &vase})
	require.NoError(t, err)
	require.Equal(t, []string{"Ada"}, l.Wishes.Together)
	require.Equal(t, layout.OffLevel{Ware: "tall vase", Level: "2"}, l.Wishes.Off[0])
	l, err = Apply(l, layout.Edit{Act: layout.RemoveWare, Other: "jar"})
	require.NoError(t, err)
	require.Empty(t, l.Wishes.Apart)
	require.Len(t, l.Wishes.Off, 1)
	require.Equal(t, []string{"Ida"}, wishes.Together, "the wishes given are not written to")

	// An owner that is listed already is not listed twice.
	jug := vase
	jug.Name, jug.Owner = "jug", "Jo"
	l, err = Apply(l, layout.Edit{Act: layout.SetWare, Ware: &jug}, layout.Edit{Act: layout.SetWishes, Wishes: &layout.Wishes{Together: []string{"Ada", "Jo"}}})
	require.NoError(t, err)
	vase.Owner = "Jo"
	l, err = Apply(l, layout.Edit{Act: layout.SetWare, Ware: &vase})
	require.NoError(t, err)
	require.Equal(t, []string{"Jo"}, l.Wishes.Together)
}
