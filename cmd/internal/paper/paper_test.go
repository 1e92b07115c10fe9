package paper

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout"
	"threepost/layout/bounds"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
	"threepost/layout/stacks"
)

// planned reads a planned load of testdata.
func planned(t *testing.T, name string) (*layout.Load, clearance.Report) {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/loads/reference/" + name + ".toml")
	require.NoError(t, err)
	l, err := document.Parse(name, text)
	require.NoError(t, err)
	return l, checked(t, l)
}

func checked(t *testing.T, l *layout.Load) clearance.Report {
	t.Helper()
	b, err := stacks.Build(l)
	require.NoError(t, err)
	return clearance.Check(b)
}

// What is told beside a load is what the planner tells of it: nothing where all
// is set, and the bound where something waits.
func TestBesideALoad(t *testing.T) {
	l, report := planned(t, "small-round")
	require.Empty(t, Beside(l, report, measure.MM), "all is set")

	level := &l.Towers[0].Levels[0]
	level.Set = level.Set[:len(level.Set)-2]
	report = checked(t, l)
	got := Beside(l, report, measure.MM)
	require.NotEmpty(t, got)
	b, err := planner.Bound(l)
	require.NoError(t, err)
	p, err := planner.Given(l, report)
	require.NoError(t, err)
	require.Equal(t, planner.SayBound(b, p), got[0])
	require.Regexp(t, `^\d+ set\. `, got[0])

	l.Furniture.Shelves = nil
	require.Empty(t, Beside(l, report, measure.MM), "a load of which nothing can be told")
}

// A wish that the arrangement goes against is told, whether or not all is set.
func TestAWishThatIsNotKeptIsTold(t *testing.T) {
	l, report := planned(t, "small-round")
	name := ""
	for _, p := range l.Towers[0].Levels[0].Set {
		if l.WareOf(p.Pot) != nil {
			name = p.Pot.Ware
		}
	}
	require.NotEmpty(t, name)
	require.NotContains(t, strings.Join(Beside(l, report, measure.MM), " "), "not kept")
	l.Wishes.Off = []layout.OffLevel{{Ware: name, Level: layout.BottomLevel}}
	says := strings.Join(Beside(l, report, measure.MM), " ")
	require.Contains(t, says, "off the bottom level: not kept. Some stand on ")
}

// The sentences are in the paper's units, whatever the load's.
func TestSentencesAreInTheUnitsOfThePaper(t *testing.T) {
	l, report := planned(t, "small-round")
	l.Towers[0].Levels[0].Set = nil
	p, err := planner.Given(l, report)
	require.NoError(t, err)
	bound := bounds.Bound{Count: p.Of - 1, Value: p.Whole, Tall: bounds.Tall{From: 180, Count: 20, Levels: 2, Hold: 18}}
	price := planner.Price{Gap: 4, More: 2, Gaps: 11, Watches: 11}
	mm, in := Sentences(p, &bound, price, measure.MM), Sentences(p, &bound, price, measure.Inches)
	require.Len(t, mm, 2)
	require.Contains(t, mm[0], "20 pots stand 180 or higher and the 2 levels that go in so tall hold 18 at most.")
	require.Contains(t, in[0], "7 1/8 or higher")
	require.Equal(t, "2 more if 11 gaps shrink to 4 mm. Price: 11 watches.", mm[1])
	require.Contains(t, in[1], " in. Price")
	require.Empty(t, Sentences(p, nil, planner.Price{}, measure.MM))
	require.Equal(t, measure.Units(measure.MM), l.Units, "the load is as it was")
}
