package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
)

// cylinder is the profile of a straight pot.
func (s *Session) cylinder(height, across float64) []layout.Knot {
	return []layout.Knot{{Height: 0, Diameter: across}, {Height: height, Diameter: across}}
}

// TestLawSetupComesBack: every part of the setup, handed back as it was told,
// changes nothing in the file.
func TestLawSetupComesBack(t *testing.T) {
	for _, name := range samples() {
		for _, units := range []string{"mm", "in"} {
			s := sample(t, name)
			_, err := s.SetUnits(units)
			require.NoError(t, err)
			before := textOf(t, s)
			f := s.Setup()
			for part, fields := range map[string]any{"kiln": f.Kiln, "furniture": f.Furniture, "firing": f.Firing, "cones": f.Cones, "wishes": f.Wishes, "title": f.Title, "units": f.Units} {
				_, err := s.SetUp(part, []byte(jsonOf(t, fields)))
				require.NoError(t, err, "%s: %s", name, part)
				require.Equal(t, before, textOf(t, s), "%s: %s", name, part)
			}
		}
	}
}

func TestSetUpRefuses(t *testing.T) {
	s := sample(t, "studio")
	before := textOf(t, s)
	for _, c := range []struct{ part, fields, want string }{
		{"kiln", `{"shape":{"kind":"star"},"height":"600"}`, `"star" is no shape`},
		{"kiln", `{"shape":{"kind":"round","across":"700"},"height":"high"}`, "height: "},
		{"kiln", `{"shape":{"kind":"round","across":"700"},"height":"600","opens":"side"}`, "opens at the top or at the front"},
		{"kiln", `{"shape":{"kind":"round","across":"700"},"height":"600","probes":[{"at":"25:00"}]}`, "probe 1: "},
		{"kiln", `[`, `the fields of "kiln" cannot be read`},
		{"furniture", `{"shelves":[],"posts":[]}`, "take it out there first"},
		{"firing", `{"stage":"roast","cone":"6"}`, `"roast" is no stage`},
		{"firing", `{"stage":"glaze","cone":"66"}`, "66"},
		{"cones", `[{"name":"mug","pack":"6"}]`, `"mug" is the name of a row of ware`},
		{"cones", `[{"name":"a","pack":"6","watched":true,"spyhole":"9"}]`, "the kiln has 2"},
		{"rule", `{"name":"luck","plan":"3"}`, `"luck" is no rule with figures`},
		{"rule", `{"name":"pieces","plan":"few"}`, `"few" is not a number`},
		{"wishes", `{"off":[{"ware":"nothing","level":"top"}]}`, `there is no ware "nothing" on the list to keep off a level`},
		{"wishes", `{"together":["nobody"]}`, `no row of the list has the owner "nobody"`},
		{"wishes", `{"leave_out":["nothing"]}`, `there is no ware "nothing" on the list to leave out`},
		{"units", `"cubits"`, "cubits"},
		{"mood", `{}`, `"mood" is no part of the setup`},
	} {
		_, err := s.SetUp(c.part, []byte(c.fields))
		require.ErrorContains(t, err, c.want, c.part)
	}
	require.Equal(t, before, textOf(t, s))
}

// TestEachRuleHasItsReason and no figure is lost on the way.
func TestEachRuleHasItsReason(t *testing.T) {
	s := sample(t, "studio")
	for _, r := range s.State().Rules {
		require.NotEmpty(t, r.Why, r.Name)
		require.False(t, r.Changed)
		st, err := s.SetUp("rule", []byte(jsonOf(t, RuleFields{Name: r.Name, Problem: r.Problem, Watch: r.Watch, Plan: r.Plan})))
		require.NoError(t, err, r.Name)
		for _, now := range st.Rules {
			if now.Name == r.Name {
				require.Equal(t, []string{r.Problem, r.Watch, r.Plan}, []string{now.Problem, now.Watch, now.Plan}, r.Name)
			}
		}
		_, err = s.SetUp("rule", []byte(jsonOf(t, RuleFields{Name: r.Name})))
		require.NoError(t, err)
	}
}

func TestWordsAreThePersons(t *testing.T) {
	s := sample(t, "studio")
	_, err := s.Hold(firstPot(s))
	require.NoError(t, err)
	require.Equal(t, "UK", s.SetWords(measure.UK).Words)
	l, err := s.Lift("left side", 3)
	require.NoError(t, err)
	require.Equal(t, "Bat of left 3", l.Title)
	require.Contains(t, l.Line, "rests on the props of left 2")
}

// TestBegin: what the first page shows makes the load it says.
func TestBegin(t *testing.T) {
	f := Begin(nil)
	require.False(t, f.Refused)
	require.NotEmpty(t, f.Answers.Posts)
	for _, size := range f.Sizes {
		a := size.Answers
		again := Begin(&a)
		require.False(t, again.Refused, size.Say)
		text, title, err := NewText(again.Answers)
		require.NoError(t, err)
		require.Equal(t, "New load", title)
		s, err := Open(text, "new.toml")
		require.NoError(t, err)
		require.True(t, s.State().Empty)
		require.Empty(t, s.State().Refused)
	}
	bad := f.Answers
	bad.Across = "wide"
	require.True(t, Begin(&bad).Refused)
	_, _, err := NewText(bad)
	require.ErrorContains(t, err, "wide")
	bad = f.Answers
	bad.Shape = "star"
	require.Contains(t, Begin(&bad).Says, `"star" is no shape of a kiln`)
}

// TestOffer: a plan for the load as it is is adopted; one for an older revision
// waits until it is taken or left.
func TestOffer(t *testing.T) {
	s := sample(t, "newcomer")
	plan := layout.Edit{Act: layout.Arrange, Towers: layout.CloneTowers(s.Load().Towers)}
	empty, err := s.Apply([]layout.Edit{{Act: layout.Arrange}}, "")
	require.NoError(t, err)
	require.True(t, empty.Empty)
	base := s.Revision()
	st, err := s.Offer(base, plan, "The plan sets all.")
	require.NoError(t, err)
	require.False(t, st.Empty)
	require.Equal(t, "plan the load", st.Undo)
	_, err = s.Undo()
	require.NoError(t, err)
	st, err = s.Offer(base, plan, "The plan sets all.")
	require.NoError(t, err)
	require.True(t, st.Empty)
	require.Equal(t, "The plan sets all.", st.Offer.Says)
	st, err = s.Take()
	require.NoError(t, err)
	require.Nil(t, st.Offer)
	require.False(t, st.Empty)
	_, err = s.Take()
	require.EqualError(t, err, "no plan waits beside the load")
	_, err = s.Offer(0, layout.Edit{Act: layout.Withdraw, Pot: "mug 1"}, "")
	require.EqualError(t, err, "a plan is an arrangement of the whole kiln")
}

// TestWaitsAreForgotten with the first change of ware or arrangement, not
// before.
func TestWaitsAreForgotten(t *testing.T) {
	s := sample(t, "studio")
	why := func() string { return s.State().Ware[3].Why }
	require.Equal(t, "left 1 is full", why())
	s.Waits([]Wait{{Ware: "water bottle", Count: 1, Why: "Told by the plan.", Cure: "One more post."}})
	require.Equal(t, "Told by the plan. One more post.", why())
	_, err := s.SetUp("title", []byte(`"another"`))
	require.NoError(t, err)
	require.Equal(t, "Told by the plan. One more post.", why())
	_, err = s.Apply([]layout.Edit{{Act: layout.Withdraw, Pot: firstPot(s)}}, "")
	require.NoError(t, err)
	require.NotContains(t, why(), "Told")
	_, err = s.Row("water bottle", Fields{Name: "water bottle", Count: "10", Height: "300", Across: "92"})
	require.NoError(t, err)
	require.Equal(t, "needs a level of 314; the tallest has 255", why())
}

// TestJobs: the same however they are sliced, and what they find applies.
func TestJobs(t *testing.T) {
	s := sample(t, "studio")
	begin := []func() (*Job, error){
		func() (*Job, error) { return s.Spread("base", 1) },
		func() (*Job, error) { return s.RoomForOne("test tile") },
		func() (*Job, error) { return s.RoomForOne("50 x 40") },
		func() (*Job, error) { return s.RoomForOne("water bottle") },
	}
	for i, start := range begin {
		a, err := start()
		require.NoError(t, err)
		for !a.Step(1) {
		}
		b, err := start()
		require.NoError(t, err)
		require.True(t, b.Step(1<<40))
		require.Equal(t, a.Edits(), b.Edits())
		require.Equal(t, a.Says(), b.Says())
		require.NotEmpty(t, a.Says())
		if i < 3 {
			st, err := s.Apply(a.Edits(), a.What())
			require.NoError(t, err)
			require.Zero(t, st.Problems, a.Says())
			require.LessOrEqual(t, st.Watches, i/2, "only the clay of a pot of which nothing but the size is known")
			require.Equal(t, a.What(), st.Undo)
			_, err = s.Undo()
			require.NoError(t, err)
		}
		c, err := start()
		require.NoError(t, err)
		c.Step(1)
		c.Stop()
		require.True(t, c.Done())
	}
	_, err := s.RoomForOne("nonsense")
	require.ErrorContains(t, err, "has no size")
	_, err = s.Spread("nowhere", 1)
	require.Error(t, err)
}

// TestPlanFromOutside: a planner's plan is taken as it is, grid and all.
func TestPlanFromOutside(t *testing.T) {
	s := bareSample(t, "newcomer")
	search, err := planner.Start(s.Load(), 1)
	require.NoError(t, err)
	for range 20 {
		if search.Step(2000) {
			break
		}
	}
	p, ok := search.Best()
	require.True(t, ok)
	st, err := s.Offer(s.Revision(), layout.Edit{Act: layout.Arrange, Towers: p.Load.Towers}, "")
	require.NoError(t, err)
	require.Equal(t, p.Set, st.Set)
	require.Equal(t, string(document.Format(p.Load)), string(document.Format(s.Load())))
}
