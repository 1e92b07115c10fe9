package firings

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/measure"
)

// sorted sorts the waiting list of loads without planning anything.
func sorted(s Studio) *splitter {
	sp := &splitter{studio: s, times: make([]int, len(s.Kilns))}
	sp.gather()
	sp.classify()
	return sp
}

// said are the classes that suit the rows of one load, by row.
func said(s *splitter) map[string][]string {
	out := map[string][]string{}
	for i := range s.lots {
		l := &s.lots[i]
		out[l.ware.Name] = []string{}
		for _, c := range l.wants {
			out[l.ware.Name] = append(out[l.ware.Name], s.sayClass(c))
		}
	}
	return out
}

// Temperatures are those of the chart that package measure is tested against:
// Orton, large cones, 60 C/h.
const (
	glaze6   = "glaze cone 6 (1222 C)"
	glaze04  = "glaze cone 04 (1063 C)"
	bisque04 = "bisque cone 04 (1063 C)"
	refire6  = "refire cone 6 (1222 C)"
	lustre   = "lustre cone 018 (715 C)"
)

func TestWhatSuitsARow(t *testing.T) {
	plain := func(change ...func(*layout.Ware)) layout.Ware { return mugs("it", 2, "6", change...) }
	for name, c := range map[string]struct {
		stage layout.Stage
		cone  measure.Cone
		ware  layout.Ware
		wants []string
	}{
		"its own cone":                       {"glaze", "6", plain(), []string{glaze6}},
		"a cooler glaze":                     {"glaze", "6", mugs("it", 2, "04"), []string{glaze04}},
		"a cooler glaze on stoneware":        {"glaze", "6", plain(func(w *layout.Ware) { w.Glaze.Cone = "04" }), []string{glaze04}},
		"raw ware":                           {"glaze", "6", plain(raw), []string{bisque04}},
		"nothing told stays with its load":   {"glaze", "6", layout.Ware{Name: "it", Count: 2, Height: 90, Across: 80}, []string{glaze6}},
		"no glaze cone, cooler clay":         {"glaze", "6", plain(func(w *layout.Ware) { w.Glaze.Cone, w.Clay.Cone = "", "04" }), []string{glaze04}},
		"unglazed, its clay's cone":          {"glaze", "6", plain(func(w *layout.Ware) { w.Glaze = layout.Material{}; w.Flags.Unglazed = true }), []string{glaze6}},
		"a refire among glazed ware":         {"glaze", "6", plain(func(w *layout.Ware) { w.Flags.Refire = true }), []string{glaze6}},
		"ware of a refire load":              {"refire", "6", plain(), []string{refire6}},
		"ware of a bisque load is raw":       {"bisque", "04", layout.Ware{Name: "it", Count: 2, Height: 90, Across: 80}, []string{bisque04}},
		"ware of a lustre load stays there":  {"lustre", "018", plain(), []string{lustre}},
		"clay for less than its glaze":       {"glaze", "6", plain(func(w *layout.Ware) { w.Clay.Cone = "04" }), []string{}},
		"damp ware":                          {"glaze", "6", plain(raw, func(w *layout.Ware) { w.Dry = layout.DampClay }), []string{}},
		"raw and glazed":                     {"glaze", "6", plain(func(w *layout.Ware) { w.Dry = layout.BoneDry }), []string{}},
		"a glazed foot at cone 6":            {"glaze", "6", plain(func(w *layout.Ware) { w.Flags.GlazedFoot = true }), []string{}},
		"a hotter glaze than the kiln fires": {"glaze", "6", mugs("it", 2, "10"), []string{}},
	} {
		t.Run(name, func(t *testing.T) {
			l := kiln(c.cone, c.ware)
			l.Firing.Stage = c.stage
			s := sorted(one(l))
			require.Equal(t, c.wants, said(s)["it"])
			require.Equal(t, len(c.wants) == 0, s.lots[0].why != "", "a reason where nothing suits: %q", s.lots[0].why)
		})
	}
}

// TestUnglazedWareFillsEither has unglazed ware of a clay whose cone no firing
// has: it may go in any that is not hotter.
func TestUnglazedWareFillsEither(t *testing.T) {
	s := sorted(one(kiln("6", mugs("mug", 2, "6"), mugs("dish", 2, "04"), mugs("planter", 3, "10", func(w *layout.Ware) {
		w.Glaze, w.Flags.Unglazed = layout.Material{}, true
	}))))
	require.Equal(t, []string{glaze6, glaze04}, said(s)["planter"])
}

func TestAKilnGoesAsHotAsItIsTold(t *testing.T) {
	studio := one(kiln("04", mugs("mug", 2, "6")))
	s := sorted(studio)
	require.True(t, s.lots[0].hot)
	require.Equal(t, "They ask for "+glaze6+"; no load here is fired so hot.", s.lots[0].why)
	studio.UpTo = "6"
	require.Equal(t, []string{glaze6}, said(sorted(studio))["mug"])
}

// TestLawClassesKeepTheRules: in every firing that suits a row the rule table
// has no problem for it, its glaze is for the firing's cone, its clay stands the
// heat, and raw ware is with raw ware.
func TestLawClassesKeepTheRules(t *testing.T) {
	cones := []measure.Cone{"", "06", "04", "5", "6", "10"}
	rapid.Check(t, func(t *rapid.T) {
		cone := func(label string) measure.Cone { return rapid.SampledFrom(cones).Draw(t, label) }
		draw := func(i int) layout.Ware {
			w := layout.Ware{Name: string(rune('a' + i)), Count: 1 + i, Height: 90, Across: 80}
			w.Clay.Cone, w.Glaze.Cone = cone("clay"), cone("glaze")
			w.Dry = rapid.SampledFrom([]layout.Dryness{"", layout.Bisqued, layout.BoneDry, layout.DampClay}).Draw(t, "dry")
			w.Flags.Unglazed = rapid.Bool().Draw(t, "unglazed")
			w.Flags.Refire = rapid.Bool().Draw(t, "refire")
			w.Flags.GlazedFoot = rapid.Bool().Draw(t, "foot")
			return w
		}
		stages := []layout.Stage{layout.Glaze, layout.Bisque, layout.Refire}
		studio := Studio{}
		for k := range rapid.IntRange(1, 2).Draw(t, "kilns") {
			l := kiln(rapid.SampledFrom(cones[1:]).Draw(t, "cone"), draw(0), draw(1), draw(2))
			l.Firing.Stage = rapid.SampledFrom(stages).Draw(t, "stage")
			studio.Kilns = append(studio.Kilns, Kiln{string(rune('A' + k)), l})
		}
		s := sorted(studio)
		for i := range s.lots {
			l := &s.lots[i]
			if (len(l.wants) == 0) != (l.why != "") {
				t.Fatalf("%+v: %v, %q", l.ware, l.wants, l.why)
			}
			for _, c := range l.wants {
				f := s.classes[c].firing
				for _, fit := range clearance.Fits(&layout.Load{Firing: f}, &l.ware) {
					if fit.Grade == layout.Problem {
						t.Fatalf("%s: %s", s.sayClass(c), fit.Sentence)
					}
				}
				if l.ware.Clay.Cone != "" && l.ware.Clay.Cone.Heat() < f.Cone.Heat() {
					t.Fatalf("clay for cone %s in %s", l.ware.Clay.Cone, s.sayClass(c))
				}
				if g := l.ware.Glaze.Cone; g != "" && !l.ware.Flags.Unglazed && f.Stage != layout.Bisque && g != f.Cone {
					t.Fatalf("glaze for cone %s in %s", g, s.sayClass(c))
				}
				if l.ware.Dry == layout.BoneDry && f.Stage != layout.Bisque {
					t.Fatalf("raw ware in %s", s.sayClass(c))
				}
			}
		}
	})
}
